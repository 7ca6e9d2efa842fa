"""Which fields each kind of thing has in the properties pane, in their order, and how each is edited."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal, NamedTuple, get_args

from app.panels.measures import MEASURES
from app.panels.writing import (
    ANGLE,
    COUNT,
    DOUBLED,
    DOWN,
    FLOW,
    GALLONS,
    LAYERS,
    LENGTH,
    LENGTHS,
    MEASURED,
    NUMBERS,
    PRESSURE,
    SHIFTS,
    SLOPE,
    WORDS,
    Writing,
)
from engine.plan.outline import PATTERNS
from engine.plan.records import Fixture, FlooringArea, FloorOpening, Vent
from engine.plan.timber import Species
from engine.trade.fixtures import FixtureSpec, fixture

ANY = ""
"""Stands in `only` for any value at all that the other field may have, but none given: no list, no length but nought."""

How = Literal["fixture", "written", "shared", "chosen", "ticked", "spot", "pair", "path", "wall", "heading"]


class Field(NamedTuple):
    """One field: its name in the record, its words, how it is edited, and how it is written if it is.

    `optional` fields may be left empty; what then holds stands greyed in their place. `only` names another
    field and the value that it must have for this one to mean anything.
    """

    name: str
    words: str
    how: How
    writing: Writing = WORDS
    optional: bool = False
    choices: tuple[tuple[str, str], ...] = ()
    only: tuple[str, str] | None = None


def _sizes(*names: str) -> tuple[tuple[str, str], ...]:
    return tuple((name, f"{name} in") for name in names)


def _same(*names: str) -> tuple[tuple[str, str], ...]:
    return tuple((name, name) for name in names)


DRAIN_SIZES = _sizes("1-1/4", "1-1/2", "2", "3", "4")
SLEEVE_SIZES = _sizes("2", "3", "4", "5", "6", "8")
SUPPLY_SIZES = _sizes("3/8", "1/2", "3/4", "1")
PASSING = (("through", "bored through"), ("notched", "notched into them"), ("under", "hung under them"))
OVERHANG_LOADS = (("floor", "the floor alone"), ("wall and roof", "wall and roof"), ("balcony", "a balcony"))
LAP_MOVES = (("north or east", "the north or east one"), ("south or west", "the south or west one"))
LAP_SIDES = (("east or north", "east or north"), ("west or south", "west or south"))
NAME = Field("name", "Name", "written")
AT = Field("at", "Place", "spot")
PATH = Field("points", "Points", "path")
SLOPE_FIELD = Field("slope", "Slope", "shared", SLOPE, optional=True)
PASSING_FIELD = Field("passing", "Past the joists", "chosen", optional=True, choices=PASSING)
STUDS = (("through", "bored through"), ("notched", "let into their face"))
STUDS_FIELD = Field("passing", "Past a wall's studs", "chosen", optional=True, choices=STUDS)

FIELDS: dict[str, tuple[Field, ...]] = {
    "JoistField": (
        Field("lumber", "Lumber", "chosen", choices=_same("2x4", "2x6", "2x8", "2x10", "2x12")),
        Field("depth", "Measured depth", "written", LENGTH, optional=True),
        Field("spacing", "Spacing", "written", LENGTH),
        Field("direction", "Joists run", "chosen", choices=_same("north-south", "east-west")),
        Field("member", "Member", "chosen", choices=(("sawn", "sawn lumber"), ("engineered", "engineered"))),
        Field("size", "Outside measures", "pair", LENGTH),
        Field("corner", "South-west corner", "spot"),
        Field("first", "First joist's centre", "written", LENGTH, optional=True),
        Field("end_bearing", "Bearing at the ends", "written", LENGTH),
        Field("bearings", "Bearings between", "written", LENGTHS),
        Field("laps", "Lapped over bearings at", "written", LENGTHS),
        Field("lap", "Length of a lap", "written", LENGTH, only=("laps", ANY)),
        Field("lap_moves", "Lapped joist set aside", "chosen", choices=LAP_MOVES, only=("laps", ANY)),
        Field("lap_side", "Set aside to", "chosen", choices=LAP_SIDES, only=("laps", ANY)),
        Field("shifts", "Joists moved", "written", SHIFTS),
        Field("doubled", "Joists doubled", "written", DOUBLED),
        Field("measured", "Joists measured", "written", MEASURED),
        Field("overhangs", "Overhangs", "pair", LENGTH),
        Field(
            "overhang_carries",
            "Overhangs carry",
            "chosen",
            optional=True,
            choices=OVERHANG_LOADS,
            only=("overhangs", ANY),
        ),
        Field("blocking", "Rows of blocks", "written", LENGTHS),
        Field("species", "Species", "chosen", optional=True, choices=_same(*get_args(Species))),
        Field("rooms", "Rooms over it", "chosen", choices=(("living", "living areas"), ("sleeping", "sleeping rooms"))),
        Field("heavy_finish", "Heavy finish: tile", "ticked"),
        Field("graded", "Grade stamped", "ticked"),
        Field("to_outline", "Cut off at the outline", "ticked"),
    ),
    "FloorOpening": (
        NAME,
        Field("start", "One corner", "spot"),
        Field("end", "Opposite corner", "spot"),
        Field("headers", "Plies of headers", "written", COUNT),
        Field("trimmers", "Plies of trimmers", "written", COUNT),
        Field("open", "Floor left out (ladder, stair)", "ticked"),
    ),
    "Beam": (
        NAME,
        Field("material", "Made of", "chosen", choices=_same("wood", "engineered", "steel")),
        Field("start", "From", "spot"),
        Field("end", "To", "spot"),
        Field("width", "Width", "written", LENGTH),
        Field("depth", "Depth", "written", LENGTH),
        Field("top_z", "Its top", "written", DOWN, optional=True),
        Field("bearing", "Joists rest on it", "ticked"),
    ),
    "FlooringArea": (
        NAME,
        Field("finish_layers", "Layers, lowest first", "written", LAYERS),
        Field("finish", "Thickness", "written", LENGTH),
        Field("start", "One corner", "spot"),
        Field("end", "Opposite corner", "spot"),
    ),
    "Wall": (
        NAME,
        Field("lumber", "Studs", "chosen", choices=_same("2x4", "2x6")),
        Field("start", "From", "spot"),
        Field("end", "To", "spot"),
        Field("finish", "Wall board", "written", LENGTH),
        Field("bearing", "Carries load from above", "ticked"),
        Field("exterior", "Outside wall", "ticked"),
        Field("height", "Height of its plates", "written", LENGTH, optional=True),
        Field("top_plate", "Top plate", "chosen", choices=_same("double", "single")),
        Field("stud_spacing", "Studs apart", "written", LENGTH),
        Field("first_stud", "First stud's centre", "written", LENGTH, optional=True),
        Field("doubled", "Studs doubled", "written", NUMBERS),
        Field("stud_shifts", "Studs moved", "written", SHIFTS),
    ),
    "AirOpening": (
        NAME,
        Field("start", "From", "spot"),
        Field("end", "To", "spot"),
        Field("top_above_floor", "Its top above floor", "written", LENGTH),
    ),
    "Fixture": (
        NAME,
        AT,
        Field("turn", "Front looks", "heading", ANGLE),
        Field("through", "Drains through", "fixture", optional=True),
        Field("bowls", "Bowls on its trap", "written", COUNT),
        Field("bowls_apart", "Outlets apart", "written", LENGTH, optional=True),
        Field("disposer", "Food-waste disposer", "ticked"),
        Field("heads", "Shower heads", "written", COUNT),
        Field("gallons", "Flush", "written", GALLONS, optional=True),
        Field("trap", "Trap", "chosen", optional=True, choices=DRAIN_SIZES),
        Field("trap_at", "Trap's place", "spot", optional=True, only=("kind", "bathtub")),
        Field("outlet_above_floor", "Outlet above floor", "written", LENGTH, optional=True),
        Field("arm", "Arm in the wall", "written", LENGTH, optional=True),
        Field("rim_above_floor", "Rim above floor", "written", LENGTH, optional=True),
        Field("flow_gpm", "Water it draws", "written", FLOW, optional=True),
        Field("width", "Along the wall", "written", LENGTH, optional=True),
        Field("depth", "Out from the wall", "written", LENGTH, optional=True),
    ),
    "Drain": (
        Field("size", "Size", "chosen", optional=True, choices=DRAIN_SIZES),
        SLOPE_FIELD,
        PASSING_FIELD,
        Field(
            "join",
            "Joins below",
            "chosen",
            choices=(
                ("flat", "level with the pipe it meets"),
                ("rolled", "tilted up from the pipe it meets"),
                ("drop", "straight down onto it"),
            ),
        ),
        Field("roll", "Tilt", "written", ANGLE, only=("join", "rolled")),
        Field("rise", "Height above that pipe", "written", LENGTH, optional=True, only=("join", "rolled drop")),
        PATH,
    ),
    "Vent": (
        Field("above_floor", "Height above floor", "written", LENGTH, optional=True),
        Field("size", "Size", "chosen", optional=True, choices=DRAIN_SIZES),
        SLOPE_FIELD,
        PASSING_FIELD,
        PATH,
    ),
    "Riser": (
        AT,
        Field("wall", "In the wall", "wall", optional=True),
        Field("size", "Drain size", "chosen", optional=True, choices=DRAIN_SIZES),
        Field("vent", "Vent size", "chosen", optional=True, choices=DRAIN_SIZES),
        Field(
            "top",
            "Ends above",
            "chosen",
            choices=(
                ("roof", "through the roof"),
                ("valve", "in an air admittance valve"),
                ("capped", "capped"),
                ("none", "nothing goes on"),
                ("loop", "turns over and comes down"),
            ),
        ),
        Field(
            "above_floor",
            "That end above floor",
            "written",
            LENGTH,
            optional=True,
            only=("top", "roof valve capped loop"),
        ),
        Field("returns", "Comes down at", "spot", optional=True, only=("top", "loop")),
    ),
    "Supply": (
        Field("water", "Water", "chosen", choices=_same("cold", "hot")),
        Field("size", "Size", "chosen", choices=SUPPLY_SIZES),
        Field("down", "Below joists' top", "written", LENGTH, optional=True),
        Field("insulation", "Insulation", "written", LENGTH),
        PASSING_FIELD,
        PATH,
    ),
    "Exit": (
        AT,
        Field(
            "how",
            "Leaves",
            "chosen",
            choices=(("turn-down", "turning down inside the rim"), ("through-rim", "level, through the rim")),
        ),
        Field("pinned_z", "Pipe's middle fixed at", "written", DOWN, optional=True),
        Field("sewer_invert_z", "Bottom inside sewer", "written", DOWN, optional=True),
        Field("tail_z", "Turn-down ends", "written", DOWN, only=("how", "turn-down")),
        Field("cleanout_outside", "A cleanout will stand outside", "ticked"),
        Field("ground_z", "Ground under it", "written", DOWN, optional=True),
        Field(
            "meets",
            "On its way it passes",
            "chosen",
            optional=True,
            choices=(
                ("ground", "bare ground"),
                ("slab", "a concrete slab"),
                ("foundation", "a foundation or footing"),
            ),
        ),
        Field(
            "sleeve", "Sleeve there", "chosen", optional=True, choices=SLEEVE_SIZES, only=("meets", "slab foundation")
        ),
        Field(
            "frost_guard",
            "Against frost",
            "chosen",
            choices=(
                ("none", "nothing"),
                ("box", "an insulated box"),
                ("heat", "listed heat cable"),
                ("box-and-heat", "a box and heat cable"),
            ),
            only=("how", "turn-down"),
        ),
        Field("box_foam", "Foam of the box", "written", LENGTH, only=("frost_guard", "box box-and-heat")),
    ),
    "Inlet": (
        AT,
        Field("size", "Size", "chosen", choices=SUPPLY_SIZES),
        Field("pressure_psi", "Static pressure", "written", PRESSURE, optional=True),
    ),
    "PinnedFitting": (
        AT,
        Field("pattern", "Fitting", "chosen", choices=tuple(PATTERNS.items())),
        Field("level", "Where", "chosen", choices=(("under", "under the floor"), ("wall", "in the wall"))),
    ),
    "Cleanout": (
        AT,
        Field("size", "Size", "chosen", optional=True, choices=DRAIN_SIZES),
        Field("above_floor", "Height above floor", "written", LENGTH, optional=True),
        Field("turn", "Opens", "heading", ANGLE, only=("above_floor", ANY)),
    ),
    "Hatch": (NAME, AT, Field("clear", "Clear width", "written", LENGTH)),
}
"""By record. A test holds it complete: `id` and a fixture's `kind` are told in the pane's heading."""


MEASURES_FIELD = Field(MEASURES, "Measures", "pair", LENGTH)
"""Of what is drawn from corner to corner, beside the fields of its record."""


def fields_of(element: object) -> tuple[Field, ...]:
    """The fields of an element as it stands: an overhead vent passes studs where others pass joists."""
    fields = FIELDS[type(element).__name__]
    if isinstance(element, FloorOpening | FlooringArea):
        place = next(number for number, field in enumerate(fields) if field.name == "end") + 1
        fields = (*fields[:place], MEASURES_FIELD, *fields[place:])
    if isinstance(element, Vent) and element.above_floor is not None:
        return tuple(STUDS_FIELD if field is PASSING_FIELD else field for field in fields)
    return fields


def means_something(field: Field, element: object) -> bool:
    """Whether a field matters to this element as it stands; others are hidden.

    A fixture's field matters where the kind has such a thing, or where the plan gives a value all the same.
    """
    if isinstance(element, Fixture) and field.name in OF_KINDS:
        meant = element.kind in OF_KINDS[field.name] and (field.name != "bowls_apart" or element.bowls > 1)
        return meant or getattr(element, field.name) not in (None, 1, False)
    if isinstance(element, Fixture) and field.name in OF_ITS_DRAIN and element.through is not None:
        return getattr(element, field.name) is not None
    if isinstance(element, Fixture) and field.name in OF_THE_KIND:
        return getattr(element, field.name) is not None or OF_THE_KIND[field.name](fixture(element.kind))
    if field.only is None:
        return True
    other, values = field.only
    value = getattr(element, other)
    if values == ANY:
        return any(value) if isinstance(value, tuple) else value is not None
    return value in values.split()


OF_ITS_DRAIN = frozenset({"trap", "trap_at", "outlet_above_floor", "arm"})
"""Fields of fixtures that mean nothing while another fixture's trap takes their waste."""

OF_THE_KIND: dict[str, Callable[[FixtureSpec], bool]] = {
    "trap": lambda spec: spec.trap is not None,
    "outlet_above_floor": lambda spec: spec.outlet_above_floor is not None,
    "arm": lambda spec: spec.arm is not None,
    "rim_above_floor": lambda spec: spec.rim_above_floor is not None,
    "flow_gpm": lambda spec: spec.cold or spec.hot,
    "through": lambda spec: spec.hosts is not None,
}
"""Fields of fixtures that only some kinds have, and which."""

OF_KINDS: dict[str, frozenset[str]] = {
    "bowls": frozenset({"kitchen_sink", "bar_sink", "laundry_tub", "lavatory"}),
    "bowls_apart": frozenset({"kitchen_sink", "bar_sink", "laundry_tub", "lavatory"}),
    "heads": frozenset({"shower", "bathtub"}),
    "gallons": frozenset({"water_closet"}),
    "disposer": frozenset({"kitchen_sink"}),
}
"""Fields of fixtures that matter to these kinds alone."""
