"""What a stick of the floor is called."""

from __future__ import annotations

from engine.framing.records import Joist

NOUNS = {"rim": "rim", "trimmer": "trimmer", "header": "header", "block": "block", "beam": "beam"}
"""What a member of each kind is called where that is not a joist."""

_COMPASS = (("east", "west"), ("north", "south"))


def noun(joist: Joist) -> str:
    """What kind of member it is, in a word: joist, rim, trimmer, header, block or beam."""
    return NOUNS.get(joist.kind, "joist")


def ends(joist: Joist) -> tuple[str, str]:
    """The names of a stick's two ends, start first: south and north, or west and east, by the way it mostly runs."""
    return ("south", "north") if abs(joist.along[1]) > abs(joist.along[0]) else ("west", "east")
