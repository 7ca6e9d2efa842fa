"""The grid that plan coordinates lie on, so that welds can be told by equality."""

from engine.plan.records import Point

STEP = 1.0 / 1024.0


def on_grid(value: float) -> float:
    """Nearest multiple of 1/1024 in. Exact in binary, so equal places compare equal."""
    return round(value / STEP) * STEP + 0.0


def spot(x: float, y: float) -> Point:
    """The one constructor of plan points."""
    return (on_grid(x), on_grid(y))


def shifted(point: Point, dx: float, dy: float) -> Point:
    """A point moved by a displacement that is itself rounded, so that welds survive a move."""
    return (point[0] + on_grid(dx), point[1] + on_grid(dy))
