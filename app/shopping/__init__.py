"""The shopping list in a window of its own: what is ticked is there already and need not be bought."""
