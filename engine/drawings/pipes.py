"""Pipes on paper: their line types with letters, flow arrows, slopes, risers, the exit and the water's inlet."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import NamedTuple

from engine.drawings.labels import Box, text_boxes
from engine.drawings.linetypes import FINE, LETTERS_EVERY, LINE_TYPES, MEDIUM, THIN, WIDE
from engine.drawings.sheet import Sheet
from engine.drawings.strokes import Arc, Fill, Line, Text
from engine.drawings.twins import Stretch, bare_side
from engine.drawings.typeface import text_width
from engine.lengths import feet_inches, inches
from engine.piping import islands
from engine.piping.records import Network, Node, Pipe
from engine.plan.records import Exit, Point
from engine.study import Study
from engine.takeoff.runs import runs
from engine.trade import fixtures as trade
from engine.trade.pipe import drain
from engine.trade.pipe import label as size_label

TOPS = {"roof": "VTR", "valve": "AAV", "capped": "CAPPED", "none": "", "loop": "LOOP"}
"""How a riser's vent ends, in letters."""

_RISER = 0.055
_DOT = 0.018
_ARROW = (0.1, 0.03)
_LIFT = 0.13
_STUB = 0.6


_HIDES = 4.0
"""What letters in the line may cover: more would hide a cut's cross or a number, and they stand beside the line instead."""


class Track(NamedTuple):
    """One drawn run: its points in plan, system, the size where it is the same throughout, its height overhead, and how far
    a water line's axis lies under the joists' top where not all of its kind lie at one depth."""

    element: str
    system: str
    points: tuple[Point, ...]
    sizes: tuple[str, ...]
    overhead: float | None = None
    under: float | None = None


def tracks(study: Study) -> Iterator[Track]:
    """Every drawn run with the size of each of its stretches."""
    plan = study.plan
    by_element: dict[str, list[Pipe]] = {}
    for pipe in study.model.network.pipes:
        by_element.setdefault(pipe.element, []).append(pipe)
    for drain_run in plan.drains:
        sizes = _sizes(drain_run.points, by_element.get(drain_run.id, ()), drain_run.size)
        yield Track(drain_run.id, "waste", drain_run.points, sizes)
    for vent in plan.vents:
        sizes = _sizes(vent.points, by_element.get(vent.id, ()), vent.size)
        yield Track(vent.id, "vent", vent.points, sizes, vent.above_floor)
    depths = water_depths(study)
    for supply in plan.supplies:
        sizes = (supply.size,) * (len(supply.points) - 1)
        several = len({depths[other.id] for other in plan.supplies if other.water == supply.water}) > 1
        yield Track(supply.id, supply.water, supply.points, sizes, under=depths[supply.id] if several else None)


def water_depths(study: Study) -> dict[str, float | None]:
    """How far each water line's axis lies under the joists' top; None where no joist says."""
    if not study.plan.supplies:
        return {}
    heights = {run.element: run.stretches[0].z0 for run in runs(study.model) if run.stretches}
    found = ((supply.id, heights.get(supply.id)) for supply in study.plan.supplies)
    return {name: None if z is None else -z for name, z in found}


def depth_words(study: Study) -> str:
    """How deep all cold and all hot lines lie, where they lie at one depth each; else the lines tell it themselves."""
    depths, said = water_depths(study), []
    for water in ("cold", "hot"):
        there = {depths[supply.id] for supply in study.plan.supplies if supply.water == water}
        only = next(iter(there), None)
        if len(there) == 1 and only is not None:
            said.append(f'{water.upper()} WATER LIES {inches(only)}" DN')
    return ", ".join(said)


def _sizes(points: tuple[Point, ...], pipes: Iterable[Pipe], pinned: str | None) -> tuple[str, ...]:
    """The size of each stretch between two points: that of the pipe that lies on it."""
    flat = [pipe for pipe in pipes if pipe.run > 0.0]
    found = []
    for a, b in pairwise(points):
        middle = ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0)
        near = min(flat, key=lambda pipe: _off(pipe, middle), default=None)
        found.append(size_label(near.size) if near is not None else pinned or "")
    return tuple(found)


def _off(pipe: Pipe, point: Point) -> float:
    (ax, ay), (bx, by) = pipe.start[:2], pipe.end[:2]
    run = (bx - ax) ** 2 + (by - ay) ** 2
    share = min(1.0, max(0.0, ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / run)) if run else 0.0
    return math.dist(point, (ax + share * (bx - ax), ay + share * (by - ay)))


