"""The tools by name, in the order in which a shelf shows them."""

from __future__ import annotations

from app.tools.choose import Choose
from app.tools.field import DrawField
from app.tools.measure import Measure
from app.tools.pan import Pan
from app.tools.place import MIME, PlaceFixture
from app.tools.put import PutExit, PutInlet, PutRiser
from app.tools.run import DrawCold, DrawDrain, DrawHot, DrawVent
from app.tools.tool import Pointer, Tool
from app.tools.wall import DrawWall

__all__ = ["MIME", "TOOLS", "PlaceFixture", "Pointer", "Tool"]

TOOLS: dict[str, type[Tool]] = {
    tool.name: tool
    for tool in (
        Choose,
        DrawDrain,
        DrawVent,
        DrawCold,
        DrawHot,
        DrawWall,
        DrawField,
        PutRiser,
        PutExit,
        PutInlet,
        Measure,
        Pan,
    )
}
"""Each tool's `title`, `hint` and one-letter `key` (which acts only while the canvas has the focus)."""
