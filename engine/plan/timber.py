"""The wood of a floor as it was drawn: fields of joists, openings framed in them, beams under them."""

from __future__ import annotations

from typing import Annotated, Literal

import msgspec

from engine.plan.record import Id, Record, Spot, Words

Number = Annotated[int, msgspec.Meta(ge=0, le=2000)]
Lumber = Literal["2x4", "2x6", "2x8", "2x10", "2x12"]
JoistSide = Literal["east or north", "west or south"]
OverhangLoad = Literal["floor", "wall and roof", "balcony"]
Species = Literal["douglas fir-larch", "hem-fir", "spruce-pine-fir", "southern pine"]


class JoistShift(Record, frozen=True, gc=False):
    """One joist of a field, or stud of a wall, moved off its place.

    `number` counts from 0 at the field's west or south edge, or at the wall's start; a stud goes `by` toward the wall's end.
    """

    number: Number
    by: Annotated[float, msgspec.Meta(ge=-48.0, le=48.0)]


class DoubledJoist(Record, frozen=True, gc=False):
    """One joist of a field with more of its kind nailed to it: `plies` in all, the others to its east (north) or west."""

    number: Number
    plies: Annotated[int, msgspec.Meta(ge=2, le=4)] = 2
    side: JoistSide = "east or north"


class MeasuredJoist(Record, frozen=True, gc=False):
    """One joist of a field whose measured depth is not that of the others."""

    number: Number
    depth: Annotated[float, msgspec.Meta(ge=2.0, le=30.0)]


class JoistField(Record, frozen=True, gc=False):
    """A rectangle of joists that lays itself out.

    `corner` is the outside south-west corner of its rims and end joists, `size` its outside width (x) and
    length (y). `first` is the first common joist's centre from the west (or south) outside face, one spacing
    when not given. `depth` is the measured depth where it differs from the lumber's. `bearings` and `blocking` are the
    centres of supports between the two ends and of rows of blocks, from the field's south (or west) outside face;
    `overhangs` say how far its south (west) and north (east) ends stand out past the outside of their bearing.
    `to_outline` cuts it off where the floor's outline passes through it, with rims and joists along the outline.
    `species`, `rooms` (what stands on it), a `heavy_finish` (tile on mortar) and whether the lumber is `graded` are what the
    span tables go by, `overhang_carries` what the limit of its overhangs does; None: not told.
    Over the centres in `laps` joists are joined of two, which lie beside each other for the length of a `lap`: those toward
    the end that `lap_moves` names stand off the joist's line to `lap_side`.
    """

    id: Id
    corner: Spot
    size: tuple[Annotated[float, msgspec.Meta(ge=12.0, le=2400.0)], Annotated[float, msgspec.Meta(ge=12.0, le=2400.0)]]
    lumber: Lumber = "2x10"
    spacing: Annotated[float, msgspec.Meta(ge=4.0, le=48.0)] = 16.0
    direction: Literal["north-south", "east-west"] = "north-south"
    member: Literal["sawn", "engineered"] = "sawn"
    first: Annotated[float, msgspec.Meta(ge=0.75, le=96.0)] | None = None
    depth: Annotated[float, msgspec.Meta(ge=2.0, le=30.0)] | None = None
    end_bearing: Annotated[float, msgspec.Meta(ge=0.0, le=24.0)] = 3.5
    bearings: tuple[Annotated[float, msgspec.Meta(ge=0.0, le=2400.0)], ...] = ()
    shifts: tuple[JoistShift, ...] = ()
    doubled: tuple[DoubledJoist, ...] = ()
    measured: tuple[MeasuredJoist, ...] = ()
    overhangs: tuple[
        Annotated[float, msgspec.Meta(ge=0.0, le=120.0)], Annotated[float, msgspec.Meta(ge=0.0, le=120.0)]
    ] = (0.0, 0.0)
    blocking: tuple[Annotated[float, msgspec.Meta(ge=0.0, le=2400.0)], ...] = ()
    to_outline: bool = False
    species: Species | None = None
    rooms: Literal["living", "sleeping"] = "living"
    heavy_finish: bool = False
    graded: bool = True
    overhang_carries: OverhangLoad | None = None
    laps: tuple[Annotated[float, msgspec.Meta(ge=0.0, le=2400.0)], ...] = ()
    lap: Annotated[float, msgspec.Meta(ge=0.0, le=48.0)] = 6.0
    lap_moves: Literal["north or east", "south or west"] = "north or east"
    lap_side: JoistSide = "east or north"


class FloorLayer(Record, frozen=True, gc=False):
    """One layer of a subfloor or of a finished flooring: its thickness, inches, and what it is."""

    thickness: Annotated[float, msgspec.Meta(gt=0.0, le=3.0)]
    name: Words = ""


class FlooringArea(Record, frozen=True, gc=False):
    """A rectangle of the floor with a finished flooring of its own: opposite corners, and how thick it is, inches.

    Where its layers are told, lowest first, they add up to that. Of several that lie at a place the last one counts.
    """

    id: Id
    start: Spot
    end: Spot
    finish: Annotated[float, msgspec.Meta(ge=0.0, le=6.0)]
    finish_layers: tuple[FloorLayer, ...] = ()
    name: Words = ""


class FloorOpening(Record, frozen=True, gc=False):
    """An opening framed in a floor, where joists are headed off: opposite corners of its clear way, face to face.

    The joists that it cuts hang on a header at either end, and the headers on trimmers beside it; `headers` and
    `trimmers` are how many plies each is made of. Where it is `open` the floor is left out over it too, for a ladder or a
    stair; else floor goes on over joists that were headed off.
    """

    id: Id
    start: Spot
    end: Spot
    headers: Annotated[int, msgspec.Meta(ge=1, le=3)] = 1
    trimmers: Annotated[int, msgspec.Meta(ge=1, le=3)] = 1
    open: bool = False
    name: Words = ""


class Beam(Record, frozen=True, gc=False):
    """A girder, dropped beam or steel member by its centre line; no pipe passes through it.

    `width` is its wood or flange in plan, `depth` from top to bottom. `top_z` is its top over the top of the joists;
    None lays it against the underside of the joists over it. Joists rest on one that is `bearing`.
    """

    id: Id
    start: Spot
    end: Spot
    width: Annotated[float, msgspec.Meta(ge=0.5, le=36.0)] = 4.5
    depth: Annotated[float, msgspec.Meta(ge=0.5, le=48.0)] = 9.25
    top_z: Annotated[float, msgspec.Meta(ge=-120.0, le=0.0)] | None = None
    material: Literal["wood", "engineered", "steel"] = "wood"
    bearing: bool = True
    name: Words = ""
