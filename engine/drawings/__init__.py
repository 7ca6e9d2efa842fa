"""Drawings as lists of strokes in paper inches: data that sheets, previews and other formats are made from."""

from engine.drawings.legend import legend
from engine.drawings.plan import plan_drawing
from engine.drawings.strokes import Arc, Drawing, Fill, Line, Stroke, Text

__all__ = ["Arc", "Drawing", "Fill", "Line", "Stroke", "Text", "legend", "plan_drawing"]
