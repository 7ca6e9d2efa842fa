"""The pipes of a strip with their true fall, the fittings on them, and what holds them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from engine.drawings.clipping import clipped
from engine.drawings.from_side.frame import Frame
from engine.drawings.from_side.strips import Strip
from engine.drawings.linetypes import FINE, LINE_TYPES, MEDIUM, THIN, WIDE
from engine.drawings.strokes import Dashes, Fill, Line, Stroke
from engine.plan.records import Point
from engine.takeoff.drain_lines import Place
from engine.takeoff.long_section import LongSection
from engine.takeoff.seats import block_thickness, block_width
from engine.takeoff.section_legs import Leg
from engine.takeoff.section_shapes import RING, barrel, body, outside, return_bend
from engine.takeoff.section_things import Thing
from engine.takeoff.section_wood import within

HUB = 0.86
"""Grey of a fitting's hubs."""

AXIS: Dashes = (0.12, 0.03, 0.02, 0.03)
BLOCK = 0.55
_OUT = 0.014
_THICK = 12.0
_ARC = 12
_STRAP = 0.5
_FOOT = 0.05


def pipes(frame: Frame, section: LongSection) -> Iterator[Stroke]:
    """Every pipe with its outside; the upright ones at the ends go on to the paper's edge of the cut."""
    for leg in _all(section):
        upright = leg.begins == leg.ends
        corners = frame.many(_upright(leg) if upright else barrel(leg))
        area = clipped(corners, frame.box)
        if area:
            yield Fill(area, 1.0)
            dashes = LINE_TYPES[leg.system].dashes
            sides = ((corners[1], corners[2]), (corners[3], corners[0])) if upright else (corners[:2], corners[2:])
            for side in sides:
                yield from _within(frame, side, WIDE if leg.system == "waste" else MEDIUM, dashes)


def axes(frame: Frame, section: LongSection) -> Iterator[Stroke]:
    """The axes of what lies, over the fittings."""
    for leg in _all(section):
        if leg.ends > leg.begins:
            yield from _within(frame, frame.many(((leg.begins, leg.z0), (leg.ends, leg.z1))), FINE, AXIS)


def fittings(frame: Frame, section: LongSection) -> Iterator[Stroke]:
    """The hubs of every fitting along the line and up or down from it; traps and closet flanges as they look."""
    for thing in section.things:
        half = outside(section, thing) / 2.0
        if thing.kind == "p_trap":
            yield from _trap(frame, section, thing, half)
            continue
        if thing.kind.startswith("closet_flange"):
            wide, top = half + RING, thing.z + _FOOT * frame.up
            yield from _solid(frame, frame.rect(thing.station - wide, thing.station + wide, thing.z, top))
            continue
        hub = half + max(half / _THICK, _OUT * frame.up)
        if thing.up or thing.down:
            wide = half + max(half / _THICK, _OUT * frame.along)
            low, high = thing.z - (thing.down or half), thing.z + (thing.up or half)
            yield from _solid(frame, frame.rect(thing.station - wide, thing.station + wide, low, high))
        along = body(section, thing, hub)
        if along:
            yield from _solid(frame, frame.many(along))


def hangers(frame: Frame, strip: Strip) -> Iterator[Stroke]:
    """What holds the pipe at its places: a block under it, a strap round it, a wedge under a foot that is carried."""
    for place in strip.places:
        under = place.row.bottom_down
        if under is None:
            continue
        if place.support is not None and place.support.kind == "block":
            half = block_width() / 2.0
            low = -under - block_thickness()
            corners = frame.rect(place.station - half, place.station + half, low, -under)
            yield from _solid(frame, corners, BLOCK)
        elif place.support is not None and place.support.kind == "strap":
            yield from _strap(frame, place, under)
        elif place.row.held == "base":
            x, y = frame.at(place.station, -under)
            wedge = ((x, y), (x + _FOOT, y - 2.0 * _FOOT), (x - _FOOT, y - 2.0 * _FOOT))
            if frame.box.bottom + 2.0 * _FOOT <= y <= frame.box.top:
                yield Fill(wedge, 0.0)


