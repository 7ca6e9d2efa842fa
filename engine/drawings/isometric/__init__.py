"""Isometrics of drains, vents and water: every pipe and part of the lists, in 30-degree axes, with its name."""

from engine.drawings.isometric.legend import isometric_legend
from engine.drawings.isometric.sheets import Isometric, isometrics

__all__ = ["Isometric", "isometric_legend", "isometrics"]
