"""How much one plan file may hold, so that a hostile one is refused before it costs anything."""

MOST_BYTES = 20_000_000
"""Size of a plan file; a cottage takes about 10 kB."""

MOST_ELEMENTS = 50_000
"""Drawn things in one plan."""

MOST_POINTS = 100_000
"""Plan points of all its things together."""
