"""Joists and walls from the side on the screen: a window beside the plan, one at a time, live with the study."""
