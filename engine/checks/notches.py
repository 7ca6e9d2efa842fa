"""Notches in sawn joists: how deep, how long, over the bearing or not, and the plate that shields the pipe."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.records import DoesNotApply, Outcome, Rule
from engine.checks.sites import SUBJECT, Site, joist_words, no_bearing, pipe_words, settle
from engine.crossings.limits import over, short
from engine.lengths import down, inches


def too_deep(model: Model) -> Iterator[Outcome]:
    """The depth of a notch in the top or bottom edge, away from the joist's end bearing.

    The depth runs from the edge to the pipe's far side. Reads ``joist.notch.depth_fraction`` of the real depth.
    Holds: 1-3/16 in in a 2x8. Broken: 1.9 in there. Where no bearing is drawn and the depth would do over one,
    it is not judged. Source: IRC R502.8.1.
    """
    for site, settled in settle(model, "notch-too-deep", ("notch",), no_bearing, lambda cut: not cut.over_bearing):
        cut = site.cut
        if settled is not None or cut is None:
            yield settled or DoesNotApply(site.crossing.element)
            continue
        limit = site.joist.depth * model.book.number("joist.notch.depth_fraction")
        yield site.finding(
            "notch-too-deep",
            "stop",
            cut.depth,
            limit,
            f"The notch in the {cut.edge} of {joist_words(site.joist)} for {pipe_words(model, site.crossing)} is "
            f"{cut.depth:.3f} in deep; {inches(down(limit))} in is the most. Doubling the joist does not help.",
            model.book.cite("joist.notch.depth_fraction"),
            _bore_instead(site),
        )


def _bore_instead(site: Site) -> str:
    """A bore instead of the notch, where one of that size is allowed, and how far the axis must move for it."""
    from engine.crossings.limits import allowance
    ...