def shown(sheet: Sheet, system: str) -> bool:
    """Whether a sheet shows a system."""
    if sheet.content in ("everything", "overview"):
        return True
    return (system in ("waste", "vent")) == (sheet.content == "drains")


def draw_lines(sheet: Sheet, study: Study) -> list[Track]:
    """The lines themselves; returns the runs that this sheet shows."""
    found = [track for track in tracks(study) if shown(sheet, track.system)]
    for track in found:
        kind = LINE_TYPES[track.system]
        points = sheet.frame.many(track.points)
        layer = "overhead" if track.overhead is not None else _LAYER[track.system]
        sheet.add(layer, Line(points, kind.weight, kind.dashes))
        for a, b in pairwise(points):
            sheet.room.take_line(a, b, 0.03)
    return found


_LAYER = {"waste": "drains", "vent": "vents", "cold": "water", "hot": "water"}


def draw_letters(sheet: Sheet, track: Track, drawn: Iterable[Track]) -> None:
    """Size and letters in the line, again and again; a run too short for them is labelled from beside.

    Of two water runs drawn side by side each has its letters on its own side. The overview leaves the letters of mere stubs to the sheets of one trade.
    """
    letters = LINE_TYPES[track.system].letters
    points = sheet.frame.many(track.points)
    length = sum(math.dist(a, b) for a, b in pairwise(points))
    wanted = max(1, round(length / LETTERS_EVERY))
    stretches = [
        (a, b, f'{size}" {letters}' if size else letters)
        for (a, b), size in zip(pairwise(points), track.sizes, strict=True)
    ]
    if track.overhead is not None:
        stretches = [(a, b, f"{text} AT {feet_inches(track.overhead)}") for a, b, text in stretches]
    twins = [
        pair
        for other in drawn
        if _is_water(track) and _is_water(other) and other is not track
        for pair in pairwise(sheet.frame.many(other.points))
        if pair[0] != pair[1]
    ]
    if track.under is not None and sheet.content != "overview":
        stretches = [(a, b, f'{text} {inches(track.under)}" DN') for a, b, text in stretches]
    places = list(_places(sheet, stretches, twins))
    done = 0
    while places and done < wanted:
        cost, words = min(places, key=lambda place: place[0])
        if cost > _HIDES:
            break
        sheet.add("labels", words)
        sheet.room.take_text(words)
        done += 1
        places = [(cost, text) for cost, text in places if math.dist(text.at, words.at) > LETTERS_EVERY * 0.6]
    if not done and stretches and (sheet.content != "overview" or length > _STUB):
        a, b, text = max(stretches, key=lambda stretch: math.dist(stretch[0], stretch[1]))
        middle = ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0)
        sheet.label(middle, text)


def _is_water(track: Track) -> bool:
    return track.system in ("cold", "hot")


def _places(
    sheet: Sheet, stretches: list[tuple[Point, Point, str]], twins: list[Stretch]
) -> Iterator[tuple[float, Text]]:
    """Texts in the lines where a stretch is long enough, beside it where a twin runs, each with what it would cover."""
    for a, b, text in stretches:
        run, width = math.dist(a, b), text_width(text, sheet.height)
        if run < width + 0.16:
            continue
        lift = _LIFT * bare_side(a, b, twins, sheet.height)
        if _turned_to_read(a, b):
            lift = -lift
        steps = max(1, int((run - width) / 0.12))
        for n in range(steps + 1):
            along = (width / 2.0 + 0.08 + (run - width - 0.16) * n / steps) / run
            words = _in_line(a, b, along, text, sheet.height, lift)
            yield sum(sheet.room.cost(box) for box in text_boxes(words)) + abs(along - 0.5) * 0.3, words


def _in_line(a: Point, b: Point, share: float, text: str, height: float, lift: float = 0.0) -> Text:
    """A text along a line, its middle `lift` above it, read from the bottom or from the right."""
    angle = math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))
    if _turned_to_read(a, b):
        angle += 180.0 if angle < 0.0 else -180.0
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    x, y = a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])
    drop = height / 2.0 - lift
    return Text((x + s * drop, y - c * drop), text, height, "middle", angle, halo=True)


