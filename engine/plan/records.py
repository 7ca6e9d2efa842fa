"""What was drawn: the frozen records that a plan is made of, and that a plan file holds.

Lengths are inches, slopes inches of fall per foot, angles degrees counter-clockwise from east (plan x runs
east, y runs north; the origin is the outside of the framing's south-west corner). Heights named ``z`` count
up from the top of the joists; heights named ``above_floor`` count up from the finished floor (see
:mod:`engine.plan.flooring`: it may lie higher in one room than in another). Points are
multiples of 1/1024 in (see :mod:`engine.plan.grid`).
"""

from __future__ import annotations

from typing import Annotated, Literal

import msgspec

from engine.plan.job import Amendment as Amendment
from engine.plan.job import MeasuredTakeOff as MeasuredTakeOff
from engine.plan.job import OnHand as OnHand
from engine.plan.job import Ruling as Ruling
from engine.plan.job import StickForSale as StickForSale
from engine.plan.record import Coordinate as Coordinate
from engine.plan.record import DrainSize as DrainSize
from engine.plan.record import FixtureKind as FixtureKind
from engine.plan.record import FrostGuard as FrostGuard
from engine.plan.record import Id as Id
from engine.plan.record import Join as Join
from engine.plan.record import Level as Level
from engine.plan.record import Meets as Meets
from engine.plan.record import Passing as Passing
from engine.plan.record import Path as Path
from engine.plan.record import Pattern as Pattern
from engine.plan.record import Point as Point
from engine.plan.record import Record as Record
from engine.plan.record import SleeveSize as SleeveSize
from engine.plan.record import Spot as Spot
from engine.plan.record import SupplySize as SupplySize
from engine.plan.record import Water as Water
from engine.plan.record import Words as Words
from engine.plan.timber import Beam as Beam
from engine.plan.timber import DoubledJoist as DoubledJoist
from engine.plan.timber import FlooringArea as FlooringArea
from engine.plan.timber import FloorLayer as FloorLayer
from engine.plan.timber import FloorOpening as FloorOpening
from engine.plan.timber import JoistField as JoistField
from engine.plan.timber import JoistShift as JoistShift
from engine.plan.timber import MeasuredJoist as MeasuredJoist

SeismicCategory = Literal["A", "B", "C", "D0", "D1", "D2"]
"""Seismic design categories that the residential code covers, mildest first."""


class Wall(Record, frozen=True, gc=False):
    """A stud wall by its centre line. `finish` is the wall board's thickness on each inside face.

    Studs stand at both ends and `stud_spacing` apart, the first centre `first_stud` from the start (one spacing where not
    given); `doubled` are the numbers of those with a second beside them, `stud_shifts` those moved. `height` is from
    the subfloor to the top of its plates, the trade's usual one where not given.
    """

    id: Id
    start: Spot
    end: Spot
    lumber: Literal["2x4", "2x6"] = "2x4"
    bearing: bool = False
    exterior: bool = False
    finish: Annotated[float, msgspec.Meta(ge=0.0, le=3.0)] = 0.5
    name: Words = ""
    stud_spacing: Annotated[float, msgspec.Meta(ge=6.0, le=48.0)] = 16.0
    first_stud: Annotated[float, msgspec.Meta(ge=0.75, le=96.0)] | None = None
    doubled: tuple[Annotated[int, msgspec.Meta(ge=0, le=2000)], ...] = ()
    stud_shifts: tuple[JoistShift, ...] = ()
    height: Annotated[float, msgspec.Meta(ge=24.0, le=400.0)] | None = None
    top_plate: Literal["double", "single"] = "double"


