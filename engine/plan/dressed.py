"""The few dressed sizes that drawing a floor needs: trade data lie above the plan, and a test holds both equal.

Source: Type of Lumber, nominal and actual size table (dry, surfaced four sides).
"""

from __future__ import annotations

JOIST_THICKNESS = 1.5
"""Inches that every listed joist is thick."""

WALL_DEPTH = {"2x4": 3.5, "2x6": 5.5}
"""Inches from face to face of a wall's studs, board left out."""
