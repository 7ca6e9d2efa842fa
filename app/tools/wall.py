"""Drawing walls by their centre lines."""

from __future__ import annotations

from typing import ClassVar

from app.tools.aim import Purpose
from app.tools.between import DrawBetween
from engine.plan.records import Wall


class DrawWall(DrawBetween):
    """Draws one wall; further fields are set in its properties."""

    name, title, key = "wall", "Wall", "W"
    purpose: ClassVar[Purpose] = "wall"
    hint = "Click where the wall's centre line begins and where it ends, or drag; type a length to set it."
    kind, does = Wall, "draw wall"
