"""Joists."""

from app.tools.tool import Tool


class DrawField(Tool):
    """Joists."""

    name = "field"
    title = "Joists"
    key = "J"
    hint = "Press at one outside corner of the framing, drag to the opposite one."
