"""Measuring fittings in the window: sketches, fields to type in, and the cuts that follow."""