def _strap(frame: Frame, place: Place, under: float) -> Iterator[Stroke]:
    """A loop from over the pipe, or from the joists where it lies deeper, down round its underside."""
    centre = place.row.centre_down or 0.0
    top = max(-centre + (under - centre) + _STRAP, place.row.seat.bottom or -math.inf)
    x, low, high = frame.x(place.station), frame.y(-under), min(frame.y(top), frame.box.top)
    if low >= high or low < frame.box.bottom:
        return
    for side in (-_OUT, _OUT):
        yield Line(((x + side, low), (x + side, high)), THIN)
    yield Line(((x - _OUT, low - 0.008), (x + _OUT, low - 0.008)), MEDIUM)


def _trap(frame: Frame, section: LongSection, thing: Thing, half: float) -> Iterator[Stroke]:
    """A return bend under the inlet and a quarter up to the arm."""
    bend = return_bend(section, thing)
    if bend is None:
        return
    radius, z = bend
    first = [(thing.station - radius, z - radius, 360.0 - 180.0 * n / _ARC) for n in range(_ARC + 1)]
    last = [(thing.station - 3.0 * radius, z - radius, 90.0 * n / _ARC) for n in range(_ARC + 1)]
    outer = [_on(x, y, radius + half, angle) for x, y, angle in first]
    outer += [_on(x, y, radius - half, angle) for x, y, angle in last]
    inner = [_on(x, y, radius - half, angle) for x, y, angle in first]
    inner += [_on(x, y, radius + half, angle) for x, y, angle in last]
    yield from _solid(frame, frame.many([*outer, *reversed(inner)]))


def _on(x: float, y: float, radius: float, degrees: float) -> Point:
    return (x + radius * math.cos(math.radians(degrees)), y + radius * math.sin(math.radians(degrees)))


def _solid(frame: Frame, corners: Sequence[Point], grey: float = HUB) -> Iterator[Stroke]:
    area = clipped(corners, frame.box)
    if area:
        yield Fill(area, grey)
        yield Line(area, THIN, closed=True)


def _within(frame: Frame, ends: Sequence[Point], weight: float, dashes: Dashes) -> Iterator[Stroke]:
    """A line between two points, as much of it as lies on the cut's paper."""
    (x0, y0), (x1, y1) = ends
    left, bottom, right, top = frame.box
    inside = within((x0, y0), (x1, y1), (left, bottom), (right - left, top - bottom))
    if inside is not None and (x0, y0) != (x1, y1):
        points = tuple((x0 + share * (x1 - x0), y0 + share * (y1 - y0)) for share in inside)
        yield Line(points, weight, dashes)


def _upright(leg: Leg) -> tuple[Point, Point, Point, Point]:
    half, (low, high) = leg.od / 2.0, sorted((leg.z0, leg.z1))
    return ((leg.begins - half, low), (leg.begins + half, low), (leg.begins + half, high), (leg.begins - half, high))


def _all(section: LongSection) -> list[Leg]:
    """The pipes as they are put in: an arm ends where its trap begins, and what stands on the trap reaches down to it."""
    legs, stands = list(section.legs), section.stands
    trap = next((thing for thing in section.things if thing.kind == "p_trap"), None)
    bend = return_bend(section, trap) if trap is not None else None
    if trap is not None and bend is not None:
        legs = [_ended(leg, trap.station - 3.0 * bend.radius) for leg in legs]
        stands = replace(stands, z0=bend.z - bend.radius) if stands is not None else None
    return [*(leg for leg in (section.tail, stands) if leg is not None), *legs]


def _ended(leg: Leg, far: float) -> Leg:
    """A lying pipe no farther than a distance from the exit."""
    if leg.ends <= leg.begins or leg.ends <= far or leg.begins >= far:
        return leg
    return replace(leg, ends=far, z1=leg.z(far))
