"""The plan's things in words: one line each, grouped, for lists that are read instead of looked at."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from engine.lengths import feet_inches, inches
from engine.plan.axis import length
from engine.plan.points import Run, runs
from engine.plan.records import (
    AirOpening,
    Beam,
    Cleanout,
    Drain,
    Element,
    Exit,
    Fixture,
    Floor,
    FlooringArea,
    FloorLayer,
    FloorOpening,
    Hatch,
    Inlet,
    JoistField,
    Pattern,
    PinnedFitting,
    Plan,
    Point,
    Riser,
    Supply,
    Vent,
    Wall,
)
from engine.plan.welds import UNDER, Fixed, System, comes_down, grips, level_of

GROUPS: dict[str, str] = {
    "fields": "Joists",
    "floor_openings": "Openings framed in the floor",
    "beams": "Beams",
    "flooring_areas": "Areas with a flooring of their own",
    "walls": "Walls",
    "fixtures": "Fixtures",
    "drains": "Drains",
    "vents": "Vents",
    "risers": "Risers",
    "supplies": "Water runs",
    "exits": "Exits",
    "inlets": "Water inlets",
    "fittings": "Pinned fittings",
    "cleanouts": "Cleanouts",
    "air_openings": "Windows, doors and air intakes",
    "hatches": "Ways in under the floor",
}
"""Headings of the outline, by the plan's collections, in the order in which they are shown."""

PATTERNS: dict[Pattern, str] = {
    "quarter_bend": "quarter bend",
    "long_sweep_quarter_bend": "long-sweep quarter bend",
    "closet_bend": "closet bend",
    "eighth_bend": "eighth bend",
    "sixteenth_bend": "sixteenth bend",
    "sixth_bend": "sixth bend",
    "sanitary_tee": "sanitary tee",
    "wye": "wye",
    "combo_wye_eighth_bend": "combination wye and eighth bend",
}
"""What the fittings that can be chosen by hand are called; a test holds the trade's own names equal."""

_KINDS: dict[type, str] = {
    JoistField: "joists",
    FloorOpening: "floor opening",
    Beam: "beam",
    FlooringArea: "flooring area",
    Wall: "wall",
    Drain: "drain",
    Vent: "vent",
    Riser: "riser",
    Exit: "exit",
    Inlet: "water inlet",
    Cleanout: "cleanout",
    AirOpening: "opening",
    Hatch: "hatch",
}
_NAMED = (FloorOpening, Beam, FlooringArea, Wall, AirOpening, Hatch)
_GUARDS = {
    "box": "boxed against frost",
    "heat": "heated against frost",
    "box-and-heat": "boxed and heated against frost",
}
_TOPS = {
    "roof": "through the roof",
    "valve": "to an air admittance valve",
    "capped": "capped",
    "none": "no vent of its own",
    "loop": "turns over and comes down again",
}
_COMPASS = ("east", "north-east", "north", "north-west", "west", "south-west", "south", "south-east")


class Entry(NamedTuple):
    """One line of the outline: the element's id and its words."""

    element: str
    text: str


class Group(NamedTuple):
    """The elements of one of the plan's collections, under their heading."""

    kind: str
    title: str
    entries: tuple[Entry, ...]


def listed(names: Iterable[str]) -> str:
    """Names in a row, as one says them: ``d1, d2 and d3``."""
    row = list(names)
    return f"{', '.join(row[:-1])} and {row[-1]}" if len(row) > 1 else "".join(row)


def outline(plan: Plan, stubs: Iterable[tuple[str, System, Point]] = ()) -> tuple[Group, ...]:
    """Everything in the plan, a line each; collections with nothing in them are left out.

    `stubs` are the places where water comes up for fixtures, by the fixture's id: trade data lie above the plan.
    """
    ends = _Ends(plan, stubs)
    walls = {wall.id: wall for wall in plan.walls}
    return tuple(
        Group(kind, title, tuple(Entry(element.id, _line(element, ends, walls)) for element in getattr(plan, kind)))
        for kind, title in GROUPS.items()
        if getattr(plan, kind)
    )


