"""The sums of cutting pipe: what to saw between two fittings, and how pipe falls and offsets.

Take-off is centre to pipe stop; socket depth is a hub's face to its stop. All inches.
"""

from __future__ import annotations

from math import hypot, radians, sin, tan

from engine.trade.catalogue import Leg


def between_centres(distance: float, takeoff_a: float, takeoff_b: float) -> float:
    """The cut between two fittings whose centres lie `distance` apart along the pipe.

    >>> between_centres(120.0, 3.75, 3.75)
    112.5
    """
    return distance - takeoff_a - takeoff_b


def between_faces(distance: float, depth_a: float, depth_b: float) -> float:
    """The cut between two hubs whose faces lie `distance` apart: both sockets are filled.

    >>> between_faces(54.0, 0.75, 0.75)
    55.5
    """
    return distance + depth_a + depth_b


def centre_to_face(distance: float, takeoff: float, depth: float) -> float:
    """The cut from a fitting whose centre is known to a hub whose face is.

    >>> centre_to_face(16.0, 3.0, 1.5)
    14.5
    """
    return distance - takeoff + depth


def closest_centres(takeoff_a: float, depth_a: float, takeoff_b: float, depth_b: float) -> float:
    """How near two fittings' centres can come with pipe between them: their hubs touch."""
    return takeoff_a + depth_a + takeoff_b + depth_b


def street_centres(host_takeoff: float, spigot_tip: float) -> float:
    """The one distance between centres when a spigot seats on the host's stop, with no pipe between."""
    return host_takeoff + spigot_tip


def spread(leg_a: Leg, leg_b: Leg, saw: float) -> float:
    """How far off a cut may be: both take-offs' tolerances and the saw's, worst case."""
    return leg_a.tolerance + leg_b.tolerance + saw


def fall(run: float, slope: float) -> float:
    """How far a pipe falls over a level `run` in inches at a `slope` in inches per foot.

    >>> fall(9.5 * 12.0, 0.25)
    2.375
    """
    return run * slope / 12.0


def along_slope(run: float, slope: float) -> float:
    """The length along a pipe whose level run is `run`, at `slope` inches per foot."""
    return hypot(run, fall(run, slope))


def offset_travel(set_: float, bend: float) -> float:
    """The centre-to-centre travel of an offset of `set_` made with two bends of `bend` degrees."""
    return set_ / sin(radians(bend))


def offset_run(set_: float, bend: float) -> float:
    """How far along the line an offset of `set_` takes with two bends of `bend` degrees."""
    return set_ / tan(radians(bend))


def rolling_set(roll: float, rise: float) -> float:
    """The true set of an offset that goes `roll` sideways and `rise` up."""
    return hypot(roll, rise)
