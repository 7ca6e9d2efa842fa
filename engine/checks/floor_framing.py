"""Whether the floor's own wood is framed as the building code has it: spans, bearings, partitions, the belly. Advice."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from engine.checks.landing import floor_wood
from engine.checks.model import Model, once_a_model
from engine.checks.outcomes import COMMON
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import over, short, spans
from engine.framing.records import Joist
from engine.framing.shadow import band, clipped, in_frame
from engine.lengths import down, feet_inches, inches, up
from engine.plan.records import JoistField, Wall
from engine.trade.lumber import actual

SUBJECT = "framing"
"""What the rules on the floor's own wood are listed under."""

SPACINGS = ("12", "16", "24")
"""The spacings that the span tables have a column for, by the last word of their keys."""


def span_too_long(model: Model) -> Iterator[Outcome]:
    """A joist's longest clear span against the span table for its species, size, spacing and the rooms over it.

    Advice for No. 2 lumber under 10 psf of dead load, under a heavy finish 20; a tub full of water wants an engineer's word.
    A spacing between two columns goes by the wider. Holds: a span equal to the cell. Broken: 1/16 in more. Not judged
    where the species or the bearings are not told, past the table's lumber, spacing or load, for ungraded lumber, or where
    the field overhangs its bearing, for which no table was read. Engineered members do not apply. Source: IRC Tables R502.3.1(1) and (2).
    """
    for field in model.plan.fields:
        yield _span_of(model, field, running(model).get(field.id, ()))


@once_a_model
def running(model: Model) -> dict[str, list[Joist]]:
    """What runs the joists' way, by field; a field without any is not named."""
    found: dict[str, list[Joist]] = {}
    for joist in model.framing.joists:
        if joist.runs:
            found.setdefault(joist.field, []).append(joist)
    return found


def _span_of(model: Model, field: JoistField, joists: Sequence[Joist]) -> Outcome:
    longest = max((span.length for one in joists for span in spans(one)), default=None)
    at = middle_of(field)
    if field.member == "engineered":
        return DoesNotApply(field.id)
    if any(field.overhangs):
        return NotJudged(at, (field.id,), f"a table for joists that overhang their bearing, as those of {field.id} do")
    if longest is None:
        return NotJudged(at, (field.id,), f"the bearings of {field.id}: fewer than two are drawn")
    if field.species is None:
        return NotJudged(at, (field.id,), f"the species of {field.id}'s lumber")
    if not field.graded:
        return NotJudged(at, (field.id,), f"a grade stamp on {field.id}'s lumber: the span tables hold for no other")
    column = next((one for one in SPACINGS if field.spacing <= float(one)), None)
    load = f"{field.rooms}_heavy" if field.heavy_finish else field.rooms
    key = f"joist.span.{load}.{column}.{field.species.translate(_PLAIN)}_{field.lumber}"
    if column is None or not model.book.has(key):
        under = " under a heavy finish" if field.heavy_finish else ""
        what = f"{field.species} {field.lumber} joists {inches(field.spacing)} in apart{under}"
        return NotJudged(at, (field.id,), f"a span for {what}: the table has none")
    most = model.book.number(key)
    if not over(longest, most):
        return Holds(field.id)
    return Finding(
        "joist-span-too-long",
        "look",
        at,
        (field.id,),
        longest,
        most,
        "in",
        f"The joists of {field.id} span {feet_inches(up(longest))} clear; No. 2 {field.species} {field.lumber} at "
        f"{inches(field.spacing)} in carries {field.rooms} rooms{' with a heavy finish' if field.heavy_finish else ''} over "
        f"{feet_inches(down(most))} at most.",
        model.book.cite(key),
        "Draw a bearing or a beam between, set the joists closer, or frame it with deeper lumber; an engineer may allow it.",
    )


def middle_of(field: JoistField) -> tuple[float, float, float]:
    """The middle of a field, at the joists' top."""
    return field.corner[0] + field.size[0] / 2.0, field.corner[1] + field.size[1] / 2.0, 0.0


_PLAIN = str.maketrans({" ": "_", "-": "_"})
"""A species as the keys of the span tables write it."""


