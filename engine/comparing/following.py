"""What follows from one book's sizes, fittings and heights: why a finding in space is made by one book alone."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator

from engine.checks.model import Model, once_a_model
from engine.checks.records import Finding
from engine.comparing.exits import exit_words
from engine.comparing.sides import NEAR, Sides, windows_by_exit
from engine.joinery.records import Part
from engine.lengths import inches
from engine.study import Study
from engine.takeoff.partnames import words as part_words
from engine.trade.pipe import label

_NEAR_BY = 6.0
"""Inches round a finding within which another fitting may be what brings it about."""

_SHUT = "no-height-fits"
_UNDER_CLOSET = "closet.quarter_bend_under_flange"


def followed(sides: Sides, found: Finding) -> Iterator[str]:
    """Sentences on what is otherwise round a finding: sizes, fittings with the value that chose them, heights."""
    yield from _sizes(sides, found)
    if found.rule == _SHUT:
        yield from _windows(sides, found)
        closets = [fixture.at for fixture in sides.plan.fixtures if fixture.kind == "water_closet"]
        yield from (words for at in closets for words in _fittings(sides, at))
        return
    near_by = tuple(_fittings(sides, found.at[:2]))
    yield from near_by or _heights(sides, found)


def _sizes(sides: Sides, found: Finding) -> Iterator[str]:
    """Pipes of the finding's things that are of another size."""
    mine, theirs = (_sizes_of(study.model) for study in (sides.here, sides.there))
    for element in found.elements:
        here, there = mine.get(element, ()), theirs.get(element, ())
        if here and there and here != there:
            yield f"{element} is {_listed(here)} in by {sides.here_is}, {_listed(there)} in by {sides.there_is}."


@once_a_model
def _sizes_of(model: Model) -> dict[str, tuple[float, ...]]:
    sizes: dict[str, set[float]] = {}
    for pipe in model.network.pipes:
        sizes.setdefault(pipe.element, set()).add(pipe.size)
    return {element: tuple(sorted(found)) for element, found in sizes.items()}


def _listed(sizes: tuple[float, ...]) -> str:
    return " and ".join(map(label, sizes))


def _windows(sides: Sides, found: Finding) -> Iterator[str]:
    """What holds an exit's window under each book."""
    for study, who in ((sides.here, sides.here_is), (sides.there, sides.there_is)):
        for window in study.model.windows:
            if window.exit is not None and window.exit in found.elements:
                yield f"By {who} {exit_words(window)}."


def _fittings(sides: Sides, at: tuple[float, float]) -> Iterator[str]:
    """Fittings near a place that are others, and the values by which they were chosen."""
    mine, theirs = (_parts_near(study, at) for study in (sides.here, sides.there))
    only, instead = _less(mine, theirs), _less(theirs, mine)
    if not only and not instead:
        return
    first = _named(only) or "nothing"
    yield f"There stands {first} by {sides.here_is}, {_named(instead) or 'nothing'} by {sides.there_is}."
    keys = dict.fromkeys(_chosen_by(part) for part in (*only, *instead) if part.turn)
    for key in (*keys, _UNDER_CLOSET):
        if key in sides.parted and (
            key != _UNDER_CLOSET or any("quarter_bend" in part.kind for part in (*only, *instead))
        ):
            yield sides.told(key)


def _parts_near(study: Study, at: tuple[float, float]) -> list[Part]:
    """The fittings that turn or join near a place; a coupling does neither, and stands where a bay asks for one."""
    parts = study.model.joinery.parts
    return [part for part in parts if part.kind != "coupling" and math.dist(part.centre[:2], at) <= _NEAR_BY]


def _less(parts: list[Part], others: list[Part]) -> list[Part]:
    """The parts that have no like among the others."""
    left = Counter((part.kind, part.size) for part in others)
    found = []
    for part in parts:
        if left[part.kind, part.size]:
            left[part.kind, part.size] -= 1
        else:
            found.append(part)
    return found


def _chosen_by(part: Part) -> str:
    return f"fitting.{part.kind.removeprefix('street_')}.{part.change}"


def _named(parts: list[Part]) -> str:
    names = (f"{part_words(part.kind)} {'x'.join(map(label, dict.fromkeys(part.size)))} in" for part in parts)
    return " and ".join(dict.fromkeys(names))


def _heights(sides: Sides, found: Finding) -> Iterator[str]:
    """That the pipes hang at another height, since their exit does."""
    here, there = (windows_by_exit(study) for study in (sides.here, sides.there))
    for name in sorted(_exits_of(sides.here, found)):
        mine, theirs = here.get(name), there.get(name)
        if mine is not None and theirs is not None and abs(mine.chosen - theirs.chosen) > NEAR:
            yield (
                f"Its pipes hang at another height, since {name} lies {inches(-mine.chosen)} in down by {sides.here_is}, "
                f"{inches(-theirs.chosen)} in by {sides.there_is}."
            )


def _exits_of(study: Study, found: Finding) -> set[str]:
    """The exits to which the finding's pipes and fixtures drain."""
    network = study.model.network
    nodes = [pipe.start for pipe in network.pipes if pipe.element in found.elements]
    nodes += [trap.node for trap in network.traps if trap.fixture in found.elements]
    return {network.exit_of[node] for node in nodes if node in network.exit_of}
