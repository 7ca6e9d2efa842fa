"""Two notches at one place of a joist: one beside the other, or one in each edge."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from engine.checks.model import Model
from engine.checks.outcomes import COMMON
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.checks.sites import SUBJECT, Site, joist_words, no_height, sites
from engine.crossings.limits import over, short
from engine.crossings.records import JoistCut
from engine.lengths import down, inches


class Pair(NamedTuple):
    """A notch with the other that counts with it: how long or deep the two are as one, the most for one, and the section's key."""

    other: JoistCut
    measured: float
    limit: float
    key: str


def together(model: Model) -> Iterator[Outcome]:
    """Two notches so near along a joist that they weaken it as one would: of one edge by their length, facing ones by their depth.

    To look at, once for a pair: the code gives the length and depth of one notch and is silent on two. Near is less wood
    between than a bore and a notch must have. Holds: two of 7/8 in that take 3-1/16 in of a 2x10 together; facing ones of 3/4 in
    each there. Broken: 1/16 in more. Reads ``joist.notch.length_fraction``, ``joist.notch.depth_fraction`` and
    ``joist.notch.gap``. Common practice, no source.
    """
    notches: dict[str, list[JoistCut]] = {}
    for made in model.cuts:
        if made.kind == "notch":
            notches.setdefault(made.joist, []).append(made)
    told: set[tuple[str, str]] = set()
    for site in sites(model):
        cut = site.cut
        if site.asks != "notch" or not site.by_book:
            yield DoesNotApply(site.crossing.element)
            continue
        if cut is None:
            yield site.not_judged(no_height(site))
            continue
        found = max(
            _pairs(model, site, cut, notches[cut.joist]), key=lambda pair: pair.measured - pair.limit, default=None
        )
        if found is None or (found.other.crossing, cut.crossing) in told:
            yield Holds(site.crossing.element)
            continue
        told.add((cut.crossing, found.other.crossing))
        yield _finding(site, cut, found)


def _pairs(model: Model, site: Site, cut: JoistCut, notches: list[JoistCut]) -> Iterator[Pair]:
    """The notches that are too much together with one."""
    book, joist = model.book, site.joist
    near = book.number("joist.notch.gap")
    low, high = _ends(cut)
    for other in notches:
        start, end = _ends(other)
        if other.crossing == cut.crossing or not short(max(start - high, low - end), near):
            continue
        if other.edge == cut.edge:
            measured, key = max(high, end) - min(low, start), "joist.notch.length_fraction"
        else:
            measured, key = cut.depth + other.depth, "joist.notch.depth_fraction"
            if cut.over_bearing and other.over_bearing:
                key = "joist.end_notch.fraction"
        limit = joist.depth * book.number(key)
        if over(measured, limit):
            yield Pair(other, measured, limit, key)


def _ends(cut: JoistCut) -> tuple[float, float]:
    return cut.from_start - cut.length / 2.0, cut.from_start + cut.length / 2.0


def _finding(site: Site, cut: JoistCut, pair: Pair) -> Finding:
    beside = pair.key == "joist.notch.length_fraction"
    whose = f"The notches for {cut.element} and {pair.other.element} in {joist_words(site.joist)}"
    if beside:
        what, one = f"stand side by side and take {pair.measured:.3f} in of its {cut.edge} edge", "long"
        mend = "Bore for one of them, or set them further apart along the joist."
    else:
        what, one = f"face each other and take {pair.measured:.3f} in of its depth", "deep"
        mend = "Bore for one of them, or set it elsewhere along the joist."
    return site.finding(
        "notches-together",
        "look",
        pair.measured,
        pair.limit,
        f"{whose} {what}; one may be {inches(down(pair.limit))} in {one} at most, and of two the code says nothing.",
        COMMON,
        mend,
        (pair.other.element,),
    )


RULES = (
    Rule(
        "notches-together",
        "Two notches at one place",
        SUBJECT,
        "look",
        ("joist.notch.length_fraction", "joist.notch.depth_fraction"),
        together,
        ("joist.notch.gap", "joist.end_notch.fraction"),
    ),
)
