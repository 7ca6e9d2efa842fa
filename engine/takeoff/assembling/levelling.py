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
    rise = piece.cut * slope / math.hypot(12.0, slope)
    return LevelCheck(piece.mark, slope, rise, piece.cut, -z if upper in model.heights else None)
