"""The sheets' sizes: what a home printer and a copy shop take."""

from __future__ import annotations

from typing import NamedTuple

POINTS = 72.0
"""Points in an inch."""

MILLIMETRE = POINTS / 25.4
"""Points in a millimetre."""


class PaperError(ValueError):
    """A paper that no plan set is made for."""


class Paper(NamedTuple):
    """A paper, inches: its sides, the drawings' lettering (height of capitals) and the lists' type size (points)."""

    name: str
    short: float
    long: float
    lettering: float
    type_size: float


_SMALL = (5.0 / 64.0, 8.4)
_LARGE = (3.0 / 32.0, 9.6)

PAPERS: dict[str, Paper] = {
    "letter": Paper("Letter", 8.5, 11.0, *_SMALL),
    "tabloid": Paper("Tabloid", 11.0, 17.0, *_LARGE),
    "a4": Paper("A4", 210.0 / 25.4, 297.0 / 25.4, *_SMALL),
    "a3": Paper("A3", 297.0 / 25.4, 420.0 / 25.4, *_LARGE),
}
"""Every paper by the name that asks for it."""


def paper_named(name: str) -> Paper:
    """The paper of a name. PaperError when there is none."""
    try:
        return PAPERS[name.lower()]
    except KeyError:
        raise PaperError(f"no plan set is made for paper {name!r}; there are {', '.join(PAPERS)}") from None
