"""Choose."""

from app.tools.tool import Tool


class Choose(Tool):
    """Choose."""

    name = "choose"
    title = "Choose"
    key = "C"
    hint = "Click or box to select, drag to move; arrows nudge, T turns, Delete removes, Enter opens the properties."
