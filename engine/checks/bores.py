"""Bores in sawn joists: how wide, how near an edge, how near each other, and where along the span."""

from __future__ import annotations

import math
from collections.abc import Iterator

from engine.checks.mends import another_way, to_range
from engine.checks.model import Model
from engine.checks.outcomes import COMMON
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.checks.sites import SUBJECT, Site, joist_words, run_words, settle, site_words, sites
from engine.crossings.apart import axes_apart, closest, own_holes, side_by_side
from engine.crossings.limits import over, short
from engine.crossings.records import SharedHole
from engine.crossings.verdicts import bore_too_large
from engine.lengths import down, inches, up
from engine.plan.outline import listed
from engine.trade.bits import Bit
from engine.trade.openings import easy_play


def too_large(model: Model) -> Iterator[Outcome]:
    """The widest bore: a third of the joist's real depth, or what the wood above and below it leaves, the lesser.

    Judged by the bit that has to be bought for the pipe, not by the pipe alone. Neither a place along the span
    nor a second joist beside it changes the limit. Tubes in one hole are judged by the bit that goes round all of
    them. Reads ``joist.bore.fraction`` and ``joist.bore.edge``.
    Holds: 1-1/2 in pipe (bit 2-1/8) through a 2x8. Broken: 3 in pipe through a 2x10; 2 in pipe through a 2x8,
    whose bit is too wide; two 1/2 in tubes 11/16 in from axis to axis through a 2x6, since they take a 1-3/8 bit, hold, and
    3/4 in apart they do not. Judged also where the height is not known. Source: IRC R502.8.1.
    """
    for site in sites(model):
        crossing = site.crossing
        if site.asks != "bore" or not site.by_book:
            yield DoesNotApply(crossing.element)
            continue
        broken = bore_too_large(crossing)
        if broken is None:
            yield site.not_judged(f"a bit wide enough for {crossing.width:.3f} in: none is listed")
        elif broken:
            yield _too_large(model, site)
        else:
            yield Holds(crossing.element)


def _too_large(model: Model, site: Site) -> Finding:
    crossing, limit = site.crossing, site.crossing.bore_limit
    pipe = site_words(model, site)
    outside = "outside" if site.hole is None else f"over {'both' if len(site.hole.tubes) == 2 else 'all'}"
    if over(crossing.width, limit):
        measured, before = crossing.width, " before any play"
        asks = f"{pipe} is {crossing.width:.3f} in wide {outside}"
    else:
        measured, before = crossing.bore or crossing.width, ""
        if site.hole is None:
            before = f"; the pipe alone would pass with {limit - crossing.width:.3f} in of play, which is on paper only"
        asks = f"{pipe} is {crossing.width:.3f} in wide {outside} and needs a {crossing.bit} in bit"
    may = f"may be bored {inches(down(limit))} in wide at most" if down(limit) > 0.0 else "may not be bored at all"
    return site.finding(
        "bore-too-large",
        "stop",
        measured,
        limit,
        f"{asks}; {joist_words(site.joist)} {may}: over by {inches(up(measured - limit))} in{before}. "
        "Another place along the span does not change that, and doubling the joist does not help.",
        model.book.cite("joist.bore.edge" if _edges_rule(model, site) else "joist.bore.fraction"),
        another_way(model, site) if site.hole is None else _out_of_one_hole(model, site, site.hole),
    )


def _out_of_one_hole(model: Model, site: Site, hole: SharedHole) -> str:
    """How far apart the tubes of one hole have each a hole of its own, or that not even that would do."""
    least = model.book.number("joist.bore.gap")
    if not own_holes(hole):
        return another_way(model, site)
    apart, now = axes_apart(hole, least)
    more = f", {inches(up(apart - now))} in more than now" if len(hole.tubes) == 2 else " or more"
    near = closest(hole)
    together = "" if near is None else f"Lay them {_touching(*near)}. Or s"
    return (
        f"{together or 'S'}et {listed(site.runs)} {inches(up(apart))} in apart from axis to axis{more}: each then has a hole of its own, with "
        f"{inches(least)} in of wood between. Or else: {_small(another_way(model, site))}"
    )


def _small(sentence: str) -> str:
    return sentence[0].lower() + sentence[1:]


