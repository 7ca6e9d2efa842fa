"""What the rules for joists say of one cut: which it breaks, and which cannot be judged for want of a datum.

The checks tell the same in sentences; here it is settled, so that a drawing and a finding never disagree.
"""

from __future__ import annotations

from collections.abc import Iterator

from engine.crossings.gaps import Beside
from engine.crossings.limits import (
    Allowance,
    into_middle,
    judged_by_book,
    on_support,
    over,
    short,
    span_at,
    spans,
)
from engine.crossings.records import Crossing, JoistCut
from engine.framing.records import Joist
from engine.rulebooks import RuleBook

Verdict = tuple[str, bool | None]
"""A rule and whether it is broken; None where that cannot be told."""


RESTS_ON = {
    "bore-close-to-notch": "joist.notch.gap",
    "bore-too-large": "joist.bore.fraction",
    "bore-near-edge": "joist.bore.edge",
    "bores-close-together": "joist.bore.gap",
    "bore-in-middle-third": "joist.notch.middle_from",
    "end-notch-too-deep": "joist.end_notch.fraction",
    "notch-too-deep": "joist.notch.depth_fraction",
    "notch-too-long": "joist.notch.length_fraction",
    "notch-in-middle-third": "joist.notch.middle_from",
    "engineered-member-cut": "joist.engineered.cuts_allowed",
}
"""The value without which a book does not judge by a rule, whatever stands in for it while a hole is laid."""


def verdict(
    cut: JoistCut, crossing: Crossing, near: Beside, joist: Joist, most: Allowance, book: RuleBook
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The rules that a cut breaks, and those that cannot be judged. Rims have none: no joist rule covers them."""
    found: list[Verdict] = []
    if judged_by_book(joist):
        found.append(("no-straight-bore", not crossing.straight))
        found.append(("bore-close-to-notch", near.other is not None and short(near.other.gap, most.notch_gap)))
        found += (
            _of_bore(cut, crossing, near, joist, most, book)
            if cut.kind == "bore"
            else _of_notch(cut, joist, most, book)
        )
    elif joist.member == "engineered":
        found.append(("engineered-member-cut", None if book.flag("joist.engineered.cuts_allowed") else True))
    found = [(rule, broken if rule not in RESTS_ON or book.has(RESTS_ON[rule]) else None) for rule, broken in found]
    return tuple(rule for rule, broken in found if broken), tuple(rule for rule, broken in found if broken is None)


def bore_too_large(crossing: Crossing) -> bool | None:
    """Whether the bore is past the limit by the bit; None where no bit is sold that wide and the pipe would pass."""
    if over(crossing.width, crossing.bore_limit):
        return True
    return None if crossing.bore is None else over(crossing.bore, crossing.bore_limit)


def _of_bore(
    cut: JoistCut, crossing: Crossing, near: Beside, joist: Joist, most: Allowance, book: RuleBook
) -> Iterator[Verdict]:
    too_large = bore_too_large(crossing)
    yield "bore-too-large", too_large
    if not too_large:
        yield "bore-near-edge", short(min(cut.wood_above, cut.wood_below), most.edge)
    yield "bores-close-together", near.bore is not None and short(near.bore.gap, most.bore_gap)
    if not book.flag("joist.bore.middle_allowed"):
        yield "bore-in-middle-third", in_middle_third(cut, joist, book)


def _of_notch(cut: JoistCut, joist: Joist, most: Allowance, book: RuleBook) -> Iterator[Verdict]:
    if cut.over_bearing:
        yield "end-notch-too-deep", over(cut.depth, most.end_notch)
    elif joist.supports or not over(cut.depth, most.notch_depth):
        yield "notch-too-deep", over(cut.depth, most.notch_depth)
    else:
        yield "notch-too-deep", True if over(cut.depth, most.end_notch) else None
    yield "notch-too-long", over(cut.length, most.notch_length)
    yield "notch-in-middle-third", in_middle_third(cut, joist, book)


def in_middle_third(cut: JoistCut, joist: Joist, book: RuleBook) -> bool | None:
    """Whether a cut reaches into the middle third of its clear span; None where no span holds it."""
    start, end = cut.from_start - cut.length / 2.0, cut.from_start + cut.length / 2.0
    if not spans(joist):
        return None
    span = span_at(joist, start, end)
    if span is None:
        return False if on_support(joist, start, end) else None
    reaches, most = into_middle(span, start, end, book)
    return over(reaches, most)
