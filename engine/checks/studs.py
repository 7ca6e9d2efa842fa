"""Studs and the pipes among them: holes too wide or too near an edge, doubled studs in a row, studs in a pipe's way."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from engine.checks.model import Model
from engine.checks.outcomes import COMMON
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.checks.stud_cuts import StudHole, key_of_notch, notch_deep, stud_holes
from engine.checks.wall_sites import (
    SUBJECT,
    above_floor,
    along_words,
    carries,
    end_names,
    kind_words,
    pipes_in_walls,
    radius_in_wall,
    stud_words,
    wall_words,
    water_rises,
)
from engine.crossings.in_walls import Lying
from engine.crossings.limits import over, short
from engine.framing.studs import Stud, WallWood
from engine.lengths import down, inches, up
from engine.plan.outline import listed
from engine.trade.pipe import drain, label, tube

BEARING = "stud.bearing.bore"
DOUBLED = "stud.bearing.doubled_bore"
PLAIN = "stud.nonbearing.bore"


def key_of(hole: StudHole) -> str:
    """The book's key for the widest hole in a stud: by what the wall carries, and whether the stud is doubled."""
    if not carries(hole.lying.wood.wall):
        return PLAIN
    return DOUBLED if hole.stud.doubled else BEARING


def too_wide(model: Model) -> Iterator[Outcome]:
    """The widest hole in a stud, against its depth: two fifths in a bearing or outside wall, three fifths in others.

    A doubled stud of a bearing wall takes three fifths. Judged by the smallest bit or hole saw that leaves the pipe its
    play; told once for a pipe's like studs of a wall. Holds: 1-1/2 in pipe (a 2 in hole) through a 2x4 that bears nothing.
    Broken: the same through a bearing one; 2 in pipe through any 2x4; 3 in pipe through any 2x6. Reads ``stud.bearing``
    and ``stud.nonbearing``. Source: IRC R602.6.
    """
    broken: dict[tuple[str, str, str], list[StudHole]] = {}
    for hole in stud_holes(model):
        if is_too_wide(model, hole):
            broken.setdefault((hole.lying.pipe.id, hole.lying.wood.wall.id, key_of(hole)), []).append(hole)
        else:
            yield Holds(hole.lying.pipe.element)
    for (_, _, key), holes in broken.items():
        hole = max(holes, key=lambda one: one.across)
        wall, most = hole.lying.wood.wall, _most(model, hole)
        takes = f"may be bored {inches(down(most))} in at most"
        yield _finding(
            model,
            hole,
            "stud-hole-too-wide",
            hole.across,
            most,
            f"{drain(hole.lying.pipe.size).od:.3f} in wide outside, wants a {inches(up(hole.across))} in hole in {_studs_words(holes)}; in {kind_words(wall)} a "
            f"{'doubled ' if hole.stud.doubled else ''}{wall.lumber} stud {takes}.",
            key,
            _instead(model, hole),
        )


def _most(model: Model, hole: StudHole) -> float:
    """The widest hole that a hole's stud may have, inches."""
    return hole.lying.wood.depth * model.book.number(key_of(hole))


def is_too_wide(model: Model, hole: StudHole) -> bool:
    """Whether a hole is wider than the book lets its stud be bored."""
    return over(hole.across, _most(model, hole))


def _studs_words(holes: list[StudHole]) -> str:
    """The studs of several holes in one wall: ``studs 2, 3 and 4 of the partition``."""
    wood = holes[0].lying.wood
    if len(holes) == 1:
        return stud_words(wood, holes[0].stud)
    numbers = sorted(hole.stud.number for hole in holes)
    return f"studs {listed(map(str, numbers))} of {wall_words(wood.wall)}"


def _instead(model: Model, hole: StudHole) -> str:
    """What else can be done where a stud takes no such hole."""
    wood, wall = hole.lying.wood, hole.lying.wood.wall
    ways = []
    if carries(wall) and not hole.stud.doubled and not over(hole.across, wood.depth * model.book.number(DOUBLED)):
        most = int(model.book.number("stud.doubled_in_a_row_most"))
        ways.append(f"double each of these studs, no more than {most} in a row")
    if hole.lying.pipe.system == "vent":
        ways.append("let the pipe rise through the top plates and run over them")
    else:
        ways.append("bring the drain straight down, so that it passes plates only")
    told = "; or ".join(ways)
    return f"{told[0].upper()}{told[1:]}."


