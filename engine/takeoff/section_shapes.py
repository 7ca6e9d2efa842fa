"""The outlines that a long section's pictures share, on screen and on paper: places are (distance, height), inches."""

from __future__ import annotations

from typing import NamedTuple

from engine.plan.records import Point
from engine.takeoff.long_section import LongSection
from engine.takeoff.section_legs import Leg
from engine.takeoff.section_things import Thing
from engine.takeoff.section_wood import Wood
from engine.trade.pipe import DRAIN_SIZES, drain, tube

NO_REACH = 0.75
"""How far a fitting is drawn to each side whose legs are not known, inches."""

RING = 1.5
"""How far a closet flange's ring stands out from its pipe, inches."""

_BACK = 1e-6


class Bend(NamedTuple):
    """A P-trap's return bend: the radius of its axis, and how high its arm's axis lies."""

    radius: float
    z: float


def hole(wood: Wood) -> tuple[float, float] | None:
    """Between which heights, from the top down, a cut takes a joist's wood; None where the pipe passes clear."""
    cut = wood.cut
    if cut is None:
        return None
    if cut.kind == "bore":
        return wood.middle + cut.diameter / 2.0, wood.middle - cut.diameter / 2.0
    if cut.edge == "top":
        return wood.top, wood.top - cut.depth
    return wood.bottom + cut.depth, wood.bottom


def barrel(leg: Leg) -> tuple[Point, Point, Point, Point]:
    """The outside of a pipe that lies, its upper edge first."""
    half = leg.od / 2.0
    return (
        (leg.begins, leg.z0 + half),
        (leg.ends, leg.z1 + half),
        (leg.ends, leg.z1 - half),
        (leg.begins, leg.z0 - half),
    )


def body(section: LongSection, thing: Thing, hub: float) -> tuple[Point, ...]:
    """A fitting's hubs along the line, `hub` to each side of the axis, on the slopes of its two pipes; else nothing."""
    back, ahead = thing.back, thing.ahead
    if not any((back, ahead, thing.up, thing.down)):
        back = ahead = NO_REACH
    if not back and not ahead:
        return ()
    low, high = section.leg_at(max(0.0, thing.station - _BACK)), section.leg_at(thing.station + _BACK)
    begins, ends = thing.station - back, thing.station + ahead
    z0, z1 = thing.z - grade(low) * back, thing.z + grade(high) * ahead
    above = ((begins, z0 + hub), (thing.station, thing.z + hub), (ends, z1 + hub))
    return (*above, (ends, z1 - hub), (thing.station, thing.z - hub), (begins, z0 - hub))


def grade(leg: Leg) -> float:
    """How much a lying pipe rises for each inch from the exit; a drop or roll has no grade of its own."""
    return (leg.z1 - leg.z0) / (leg.ends - leg.begins) if leg.ends > leg.begins and leg.shape == "level" else 0.0


def outside(section: LongSection, thing: Thing) -> float:
    """The outside of the pipe that a fitting takes, inches."""
    if section.exit is None:
        return max(leg.od for leg in section.legs) if not thing.size else max(tube(thing.size).od, section.legs[0].od)
    return drain(thing.size).od if thing.size in DRAIN_SIZES else section.legs[0].od


def return_bend(section: LongSection, thing: Thing) -> Bend | None:
    """A P-trap's bend under its inlet, its radius a third of the trap's length; None where that is not known."""
    radius = (thing.back - drain(thing.size).socket) / 3.0
    if radius <= 0.0:
        return None
    return Bend(radius, section.leg_at(thing.station).z(thing.station - 3.0 * radius))


def lowest(section: LongSection) -> float:
    """The lowest wood or pipe on the line, without the exit's tail."""
    return min([lowest_pipe(section), *(wood.bottom for wood in section.woods)])


def lowest_pipe(section: LongSection) -> float:
    """The lowest pipe on the line or the bays' lower edge, without the exit's tail and what carries the joists."""
    bays = [-bay.depth for bay in section.bays]
    pipes = [min(leg.z0, leg.z1) - leg.od / 2.0 for leg in section.legs]
    traps = [thing.z - thing.back for thing in section.things if thing.kind == "p_trap"]
    return min([*bays, *pipes, *traps])