def tell(plan: Plan, element: Element) -> str:
    """One element's line: ``Drain d3: 3 in, from water closet f1 to exit x1, 6'-0"``."""
    return _line(element, _Ends(plan), {wall.id: wall for wall in plan.walls})


def describe(element: Element) -> str:
    """What an element is called, to begin a line with: ``Water closet f1``."""
    words = called(element)
    return words[:1].upper() + words[1:]


def called(element: Element) -> str:
    """What an element is called inside a sentence: ``water closet f1``, ``south wall w1``, ``cold water run s2``."""
    return f"{_noun(element)} {element.id}"


def compass(degrees: float) -> str:
    """A heading in words: the nearest of eight, "north-east"."""
    return _COMPASS[round(degrees / 45.0) % 8]


def _noun(element: Element) -> str:
    if isinstance(element, Supply):
        return f"{element.water} water run"
    if isinstance(element, PinnedFitting):
        return PATTERNS[element.pattern]
    if isinstance(element, Fixture):
        return element.name or element.kind.replace("_", " ")
    return (element.name if isinstance(element, _NAMED) else "") or _KINDS[type(element)]


def _line(element: Element, ends: _Ends, walls: dict[str, Wall]) -> str:
    return f"{describe(element)}: {', '.join(_facts(element, ends, walls))}"


def _facts(element: Element, ends: _Ends, walls: dict[str, Wall]) -> list[str]:
    match element:
        case JoistField():
            return _of_field(element)
        case FloorOpening():
            sides = (abs(element.end[0] - element.start[0]), abs(element.end[1] - element.start[1]))
            return [f"{feet_inches(sides[0])} by {feet_inches(sides[1])} clear", *_of_plies(element)]
        case Beam():
            what = [element.material, feet_inches(length((element.start, element.end)))]
            section = f"{inches(element.width)} in wide and {inches(element.depth)} in deep"
            return [*what, section, *(["joists rest on it"] if element.bearing else [])]
        case FlooringArea():
            sides = (abs(element.end[0] - element.start[0]), abs(element.end[1] - element.start[1]))
            thick = f"{inches(element.finish)} in thick"
            return [f"{feet_inches(sides[0])} by {feet_inches(sides[1])}", thick, *_layer_words(element.finish_layers)]
        case Wall():
            what = [element.lumber, feet_inches(length((element.start, element.end)))]
            return [*what, *(word for word in ("exterior", "bearing") if getattr(element, word))]
        case Fixture():
            through = [f"drains through {element.through}"] if element.through is not None else []
            return [_where(element.at), f"facing {compass(element.turn)}", *through]
        case Riser():
            wall = walls.get(element.wall or "")
            down = comes_down(element)
            again = [_where(down)] if down is not None else []
            return [f"in {called(wall)}" if wall is not None else "in no wall", _TOPS[element.top], *again]
        case Exit():
            how = "turns down inside the rim" if element.how == "turn-down" else "goes out through the rim"
            outside = ["a cleanout outside"] if element.cleanout_outside else []
            sleeve = [f"in a {element.sleeve} in sleeve"] if element.sleeve is not None else []
            frost = [_GUARDS[element.frost_guard]] if element.frost_guard != "none" else []
            return [how, _where(element.at), *outside, *sleeve, *frost]
        case Inlet():
            return [f"{element.size} in", _where(element.at)]
        case PinnedFitting():
            return ["under the floor" if element.level == "under" else "in the wall", _where(element.at)]
        case Cleanout(above_floor=height) if height is not None:
            riser = ends.riser_at(element.at)
            where = f"in {called(riser)}" if riser is not None else "in no riser"
            up = f"{feet_inches(height)} above the floor"
            return [_plug(element), where, up, f"opens {compass(element.turn)}"]
        case Cleanout():
            drain = ends.drain_at(element.at)
            return [_plug(element), _opens(element, drain), _where(element.at)]
        case AirOpening():
            wide = feet_inches(length((element.start, element.end)))
            return [f"{wide} wide", f"its top {feet_inches(element.top_above_floor)} above the floor"]
        case Hatch():
            return [f"{feet_inches(element.clear)} clear", _where(element.at)]
        case Vent(above_floor=height) if height is not None:
            return [_size(element), f"{feet_inches(height)} above the floor", *ends.of(element)]
        case _:
            return [_size(element), *ends.of(element)]