def bearing_too_short(model: Model) -> Iterator[Outcome]:
    """How much of a joist rests on the wood or steel under its end; the rim's own thickness does not count.

    Holds: as much as the book asks. Broken: 1/16 in less. A joist that hangs on the rim, or whose end bearing is not
    drawn, does not apply: hangers carry it. On masonry the code asks more, which the plan does not tell. Source: IRC R502.6.
    """
    least = model.book.number("bearing.wood")
    for field in model.plan.fields:
        rests = field.end_bearing - actual(field.lumber).thickness
        rests += actual(field.lumber).thickness if all(field.overhangs) else 0.0
        if not over(rests, 0.0):
            yield DoesNotApply(field.id)
        elif not short(rests, least):
            yield Holds(field.id)
        else:
            yield Finding(
                "bearing-too-short",
                "stop",
                middle_of(field),
                (field.id,),
                rests,
                least,
                "in",
                f"The joists of {field.id} rest on {inches(down(rests))} in of their end bearing; {inches(least)} in of wood "
                "or steel are asked for, more on masonry.",
                model.book.cite("bearing.wood"),
                f"Give {field.id} an end bearing of {inches(up(field.end_bearing + least - rests))} in, or joist hangers.",
            )


def partition_on_one_joist(model: Model) -> Iterator[Outcome]:
    """A bearing partition that runs along the joists stands on joists side by side, or on two set apart with blocks.

    Counted are the plies whose wood lies under the wall's studs. Where two are set apart for pipe, rows of full-depth
    blocks stand between them no farther apart than the book says. Holds: a doubled joist under it. Broken: one ply, or none.
    Outside walls stand on the end joists and rims and do not apply, nor does a wall across the joists. Source: IRC R502.4.
    """
    needed = model.book.number("joist.partition.plies")
    apart = model.book.number("joist.partition.blocks_every")
    for wall in model.plan.walls:
        near = _near(model, wall) if wall.bearing and not wall.exterior else []
        if not any(_beside(joist, wall) for joist in near):
            yield DoesNotApply(wall.id)
            continue
        under = [joist for joist in near if _along(joist, wall)]
        plies = sum(_plies_of_lines(under).values())
        blocked = max((_unblocked(model, joist) for joist in under), default=math.inf)
        if plies >= needed and (any(joist.plies >= needed for joist in under) or not over(blocked, apart)):
            yield Holds(wall.id)
            continue
        yield Finding(
            "partition-on-one-joist",
            "stop",
            ((wall.start[0] + wall.end[0]) / 2.0, (wall.start[1] + wall.end[1]) / 2.0, 0.0),
            (wall.id,),
            float(plies) if plies < needed else blocked,
            needed if plies < needed else apart,
            "joists" if plies < needed else "in",
            f"Bearing wall {wall.id} runs along the joists and stands on {_counted(plies)}."
            if plies < needed
            else f"The two joists under bearing wall {wall.id} stand apart, and their blocks leave {inches(up(blocked))} in.",
            model.book.cite("joist.partition.plies" if plies < needed else "joist.partition.blocks_every"),
            f"Double the joist under it, or set two apart for pipe with full-depth blocks every {inches(apart)} in between.",
        )


def _plies_of_lines(joists: Sequence[Joist]) -> dict[tuple[str, str, int], int]:
    """The plies of each joist, once where it stands in several pieces."""
    found: dict[tuple[str, str, int], int] = {}
    for one in joists:
        key = (one.field, one.opening, one.number)
        found[key] = max(found.get(key, 0), one.plies)
    return found


def _near(model: Model, wall: Wall) -> list[Joist]:
    """The joists within a bay of a wall, of the fields that it stands on."""
    (x0, x1), (y0, y1) = (sorted(pair) for pair in zip(wall.start, wall.end, strict=True))
    reach = max((field.spacing for field in model.plan.fields), default=0.0)
    under = {field.id for field in model.plan.fields if _stands_on(wall, field)}
    near = floor_wood(model).near((x0 - reach, y0 - reach), (x1 + reach, y1 + reach))
    return [one for one in near if one.runs and one.field in under]


def _stands_on(wall: Wall, field: JoistField) -> bool:
    """Whether any of a wall's studs stand within a field's outside faces."""
    (x, y), (wide, long) = field.corner, field.size
    studs = list(band(wall.start, wall.end, actual(wall.lumber).depth))
    over_it = clipped(clipped(studs, 0, x, x + wide), 1, y, y + long)
    return bool(over_it) and all(
        over(max(one[axis] for one in over_it), min(one[axis] for one in over_it)) for axis in (0, 1)
    )


