"""The lists for hanging the pipes: heights along the runs, and what carries each."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import TYPE_CHECKING, Any

from engine.lengths import down, feet_inches, inches, nearest, up
from engine.plan.records import Point
from engine.planset.book import Book, Page
from engine.planset.deck import deck
from engine.planset.flow import Column, Group, flowed, note, table
from engine.planset.step_rows import unbroken
from engine.study import Study
from engine.takeoff.boring import own_end
from engine.takeoff.heights import HeightRow, height_table
from engine.takeoff.records import Support
from engine.takeoff.schedules import TakenOff
from engine.trade.pipe import label

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

_CARRIED = {"bored joist": "bored", "notched joist": "notched", "base": "carried"}
_TUBE = ("hook", "bend support")
"""What holds a water line stands on the sheet of supports alone: the line lies level."""

_WOOD = ("bored joist", "notched joist")


_HOW = (
    (
        "Along:",
        "inches from a run's upper end, a water line's first end, or up from a plumb pipe's foot. The place is set out "
        "along the joists from their own end, which is {own_end}, then across the bay from the face of the first "
        "joist named to the pipe's middle. Plumb pipes and closets' bends, whose feet are carried too, come last.",
    ),
    (
        "Heights:",
        "inches, both of one place on the pipe: a block's top, a packer's and a strap's loop lie at its underside, a base's top "
        "under the fitting's hub (taken as thick as the pipe's wall: try it), hooks at the tube's middle. Down from top is from "
        "the joists' top, From bottom edge from theirs.",
    ),
    (
        "Wood:",
        "2x4 laid flat, screwed through the joists, two screws at an end, three where it is held at one end alone. Blocks under "
        "drains are set to the slope; a whole one is as long as the bay is clear, a short one stops before what else lies there. "
        "Where a block would stand out below and may not, hang the pipe in a strap from a block over it. A clevis hanger does as "
        "well as a strap. No bare steel edge against plastic, and nothing pulled so tight that the pipe cannot move.",
    ),
    (
        "Tube:",
        "a strip lies flat under it, and the hook is driven down over the tube; or flat over it, and the hook is driven up. Strips "
        "touch the sleeve's outside, where there is one: the hook goes round the sleeve and does not crush it. A bend support "
        "holds the bare tube: slit the sleeve there, and tape it over the support.",
    ),
)


def heights(book: Book, study: Study, taken: TakenOff) -> list[Page]:
    """The height of every pipe at each joist, fitting, block, strap and end."""
    size, width = book.paper.type_size, book.area().width
    found = height_table(study.model, taken.held)
    rows: list[Sequence[Any] | Group] = []
    for element, group in groupby(found, key=lambda row: row.element):
        run = list(group)
        rows.append(Group(element, f'{label(run[0].size)}" {run[0].system}{_falls(study, run)}'))
        rows += [
            [
                element,
                _number(row.along),
                _there(row),
                _number(row.centre_down),
                _number(row.bottom_down),
                _edge(row.centre_below),
                _edge(row.bottom_below),
            ]
            for row in run
            if row.what not in _TUBE
        ]
    depths = sorted({joist.depth for joist in study.model.framing.joists})
    story: list[Flowable] = [note(words, size, lead=lead) for lead, words in _hooking(study, depths)]
    if not rows:
        story.append(note("No pipe is drawn under the floor.", size))
        return flowed(book, "Heights along the runs", story)
    columns = (
        Column("Run", 6),
        Column("Along", 13, "RIGHT"),
        Column("What is there", 32),
        Column("From top: centre", 12, "RIGHT"),
        Column("From top: underside", 12, "RIGHT"),
        Column("From edge: centre", 16.5, "RIGHT"),
        Column("From edge: underside", 16.5, "RIGHT"),
    )
    half = (width - 0.3) / 2.0
    story.append(table(columns, rows, half, size * 0.92))
    return flowed(book, "Heights along the runs", story, columns=2)


def _there(row: HeightRow) -> str:
    """What is at a place, and how the pipe is held there."""
    if not row.held or row.held == row.what:
        return row.what
    return f"{row.what}, {_CARRIED.get(row.held, row.held)}"


def _hooking(study: Study, depths: list[float]) -> list[tuple[str, str]]:
    """From which edges the heights are taken, before the subfloor lies and after it."""
    laid = deck(study.plan.floor)
    said = [
        (
            "From top:",
            f"inches down from the joists' top, while it is open. Once the {laid.name} lies, add its "
            f"{inches(laid.thickness)} in where the tape hooks on it, or measure from below.",
        )
    ]
    if depths:
        deep = " or ".join(f"{inches(depth)} in" for depth in depths)
        said.append(
            (
                "From edge:",
                f"inches from the bottom edge of the joists there, drawn {deep} deep: “up” lies over that edge, “below” under "
                "it. Measure each joist: where one is deeper or shallower, the figures from the top hold and these are off by as much.",
            )
        )
    said.append(
        (
            "Along:",
            "inches from a run's upper end, a water line's first end. The underside is the pipe's outside, where a block or "
            "strap goes; water tube without its sleeve.",
        )
    )
    return said


def _falls(study: Study, run: list[HeightRow]) -> str:
    """How a drain or vent lies, in words."""
    pipes = [pipe for pipe in study.model.network.pipes if pipe.element == run[0].element and pipe.run > 0.0]
    if not pipes:
        return ""
    slope = pipes[0].slope
    way = "falls" if (slope > 0.0) == (pipes[0].system == "waste") else "rises"
    return f", {way} {inches(abs(slope), 32)} in to the foot" if slope else ", lies level"


def _number(value: float | None) -> str:
    """Inches to a sixteenth, bare, that no line's end tears apart."""
    return "–" if value is None else unbroken(inches(value))


