"""Drawing runs of pipe point by point: drains, vents, cold and hot water."""

from app.tools.tool import Tool

HINT = "Click each turn, or type a length for the next stretch; Enter ends, Backspace takes one back."


class DrawRun(Tool):
    """What drawing any run has in common."""

    hint = HINT


class DrawDrain(DrawRun):
    """Draws a drain run."""

    name, title, key = "drain", "Drain", "D"


class DrawVent(DrawRun):
    """Draws a dry vent run."""

    name, title, key = "vent", "Vent", "V"


class DrawCold(DrawRun):
    """Draws a cold water run."""

    name, title, key = "cold", "Cold", "O"


class DrawHot(DrawRun):
    """Draws a hot water run."""

    name, title, key = "hot", "Hot", "H"
