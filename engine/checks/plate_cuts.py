"""Holes in a wall's plates and what they cut of them: ties over the top ones, and the wood between two holes."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations, pairwise
from typing import NamedTuple

from engine.checks.model import Model, once_a_model
from engine.checks.outcomes import COMMON
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.checks.wall_sites import (
    SUBJECT,
    along_words,
    carries,
    kind_words,
    pipes_in_walls,
    plate_hole,
    wall_words,
    water_rises,
)
from engine.crossings.limits import over, short
from engine.crossings.stretches import EXACT
from engine.framing.studs import WallWood
from engine.lengths import down, inches, up
from engine.plan.outline import listed
from engine.plan.records import Point
from engine.trade.pipe import drain, tube
from engine.trade.walls import between_holes

TIES = ("plate.tie_thickness", "plate.tie_width", "plate.tie_nails_each_side", "plate.tie_past_opening")

_THIRD = 1.0 / 3.0


class PlateHole(NamedTuple):
    """A hole in a plate by its bit: `along` the wall from its start, `left` of its centre line, its `width`; inches."""

    element: str
    wood: WallWood
    top: bool
    at: Point
    along: float
    left: float
    width: float

    @property
    def low(self) -> float:
        """Where it begins along the wall."""
        return self.along - self.width / 2.0

    @property
    def high(self) -> float:
        """Where it ends along the wall."""
        return self.along + self.width / 2.0


class Cut(NamedTuple):
    """Holes of one plate that share a cross-section of it, the way along the wall ascending, and the width that they cut.

    `width` is what the worst cross-section lacks of the plate; of a single hole it is the hole's.
    """

    holes: tuple[PlateHole, ...]
    width: float

    @property
    def wood(self) -> WallWood:
        """The wall's wood."""
        return self.holes[0].wood


@once_a_model
def plate_holes(model: Model) -> tuple[PlateHole, ...]:
    """Every hole in a sole plate or in top plates."""
    found = []
    for one in pipes_in_walls(model).upright:
        for top, size in ((False, one.at_sole), (True, one.at_plates)):
            if size is not None:
                width = plate_hole(drain(size).od)[0]
                found.append(PlateHole(one.elements[0], one.wood, top, one.at, one.along, one.left, width))
    for rise in water_rises(model):
        width = plate_hole(tube(rise.size).od)[0]
        found.append(PlateHole(rise.element, rise.wood, False, rise.at, rise.along, rise.left, width))
    return tuple(found)


@once_a_model
def _plates(model: Model) -> tuple[list[PlateHole], ...]:
    """The holes of each plate, a wall's sole and its top ones apart."""
    plates: dict[tuple[str, bool], list[PlateHole]] = {}
    for hole in plate_holes(model):
        plates.setdefault((hole.wood.wall.id, hole.top), []).append(hole)
    return tuple(plates.values())


@once_a_model
def plate_cuts(model: Model) -> tuple[Cut, ...]:
    """The holes of each plate by what they cut of it together: holes further along the plate than they are wide do not add up."""
    found = []
    for holes in _plates(model):
        group: list[PlateHole] = []
        reach = -math.inf
        for hole in sorted(holes, key=lambda one: one.low):
            if group and not over(reach, hole.low):
                found.append(_cut(group))
                group = []
            group.append(hole)
            reach = max(reach if len(group) > 1 else -math.inf, hole.high)
        found.append(_cut(group))
    return tuple(found)


def _cut(holes: list[PlateHole]) -> Cut:
    """The width that holes cut at their worst cross-section.

    What holes side by side take is concave between two places where one of them begins or ends, so that thirds close in
    on the worst.
    """
    if len(holes) == 1:
        return Cut((holes[0],), holes[0].width)
    edges = sorted({edge for hole in holes for edge in (hole.low, hole.high)})
    worst = 0.0
    for low, high in pairwise(edges):
        while high - low > EXACT:
            first, second = low + (high - low) * _THIRD, high - (high - low) * _THIRD
            if _taken(holes, first) < _taken(holes, second):
                low = first
            else:
                high = second
        worst = max(worst, _taken(holes, (low + high) / 2.0))
    return Cut(tuple(holes), max(worst, *(hole.width for hole in holes)))


def _taken(holes: list[PlateHole], along: float) -> float:
    """What holes take of the plate's width at one place along it; where they run into each other it counts once."""
    spans = []
    for hole in holes:
        square = (hole.width / 2.0) ** 2 - (along - hole.along) ** 2
        if square > 0.0:
            half = math.sqrt(square)
            spans.append((hole.left - half, hole.left + half))
    taken, reach = 0.0, -math.inf
    for low, high in sorted(spans):
        taken += max(0.0, high - max(low, reach))
        reach = max(reach, high)
    return taken


def tie_wanted(model: Model, cut: Cut) -> float | None:
    """The widest cut of a top plate that needs no tie, inches, where a cut needs one; None where it needs none."""
    if not cut.holes[0].top or not carries(cut.wood.wall):
        return None
    most = cut.wood.depth * model.book.number("plate.cut_most")
    return most if over(cut.width, most) else None


