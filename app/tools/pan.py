"""Pan."""

from app.tools.tool import Tool


class Pan(Tool):
    """Pan."""

    name = "pan"
    title = "Pan"
    key = "P"
    hint = "Drag the sheet."
