"""What a rule book allows a sawn joist to lose, worked out for one joist's depth and bearings."""

from __future__ import annotations

from functools import cached_property
from itertools import pairwise

from engine.crossings.stretches import EXACT
from engine.framing.records import Joist
from engine.plan.records import Record
from engine.rulebooks import RuleBook


class Allowance:
    """The most that a joist of one depth may lose, and the least that must be left, inches; read when asked for."""

    def __init__(self, depth: float, book: RuleBook) -> None:
        self._depth = depth
        self._book = book

    @cached_property
    def bore(self) -> float:
        """The widest hole: the lesser of its share of the depth and of what the wood above and below it leaves."""
        return max(0.0, min(self._share("joist.bore.fraction"), self._depth - 2.0 * self.edge))

    @cached_property
    def edge(self) -> float:
        """Wood left above and below a hole."""
        return self._book.number("joist.bore.edge")

    @cached_property
    def bore_gap(self) -> float:
        """Wood left between two holes."""
        return self._book.number("joist.bore.gap")

    def heights(self, bore: float) -> tuple[float, float] | None:
        """The lowest and highest middle, over the joist's top, at which a bore keeps its wood; None where it is too wide."""
        if over(bore, self.bore):
            return None
        return self.edge - self._depth + bore / 2.0, -self.edge - bore / 2.0

    @cached_property
    def notch_gap(self) -> float:
        """Wood left between a hole and a notch."""
        return self._book.number("joist.notch.gap")

    @cached_property
    def notch_depth(self) -> float:
        """The deepest notch."""
        return self._share("joist.notch.depth_fraction")

    @cached_property
    def notch_length(self) -> float:
        """The longest notch."""
        return self._share("joist.notch.length_fraction")

    @cached_property
    def end_notch(self) -> float:
        """The deepest notch over a bearing at the end."""
        return self._share("joist.end_notch.fraction")

    def _share(self, key: str) -> float:
        return self._depth * self._book.number(key)


class Span(Record, frozen=True, gc=False):
    """A clear span between two neighbouring supports, from face to face along the joist, inches."""

    start: float
    end: float

    @property
    def length(self) -> float:
        """Face to face, inches."""
        return self.end - self.start


def allowance(depth: float, book: RuleBook) -> Allowance:
    """What the book allows a sawn joist that is `depth` in deep in truth."""
    return Allowance(depth, book)


def over(measured: float, most: float) -> bool:
    """Whether a measure is past the most allowed."""
    return measured > most + EXACT


def short(measured: float, least: float) -> bool:
    """Whether a measure is under the least allowed."""
    return measured < least - EXACT


def judged_by_book(joist: Joist) -> bool:
    """Whether the book's numbers for joists speak of this member: sawn, and running with the joists."""
    return joist.member == "sawn" and joist.runs


def spans(joist: Joist) -> tuple[Span, ...]:
    """The joist's clear spans; none where fewer than two supports are drawn."""
    pairs = pairwise(joist.supports)
    return tuple(Span(before[1], after[0]) for before, after in pairs if after[0] > before[1])


def span_at(joist: Joist, start: float, end: float) -> Span | None:
    """The clear span that a cut from `start` to `end` lies in, even partly; None over a bearing or past the last."""
    return max(
        (span for span in spans(joist) if span.start < end and span.end > start),
        key=lambda span: min(span.end, end) - max(span.start, start),
        default=None,
    )


def on_support(joist: Joist, start: float, end: float) -> bool:
    """Whether a cut touches a bearing, even partly."""
    return any(low <= end + EXACT and high >= start - EXACT for low, high in joist.supports)


def over_end_bearing(joist: Joist, start: float, end: float) -> bool:
    """Whether a cut lies wholly over a bearing that reaches the joist's own end."""
    for low, high in joist.supports:
        at_end = low <= EXACT or high >= joist.length - EXACT
        if at_end and start >= low - EXACT and end <= high + EXACT:
            return True
    return False


def into_middle(span: Span, start: float, end: float, book: RuleBook) -> tuple[float, float]:
    """How far a cut reaches from the nearer support's face, and the most it may before the middle third, inches."""
    low, high = book.number("joist.notch.middle_from"), book.number("joist.notch.middle_to")
    from_start, from_end = end - span.start, span.end - start
    if from_start <= from_end:
        return from_start, low * span.length
    return from_end, (1.0 - high) * span.length
