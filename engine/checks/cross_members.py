"""Wood and steel that no rule on joists speaks of, in a pipe's way: rims, headers, blocks, beams."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import COMMON
from engine.checks.records import DoesNotApply, Holds, Outcome, Rule, Weight
from engine.checks.sites import SUBJECT, Site, joist_words, no_height, site_words, sites
from engine.crossings.limits import over
from engine.framing.records import Kind
from engine.lengths import inches, up


def rim_cut(model: Model) -> Iterator[Outcome]:
    """A bore or notch in a rim.

    The rules on joists do not speak of rims, so no number judges it; an engineer's word does. To look at: any pipe
    in a sawn rim's wood. Holds: pipe clear of it. Common practice, no source.
    """
    return _cut(model, "rim", "rim-cut", "look", "Turn it down inside the rim, or have an engineer allow the hole.")


def header_cut(model: Model) -> Iterator[Outcome]:
    """A bore or notch in a header round an opening.

    The rules on joists do not speak of headers, which carry the joists that were cut: no number judges it, an engineer's
    word does. Broken: any pipe in a sawn header's wood. Holds: pipe clear of it. Common practice, no source.
    """
    mend = "Lead it beside the opening, or hang it under the joists, or have an engineer allow the hole."
    return _cut(model, "header", "header-cut", "stop", mend)


def blocking_cut(model: Model) -> Iterator[Outcome]:
    """A bore or notch in a block between two joists.

    A block keeps joists upright and carries no floor; where pipe passes, it is bored before it is nailed in. To look at:
    any pipe in a block's wood. Holds: pipe clear of it. Common practice, no source.
    """
    mend = "Bore it before it is nailed in, with wood all round the pipe, or hang the pipe under it."
    return _cut(model, "block", "blocking-cut", "look", mend)


def _cut(model: Model, kind: Kind, rule: str, weight: Weight, mend: str) -> Iterator[Outcome]:
    for site in sites(model):
        element = site.crossing.element
        if site.joist.kind != kind or site.joist.member == "engineered" or site.told_with_another:
            yield DoesNotApply(element)
        elif site.asks is None:
            yield Holds(element)
        else:
            done = "bored" if site.asks == "bore" else "notched"
            yield site.finding(
                rule,
                weight,
                None,
                None,
                f"{site_words(model, site)} passes {joist_words(site.joist)}: no rule on joists covers a {done} "
                f"{kind}.",
                COMMON,
                mend,
            )


def beam_in_the_way(model: Model) -> Iterator[Outcome]:
    """Pipe that meets a girder, dropped beam or steel member.

    No rule on joists covers a hole in one, and steel is never cut: pipe passes over it or under it. Measured is the
    least way up or down that clears it. Holds: pipe that touches it. Broken: 1/16 in further. Not judged where the pipe's
    height is not known. Common practice, no source.
    """
    for site in sites(model):
        crossing, wood, z = site.crossing, site.joist, site.z
        if wood.kind != "beam":
            yield DoesNotApply(crossing.element)
        elif z is None:
            yield site.not_judged(no_height(site))
        else:
            half = crossing.width / 2.0
            yield _meets(model, site, wood.top - (z - half), (z + half) - wood.bottom)


def _meets(model: Model, site: Site, lift: float, drop: float) -> Outcome:
    """What clears the beam: the way up past its top, if there is any under the floor, or down past its bottom."""
    if not (over(lift, 0.0) and over(drop, 0.0)):
        return Holds(site.crossing.element)
    above = site.joist.top < 0.0 and site.crossing.passing != "under"
    least = min(lift, drop) if above else drop
    ways = [f"Raise it {inches(up(lift))} in to pass over it"] if above else []
    ways.append(f"{'l' if ways else 'L'}ower it {inches(up(drop))} in to pass under it")
    steel = site.joist.member == "steel"
    made = "steel is never cut" if steel else "no rule on joists covers a hole in a beam"
    ways += ["lead it round the beam's end", *(() if steel else ("have an engineer allow a hole",))]
    return site.finding(
        "beam-in-the-way",
        "stop",
        least,
        0.0,
        f"{site_words(model, site)} runs {least:.3f} in into {joist_words(site.joist)}: {made}.",
        COMMON,
        f"{', or '.join(ways)}.",
    )


RULES = (
    Rule("rim-cut", "A rim cut", SUBJECT, "look", (), rim_cut),
    Rule("header-cut", "A header cut", SUBJECT, "stop", (), header_cut),
    Rule("blocking-cut", "A block between joists cut", SUBJECT, "look", (), blocking_cut),
    Rule("beam-in-the-way", "A beam in a pipe's way", SUBJECT, "stop", (), beam_in_the_way),
)