def _turned_to_read(a: Point, b: Point) -> bool:
    """Whether a text along a line runs against the line's own way, so that it is read from the bottom or the right."""
    return not -89.0 < math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])) <= 91.0


def draw_flow(sheet: Sheet, network: Network) -> None:
    """An arrowhead on each stretch of drain, pointing with the flow."""
    long, half = _ARROW
    for pipe in network.pipes:
        if pipe.system != "waste" or pipe.run <= 0.0 or pipe.id.endswith(".arm"):
            continue
        a, b = sheet.frame.at(pipe.start[:2]), sheet.frame.at(pipe.end[:2])
        run = math.dist(a, b)
        if run < 2.0 * long:
            continue
        ux, uy = (b[0] - a[0]) / run, (b[1] - a[1]) / run
        steps = max(1, int(run / 0.1))
        options = []
        for n in range(1, steps + 1):
            at = run * n / (steps + 1)
            x, y = a[0] + ux * at, a[1] + uy * at
            cost = sheet.room.cost(Box(x - long * 0.6, y - long * 0.6, x + long * 0.6, y + long * 0.6))
            options.append((cost + abs(n / (steps + 1) - 0.5), x, y))
        _, x, y = min(options)
        tip = (x + ux * long / 2.0, y + uy * long / 2.0)
        tail = (x - ux * long / 2.0, y - uy * long / 2.0)
        head = (
            tip,
            (tail[0] - uy * half * 1.6, tail[1] + ux * half * 1.6),
            (tail[0] + uy * half * 1.6, tail[1] - ux * half * 1.6),
        )
        sheet.add("marks", Fill(head, 0.0))
        sheet.room.take(Box(x - long / 2.0, y - long / 2.0, x + long / 2.0, y + long / 2.0))


def draw_slopes(sheet: Sheet, study: Study) -> None:
    """The slope of each drain and vent under the floor, beside its longest stretch."""
    longest: dict[str, Pipe] = {}
    for pipe in study.model.network.pipes:
        if pipe.shape == "level" and not pipe.id.endswith(".arm") and pipe.system == "waste":
            held = longest.get(pipe.element)
            if held is None or pipe.run > held.run:
                longest[pipe.element] = pipe
    for pipe in longest.values():
        text = f'{inches(pipe.slope, 64)}" PER FT'
        a, b = sheet.frame.at(pipe.start[:2]), sheet.frame.at(pipe.end[:2])
        width = text_width(text, sheet.height * 0.9)
        best: tuple[float, Text] | None = None
        if math.dist(a, b) > width:
            for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.22, 0.78):
                for lift in (_LIFT, -_LIFT):
                    words = _in_line(a, b, share, text, sheet.height * 0.9, lift)
                    cost = sum(sheet.room.cost(box) for box in text_boxes(words))
                    if best is None or cost < best[0] - 1e-6:
                        best = (cost, words)
        if best is not None and best[0] < 6.0:
            sheet.add("labels", best[1])
            sheet.room.take_text(best[1])
        else:
            middle = ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0)
            sheet.label(middle, text, 0.9)


def mark_posts(sheet: Sheet, study: Study) -> list[tuple[Point, str]]:
    """Circles at risers, outlets, the exit and the inlet; returns where each label belongs and its words."""
    wanted: list[tuple[Point, str]] = []
    plan, network = study.plan, study.model.network
    if shown(sheet, "waste"):
        for fixture in plan.fixtures:
            if trade.fixture(fixture.kind).outlet in ("closet", "floor", "tub"):
                _ring(sheet, fixture.at, _RISER, WIDE)
                if fixture.trap_at is not None:
                    _ring(sheet, fixture.trap_at, _RISER * 0.8, MEDIUM)
        for riser in plan.risers:
            _ring(sheet, riser.at, _RISER, WIDE, dot=True)
            if islands.returns(riser) and riser.returns is not None:
                _ring(sheet, riser.returns, _RISER * 0.8, MEDIUM, dot=True)
            wanted.append((sheet.frame.at(riser.at), _riser_words(study, riser.id, riser.top)))
        for exit_ in plan.exits:
            at = sheet.frame.at(exit_.at)
            _ring(sheet, exit_.at, _RISER * 1.5, WIDE)
            reach = _RISER * 1.5
            sheet.add("marks", Line(((at[0] - reach, at[1]), (at[0] + reach, at[1])), MEDIUM))
            sheet.add("marks", Line(((at[0], at[1] - reach), (at[0], at[1] + reach)), MEDIUM))
            words = _exit_words(study, exit_.id, network.exits.get(exit_.id))
            wanted.append((at, words + _way_out(exit_)))
    if shown(sheet, "cold"):
        for supply in plan.supplies:
            for end in (supply.points[0], supply.points[-1]):
                _ring(sheet, end, _RISER * 0.6, THIN)
        for inlet in plan.inlets:
            at = sheet.frame.at(inlet.at)
            half, high = 0.09, 0.05
            bow = ((at[0] - half, at[1] - high), (at[0] - half, at[1] + high), (at[0] + half, at[1] - high))
            sheet.add("marks", Line((*bow, (at[0] + half, at[1] + high)), MEDIUM, closed=True))
            sheet.room.take(Box(at[0] - half, at[1] - high, at[0] + half, at[1] + high))
            wanted.append((at, f'WATER IN {inlet.size}"'))
    return wanted


