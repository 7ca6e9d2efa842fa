"""Putting things that stand at one point: risers, exits, inlets."""

from app.tools.tool import Tool


class PutRiser(Tool):
    """Puts a riser into a wall."""

    name, title, key = "riser", "Riser", "R"
    hint = "Click in a wall where the plumb pipe stands."


class PutExit(Tool):
    """Puts the place where the building drain leaves the floor."""

    name, title, key = "exit", "Exit", "E"
    hint = "Click where the building drain leaves the floor."


class PutInlet(Tool):
    """Puts the place where the water service enters."""

    name, title, key = "inlet", "Inlet", "I"
    hint = "Click where the water service enters."
