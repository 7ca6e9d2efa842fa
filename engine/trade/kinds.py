"""The kinds of fittings: what they are called, how far they turn, what their legs end in."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import Literal, cast

from engine.plan.records import Record

LegName = Literal["run_in", "run_out", "branch"]
"""A fitting's legs: upstream or upper, downstream or lower, and the branch."""

LEGS: tuple[LegName, ...] = ("run_in", "run_out", "branch")
End = Literal["hub", "spigot", "ring", "slip", "thread", "sleeve", "insert"]


class FittingKind(Record, frozen=True, gc=False):
    """One kind of fitting. `turn` is degrees between run and branch, or between the two legs.

    `ends` follows the legs. Of a street fitting run_in is the hub and run_out the spigot, whichever way the
    water flows. `double_of` and `street_of` name the kind that it doubles or that it has a spigot end of.
    """

    kind: str
    words: str
    turn: float
    ends: tuple[End, ...]
    double_of: str | None
    street_of: str | None

    @property
    def legs(self) -> tuple[LegName, ...]:
        """The names of its legs, in the order in which its sizes are given."""
        return LEGS[: len(self.ends)]

    def end(self, leg: LegName) -> End:
        """What a leg ends in."""
        return self.ends[LEGS.index(leg)]


def _read() -> dict[str, FittingKind]:
    path = Path(__file__).with_name("fitting_kinds.csv")
    kinds: dict[str, FittingKind] = {}
    with path.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            ends = cast(tuple[End, ...], tuple(row["ends"].split()))
            kinds[row["kind"]] = FittingKind(
                row["kind"], row["words"], float(row["turn"]), ends, row["double_of"] or None, row["street_of"] or None
            )
    return kinds


KINDS: dict[str, FittingKind] = _read()
"""Every kind of fitting, by its name."""
