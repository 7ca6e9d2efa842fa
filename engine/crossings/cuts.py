"""cut(crossings, framing, heights, book): what each joist loses, measured from edges that a tape can hook.

A run that passes *through* asks for a bore wherever its pipe is in the wood, also where it would break out of the
bottom edge; water tubes side by side ask for one together. One that passes *notched* asks for a notch from the nearer
edge to the pipe's far side. Pipe clear of the joist, and a run that is to pass *under*, cut nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, NamedTuple

from msgspec.structs import replace

from engine.crossings.gaps import Beside, Shape, beside
from engine.crossings.limits import Allowance, allowance, judged_by_book, over_end_bearing
from engine.crossings.records import Crossing, JoistCut, SharedHole
from engine.crossings.stretches import EXACT
from engine.crossings.verdicts import verdict
from engine.framing.records import Framing, Joist
from engine.rulebooks import RuleBook


class Asked(NamedTuple):
    """A crossing that asks for a cut, with the joist it is cut from and what that joist may lose."""

    crossing: Crossing
    joist: Joist
    most: Allowance


def cut(
    crossings: tuple[Crossing, ...],
    framing: Framing,
    heights: Mapping[str, float],
    book: RuleBook,
    shared: tuple[SharedHole, ...] = (),
) -> tuple[JoistCut, ...]:
    """The bores and notches that crossings ask for, in the crossings' order.

    `heights` is the axis height at each crossing by its id; a crossing whose height is not known has no cut, and
    nothing is ever cut out of a beam. `shared` are the holes of several tubes: each is one bore, told from its first.
    """
    holes = {tube.crossing: hole for hole in shared for tube in hole.tubes}
    joists = {joist.id: joist for joist in framing.members}
    allowances = {depth: allowance(depth, book) for depth in {joist.depth for joist in framing.joists}}
    cuts: list[tuple[Asked, JoistCut]] = []
    for crossing in crossings:
        z, joist = heights.get(crossing.id), joists[crossing.joist]
        if z is None or joist.kind == "beam" or crossing.passing == "under" or clear_of(crossing, joist, z):
            continue
        hole = holes.get(crossing.id)
        if hole is not None:
            if hole.crossing.id == crossing.id:
                asked = Asked(hole.crossing, joist, allowances[joist.depth])
                cuts.append((asked, replace(_bore(asked, hole.z), tubes=hole.tubes)))
            continue
        asked = Asked(crossing, joist, allowances[joist.depth])
        cuts.append((asked, _notch(asked, z) if crossing.passing == "notched" else _bore(asked, z)))
    neighbours = _neighbours(cuts)
    return tuple(_judged(asked, made, neighbours[made.crossing], book) for asked, made in cuts)


def clear_of(crossing: Crossing, joist: Joist, z: float) -> bool:
    """Whether a pipe whose axis is at `z` lies wholly above or below the joist."""
    half = crossing.width / 2.0
    return z + half <= joist.bottom + EXACT or z - half >= joist.top - EXACT


def _bore(asked: Asked, z: float) -> JoistCut:
    crossing, joist = asked.crossing, asked.joist
    diameter = crossing.width if crossing.bore is None else crossing.bore
    return JoistCut(
        crossing=crossing.id,
        joist=joist.id,
        pipe=crossing.pipe,
        element=crossing.element,
        kind="bore",
        at=crossing.at,
        diameter=diameter,
        bit=crossing.bit,
        from_start=crossing.along,
        from_end=joist.length - crossing.along,
        down_from_top=-z,
        up_from_bottom=joist.depth + z,
        wood_above=-z - diameter / 2.0,
        wood_below=joist.depth + z - diameter / 2.0,
        depth=diameter,
        length=crossing.run_along,
        limit=crossing.bore_limit,
        legal=None,
        faults=(),
    )


def _notch(asked: Asked, z: float) -> JoistCut:
    crossing, joist, most = asked
    half = crossing.width / 2.0
    edge: Literal["top", "bottom"] = "top" if -z <= joist.depth + z else "bottom"
    depth = min(joist.depth, half - z if edge == "top" else joist.depth + z + half)
    start, end = crossing.along - crossing.run_along / 2.0, crossing.along + crossing.run_along / 2.0
    over_bearing = over_end_bearing(joist, start, end)
    limit = most.end_notch if over_bearing else most.notch_depth
    return JoistCut(
        crossing=crossing.id,
        joist=joist.id,
        pipe=crossing.pipe,
        element=crossing.element,
        kind="notch",
        at=crossing.at,
        diameter=crossing.width,
        bit=None,
        from_start=crossing.along,
        from_end=joist.length - crossing.along,
        down_from_top=-z,
        up_from_bottom=joist.depth + z,
        wood_above=0.0 if edge == "top" else joist.depth - depth,
        wood_below=0.0 if edge == "bottom" else joist.depth - depth,
        depth=depth,
        length=crossing.run_along,
        limit=limit if judged_by_book(joist) else 0.0,
        legal=None,
        faults=(),
        edge=edge,
        over_bearing=over_bearing,
    )


def _neighbours(cuts: list[tuple[Asked, JoistCut]]) -> dict[str, Beside]:
    by_joist: dict[str, list[Shape]] = {}
    reach: dict[str, float] = {}
    for asked, made in cuts:
        shape = Shape(
            crossing=made.crossing,
            bore=made.kind == "bore",
            start=made.from_start - made.length / 2.0,
            end=made.from_start + made.length / 2.0,
            low=made.wood_below - asked.joist.depth,
            high=-made.wood_above,
        )
        by_joist.setdefault(made.joist, []).append(shape)
        reach[made.joist] = max(asked.most.bore_gap, asked.most.notch_gap)
    found: dict[str, Beside] = {}
    for joist, shapes in by_joist.items():
        found |= beside(shapes, reach[joist])
    return found


def _judged(asked: Asked, made: JoistCut, near: Beside, book: RuleBook) -> JoistCut:
    """The cut with its neighbours, and what the rules for joists say of it."""
    faults, unjudged = verdict(made, asked.crossing, near, asked.joist, asked.most, book)
    return replace(
        made,
        gap=None if near.bore is None else near.bore.gap,
        beside="" if near.bore is None else near.bore.crossing,
        notch_gap=None if near.other is None else near.other.gap,
        beside_notch="" if near.other is None else near.other.crossing,
        faults=faults,
        unjudged=unjudged,
        legal=False if faults else None if unjudged or not judged_by_book(asked.joist) else True,
    )
