"""The tools by name, in the order in which a shelf shows them."""

from __future__ import annotations

from app.tools.air_opening import DrawOpening
from app.tools.beam import DrawBeam
from app.tools.choose import Choose
from app.tools.cleanout import PutCleanout
from app.tools.desk import Desk
from app.tools.field import DrawField
from app.tools.fitting import ChooseFitting
from app.tools.floor_outline import DrawOutline
from app.tools.flooring import DrawFlooring
from app.tools.heading_off import HeadOff
from app.tools.measure import Measure
from app.tools.pan import Pan
from app.tools.place import MIME, PREFIX, PlaceFixture, kind_called
from app.tools.put import PutExit, PutHatch, PutInlet, PutRiser
from app.tools.run import DrawCold, DrawDrain, DrawHot
from app.tools.tool import Pointer, Tool
from app.tools.vent import DrawVent
from app.tools.wall import DrawWall

__all__ = ["MIME", "PREFIX", "TOOLS", "Desk", "PlaceFixture", "Pointer", "Tool", "tool_for"]

TOOLS: dict[str, type[Tool]] = {
    tool.name: tool
    for tool in (
        Choose,
        DrawDrain,
        DrawVent,
        DrawCold,
        DrawHot,
        DrawWall,
        DrawOpening,
        DrawField,
        HeadOff,
        DrawBeam,
        DrawOutline,
        DrawFlooring,
        PutRiser,
        PutExit,
        PutInlet,
        PutCleanout,
        PutHatch,
        ChooseFitting,
        Measure,
        Pan,
    )
}
"""Each tool's `title`, `hint` and one-letter `key` (which acts only while the canvas has the focus)."""


def tool_for(name: str, desk: Desk) -> Tool:
    """A tool of that name, ready to be taken up: one of `TOOLS`, or `place:<kind>`. KeyError when there is none."""
    kind = kind_called(name.removeprefix(PREFIX)) if name.startswith(PREFIX) else None
    if kind is not None:
        return PlaceFixture(desk, kind)
    if name not in TOOLS:
        raise KeyError(f"no tool is called {name!r}; tools are {', '.join(TOOLS)} and {PREFIX}<kind of fixture>")
    return TOOLS[name](desk)