def near_edge(model: Model) -> Iterator[Outcome]:
    """The wood that a hole leaves to the nearer edge of its stud.

    A hole that is too wide has to go first: there it does not apply; nor does a run that is said to be notched in. Told once
    for a pipe's studs of a wall, with what a notch may take instead. Holds: 5/8 in left. Broken: 9/16 in. Reads ``stud.edge``. Source: IRC R602.6; the 2018 book prints the sentence the wrong way round.
    """
    least = model.book.number("stud.edge")
    broken: dict[tuple[str, str], list[StudHole]] = {}
    for hole in stud_holes(model):
        if is_too_wide(model, hole):
            yield DoesNotApply(hole.lying.pipe.element)
        elif not short(hole.wood, least):
            yield Holds(hole.lying.pipe.element)
        else:
            broken.setdefault((hole.lying.pipe.id, hole.lying.wood.wall.id), []).append(hole)
    for holes in broken.values():
        hole = min(holes, key=lambda one: one.wood)
        yield _finding(
            model,
            hole,
            "stud-hole-near-edge",
            hole.wood,
            least,
            f"leaves {inches(down(max(0.0, hole.wood)))} in of {_studs_words(holes)} beside its hole; {inches(least)} in is the "
            "least.",
            "stud.edge",
            f"Move it {inches(up(least - hole.wood))} in toward the middle of {wall_words(hole.lying.wood.wall)}."
            f"{_notched_instead(model, hole)}",
        )


def _notched_instead(model: Model, hole: StudHole) -> str:
    """Whether the pipe could be let into the studs' face instead, and how deep a notch may be there."""
    key, wall = key_of_notch(hole.lying), hole.lying.wood.wall
    if not model.book.has(key):
        return ""
    most = hole.lying.wood.depth * model.book.number(key)
    deep = notch_deep(hole.lying, hole.left, hole.stud.high - hole.stud.low)
    limit = f"a notch in a {wall.lumber} stud of {kind_words(wall)} may be {inches(down(most))} in deep"
    if over(deep, most):
        return f" It can't be notched in there: that would take {inches(up(deep))} in, and {limit}."
    return f" Or let it into their face: {limit}, and it takes {inches(up(deep))} in."


def _finding(
    model: Model, hole: StudHole, rule: str, measured: float, limit: float, what: str, key: str, mend: str
) -> Finding:
    lying = hole.lying
    x, y = lying.wood.at((hole.stud.low + hole.stud.high) / 2.0, hole.left)
    return Finding(
        rule,
        "stop",
        (x, y, lying.z),
        (lying.pipe.element, lying.wood.wall.id),
        measured,
        limit,
        "in",
        f"{lying.pipe.element}'s {label(lying.pipe.size)} in pipe, {inches(above_floor(model, lying.z))} in above the floor, {what}",
        model.book.cite(key),
        mend,
    )


def doubled_in_a_row(model: Model) -> Iterator[Outcome]:
    """Doubled studs of a bearing wall, one beside the other, each bored wider than a single one may be.

    Holds: two in a row. Broken: three. Reads ``stud.doubled_in_a_row_most``. Source: IRC R602.6.
    """
    most = model.book.number("stud.doubled_in_a_row_most")
    for is_wide, run in doubled_rows(model):
        if not is_wide:
            yield from (DoesNotApply(hole.lying.pipe.element) for hole in run)
        elif not over(float(len(run)), most):
            yield Holds(run[0].lying.pipe.element)
        else:
            first = run[0]
            x, y = first.lying.wood.at(first.stud.centre)
            yield Finding(
                "doubled-studs-in-a-row",
                "stop",
                (x, y, first.lying.z),
                (first.lying.pipe.element, first.lying.wood.wall.id),
                float(len(run)),
                most,
                "",
                f"{first.lying.pipe.element} goes through {len(run)} doubled studs of {wall_words(first.lying.wood.wall)} "
                f"in a row, bored wider than a single one may be; {most:g} in a row is the most.",
                model.book.cite("stud.doubled_in_a_row_most"),
                "Let the pipe rise through the top plates and run over them, or frame the wall of wider studs.",
            )


def doubled_rows(model: Model) -> Iterator[tuple[bool, list[StudHole]]]:
    """A run's holes in a bearing wall, in rows: doubled studs bored wider than a single one may be, or others."""
    single = model.book.number(BEARING)

    def wide(hole: StudHole) -> bool:
        return hole.stud.doubled and over(hole.across, hole.lying.wood.depth * single)

    bored = [hole for hole in stud_holes(model) if carries(hole.lying.wood.wall)]
    for _, holes in groupby(bored, key=lambda hole: (hole.lying.pipe.id, hole.lying.wood.wall.id)):
        for is_wide, row in groupby(holes, key=wide):
            yield is_wide, list(row)


def in_the_way(model: Model) -> Iterator[Outcome]:
    """A stud where plumb pipe stands or tube comes up, or where level pipe crosses a wall: no hole takes it, so the stud moves or the pipe.

    To look at, since studs are laid out on the floor before they are nailed. Counted is the pipe, or the hub of a fitting
    in the wall, that stands over the stud; measured the least move that clears it. Holds: pipe that touches the stud.
    Broken: 1/16 in further over. Common practice, no source: plumb pipe passes plates only.
    """
    found = pipes_in_walls(model)
    for one in found.upright:
        if one.at_studs is None:
            yield DoesNotApply(one.elements[0])
            continue
        radius, what = radius_in_wall(one)
        z = (one.wood.sole[1] + one.wood.plates[0]) / 2.0
        yield _beside(one.elements[0], one.wood, one.along, radius, what, (*one.at, z))
    for rise in water_rises(model):
        at = (*rise.at, (rise.wood.sole[1] + rise.wood.plates[0]) / 2.0)
        words = f"{label(rise.size)} in tube"
        yield _beside(rise.element, rise.wood, rise.along, tube(rise.size).od / 2.0, words, at)
    for lying in found.lying:
        element = lying.pipe.element
        if lying.along_it or lying.ends_here or lying.over_all or lying.in_plates:
            yield DoesNotApply(element)
            continue
        middle = (lying.low + lying.high) / 2.0
        radius = lying.half + (lying.high - lying.low) / 2.0
        at = (*lying.wood.at(middle), lying.z)
        yield _beside(element, lying.wood, middle, radius, f"{label(lying.pipe.size)} in pipe", at)


