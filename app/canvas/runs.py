"""Runs of pipe: a band of the pipe's true width with the system's line on its axis, and letters beside it."""

from __future__ import annotations

import math
from itertools import pairwise

from PySide6.QtGui import QBrush

from app import palette
from app.canvas.picture import Picture, Seat, Tag, shape
from app.canvas.places import band, track
from app.palette import LINES, System
from app.tools.plane import heading_of
from engine.lengths import inches
from engine.plan.records import Drain, Point, Supply, Vent
from engine.trade import pipe

LEAST_SHOWN = 1.5
"""Width at which a run of open size is drawn until the study sizes it, inches of nominal pipe."""

PASSING = {"through": "bored through the joists", "notched": "notched into the joists", "under": "under the joists"}
"""A run's way past the joists in words."""


def draw_drain(run: Drain, size: float | None = None) -> Picture:
    """A waste run. `size` is what the study made of a run whose size was left open."""
    letters = f"{LINES['waste'].letters} {_size_words(run.size, size)}"
    shown = _nominal(run.size, size)
    words = [_size_words(run.size, size) + " in drain"]
    if run.slope is not None:
        words.append(f"{inches(run.slope)} in per foot")
    if run.passing is not None:
        words.append(
            {"through": "bored through the joists", "notched": "notched", "under": "under the joists"}[run.passing]
        )
    if run.join != "flat":
        words.append({"rolled": f"joins rolled by {run.roll:g} degrees", "drop": "joins by a drop"}[run.join])
    return _run("drains", "waste", run.points, pipe.drain(shown).od, letters, ", ".join(words))


def draw_vent(run: Vent, size: float | None = None) -> Picture:
    """A dry vent run, under the floor or overhead."""
    words = _size_words(run.size, size)
    overhead = "" if run.above_floor is None else f" at {inches(run.above_floor)} up"
    let_in = ", let into the studs" if overhead and run.passing == "notched" else ""
    tip = f"{words} in vent" + (overhead or ", under the floor") + let_in
    return _run("vents", "vent", run.points, pipe.drain(_nominal(run.size, size)).od, f"V {words}{overhead}", tip)


def draw_supply(run: Supply) -> Picture:
    """A cold or hot water run."""
    letters = f"{LINES[run.water].letters} {run.size}"
    return _run(
        "water",
        run.water,
        run.points,
        pipe.tube(pipe.nominal(run.size)).od,
        letters,
        f"{run.size} in {run.water} water",
    )


def _run(layer: str, system: System, points: tuple[Point, ...], od: float, letters: str, tip: str) -> Picture:
    line = LINES[system]
    area = band(points, od)
    body = shape(area, palette.pen(line.colour, 1.0, 70), QBrush(palette.shade(line.colour, 34)))
    axis = shape(track(points), palette.line_pen(system))
    tag = Tag(letters, seats_along(points, od / 2.0), line.colour, bold=True, pixels=11)
    stretches = tuple(pairwise(points))
    return Picture(layer, area, (body, axis), (tag,), tip, blocks=stretches)


def seats_along(points: tuple[Point, ...], clear: float) -> tuple[Seat, ...]:
    """Places for a text beside a run: on either side of its stretches, longest stretch first."""
    stretches = sorted(pairwise(points), key=lambda ends: -math.dist(*ends))
    seats: list[Seat] = []
    for start, end in stretches[:3]:
        room, heading = math.dist(start, end), heading_of(start, end)
        for share in (0.5, 0.3, 0.7):
            at = (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)
            fits = 2.0 * room * min(share, 1.0 - share)
            seats += [Seat(at, heading, fits, side, clear=clear) for side in (1, -1)]
    return tuple(seats)


def _size_words(pinned: str | None, found: float | None) -> str:
    if pinned is not None:
        return pinned
    return "auto" if found is None else pipe.label(found)


def _nominal(pinned: str | None, found: float | None) -> float:
    if pinned is not None:
        return pipe.nominal(pinned)
    return LEAST_SHOWN if found is None else found
