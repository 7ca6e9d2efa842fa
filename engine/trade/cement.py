"""Solvent cement and primer: how many joints a can makes, and what to put it on with."""

from __future__ import annotations

from collections.abc import Mapping

from engine.trade import pipe
from engine.trade.facts import table


def quarts(joints: Mapping[float, int]) -> float:
    """Quarts of cement for so many joints of each nominal size; one socket is one joint.

    >>> quarts({1.5: 45, 3.0: 20})
    1.0
    """
    facts = table("cement")
    return sum(count / facts.number(pipe.label(size), "joints") for size, count in joints.items())


def cement(material: str) -> str:
    """What the cement for ``PVC`` or ``ABS`` is called."""
    return table("cement").text(material, "cement")


def primer(material: str) -> tuple[str, float] | None:
    """The primer's name and its share of the cement's volume; None for a plastic that takes none."""
    facts = table("cement")
    if not facts.has(material, "primer"):
        return None
    return facts.text(material, "primer"), facts.number(material, "primer share")


def applicator(size: float) -> str:
    """What to put cement on a pipe of one nominal size with."""
    return table("cement").text(pipe.label(size), "applicator")