def _beside(
    element: str, wood: WallWood, along: float, radius: float, what: str, at: tuple[float, float, float]
) -> Outcome:
    struck = [(into, stud) for stud in wood.studs if over(into := stands_over(stud, along, radius), 0.0)]
    if not struck:
        return Holds(element)
    into, stud = max(struck, key=lambda pair: pair[0])
    least = up(into)
    by = least if along < (stud.low + stud.high) / 2.0 else -least
    moved = f"move {element} {along_words(wood, -by)}"
    if stud.kind == "end":
        mend = f"{moved[0].upper()}{moved[1:]}: the stud at a wall's end stays."
    else:
        mend = (
            f"Set the stud {along_words(wood, by)} of its place, or {moved}. A bay that gets wider than "
            f"{inches(wood.wall.stud_spacing)} in wants a stud more."
        )
    return Finding(
        "stud-in-the-way",
        "look",
        at,
        (element, wood.wall.id),
        into,
        0.0,
        "in",
        f"{inches(least)} in of {element}'s {what} stands where {stud_words(wood, stud)} is to be, its middle "
        f"{inches(stud.centre)} in from its {end_names(wood)[0]} end.",
        COMMON,
        mend,
    )


def stands_over(stud: Stud, along: float, radius: float) -> float:
    """How far something of a radius, at a place along its wall, must go to be clear of a stud; under 0 where it is."""
    return min(stud.high - (along - radius), along + radius - stud.low)


def in_plates(model: Model) -> Iterator[Outcome]:
    """A level pipe that lies in a wall's plates: no hole along a plate leaves wood that carries anything.

    Holds: a vent 1/16 in under the top plates; one that lies on them. Broken: its side in them. A pipe that only crosses
    the wall counts too. Common practice, no source; the code speaks of holes through plates alone (IRC R602.6.1).
    """
    for lying in pipes_in_walls(model).lying:
        element = lying.pipe.element
        if lying.over_all or not lying.in_plates:
            yield Holds(element)
            continue
        under = lying.wood.plates[0] - lying.half - lying.z
        over_it = lying.wood.plates[1] + lying.half - lying.z
        top = lying.z + lying.half > lying.wood.plates[0]
        lacks = min(-under, over_it) if top else lying.wood.sole[1] - (lying.z - lying.half)
        which = "top plates" if lying.wood.wall.top_plate == "double" else "top plate"
        yield Finding(
            "level-pipe-in-plate",
            "stop",
            (*lying.wood.at((lying.low + lying.high) / 2.0), lying.z),
            (element, lying.wood.wall.id),
            lacks,
            0.0,
            "in",
            f"{element}'s {label(lying.pipe.size)} in pipe lies {inches(up(lacks))} in deep in the {which if top else 'sole plate'} of "
            f"{wall_words(lying.wood.wall)}.",
            COMMON,
            _past_plates(model, lying, top),
        )


def _past_plates(model: Model, lying: Lying, top: bool) -> str:
    low = above_floor(model, lying.wood.plates[0] - lying.half)
    high = above_floor(model, lying.wood.plates[1] + lying.half)
    if top:
        return f"Lay it {inches(up(high))} in above the floor, over the plates, or {inches(down(low))} in, under them."
    return f"Lay it {inches(up(above_floor(model, lying.wood.sole[1] + lying.half)))} in above the floor or higher."


RULES = (
    Rule(
        "stud-hole-too-wide",
        "A hole too wide for its stud",
        SUBJECT,
        "stop",
        ("stud.bearing", "stud.nonbearing"),
        too_wide,
        ("stud.doubled_in_a_row_most",),
    ),
    Rule(
        "stud-hole-near-edge",
        "A hole too near a stud's edge",
        SUBJECT,
        "stop",
        ("stud.edge",),
        near_edge,
        ("stud.bearing", "stud.nonbearing"),
    ),
    Rule(
        "doubled-studs-in-a-row",
        "Too many doubled studs bored in a row",
        SUBJECT,
        "stop",
        ("stud.doubled_in_a_row_most", "stud.bearing"),
        doubled_in_a_row,
    ),
    Rule("stud-in-the-way", "A stud where pipe goes", SUBJECT, "look", (), in_the_way),
    Rule("level-pipe-in-plate", "Level pipe in a wall's plate", SUBJECT, "stop", (), in_plates),
)
