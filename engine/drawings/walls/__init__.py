"""Walls that pipe stands in: the sole plate from above and the wall from the side, each hole with the figures that a tape needs."""

from engine.drawings.walls.drawing import WallScales, parted, scales_for, wall_drawing
from engine.drawings.walls.legend import wall_legend
from engine.drawings.walls.records import WallView
from engine.drawings.walls.subjects import wall_view, wall_views

__all__ = ["WallScales", "WallView", "parted", "scales_for", "wall_drawing", "wall_legend", "wall_view", "wall_views"]
