"""What every record of a plan is made of: its base, and the kinds of value that its fields hold."""

from __future__ import annotations

from typing import Annotated, Literal

import msgspec

Point = tuple[float, float]

Id = Annotated[str, msgspec.Meta(min_length=1, max_length=40, pattern=r"^[A-Za-z0-9][A-Za-z0-9_.-]*$(?!\n)")]
Coordinate = Annotated[float, msgspec.Meta(ge=-12000.0, le=12000.0)]
Spot = tuple[Coordinate, Coordinate]
Words = Annotated[str, msgspec.Meta(max_length=2000)]
DrainSize = Literal["1-1/4", "1-1/2", "2", "3", "4"]
SleeveSize = Literal["2", "3", "4", "5", "6", "8"]
SupplySize = Literal["3/8", "1/2", "3/4", "1"]
Passing = Literal["through", "notched", "under"]
Join = Literal["flat", "rolled", "drop"]
Water = Literal["cold", "hot"]
Path = Annotated[tuple[Spot, ...], msgspec.Meta(min_length=2, max_length=400)]

Pattern = Literal[
    "quarter_bend",
    "long_sweep_quarter_bend",
    "closet_bend",
    "eighth_bend",
    "sixteenth_bend",
    "sixth_bend",
    "sanitary_tee",
    "wye",
    "combo_wye_eighth_bend",
]
"""A fitting that can be chosen by hand where pipes turn or meet."""

Meets = Literal["ground", "slab", "foundation"]
"""What the building drain passes on its way from the floor: bare ground, a slab, or a foundation wall or footing."""

FrostGuard = Literal["none", "box", "heat", "box-and-heat"]
"""What keeps frost from the drop between floor and ground: an insulated box, listed heat cable, or both."""

Level = Literal["under", "wall"]
"""Whether a fitting lies under the floor or stands up in the wall."""

FixtureKind = Literal[
    "water_closet",
    "lavatory",
    "shower",
    "bathtub",
    "kitchen_sink",
    "washer_standpipe",
    "water_heater",
    "refrigerator",
    "hose_bibb",
    "bar_sink",
    "laundry_tub",
    "dishwasher",
    "floor_drain",
    "bidet",
]


class Record(msgspec.Struct, frozen=True, gc=False, forbid_unknown_fields=True, omit_defaults=True):
    """Base of every record: immutable, comparable, closed to unknown fields, invisible to the collector."""