class Fixture(Record, frozen=True, gc=False):
    """A fixture. `at` is the point its drain run starts from.

    That is the outlet of a closet, shower or tub in plan, and the riser's point in the wall for a wall outlet
    (lavatory, sinks, washer standpipe); for fixtures that only take water it is where the supply comes up.
    `turn` is the heading the user faces away from the wall (0 = the fixture's front looks east). A bathtub's
    drain run starts at `trap_at`, under the overflow tee. Fields left out come from the trade data. `through` names
    the fixture whose trap takes this one's waste (a dishwasher through its sink); it then has no drain of its own.
    `bowls` share one trap, `bowls_apart` is the widest way between their outlets; `heads` are a shower's, `gallons` a
    closet's flush, `disposer` a food-waste disposer's under a sink.
    """

    id: Id
    kind: FixtureKind
    at: Spot
    turn: Annotated[float, msgspec.Meta(ge=-360.0, le=360.0)] = 270.0
    name: Words = ""
    trap: DrainSize | None = None
    trap_at: Spot | None = None
    outlet_above_floor: Annotated[float, msgspec.Meta(ge=0.0, le=96.0)] | None = None
    arm: Annotated[float, msgspec.Meta(ge=0.0, le=400.0)] | None = None
    rim_above_floor: Annotated[float, msgspec.Meta(ge=0.0, le=120.0)] | None = None
    flow_gpm: Annotated[float, msgspec.Meta(ge=0.0, le=60.0)] | None = None
    width: Annotated[float, msgspec.Meta(ge=4.0, le=120.0)] | None = None
    depth: Annotated[float, msgspec.Meta(ge=4.0, le=120.0)] | None = None
    through: Id | None = None
    bowls: Annotated[int, msgspec.Meta(ge=1, le=4)] = 1
    bowls_apart: Annotated[float, msgspec.Meta(ge=0.0, le=120.0)] | None = None
    heads: Annotated[int, msgspec.Meta(ge=1, le=12)] = 1
    gallons: Annotated[float, msgspec.Meta(ge=0.5, le=8.0)] | None = None
    disposer: bool = False


class Drain(Record, frozen=True, gc=False):
    """A waste run under the floor. One size, slope, way past the joists and way of joining at its lower end.

    `slope` None takes the plan's. `rise` pins how far a `rolled` or `drop` end climbs from the main's axis.
    """

    id: Id
    points: Path
    size: DrainSize | None = None
    slope: Annotated[float, msgspec.Meta(ge=-12.0, le=12.0)] | None = None
    passing: Passing | None = None
    join: Join = "flat"
    roll: Annotated[float, msgspec.Meta(ge=0.0, le=90.0)] = 45.0
    rise: Annotated[float, msgspec.Meta(ge=0.0, le=200.0)] | None = None


class Vent(Record, frozen=True, gc=False):
    """A dry vent run: under the floor when `above_floor` is None, else overhead at that height."""

    id: Id
    points: Path
    above_floor: Annotated[float, msgspec.Meta(ge=0.0, le=400.0)] | None = None
    size: DrainSize | None = None
    slope: Annotated[float, msgspec.Meta(ge=-12.0, le=12.0)] | None = None
    passing: Passing | None = None


class Riser(Record, frozen=True, gc=False):
    """A plumb pipe in a wall: drain below the fixtures that enter it, vent above them.

    `top` says how the vent ends: through the roof, in an air admittance valve or capped at `above_floor`, or
    `none` where nothing goes on above the highest fixture or overhead vent. A `loop` turns over at `above_floor` and
    comes down again at `returns`, to the drain and to the vent under the floor that start there: an island's vent.
    """

    id: Id
    at: Spot
    wall: Id | None = None
    size: DrainSize | None = None
    vent: DrainSize | None = None
    top: Literal["roof", "valve", "capped", "none", "loop"] = "roof"
    above_floor: Annotated[float, msgspec.Meta(ge=0.0, le=600.0)] | None = None
    returns: Spot | None = None


class Supply(Record, frozen=True, gc=False):
    """A hot or cold water run under the floor; `down` is its axis below the joists' top, mid-joist when None."""

    id: Id
    water: Water
    points: Path
    size: SupplySize = "1/2"
    down: Annotated[float, msgspec.Meta(ge=0.0, le=60.0)] | None = None
    insulation: Annotated[float, msgspec.Meta(ge=0.0, le=3.0)] = 0.5
    passing: Passing | None = None


