"""Cleanouts: a short stub with a ring and a square in it, as one looks at a plug, and the letters CO."""

from __future__ import annotations

from PySide6.QtGui import QBrush, QPainterPath
from PySide6.QtWidgets import QGraphicsItem

from app import palette
from app.canvas.picture import Picture, Seat, Tag, shape
from app.canvas.places import disc, to_scene, track
from app.tools.openings import away_from
from app.tools.plane import ahead
from engine.lengths import feet_inches
from engine.plan.outline import compass
from engine.plan.records import Cleanout, Plan, Point

STUB, FREE = 6.0, 4.0
"""From the pipe to the ring's middle, inches: out of a riser, and past the end of a run."""

RING, SQUARE = 1.9, 0.75
"""Radius of the ring and half the side of the square, inches."""

LETTERS = "CO"


def draw_cleanout(cleanout: Cleanout, plan: Plan) -> Picture:
    """A cleanout, its ring past the end of its run or before its riser; at no run's end the ring is on the point."""
    heading, out = _opens(cleanout, plan)
    ring = cleanout.at if heading is None else ahead(cleanout.at, heading, out)
    area = disc(ring, RING)
    items: list[QGraphicsItem] = []
    if heading is not None:
        rim = ahead(cleanout.at, heading, out - RING)
        items.append(shape(track((cleanout.at, rim)), palette.pen(palette.WASTE, 2.0)))
    items.append(shape(area, palette.pen(palette.WASTE, 1.8), QBrush(palette.shade(palette.GROUND))))
    items.append(shape(_square(ring), fill=QBrush(palette.shade(palette.WASTE))))
    tag = Tag(LETTERS, _seats(ring), palette.WASTE, bold=True, pixels=11, urgent=True)
    return Picture("points", area, tuple(items), (tag,), _tip(cleanout, heading), blocks=((cleanout.at, ring),))


def _seats(ring: Point) -> tuple[Seat, ...]:
    """Places for the letters round the ring, close by and then farther off."""
    round_it = ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1))
    return tuple(
        Seat(ring, side=side, anchor=anchor, clear=clear) for clear in (RING, 2.5 * RING) for anchor, side in round_it
    )


def _opens(cleanout: Cleanout, plan: Plan) -> tuple[float | None, float]:
    """The heading in which its ring lies and how far from the pipe."""
    if cleanout.above_floor is not None:
        return cleanout.turn, STUB
    return away_from(plan, cleanout.at), FREE


def _tip(cleanout: Cleanout, heading: float | None) -> str:
    size = f"{cleanout.size} in " if cleanout.size is not None else ""
    if cleanout.above_floor is None:
        return f"{size}cleanout {'where the drain turns' if heading is None else 'at the end of the drain'}"
    return f"{size}cleanout {feet_inches(cleanout.above_floor)} above the floor, opens {compass(cleanout.turn)}"


def _square(at: Point) -> QPainterPath:
    centre, path = to_scene(at), QPainterPath()
    path.addRect(centre.x() - SQUARE, centre.y() - SQUARE, 2.0 * SQUARE, 2.0 * SQUARE)
    return path
