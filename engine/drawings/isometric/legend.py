"""The legend of an isometric: its lines, its marks, and the symbol of every kind of part that stands on the sheet."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from engine.drawings.isometric.lines import BREAK
from engine.drawings.isometric.names import full_name, short
from engine.drawings.isometric.shapes import BODY, LEG, Leg, Site
from engine.drawings.isometric.skeleton import SYSTEMS, Cover
from engine.drawings.isometric.symbols import symbol_of
from engine.drawings.linetypes import LINE_TYPES, MEDIUM, THIN, WIDE
from engine.drawings.strokes import Drawing, Fill, Line, Stroke, Text
from engine.drawings.typeface import text_width
from engine.plan.records import Point
from engine.trade.kinds import KINDS

ROW = 3.0
"""From one entry to the next, as a multiple of the lettering's height."""

SAMPLE = 0.5
"""How wide a sample is, paper inches at the usual lettering."""

_GAP = 0.06
_BETWEEN = 0.14

UP, DOWN, LEFT = (0.0, 1.0), (0.0, -1.0), (-1.0, 0.0)
NEAR_LEFT, FAR_RIGHT = (-0.866, -0.5), (0.866, 0.5)
FAR_LEFT, NEAR_RIGHT = (-0.866, 0.5), (0.866, -0.5)

SIDEWAYS = {"eighth_bend", "street_eighth_bend", "sixteenth_bend", "street_sixteenth_bend", "sixth_bend"}
"""Bends that are shown lying, since they mostly do."""

IN_RISER = {"sanitary_tee", "double_sanitary_tee", "double_fixture_fitting", "test_tee"}
"""Fittings that are shown standing."""

Sample = Callable[[Point, float], list[Stroke]]
"""Draws a sample round a point, at a share of the usual size."""