def flooring_words(flooring: Floor | FlooringArea) -> str:
    """A finished flooring's thickness and what it is made of: ``5/8 in (1/4 in backer board and 3/8 in tile)``."""
    return f"{inches(flooring.finish)} in{made_of(flooring.finish_layers)}"


def made_of(layers: Iterable[FloorLayer]) -> str:
    """What a thickness is made of, lowest layer first, in brackets; nothing where it is not told."""
    told = _layer_words(layers)
    return f" ({listed(told)})" if told else ""


def _layer_words(layers: Iterable[FloorLayer]) -> list[str]:
    return [f"{inches(layer.thickness, 32)} in {layer.name}".strip() for layer in layers]


def _of_field(field: JoistField) -> list[str]:
    width, depth = map(feet_inches, field.size)
    lapped = [f"lapped at {' and '.join(map(feet_inches, field.laps))}"] if field.laps else []
    laid = [f"{field.lumber} at {inches(field.spacing)} in", f"running {field.direction}", f"{width} by {depth}"]
    return [*laid, *lapped]


def _of_plies(opening: FloorOpening) -> list[str]:
    plies = {1: "single", 2: "double", 3: "triple"}
    return [f"{plies[opening.headers]} headers", f"{plies[opening.trimmers]} trimmers"]


def _size(run: Run) -> str:
    return "size by its load" if run.size is None else f"{run.size} in"


def _plug(cleanout: Cleanout) -> str:
    return "size of its pipe" if cleanout.size is None else f"{cleanout.size} in"


def _opens(cleanout: Cleanout, drain: Drain | None) -> str:
    """Where on a drain a cleanout under the floor opens it."""
    if drain is None:
        return "at no drain"
    at_end = cleanout.at in (drain.points[0], drain.points[-1])
    return f"at the end of {called(drain)}" if at_end else f"where {called(drain)} turns"


def _where(point: Point) -> str:
    return f"{feet_inches(point[0])} east and {feet_inches(point[1])} north"


class _Ends:
    """What stands or runs at each place of a plan, so that a run's ends can be told."""

    def __init__(self, plan: Plan, stubs: Iterable[tuple[str, System, Point]] = ()) -> None:
        self._things: dict[tuple[System, Point], list[tuple[float | None, Element]]] = {}
        things: tuple[Fixed, ...] = (*plan.exits, *plan.fixtures, *plan.risers, *plan.inlets)
        for thing in things:
            for place in grips(thing):
                self._things.setdefault((place.system, place.point), []).append((place.level, thing))
        fixtures = {fixture.id: fixture for fixture in plan.fixtures}
        for name, system, point in stubs:
            self._things.setdefault((system, point), []).append((None, fixtures[name]))
        self._runs: dict[tuple[System, Point, float], list[Run]] = {}
        for run in runs(plan):
            system, level = level_of(run)
            for point in run.points:
                self._runs.setdefault((system, point, level), []).append(run)

    def of(self, run: Run) -> list[str]:
        """Where a run goes, exit last, and how long it is in plan."""
        start, end = self._at(run, run.points[0]), self._at(run, run.points[-1])
        if isinstance(start, Exit) and not isinstance(end, Exit):
            start, end = end, start
        first, last = ("an open end" if one is None else called(one) for one in (start, end))
        return [f"from {first} to {last}", feet_inches(length(run.points))]

    def drain_at(self, point: Point) -> Drain | None:
        """The drain run that ends at a point under the floor, or at least passes it."""
        there = [run for run in self._runs.get(("waste", point, UNDER), ()) if isinstance(run, Drain)]
        return next((run for run in there if point in (run.points[0], run.points[-1])), there[0] if there else None)

    def riser_at(self, point: Point) -> Riser | None:
        """The riser at a point."""
        return next((thing for _, thing in self._things.get(("waste", point), ()) if isinstance(thing, Riser)), None)

    def _at(self, run: Run, point: Point) -> Element | None:
        system, level = level_of(run)
        for held, thing in self._things.get((system, point), ()):
            if held is None or held == level:
                return thing
        return next((other for other in self._runs[system, point, level] if other.id != run.id), None)
