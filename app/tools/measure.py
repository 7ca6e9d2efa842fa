"""Measure."""

from app.tools.tool import Tool


class Measure(Tool):
    """Measure."""

    name = "measure"
    title = "Measure"
    key = "M"
    hint = "Press at one point, drag to another."