class Exit(Record, frozen=True, gc=False):
    """Where the building drain leaves the drawn floor.

    `pinned_z` fixes the axis there; `sewer_invert_z` is a known invert that the drain must stay above. A
    `turn-down` goes plumb inside the rim to `tail_z`; `through-rim` is drawn to the rim's outside face.
    `cleanout_outside` says that a cleanout will stand where the building drain meets the sewer. `ground_z` is the ground
    (or slab) under it, None: as the floor's crawl space has it, if that is known; `meets` is what the drain passes on
    its way, None: not known; `sleeve` is the nominal size of the sleeve round it there. `frost_guard` keeps frost from the
    drop, a box with foam `box_foam` thick.
    """

    id: Id
    at: Spot
    how: Literal["turn-down", "through-rim"] = "turn-down"
    pinned_z: Annotated[float, msgspec.Meta(ge=-400.0, le=0.0)] | None = None
    sewer_invert_z: Annotated[float, msgspec.Meta(ge=-400.0, le=0.0)] | None = None
    tail_z: Annotated[float, msgspec.Meta(ge=-400.0, le=0.0)] = -24.0
    cleanout_outside: bool = False
    ground_z: Annotated[float, msgspec.Meta(ge=-400.0, le=0.0)] | None = None
    meets: Meets | None = None
    sleeve: SleeveSize | None = None
    frost_guard: FrostGuard = "none"
    box_foam: Annotated[float, msgspec.Meta(gt=0.0, le=12.0)] = 2.0


class Inlet(Record, frozen=True, gc=False):
    """Where the water service enters, with its static pressure in psi where known."""

    id: Id
    at: Spot
    size: SupplySize = "3/4"
    pressure_psi: Annotated[float, msgspec.Meta(ge=0.0, le=300.0)] | None = None


class PinnedFitting(Record, frozen=True, gc=False):
    """A fitting chosen by the user where pipes turn or meet: `level` says under the floor or in the wall."""

    id: Id
    at: Spot
    pattern: Pattern
    level: Level = "under"


class Cleanout(Record, frozen=True, gc=False):
    """A cleanout: at the upper end of a drain run under the floor, opening away from the flow, or in a riser.

    With `above_floor` it is a tee in the riser at that height, opening to the side that `turn` names; without,
    the run's end at `at` is closed by an adapter and plug. `size` None takes the pipe's.
    """

    id: Id
    at: Spot
    size: DrainSize | None = None
    above_floor: Annotated[float, msgspec.Meta(ge=0.0, le=96.0)] | None = None
    turn: Annotated[float, msgspec.Meta(ge=-360.0, le=360.0)] = 0.0


class AirOpening(Record, frozen=True, gc=False):
    """A window, door or air intake by which a vent's foul air could come in: its ends in plan, and its top."""

    id: Id
    start: Spot
    end: Spot
    top_above_floor: Annotated[float, msgspec.Meta(ge=0.0, le=600.0)] = 80.0
    name: Words = ""


class Hatch(Record, frozen=True, gc=False):
    """A way in to the space under the floor, in the floor or from outside: its middle, and its least clear width."""

    id: Id
    at: Spot
    clear: Annotated[float, msgspec.Meta(ge=4.0, le=120.0)] = 24.0
    name: Words = ""


