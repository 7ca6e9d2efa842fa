"""What stands at one point: risers, exits, inlets and fittings chosen by hand."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush, QPainterPath
from PySide6.QtWidgets import QGraphicsItem

from app import palette
from app.canvas.picture import Picture, Seat, Tag, dot, shape
from app.canvas.places import disc, to_scene
from engine.plan.outline import PATTERNS
from engine.plan.records import Exit, Inlet, PinnedFitting, Point, Riser
from engine.plan.welds import comes_down
from engine.trade import pipe

LEAST_SHOWN = 1.5
"""Width at which a riser of open size is drawn, inches of nominal pipe."""

DIAMOND = 1.6
"""Half the height of a chosen fitting's mark, inches."""

ENDS = {"roof": "VTR", "valve": "AAV", "capped": "capped", "none": "", "loop": "loop"}
"""The letters for how a riser's vent ends."""


def draw_riser(riser: Riser) -> Picture:
    """A plumb pipe in a wall: a ring of its true size with a cross, and how its vent ends."""
    od = pipe.drain(pipe.nominal(riser.size) if riser.size is not None else LEAST_SHOWN).od
    ends = ENDS[riser.top]
    words = " ".join(word for word in (riser.vent or riser.size or "", ends) if word) or "riser"
    tip = f"riser, vent ends {_end_words(riser)}"
    items: tuple[QGraphicsItem, ...] = (
        dot(riser.at, od / 2.0, palette.WASTE, 2.0, palette.GROUND),
        shape(_cross(riser.at, od / 2.0), palette.pen(palette.VENT, 1.6)),
    )
    area = disc(riser.at, max(od / 2.0, 1.5))
    down = comes_down(riser)
    if down is not None:
        over = QPainterPath(to_scene(riser.at))
        over.lineTo(to_scene(down))
        dashed = palette.pen(palette.VENT, 1.6)
        dashed.setStyle(Qt.PenStyle.DashLine)
        items = (shape(over, dashed), *items, dot(down, od / 2.0, palette.VENT, 1.6, palette.GROUND))
        area = area.united(disc(down, max(od / 2.0, 1.5)))
    return Picture("points", area, items, (_beside(words, riser.at, od, palette.VENT),), tip)


def draw_exit(leaving: Exit) -> Picture:
    """Where the building drain leaves: a heavy ring, with a dot where it turns down and an arrow through a rim."""
    ring = disc(leaving.at, 3.0)
    items: list[QGraphicsItem] = [shape(ring, palette.pen(palette.WASTE, 2.6), QBrush(palette.shade(palette.GROUND)))]
    if leaving.how == "turn-down":
        items.append(dot(leaving.at, 1.1, palette.WASTE))
        tip = "exit: the building drain turns down here"
    else:
        items.append(shape(_cross(leaving.at, 3.0), palette.pen(palette.WASTE, 2.0)))
        tip = "exit: the building drain goes out through the rim"
    words = "EXIT, CO outside" if leaving.cleanout_outside else "EXIT"
    return Picture("points", ring, tuple(items), (_beside(words, leaving.at, 6.0, palette.WASTE),), tip)


def draw_inlet(inlet: Inlet) -> Picture:
    """Where the water service comes in: a square with a dot."""
    x, y = inlet.at
    square = QPainterPath()
    square.addRect(x - 2.5, -y - 2.5, 5.0, 5.0)
    items: tuple[QGraphicsItem, ...] = (
        shape(square, palette.pen(palette.COLD, 2.0), QBrush(palette.shade(palette.GROUND))),
        dot(inlet.at, 0.9, palette.COLD),
    )
    words = f"WATER IN {inlet.size}"
    return Picture(
        "points", square, items, (_beside(words, inlet.at, 5.0, palette.COLD),), f"water inlet, {inlet.size} in"
    )


def draw_fitting(fitting: PinnedFitting) -> Picture:
    """A fitting chosen by hand: a small diamond on the node."""
    centre, reach = to_scene(fitting.at), DIAMOND
    diamond = QPainterPath()
    diamond.moveTo(centre.x(), centre.y() - reach)
    for dx, dy in ((reach, 0.0), (0.0, reach), (-reach, 0.0)):
        diamond.lineTo(centre.x() + dx, centre.y() + dy)
    diamond.closeSubpath()
    items = (shape(diamond, palette.pen(palette.INK, 1.2), QBrush(palette.shade(palette.WOOD_FILL))),)
    where = "under the floor" if fitting.level == "under" else "in the wall"
    return Picture("points", diamond, items, (), f"{PATTERNS[fitting.pattern]}, {where}, chosen by hand")


def fitting_name(fitting: PinnedFitting) -> Tag:
    """What a chosen fitting is, to stand beside it while it is selected."""
    round_it = ((1, 1), (-1, 1), (1, -1), (-1, -1), (1, 0), (-1, 0))
    seats = tuple(Seat(fitting.at, side=side, anchor=anchor, clear=DIAMOND) for anchor, side in round_it)
    return Tag(PATTERNS[fitting.pattern], seats, palette.INK, bold=True, pixels=12, layer="heights", urgent=True)


def _beside(text: str, at: Point, across: float, colour: str) -> Tag:
    reach = across / 2.0
    round_it = ((0, 1), (0, -1), (1, 0), (-1, 0))
    seats = tuple(Seat(at, side=side, anchor=anchor, clear=reach) for anchor, side in round_it)
    return Tag(text, seats, colour, bold=True, pixels=11)


def _cross(at: Point, reach: float) -> QPainterPath:
    centre = to_scene(at)
    path = QPainterPath()
    path.moveTo(centre.x() - reach, centre.y())
    path.lineTo(centre.x() + reach, centre.y())
    path.moveTo(centre.x(), centre.y() - reach)
    path.lineTo(centre.x(), centre.y() + reach)
    return path


def _end_words(riser: Riser) -> str:
    return {
        "roof": "through the roof",
        "valve": "in an air admittance valve",
        "capped": "capped",
        "none": "here",
        "loop": "in a loop that comes down again",
    }[riser.top]
