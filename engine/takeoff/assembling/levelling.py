"""What a level must show on each piece once it is glued: its slope and rise, or that it is plumb."""

from __future__ import annotations

import math

from engine.checks.model import Model
from engine.joinery.records import Piece
from engine.takeoff.assembling.joints import is_plumb
from engine.takeoff.assembling.records import LevelCheck


def level_check(model: Model, piece: Piece) -> LevelCheck | None:
    """The check of one piece; None for one that has no length to hold a level on."""
    if piece.cut <= 0.0:
        return None
    if is_plumb(piece):
        return LevelCheck(piece.mark, None, piece.cut, piece.cut, None)
    pipes = [model.network.by_id[pipe] for pipe in piece.pipes if pipe in model.network.by_id]
    upper = pipes[-1].end if piece.system == "vent" else pipes[0].start
    z = piece.end[2] if piece.system == "vent" else piece.start[2]
    if all(pipe.shape == "level" for pipe in pipes):
        run = sum(pipe.run for pipe in pipes)
        slope = sum(pipe.slope * pipe.run for pipe in pipes) / run
    else:
        low = piece.start[2] if piece.system == "vent" else piece.end[2]
        slope = 12.0 * (z - low) / math.dist(piece.start[:2], piece.end[:2])
    grade = slope / math.hypot(12.0, slope)
    z -= grade * _stops_short(model, piece, piece.to_part if piece.system == "vent" else piece.from_part)
    return LevelCheck(piece.mark, slope, piece.cut * grade, piece.cut, -z if upper in model.heights else None)


def _stops_short(model: Model, piece: Piece, name: str | None) -> float:
    """How far from a fitting's centre the piece's own end stands in it, inches; 0 at a free end."""
    part = next((part for part in model.joinery.parts if part.id == name), None)
    ports = part.ports if part is not None else ()
    return next((port.takeoff.length for port in ports if port.pipe in piece.pipes), 0.0)