def isometric_legend(
    kinds: Iterable[str], cover: Cover, width: float | None, lettering: float, usual: float
) -> Drawing:
    """What stands on a sheet, in as many columns as the width takes, or in one and as wide as that is.

    `usual` is the lettering of full-size symbols.
    """
    entries = _entries(list(dict.fromkeys(kinds)), cover)
    unit = lettering / usual
    column = SAMPLE * unit + _GAP + max(text_width(words, lettering) for _, words in entries) + _BETWEEN
    width = column - _BETWEEN if width is None else width
    columns = max(1, int((width + _BETWEEN) / column))
    rows = -(-len(entries) // columns)
    row = ROW * lettering
    height = rows * row
    strokes: list[Stroke] = []
    for n, (sample, words) in enumerate(entries):
        place, line = divmod(n, rows)
        x, y = place * width / columns, height - (line + 0.5) * row
        strokes += sample((x + SAMPLE * unit / 2.0, y), unit)
        strokes.append(Text((x + SAMPLE * unit + _GAP, y - lettering / 2.0), words, lettering))
    return Drawing(tuple(strokes), width, height, (0.0, 0.0, width, height))


def _entries(kinds: list[str], cover: Cover) -> list[tuple[Sample, str]]:
    entries: list[tuple[Sample, str]] = [(_pipe(system), _line_words(system)) for system in SYSTEMS[cover]]
    if cover == "drains":
        entries.append((_mark("D1"), "piece on the cut list, with its size"))
        entries.append((_arrow, "the way the water flows"))
    else:
        entries.append((_mark("c1"), "run of the plan, with its size"))
    entries.append((_break, "drawn shorter than it is"))
    known = sorted(kinds, key=lambda kind: (kind not in KINDS, list(KINDS).index(kind) if kind in KINDS else 0, kind))
    entries += [(_part(kind, cover), _part_words(kind)) for kind in known]
    return entries


def _line_words(system: str) -> str:
    kind = LINE_TYPES[system]
    return f"{kind.letters}: {kind.words}"


def _part_words(kind: str) -> str:
    name, full = short(kind), full_name(kind)
    return full if full.startswith(name) else f"{name}: {full}"


def _pipe(system: str) -> Sample:
    def draw(at: Point, unit: float) -> list[Stroke]:
        kind = LINE_TYPES[system]
        half = SAMPLE * unit * 0.46
        dashes = tuple(dash * unit * (0.3 if dash > 0.2 else 1.0) for dash in kind.dashes)
        return [Line(((at[0] - half, at[1]), (at[0] + half, at[1])), kind.weight, dashes)]

    return draw


def _mark(words: str) -> Sample:
    def draw(at: Point, unit: float) -> list[Stroke]:
        height = 0.06 * unit
        wide, high = text_width(words, height, bold=True) / 2.0 + 0.03 * unit, height / 2.0 + 0.03 * unit
        x, y = at
        frame = ((x - wide, y - high), (x + wide, y - high), (x + wide, y + high), (x - wide, y + high))
        return [Line(frame, THIN, closed=True), Text((x, y - height / 2.0), words, height, "middle", bold=True)]

    return draw


def _arrow(at: Point, unit: float) -> list[Stroke]:
    x, y = at
    half, long, wide = SAMPLE * unit * 0.4, 0.05 * unit, 0.032 * unit
    head = ((x + long, y), (x - long, y + wide), (x - long, y - wide))
    return [Line(((x - half, y), (x + half, y)), LINE_TYPES["waste"].weight), Fill(head, 0.0)]


def _break(at: Point, unit: float) -> list[Stroke]:
    x, y = at
    half, gap = SAMPLE * unit * 0.4, BREAK * unit
    strokes: list[Stroke] = [Line(((x + way * gap, y), (x + way * half, y)), MEDIUM) for way in (-1.0, 1.0)]
    for way in (-1.0, 1.0):
        middle = x + way * gap
        strokes.append(Line(((middle - gap * 0.55, y - gap * 1.5), (middle + gap * 0.55, y + gap * 1.5)), THIN))
    return strokes


def _part(kind: str, cover: Cover) -> Sample:
    """A part as it may lie on the sheet."""

    def draw(at: Point, unit: float) -> list[Stroke]:
        weight = min(LINE_TYPES[SYSTEMS[cover][0]].weight, WIDE)
        reach = LEG * unit
        spread = _ways(kind)
        if spread is None:
            begin = (at[0] - BODY * unit / 2.0, at[1])
            pipe = Line((begin, (begin[0] - 0.14 * unit, begin[1])), weight)
            return [pipe, *symbol_of(kind)(Site(begin, (Leg((1.0, 0.0), BODY * unit),), weight, unit))]
        trap = kind in TRAPS
        legs = tuple(Leg(way, reach * (2.0 if trap and way != UP else 1.0), end == "hub") for way, end in spread)
        middle = (at[0] - reach * 0.8, at[1]) if trap else at
        if kind == ROOF:
            middle = (at[0], at[1] + reach)
        return symbol_of(kind)(Site(middle, legs, weight, unit))

    return draw


def _ways(kind: str) -> tuple[tuple[Point, str], ...] | None:
    """The legs with which a fitting is shown; None for what is mounted on a pipe's end."""
    if kind in TRAPS:
        return TRAPS[kind]
    if kind in ("closet_flange_4x3", "closet_flange_hub"):
        return ((DOWN, "hub"),)
    if kind in WATER_LEGS:
        return tuple((way, "hub") for way in WATER_LEGS[kind])
    if kind == ROOF:
        return ((UP, "hub"),)
    found = KINDS.get(kind)
    if found is None or found.turn == 0.0:
        return ((FAR_RIGHT, "hub"), (NEAR_LEFT, "hub")) if kind.endswith("coupling") else None
    ends = found.ends
    if len(ends) == 2:
        ways = (NEAR_LEFT, (1.0, 0.0)) if kind in SIDEWAYS else (UP, NEAR_RIGHT)
        return tuple(zip(ways, ends, strict=True))
    if kind in IN_RISER:
        three = ((UP, "hub"), (DOWN, "hub"), (FAR_RIGHT, "hub"))
        return (*three, (NEAR_LEFT, "hub")) if found.double_of else three
    branch = LEFT if found.turn < 90.0 else FAR_LEFT
    run = ((NEAR_LEFT, "hub"), (FAR_RIGHT, "hub"), (branch, "hub"))
    return (*run, (UP if found.turn < 90.0 else NEAR_RIGHT, "hub")) if found.double_of else run


ROOF = "vent_flashing"
"""The part that hangs below the end that it is drawn at."""

TRAPS: dict[str, tuple[tuple[Point, str], ...]] = {
    "p_trap": ((UP, "hub"), (FAR_RIGHT, "hub")),
    "tubular_trap": ((FAR_RIGHT, "hub"),),
}
"""The legs with which traps are shown."""

WATER_LEGS: dict[str, tuple[Point, ...]] = {
    "tube_tee": (NEAR_LEFT, FAR_RIGHT, FAR_LEFT),
    "tube_elbow": (NEAR_LEFT, NEAR_RIGHT),
    "tube_reducing_elbow": (NEAR_LEFT, NEAR_RIGHT),
    "tube_reducing_coupling": (FAR_RIGHT, NEAR_LEFT),
    "tube_stub_elbow": (DOWN, FAR_RIGHT),
}
"""The legs with which the fittings of tubes are shown."""