class Floor(Record, frozen=True, gc=False):
    """The floor's outline by the outside of its framing, what lies on the joists, below them and over them.

    Where the layers of subfloor or finish are told, lowest first, they add up to its thickness.
    `belly` is how far under the joists the underside of an insulated belly lies, which closes the floor from below.
    `crawl` is the clear height under the joists, `design_temp` the winter's design temperature in deg F (97.5 percent),
    `roof_deck` a roof that people use, `seismic` the site's seismic design category; None: not known.
    """

    outline: Annotated[tuple[Spot, ...], msgspec.Meta(min_length=3, max_length=200)]
    subfloor: Annotated[float, msgspec.Meta(ge=0.0, le=6.0)] = 0.75
    finish: Annotated[float, msgspec.Meta(ge=0.0, le=6.0)] = 0.25
    subfloor_layers: tuple[FloorLayer, ...] = ()
    finish_layers: tuple[FloorLayer, ...] = ()
    roof_above_floor: Annotated[float, msgspec.Meta(ge=24.0, le=600.0)] = 126.0
    snow: Annotated[float, msgspec.Meta(ge=0.0, le=200.0)] = 0.0
    belly: Annotated[float, msgspec.Meta(ge=0.0, le=48.0)] | None = None
    crawl: Annotated[float, msgspec.Meta(ge=0.0, le=240.0)] | None = None
    design_temp: Annotated[float, msgspec.Meta(ge=-80.0, le=110.0)] | None = None
    roof_deck: bool = False
    seismic: SeismicCategory | None = None

    @property
    def finished_z(self) -> float:
        """Height of the finished floor above the joists' top, inches, where no area has a flooring of its own."""
        return self.subfloor + self.finish


class Plan(Record, frozen=True, gc=False):
    """Everything drawn on one floor. A value: edits make new plans that share what did not change."""

    floor: Floor
    name: Words = ""
    place: Words = ""
    drawn_by: Words = ""
    drawn_on: Words = ""
    rulebook: Annotated[str, msgspec.Meta(min_length=1, max_length=40)] = "irc-2021"
    material: Literal["PVC", "ABS"] = "PVC"
    slope: Annotated[float, msgspec.Meta(gt=0.0, le=12.0)] = 0.25
    fields: tuple[JoistField, ...] = ()
    floor_openings: tuple[FloorOpening, ...] = ()
    beams: tuple[Beam, ...] = ()
    flooring_areas: tuple[FlooringArea, ...] = ()
    walls: tuple[Wall, ...] = ()
    fixtures: tuple[Fixture, ...] = ()
    drains: tuple[Drain, ...] = ()
    vents: tuple[Vent, ...] = ()
    risers: tuple[Riser, ...] = ()
    supplies: tuple[Supply, ...] = ()
    exits: tuple[Exit, ...] = ()
    inlets: tuple[Inlet, ...] = ()
    fittings: tuple[PinnedFitting, ...] = ()
    cleanouts: tuple[Cleanout, ...] = ()
    air_openings: tuple[AirOpening, ...] = ()
    hatches: tuple[Hatch, ...] = ()
    sticks: tuple[StickForSale, ...] = ()
    on_hand: tuple[OnHand, ...] = ()
    spares: Annotated[float, msgspec.Meta(ge=0.0, le=2.0)] = 0.1
    takeoffs: tuple[MeasuredTakeOff, ...] = ()
    amendments: tuple[Amendment, ...] = ()
    rulings: tuple[Ruling, ...] = ()


Element = (
    JoistField
    | FloorOpening
    | Beam
    | FlooringArea
    | Wall
    | Fixture
    | Drain
    | Vent
    | Riser
    | Supply
    | Exit
    | Inlet
    | PinnedFitting
    | Cleanout
    | AirOpening
    | Hatch
)

KINDS: dict[str, type] = {
    "fields": JoistField,
    "floor_openings": FloorOpening,
    "beams": Beam,
    "flooring_areas": FlooringArea,
    "walls": Wall,
    "fixtures": Fixture,
    "drains": Drain,
    "vents": Vent,
    "risers": Riser,
    "supplies": Supply,
    "exits": Exit,
    "inlets": Inlet,
    "fittings": PinnedFitting,
    "cleanouts": Cleanout,
    "air_openings": AirOpening,
    "hatches": Hatch,
}
"""The plan's collections of elements by field name; ids are unique across all of them."""
