"""Mends: the edits of a plan that put findings right, tried before they are offered."""