def _edges_rule(model: Model, site: Site) -> bool:
    """Whether the wood above and below sets the limit, and not the share of the depth."""
    return short(site.crossing.bore_limit, site.joist.depth * model.book.number("joist.bore.fraction"))


def near_edge(model: Model) -> Iterator[Outcome]:
    """Wood left above and below a bore.

    Reads ``joist.bore.edge``. Holds: 2 in on both sides. Broken: 1-15/16 in on either, or pipe that breaks out
    of the joist's edge. A bore that is too wide at any height does not apply: that is another rule's. Size
    alone clears no hole. Source: IRC R502.8.1.
    """
    least = model.book.number("joist.bore.edge")
    for site, settled in settle(
        model, "bore-near-edge", ("bore",), when=lambda cut: "bore-too-large" not in cut.faults
    ):
        cut, crossing = site.cut, site.crossing
        if settled is not None or cut is None:
            yield settled or DoesNotApply(crossing.element)
            continue
        below = cut.wood_below < cut.wood_above
        left, other = sorted((cut.wood_below, cut.wood_above))
        name, far = ("below", "above") if below else ("above", "below")
        out = left < 0.0
        leaves = f"breaks out {-left:.3f} in {name} the joist" if out else f"leaves {left:.3f} in of wood {name} it"
        yield site.finding(
            "bore-near-edge",
            "stop",
            left,
            least,
            f"The {cut.bit or inches(cut.diameter)} in bore for {site_words(model, site)} in "
            f"{joist_words(site.joist)} {leaves} ({other:.3f} in {far}); {inches(least)} in is the least.",
            model.book.cite("joist.bore.edge"),
            _range(site),
        )


def _range(site: Site) -> str:
    low, high = site.crossing.low, site.crossing.high
    if low is None or high is None or site.z is None:
        return "Take the run straight through the joist first."
    return to_range(site.z, low, high)


def close_together(model: Model) -> Iterator[Outcome]:
    """Wood left between a bore and the nearest other bore in the same joist, drains and water alike.

    The wood is measured where it is thinnest, on the line between the two. Water tubes so near that their bores would run
    into each other have one hole, and nothing between them. Reads ``joist.bore.gap``. Holds: 2 in of wood. Broken:
    1-15/16. A joist beside it does not count. Source: IRC R502.8.1.
    """
    least = model.book.number("joist.bore.gap")
    whose = {cut.crossing: cut.elements for cut in model.cuts}
    told: set[tuple[str, str]] = set()
    for site, settled in settle(model, "bores-close-together", ("bore",)):
        cut = site.cut
        if settled is not None or cut is None or cut.gap is None or (cut.beside, cut.crossing) in told:
            yield settled or DoesNotApply(site.crossing.element)
            continue
        told.add((cut.crossing, cut.beside))
        other = whose[cut.beside]
        yield site.finding(
            "bores-close-together",
            "stop",
            cut.gap,
            least,
            f"{_between(cut.gap)} the bores for {run_words(site.runs)} and {run_words(other)} in {joist_words(site.joist)}; "
            f"{inches(least)} in is the least.",
            model.book.cite("joist.bore.gap"),
            f"Part them along the joist until {inches(least)} in of wood stands between the two bores"
            f"{_or_one_hole(model, site, cut.beside)}.",
            other,
        )


def _or_one_hole(model: Model, site: Site, beside: str) -> str:
    """That two tubes may share a hole instead, where they are no more than two and the joist takes it."""
    other = next(one for one in sites(model) if one.crossing.id == beside)
    one, two = site.crossing, other.crossing
    water = all(it.system in ("cold", "hot") and it.straight for it in (one, two))
    if not water or site.hole is not None or other.hole is not None:
        return ""
    near = side_by_side(one.width, two.width, one.bore_limit)
    return "" if near is None else f", or lay them {_touching(*near)}"


def _touching(apart: float, bit: Bit) -> str:
    return f"side by side, {inches(apart)} in from axis to axis: a {bit.label} in bit then goes round both"


def _between(gap: float) -> str:
    return f"{gap:.3f} in of wood is left between" if gap > 0.0 else "No wood is left between"