def _ring(sheet: Sheet, point: Point, radius: float, weight: float, dot: bool = False) -> None:
    at = sheet.frame.at(point)
    sheet.add("marks", Arc(at, radius, weight, fill=1.0))
    if dot:
        sheet.add("marks", Arc(at, _DOT, FINE, fill=0.0))
    sheet.room.take(Box(at[0] - radius, at[1] - radius, at[0] + radius, at[1] + radius))


def _riser_words(study: Study, riser: str, top: str) -> str:
    """A riser's name, its drain and vent sizes, and how its vent ends."""
    pipes = [pipe for pipe in study.model.network.pipes if pipe.element == riser and pipe.run == 0.0]
    parts = [riser]
    for system, letters in (("waste", "SAN"), ("vent", "V")):
        sizes = sorted({pipe.size for pipe in pipes if pipe.system == system})
        if sizes:
            parts.append(f'{"/".join(size_label(size) for size in sizes)}" {letters}')
    parts.append(TOPS[top])
    return " ".join(part for part in parts if part)


def _exit_words(study: Study, exit_id: str, node: Node | None) -> str:
    """The exit's name, and its invert down from the joists' top where its height is known."""
    z = None if node is None else study.model.heights.get(node)
    into = [pipe for pipe in study.model.network.pipes if node is not None and pipe.end == node]
    if z is None or not into:
        return f"EXIT {exit_id}"
    size = max(pipe.size for pipe in into)
    return f'EXIT {exit_id}, {size_label(size)}", IE {inches(-z + drain(size).bore / 2.0)}" DN'


def _way_out(exit_: Exit) -> str:
    """What else an exit's label tells: a cleanout outside, the ground under it, the sleeve round it."""
    words = ", CO OUTSIDE" if exit_.cleanout_outside else ""
    if exit_.ground_z is not None:
        words += f', GROUND {inches(-exit_.ground_z)}" DN'
    if exit_.sleeve is not None and exit_.meets in ("slab", "foundation"):
        words += f', {exit_.sleeve}" SLEEVE'
    return words


def heights_wanted(study: Study) -> list[tuple[Point, str]]:
    """The axis' height at both ends of each drain and of each vent under the floor, as labels with their points.

    A trap's is that of its outlet, where the fall begins.
    """
    model = study.model
    under = {run.id for run in study.plan.drains} | {vent.id for vent in study.plan.vents if vent.above_floor is None}
    ends: dict[str, list[Node]] = {}
    for pipe in model.network.pipes:
        if pipe.element in under and pipe.run > 0.0:
            ends.setdefault(pipe.element, []).extend((pipe.start, pipe.end))
    traps = {
        part.centre[:2]: part.centre[2]
        for part in model.joinery.parts
        if part.kind == "p_trap" and part.centre[2] < 0.0
    }
    found: dict[Point, str] = {}
    exits = set(model.network.exits.values())
    for nodes in ends.values():
        for node in nodes:
            z = traps.get((node.x, node.y), model.heights.get(node))
            if nodes.count(node) == 1 and z is not None and node not in exits:
                found.setdefault((node.x, node.y), f'{inches(-z)}" DN' if z < 0.0 else f'{inches(z)}" UP')
    return list(found.items())
