"""The canvas: the plan drawn to scale, with the study's answers on it."""
