"""Engineered members, pipe that no straight hole makes room for, and pipe below the joists."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import COMMON
from engine.checks.records import DoesNotApply, Holds, Outcome, Rule
from engine.checks.sites import SUBJECT, Site, joist_words, no_height, site_words, sites
from engine.crossings.limits import over
from engine.lengths import inches, up

ALONG = 90.0 - 1e-3
"""Degrees from square from which pipe runs along a joist and not across it."""


def engineered_cut(model: Model) -> Iterator[Outcome]:
    """A bore or notch in an I-joist, laminated member or truss.

    The code has no number for it: only the maker's printed guide or an engineer can say what may be cut. Reads
    ``joist.engineered.cuts_allowed``; where that is amended to yes, the maker's guide is the datum missing.
    Holds: pipe clear of the member. Source: IRC R502.8.2.
    """
    for site in sites(model):
        element = site.crossing.element
        if site.joist.member != "engineered" or site.joist.kind == "beam" or site.told_with_another:
            yield DoesNotApply(element)
        elif site.asks is None:
            yield Holds(element)
        elif model.book.flag("joist.engineered.cuts_allowed"):
            yield site.not_judged(f"the maker's hole guide for {site.joist.id}")
        else:
            yield site.finding(
                "engineered-member-cut",
                "stop",
                None,
                None,
                f"{site_words(model, site)} asks for a {site.asks} in engineered {joist_words(site.joist)}: the "
                "code gives no number for one. Its flanges are never cut.",
                model.book.cite("joist.engineered.cuts_allowed"),
                "Get the maker's hole guide or an engineer's word before cutting, or run it in the bay or below.",
            )


def no_straight_bore(model: Model) -> Iterator[Outcome]:
    """Pipe that ends, turns or runs along inside a joist's wood, where no hole from face to face makes room for it.

    Holds: in by one face and out by the other in one line, at any angle. Broken: a fitting in the wood, or pipe
    lengthwise in it. Judged also where the height is not known. Common practice, no source.
    """
    for site in sites(model):
        crossing = site.crossing
        told_by_another = site.joist.kind == "beam" or (site.joist.runs and not site.by_book)
        if site.asks is None or told_by_another:
            yield DoesNotApply(crossing.element)
        elif crossing.straight:
            yield Holds(crossing.element)
        else:
            lengthwise = crossing.skew >= ALONG
            does = "runs along inside" if lengthwise else "ends or turns inside"
            yield site.finding(
                "no-straight-bore",
                "stop",
                None,
                None,
                f"{site_words(model, site)} {does} {joist_words(site.joist)}: no straight bore makes room for it.",
                COMMON,
                "Move the run sideways into the bay."
                if lengthwise
                else "Put the turn or end in a bay, clear of the joist.",
            )


def below(model: Model) -> Iterator[Outcome]:
    """Pipe of a run that is to pass through or in a notch, but lies wholly below the joist: neither is cut.

    Noted: such pipe hangs in the open and wants hangers, and insulation where it can freeze. Holds: pipe in the
    wood. Does not apply to runs that are to pass under, or to what does not run with the joists. Common practice, no source.
    """
    for site in sites(model):
        crossing, z = site.crossing, site.z
        if crossing.passing == "under" or not site.joist.runs:
            yield DoesNotApply(crossing.element)
        elif z is None:
            yield site.not_judged(no_height(site))
        elif not site.clear or z > site.joist.bottom:
            yield Holds(crossing.element)
        else:
            gap = site.joist.bottom - (z + crossing.width / 2.0)
            yield site.finding(
                "pipe-below-joists",
                "note",
                max(0.0, gap),
                0.0,
                f"{site_words(model, site)} lies {inches(max(0.0, gap))} in below {joist_words(site.joist)}: the joist is "
                "neither bored nor notched.",
                COMMON,
                "Hang it there, and keep it from freezing.",
            )


def not_clear_below(model: Model) -> Iterator[Outcome]:
    """Pipe of a run that is to pass under the joists, but stands up into the wood.

    Holds: the pipe's top at the joist's bottom or lower. Broken: 1/16 in higher. Common practice, no source.
    """
    for site in sites(model):
        crossing, z = site.crossing, site.z
        if crossing.passing != "under" or site.joist.kind == "beam":
            yield DoesNotApply(crossing.element)
        elif z is None:
            yield site.not_judged(no_height(site))
        else:
            yield _stands_up(model, site, z + crossing.width / 2.0 - site.joist.bottom)


def _stands_up(model: Model, site: Site, into: float) -> Outcome:
    if not over(into, 0.0):
        return Holds(site.crossing.element)
    return site.finding(
        "pipe-not-clear-below",
        "stop",
        into,
        0.0,
        f"{site_words(model, site)} is to pass under {joist_words(site.joist)} but its top stands {into:.3f} in "
        "above the joist's bottom.",
        COMMON,
        f"Lower it {inches(up(into))} in there, or let it pass through the joists.",
    )


RULES = (
    Rule("engineered-member-cut", "An engineered member cut", SUBJECT, "stop", ("joist.engineered",), engineered_cut),
    Rule("no-straight-bore", "Pipe that no straight bore takes", SUBJECT, "stop", (), no_straight_bore),
    Rule("pipe-below-joists", "Pipe below the joists", SUBJECT, "note", (), below),
    Rule("pipe-not-clear-below", "Pipe not clear below the joists", SUBJECT, "stop", (), not_clear_below),
)