def _edge(value: float | None) -> str:
    """Over or under the joists' bottom edge."""
    if value is None:
        return "–"
    shown = nearest(value)
    return "at it" if not shown else f"{_number(abs(shown))}\u00a0{'below' if shown > 0.0 else 'up'}"


def supports(book: Book, study: Study, taken: TakenOff) -> list[Page]:
    """Where every pipe is held: on what, at which height, and what to cut for it."""
    size, width = book.paper.type_size, book.area().width
    rows: list[Sequence[Any] | Group] = []
    for element, group in groupby(taken.held, key=lambda one: one.element):
        run = list(group)
        apart = next((one.limit for one in run if one.kind != "base"), None)
        pipe = " and ".join(dict.fromkeys(f'{label(one.size)}" {one.system}' for one in run))
        rows.append(Group(element, f"{pipe}{f', {inches(apart)} in apart at most' if apart is not None else ''}"))
        for carried, alike in groupby(run, key=lambda one: one.kind in _WOOD):
            some = list(alike)
            rows += [_carried(some)] if carried else [_row(study, one) for one in some]
    cites = "; ".join(dict.fromkeys(one.cites for one in taken.held))
    told = ((lead, words.format(own_end=own_end(study.model))) for lead, words in _HOW)
    story: list[Flowable] = [note(words, size, lead=lead) for lead, words in (*told, ("Spacing:", f"{cites}."))]
    if not rows:
        return flowed(book, "Supports", [note("No pipe is drawn that needs holding.", size)])
    columns = (
        Column("Mark", 7),
        Column("Along", 11, "RIGHT"),
        Column("Held by", 14),
        Column("Joist or bay", 22),
        Column("From its end, or over the subfloor", 24),
        Column("Across, from the first joist", 14, "RIGHT"),
        Column("Down from top", 9, "RIGHT"),
        Column("From bottom edge", 14.5, "RIGHT"),
        Column("Wood to cut", 11, "RIGHT"),
        Column("Strap to cut", 9, "RIGHT"),
        Column("What for, and what to mind", 45),
    )
    story.append(table(columns, rows, width, size * 0.92))
    return flowed(book, "Supports", story)


def _carried(alike: list[Support]) -> list[str]:
    """One row for neighbouring joists that the pipe is bored or notched into: nothing is to be made there."""
    first, last = alike[0], alike[-1]
    span = _number(first.along) if first is last else f"{_number(first.along)} to {_number(last.along)}"
    names = ", ".join(_short(one.hangs, n) for n, one in enumerate(alike))
    if first is not last:
        names = names.replace("joist ", "joists ", 1)
    kind = " and ".join(dict.fromkeys(one.kind for one in alike))
    return ["", span, kind, names, *[""] * 6, "the wood carries it"]


def _short(words: str, n: int) -> str:
    """A joist's name; after the first of a row its number alone."""
    return words.removeprefix("joist ") if n else words


def _row(study: Study, one: Support) -> list[str]:
    why = "; ".join(filter(None, (one.reason, one.remark)))
    over = one.down is not None and one.down < 0.0
    return [
        one.mark,
        _number(one.along),
        one.kind,
        _between(one),
        _set_out(one, study.plan.floor.subfloor),
        "" if one.off is None else _number(one.off),
        "" if over else _number(one.down),
        "" if one.below is None else _edge(one.below),
        _wood(one),
        "" if one.strap is None else _number(up(one.strap)),
        unbroken(why or "for the spacing"),
    ]


def _wood(one: Support) -> str:
    """The block's or strip's length, or a packer's height."""
    if one.packer is not None:
        return unbroken(f"packer {inches(one.packer)} high") if nearest(one.packer) else ""
    return "" if one.block is None else _number(down(one.block))


def _between(one: Support) -> str:
    """The joist or the two joists of the bay, else the place in plan."""
    if not one.hangs:
        return _place(one.at)
    return one.hangs.replace("between joist ", "joists ").replace("between ", "").replace(" and joist ", " and ")


def _set_out(one: Support, subfloor: float) -> str:
    """How far along the joists from their end; over the floor how high over the subfloor."""
    if one.from_end is not None:
        return unbroken(f"{feet_inches(one.from_end)} from {one.end}")
    if one.down is not None and one.down < 0.0:
        return unbroken(f"{feet_inches(-one.down - subfloor)} over subfloor")
    return ""


def _place(at: Point) -> str:
    return f"{feet_inches(at[0])} E, {feet_inches(at[1])} N"