def _counted(plies: int) -> str:
    return "no joist" if plies == 0 else "one joist" if plies == 1 else f"{plies} joists"


def _beside(joist: Joist, wall: Wall) -> bool:
    """Whether a wall runs the way of a joist that it passes."""
    (u0, v0), (u1, v1) = in_frame(joist, wall.start), in_frame(joist, wall.end)
    return abs(v1 - v0) <= abs(u1 - u0) * SLANT and max(u0, u1) > 0.0 and min(u0, u1) < joist.length


SLANT = 1e-3
"""A wall that leaves the joists' way by less than this share of its length runs along them."""


def _along(joist: Joist, wall: Wall) -> bool:
    """Whether a joist's wood lies under the studs of a wall that runs its way."""
    if not _beside(joist, wall):
        return False
    half = (joist.thickness + actual(wall.lumber).depth) / 2.0
    return over(half, min(abs(in_frame(joist, end)[1]) for end in (wall.start, wall.end)))


def _unblocked(model: Model, joist: Joist) -> float:
    """The longest part of a joist that no block stands against."""
    ends = {joist.start, joist.end}
    stops = [0.0, joist.length]
    for block in model.framing.joists:
        if block.kind == "block" and block.field == joist.field and not ends & {block.start, block.end}:
            found = [in_frame(joist, end) for end in (block.start, block.end)]
            if any(abs(abs(v) - joist.thickness / 2.0) < TOUCH for _, v in found):
                stops.append(found[0][0])
    stops.sort()
    return max(b - a for a, b in pairwise(stops))


TOUCH = 1e-6
"""Wood this near touches, inches."""


def below_belly(model: Model) -> Iterator[Outcome]:
    """Pipe that hangs out of the insulated belly under the floor.

    To look at: it lies in the cold, and its way through the belly is a hole to be closed. Measured is how far its underside
    lies below the belly's. Holds: pipe that touches the belly's underside. Broken: 1/16 in lower. The drain's turn-down
    leaves on purpose and does not count. Does not apply where no belly is drawn. Common practice, no source.
    """
    belly = model.plan.floor.belly
    if belly is None:
        yield from (DoesNotApply(line.element) for line in model.lines)
        return
    depth = max((joist.depth for joist in model.framing.joists), default=None)
    supplies = {supply.id: supply for supply in model.plan.supplies}
    for line in model.lines:
        ends = [z for node in (line.start, line.end) if (z := model.heights.get(node)) is not None]
        supply = supplies.get(line.element)
        if supply is not None and supply.down is not None:
            ends = [-supply.down]
        if supply is not None and supply.down is None:
            yield DoesNotApply(line.element)
        elif depth is None or not ends:
            what = "the joists: none are drawn" if depth is None else f"the height of {line.element}"
            yield NotJudged((*line.start[:2], 0.0), (line.element,), what)
        else:
            out = -depth - belly - (min(ends) - line.width / 2.0)
            yield _out_of_belly(line.element, (*line.start[:2], min(ends)), out)


def _out_of_belly(element: str, at: tuple[float, float, float], out: float) -> Outcome:
    if not over(out, 0.0):
        return Holds(element)
    return Finding(
        "pipe-below-belly",
        "look",
        at,
        (element,),
        out,
        0.0,
        "in",
        f"{element} hangs {inches(up(out))} in below the underside of the floor's belly: it lies in the cold there.",
        COMMON,
        "Raise it, make the belly deeper, or box it with insulation all round and close the belly against the box.",
    )


RULES = (
    Rule("joist-span-too-long", "Joists that span too far", SUBJECT, "look", ("joist.span",), span_too_long),
    Rule("bearing-too-short", "Joists that bear on too little", SUBJECT, "stop", ("bearing.wood",), bearing_too_short),
    Rule(
        "partition-on-one-joist",
        "A bearing partition on one joist",
        SUBJECT,
        "stop",
        ("joist.partition",),
        partition_on_one_joist,
    ),
    Rule("pipe-below-belly", "Pipe below the floor's belly", SUBJECT, "look", (), below_belly),
)
