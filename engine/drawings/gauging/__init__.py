"""Sketches of fittings from the side, each leg that is to be measured marked with its letter."""

from engine.drawings.gauging.sketch import sketch

__all__ = ["sketch"]