def tied(model: Model) -> tuple[Cut, ...]:
    """The cuts in top plates that want a tie each; none where the book gives no limit."""
    if not model.book.has("plate.cut_most"):
        return ()
    return tuple(cut for cut in plate_cuts(model) if tie_wanted(model, cut) is not None)


def tie_words(model: Model) -> str:
    """What a tie is and how it is nailed: ``a galvanized tie 0.054 in thick ...``."""
    book = model.book
    thick, width, nails, past = (book.number(key) for key in TIES)
    return (
        f"a galvanized steel tie {thick:g} in thick and {inches(width)} in wide across the hole, {inches(past)} in past it and "
        f"{nails:g} 10d nails at each side"
    )


def untied(model: Model) -> Iterator[Outcome]:
    """A top plate of a bearing or outside wall that is cut for more than half of its width wants a steel tie over the cut.

    Judged by the bit for the pipe. Holes that share a cross-section of the plate count together, by what the worst one lacks
    there; holes further along it do not. Holds: 2 in pipe (a 2-9/16 in bit) through a 2x6 plate. To look at: 1-1/2 in pipe
    through a 2x4 plate; two of them side by side through a 2x6. A wall that bears nothing does not apply, nor pipe that ends
    below the plates. Reads ``plate.cut_most`` and the tie's own values. Source: IRC R602.6.1.
    """
    for one in pipes_in_walls(model).upright:
        if one.at_plates is None or not carries(one.wood.wall):
            yield DoesNotApply(one.elements[0])
    for cut in plate_cuts(model):
        if not cut.holes[0].top or not carries(cut.wood.wall):
            continue
        most = tie_wanted(model, cut)
        names = tuple(dict.fromkeys(hole.element for hole in cut.holes))
        if most is None:
            yield Holds(names[0])
            continue
        wall = cut.wood.wall
        told = (
            f"{names[0]} passes the top plate of {wall_words(wall)} in a {inches(cut.width)} in hole"
            if len(cut.holes) == 1
            else f"{listed(names)} pass the top plate of {wall_words(wall)} side by side: their holes cut {inches(up(cut.width))} in "
            "of its width together"
        )
        yield Finding(
            "top-plate-wants-tie",
            "look",
            (*cut.holes[0].at, cut.wood.plates[0]),
            (*names, wall.id),
            cut.width,
            most,
            "in",
            f"{told}; past {inches(down(most))} in {kind_words(wall)}'s {wall.lumber} plate wants a tie.",
            model.book.cite("plate.cut_most"),
            f"Nail {tie_words(model)}.",
        )


def close(model: Model) -> Iterator[Outcome]:
    """The wood between two holes of one plate.

    To look at where less is left than holds while the second is bored; under 0 the holes run into each other. Told of each
    hole's nearest neighbour before it along the plate. Holds: 1 in. Broken: 15/16 in. Common practice, no source: no code
    speaks of it.
    """
    least = between_holes()
    for holes in _plates(model):
        near: dict[PlateHole, tuple[float, PlateHole]] = {}
        for one, other in combinations(sorted(holes, key=lambda hole: (hole.along, hole.left)), 2):
            if not over(other.low - one.high, least):
                wood = math.dist((one.along, one.left), (other.along, other.left)) - (one.width + other.width) / 2.0
                near[other] = min(near.get(other, (math.inf, one)), (wood, one))
        for hole in holes:
            wood, other = near.get(hole, (math.inf, hole))
            yield _close(hole, other, wood, least) if short(wood, least) else Holds(hole.element)


def _close(hole: PlateHole, other: PlateHole, wood: float, least: float) -> Finding:
    wall = hole.wood.wall
    plate = "sole plate" if not hole.top else "top plates" if wall.top_plate == "double" else "top plate"
    left = f"leave {inches(down(wood))} in of wood between them" if over(wood, 0.0) else "run into each other"
    apart = math.sqrt(max(0.0, ((hole.width + other.width) / 2.0 + least) ** 2 - (hole.left - other.left) ** 2))
    by = up(apart - (hole.along - other.along))
    return Finding(
        "plate-holes-close",
        "look",
        (*hole.at, hole.wood.plates[0] if hole.top else hole.wood.sole[1]),
        (hole.element, other.element, wall.id),
        wood,
        least,
        "in",
        f"The holes for {hole.element} and {other.element} in the {plate} of {wall_words(wall)} {left}; under {inches(least)} in "
        "splits out when the second is bored.",
        COMMON,
        f"Move {hole.element} {along_words(hole.wood, by)}, or bore the second hole with the plate clamped.",
    )


RULES = (
    Rule("top-plate-wants-tie", "A top plate that wants a tie", SUBJECT, "look", ("plate.cut_most", *TIES), untied),
    Rule("plate-holes-close", "Holes close together in a plate", SUBJECT, "look", (), close),
)
