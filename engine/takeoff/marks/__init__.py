"""Layout marks: where every pipe comes up through the floor, from edges that stand before the walls do."""
