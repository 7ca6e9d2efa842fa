"""Drains from the side: each line cut along its length, with joists, fall, fittings and hangers, and the figures for each."""

from engine.drawings.from_side.drawing import SKEWED, Layout, line_drawing, scales_for
from engine.drawings.from_side.legend import line_legend
from engine.drawings.from_side.strips import Strip, strips

__all__ = ["SKEWED", "Layout", "Strip", "line_drawing", "line_legend", "scales_for", "strips"]
