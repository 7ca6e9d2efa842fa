"""From the drawn plan to a directed pipe graph: welds, loads, sizes, falls and what vents what."""
