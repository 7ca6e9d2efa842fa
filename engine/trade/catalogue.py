"""The catalogue of fittings: sizes that are sold, and the take-offs that are known of them."""

from __future__ import annotations

import csv
from collections import defaultdict
from functools import cache
from pathlib import Path
from typing import Literal, get_args

from engine.lengths import fraction
from engine.plan.records import Record
from engine.trade.facts import TradeDataError
from engine.trade.kinds import KINDS, LEGS, LegName

Size = tuple[float, ...]
"""Nominal sizes of a fitting's legs: run_in, run_out and branch as far as it has them."""

Standing = Literal["measured", "read", "memory", "derived", "estimate", "assumed"]
_ENDS = ("run_in", "run_out", "branch")


class Leg(Record, frozen=True, gc=False):
    """One take-off: from the fitting's centre to the pipe's stop in a hub, or to the tip of a spigot.

    Inches along the leg's own direction; negative where the stop lies the other way. `tolerance` is how far
    off it may be either way, `standing` how it is known.
    """

    length: float
    tolerance: float
    standing: Standing
    source: str


class Row(Record, frozen=True, gc=False):
    """One line of the catalogue. A leg without a length is None: it is sold, but nobody measured it yet."""

    kind: str
    size: Size
    lengths: tuple[float | None, ...]
    standing: Standing
    tolerance: float
    preferred: bool
    source: str

    def leg(self, name: LegName) -> Leg | None:
        """The take-off of a leg where the row gives one."""
        length = self.lengths[LEGS.index(name)]
        return None if length is None else Leg(length, self.tolerance, self.standing, self.source)


@cache
def rows() -> tuple[Row, ...]:
    """Every line of the catalogue. TradeDataError names a line at fault."""
    path = Path(__file__).with_name("fittings.csv")
    found: list[Row] = []
    with path.open(encoding="utf-8", newline="") as file:
        reader = csv.DictReader(file)
        for record in reader:
            try:
                found.append(_row(record))
            except (KeyError, ValueError) as fault:
                raise TradeDataError(f"{path.name} line {reader.line_num}: {fault}") from fault
    return tuple(found)


def _row(record: dict[str, str]) -> Row:
    kind = KINDS[record["kind"]]
    size = tuple(fraction(record[end]) for end in _ENDS if record[end])
    if len(size) != len(kind.legs):
        raise ValueError(f"a {kind.words} has {len(kind.legs)} sizes, not {len(size)}")
    known = [record[f"takeoff_{leg}"] for leg in kind.legs]
    standing = record["standing"]
    if standing not in get_args(Standing) or not record["source"] or record["preferred"] not in ("yes", "no"):
        raise ValueError("standing, source and preferred are needed")
    return Row(
        kind=kind.kind,
        size=size,
        lengths=tuple(fraction(text) if text else None for text in known),
        standing=standing,  # type: ignore[arg-type]
        tolerance=fraction(record["tolerance"]) if record["tolerance"] else 0.0,
        preferred=record["preferred"] == "yes",
        source=record["source"],
    )


@cache
def _index() -> dict[tuple[str, Size], list[Row]]:
    index: dict[tuple[str, Size], list[Row]] = defaultdict(list)
    for row in rows():
        index[row.kind, row.size].append(row)
    for found in index.values():
        found.sort(key=lambda row: not row.preferred)
    return dict(index)


def sold(kind: str, size: Size) -> bool:
    """Whether a fitting of that kind and size is sold."""
    return (kind, size) in _index()


def sizes(kind: str) -> tuple[Size, ...]:
    """The sizes that a kind is sold in."""
    return tuple(size for name, size in _index() if name == kind)


def listed(kind: str, size: Size) -> tuple[Row, ...]:
    """The catalogue's lines for one fitting, the preferred one first; empty when it is not sold."""
    return tuple(_index().get((kind, size), ()))


@cache
def known(kind: str, size: Size, leg: LegName) -> Leg | None:
    """The preferred take-off of a leg, or None when the catalogue gives none.

    Where two lines differ by more than the tolerance, the difference is the tolerance.
    """
    found = [take for row in listed(kind, size) if (take := row.leg(leg)) is not None]
    if not found:
        return None
    first = found[0]
    spread = max(abs(other.length - first.length) for other in found)
    return Leg(first.length, max(first.tolerance, spread), first.standing, first.source)