def close_to_notch(model: Model) -> Iterator[Outcome]:
    """Wood left between a bore and the nearest notch in the same joist.

    A pair is told of once. Reads ``joist.notch.gap``. Holds: 2 in of wood. Broken: 1-15/16. Source: IRC R502.8.1.
    """
    least = model.book.number("joist.notch.gap")
    whose = {cut.crossing: cut.elements for cut in model.cuts}
    told: set[tuple[str, str]] = set()
    for site, settled in settle(model, "bore-close-to-notch", ("bore", "notch")):
        cut = site.cut
        if settled is not None or cut is None or cut.notch_gap is None or (cut.beside_notch, cut.crossing) in told:
            yield settled or DoesNotApply(site.crossing.element)
            continue
        told.add((cut.crossing, cut.beside_notch))
        other = whose[cut.beside_notch]
        its = "notch" if cut.kind == "bore" else "bore"
        pair = f"the {cut.kind} for {run_words(site.runs)} and the {its} for {run_words(other)}"
        yield site.finding(
            "bore-close-to-notch",
            "stop",
            cut.notch_gap,
            least,
            f"{_between(cut.notch_gap)} {pair} in {joist_words(site.joist)}; {inches(least)} in is the least.",
            model.book.cite("joist.notch.gap"),
            f"Part them along the joist until {inches(least)} in of wood stands between them, or bore both.",
            other,
        )


def tight(model: Model) -> Iterator[Outcome]:
    """Little play round a pipe in its bore: it can be pressed through a short piece at best.

    Holds: 1/8 in of play between the pipe's outside and the bit that is sold for it. To look at: less. Does not
    apply where the bore is too wide anyhow. Common practice, no source.
    """
    least = easy_play()
    for site in sites(model):
        crossing = site.crossing
        if site.asks != "bore" or not site.by_book or crossing.bore is None or bore_too_large(crossing):
            yield DoesNotApply(crossing.element)
            continue
        play = crossing.bore - crossing.width
        if not short(play, least):
            yield Holds(crossing.element)
            continue
        yield site.finding(
            "bore-tight-on-pipe",
            "look",
            play,
            least,
            f"A {crossing.bit} in bore leaves {site_words(model, site)} {play:.3f} in of play in "
            f"{joist_words(site.joist)}: it will not slide through as one length.",
            COMMON,
            "Cut it into pieces that fit between the joists, or ream the bores within the limit.",
        )


def at_an_angle(model: Model) -> Iterator[Outcome]:
    """A bore at an angle whose face on the joist is longer than the widest bore allowed.

    The rule gives a diameter and says nothing of angles; the bit is judged by it. On the joist's face such a
    bore is as high as the bit but longer: the bit's width over the cosine of the angle from square. Holds: 45
    degrees with a 2-1/8 bit in a 2x10, 3.005 in. To look at: 45 degrees with a 2-9/16 bit, 3.624 in. Common
    practice, no source.
    """
    for site in sites(model):
        crossing = site.crossing
        if site.asks != "bore" or not site.by_book or crossing.low is None or crossing.bore is None:
            yield DoesNotApply(crossing.element)
            continue
        face = crossing.bore / math.cos(math.radians(crossing.skew))
        if not over(face, crossing.bore_limit):
            yield Holds(crossing.element)
            continue
        yield site.finding(
            "bore-long-at-an-angle",
            "look",
            face,
            crossing.bore_limit,
            f"{run_words(site.runs)} passes {joist_words(site.joist)} {crossing.skew:.0f} degrees from square: its "
            f"{crossing.bit} in bore is {face:.3f} in long on the joist's face, where {inches(down(crossing.bore_limit))} in "
            "is the widest bore allowed.",
            COMMON,
            "Cross the joist nearer to square, or ask the official.",
        )


RULES = (
    Rule(
        "bore-too-large",
        "A bore too wide for the joist",
        SUBJECT,
        "stop",
        ("joist.bore.fraction", "joist.bore.edge"),
        too_large,
    ),
    Rule("bore-near-edge", "A bore too near an edge", SUBJECT, "stop", ("joist.bore.edge",), near_edge),
    Rule("bores-close-together", "Two bores too close", SUBJECT, "stop", ("joist.bore.gap",), close_together),
    Rule("bore-close-to-notch", "A bore too close to a notch", SUBJECT, "stop", ("joist.notch.gap",), close_to_notch),
    Rule("bore-tight-on-pipe", "Little play round a pipe", SUBJECT, "look", (), tight),
    Rule("bore-long-at-an-angle", "A bore long on the joist's face", SUBJECT, "look", (), at_an_angle),
)
