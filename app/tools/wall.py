"""Wall."""

from app.tools.tool import Tool


class DrawWall(Tool):
    """Wall."""

    name = "wall"
    title = "Wall"
    key = "W"
    hint = "Press where the wall's centre line begins, drag to its end."
