"""How mends name slopes, lengths, sides and several things at once."""

from __future__ import annotations

import math

from engine.lengths import inches

STEEP = 6.0
"""Inches per foot past which a slope is told in degrees too."""

SIDES = ("east", "north", "west", "south")


def per_foot(slope: float) -> str:
    """A slope in sixteenths where it is one, else in decimals: ``1/4 in per foot``; how steep, where that is more told."""
    sixteenths = slope * 16.0
    told = f"{inches(slope) if abs(sixteenths - round(sixteenths)) < 1e-6 else f'{slope:.4g}'} in per foot"
    return f"{told} ({math.degrees(math.atan(slope / 12.0)):.3g} degrees)" if slope > STEEP else told


def way(dx: float, dy: float) -> str:
    """A displacement in the compass's words: ``4 in west and 1/2 in north``."""
    parts = [f"{inches(abs(by))} in {SIDES[side + (2 if by < 0.0 else 0)]}" for side, by in ((0, dx), (1, dy)) if by]
    return " and ".join(parts)


def toward(by: float, axis: int) -> str:
    """A displacement east or west (axis 0), north or south (1), behind what has figures in its name: ``east by 3 1/4 in``."""
    return f"{SIDES[axis + (2 if by < 0.0 else 0)]} by {inches(abs(by))} in"


def one(words: str) -> str:
    """A thing with its article: ``an eighth bend``."""
    return f"{'an' if words[:1] in 'aeio' else 'a'} {words}"


def depth(z: float) -> str:
    """A height as a tape hooked on the joists' top reads it: ``6 1/2 in down``."""
    return f"{inches(abs(z))} in {'up' if z > 0.0 else 'down'}"


def far(dx: float, dy: float) -> float:
    """How long a displacement is, inches."""
    return math.hypot(dx, dy)
