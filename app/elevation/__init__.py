"""Joist elevations on the screen: a window beside the plan, one cut joist at a time, live with the study."""
