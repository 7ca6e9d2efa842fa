"""Drawing windows, doors and air intakes: what the ends of vents over the roof stay away from."""

from __future__ import annotations

from typing import ClassVar

from app.tools.aim import Purpose
from app.tools.between import DrawBetween
from engine.plan.records import AirOpening


class DrawOpening(DrawBetween):
    """Draws one window, door or intake from one side of it to the other; its height is set in its properties."""

    name, title, key = "opening", "Window, door", "A"
    purpose: ClassVar[Purpose] = "opening"
    hint = "Window, door or air intake: click one side of it and the other, or drag; type a width to set it."
    kind, does = AirOpening, "draw opening"
