"""Joist elevations: each cut joist from the side, every bore and notch with the figures that a tape and a bit need."""

from engine.drawings.elevations.drawing import OVALS, elevation_drawing, parted, scales_for
from engine.drawings.elevations.figures import past
from engine.drawings.elevations.legend import elevation_legend
from engine.drawings.elevations.subjects import Elevation, elevations

__all__ = ["OVALS", "Elevation", "elevation_drawing", "elevation_legend", "elevations", "parted", "past", "scales_for"]
