"""Cleanouts on the plan sheet, and the ways in to the space under the floor."""

from __future__ import annotations

import math

from engine.drawings.labels import Box
from engine.drawings.linetypes import FINE, MEDIUM, THIN, WIDE
from engine.drawings.sheet import Sheet
from engine.drawings.strokes import Arc, Dashes, Fill, Line
from engine.lengths import inches
from engine.piping.flow import is_under
from engine.piping.records import Network
from engine.plan.records import Cleanout, Point
from engine.study import Study

STUB, RADIUS, SQUARE = 0.13, 0.045, 0.018
"""From the pipe's point to the ring's middle, the ring's radius and half the plug's square, paper inches."""

EDGE: Dashes = (0.06, 0.04)
"""Pattern of the clear way's edge."""

SHORT = 1.0 / 3.0
"""How far the strokes from the corners go toward the middle, as a share."""


def draw_hatches(sheet: Sheet, study: Study) -> None:
    """Each hatch as a broken square of its clear width, with a stroke inward from each corner."""
    for hatch in study.plan.hatches:
        (x, y), half = hatch.at, hatch.clear / 2.0
        square = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
        sheet.add("marks", Line(sheet.frame.many(square), THIN, EDGE, closed=True))
        for corner in square:
            inner = (corner[0] + (x - corner[0]) * SHORT, corner[1] + (y - corner[1]) * SHORT)
            sheet.add("marks", Line(sheet.frame.many((corner, inner)), FINE))


def name_hatches(sheet: Sheet, study: Study) -> None:
    """Each hatch's name and clear width."""
    for hatch in study.plan.hatches:
        words = f'{hatch.name.upper() or "HATCH"} {inches(hatch.clear)}" CLEAR'
        sheet.label(sheet.frame.at(hatch.at), words, 0.85, clear=0.06)


def mark_cleanouts(sheet: Sheet, study: Study) -> list[tuple[Point, str]]:
    """A ring with the plug's square in it at each cleanout; returns where each label belongs and its words."""
    headings = _headings(study.model.network)
    wanted: list[tuple[Point, str]] = []
    for cleanout in study.plan.cleanouts:
        at, toward = sheet.frame.at(cleanout.at), _opens(cleanout, headings)
        ring = (at[0] + STUB * toward[0], at[1] + STUB * toward[1]) if toward is not None else at
        if toward is not None:
            rim = (ring[0] - RADIUS * toward[0], ring[1] - RADIUS * toward[1])
            sheet.add("marks", Line((at, rim), WIDE))
        sheet.add("marks", Arc(ring, RADIUS, MEDIUM, fill=1.0))
        (x, y), half = ring, SQUARE
        plug = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
        sheet.add("marks", Fill(plug, 0.0))
        sheet.room.take(Box(x - RADIUS, y - RADIUS, x + RADIUS, y + RADIUS))
        size = f' {cleanout.size}"' if cleanout.size is not None else ""
        above = cleanout.above_floor
        height = f', {inches(above)}" OVER FLOOR' if above is not None else ""
        wanted.append((ring, f"CO {cleanout.id}{size}{height}"))
    return wanted


def _headings(network: Network) -> dict[Point, tuple[float, float]]:
    """Where water begins to run under the floor, or turns: the way against its flow."""
    return {
        (pipe.start.x, pipe.start.y): (-pipe.heading[0], -pipe.heading[1])
        for pipe in network.pipes
        if pipe.system == "waste" and pipe.shape == "level" and is_under(pipe.start)
    }


def _opens(cleanout: Cleanout, headings: dict[Point, tuple[float, float]]) -> tuple[float, float] | None:
    """The way a cleanout opens, as a unit vector; None where nothing drains from its point."""
    if cleanout.above_floor is None:
        return headings.get(cleanout.at)
    return math.cos(math.radians(cleanout.turn)), math.sin(math.radians(cleanout.turn))
