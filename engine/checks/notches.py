"""Notches in sawn joists: how deep, how long, over the bearing or not, and the plate that shields the pipe."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.mends import bore_instead
from engine.checks.model import Model
from engine.checks.records import DoesNotApply, Holds, Outcome, Rule
from engine.checks.sites import SUBJECT, joist_words, no_bearing, settle, site_words
from engine.crossings.limits import short
from engine.lengths import down, inches


def too_deep(model: Model) -> Iterator[Outcome]:
    """The depth of a notch in the top or bottom edge, away from the bearing at the joist's end.

    The depth runs from the edge to the pipe's far side. Reads ``joist.notch.depth_fraction`` of the real depth.
    Holds: 1-3/16 in in a 2x8. Broken: 1.9 in there. Where no bearing is drawn and the depth would do over one,
    it is not judged. Source: IRC R502.8.1.
    """
    share = model.book.number("joist.notch.depth_fraction")
    for site, settled in settle(model, "notch-too-deep", ("notch",), no_bearing, lambda cut: not cut.over_bearing):
        cut, limit = site.cut, site.joist.depth * share
        if settled is not None or cut is None:
            yield settled or DoesNotApply(site.crossing.element)
            continue
        yield site.finding(
            "notch-too-deep",
            "stop",
            cut.depth,
            limit,
            f"The notch in the {cut.edge} of {joist_words(site.joist)} for {site_words(model, site)} is "
            f"{cut.depth:.3f} in deep; {inches(down(limit))} in is the most. Doubling the joist does not help.",
            model.book.cite("joist.notch.depth_fraction"),
            bore_instead(model, site),
        )


def end_too_deep(model: Model) -> Iterator[Outcome]:
    """The depth of a notch that lies wholly over the bearing at the joist's end.

    The code gives no reach for an end notch, so only what lies over the bearing counts as one. Reads
    ``joist.end_notch.fraction`` of the real depth. Holds: 2-5/16 in in a 2x10. Broken: 2-3/8 in. Does not apply
    elsewhere along the joist. Source: IRC R502.8.1.
    """
    share = model.book.number("joist.end_notch.fraction")
    for site, settled in settle(model, "end-notch-too-deep", ("notch",), when=lambda cut: cut.over_bearing):
        cut, limit = site.cut, site.joist.depth * share
        if settled is not None or cut is None:
            yield settled or DoesNotApply(site.crossing.element)
            continue
        yield site.finding(
            "end-notch-too-deep",
            "stop",
            cut.depth,
            limit,
            f"The notch over the bearing of {joist_words(site.joist)} for {site_words(model, site)} is "
            f"{cut.depth:.3f} in deep; {inches(down(limit))} in is the most there.",
            model.book.cite("joist.end_notch.fraction"),
            bore_instead(model, site),
        )


def too_long(model: Model) -> Iterator[Outcome]:
    """The length of a notch along the joist; at an angle it is longer than the pipe is wide.

    Reads ``joist.notch.length_fraction`` of the real depth. Holds: 1.9 in in a 2x8. Broken: 2-7/16 in there.
    Source: IRC R502.8.1.
    """
    share = model.book.number("joist.notch.length_fraction")
    for site, settled in settle(model, "notch-too-long", ("notch",)):
        cut, limit = site.cut, site.joist.depth * share
        if settled is not None or cut is None:
            yield settled or DoesNotApply(site.crossing.element)
            continue
        square = "" if cut.length - cut.diameter < 1e-3 else " Square across it would be shorter."
        yield site.finding(
            "notch-too-long",
            "stop",
            cut.length,
            limit,
            f"The notch in {joist_words(site.joist)} for {site_words(model, site)} is {cut.length:.3f} in long "
            f"along the joist; {inches(down(limit))} in is the most.{square}",
            model.book.cite("joist.notch.length_fraction"),
            bore_instead(model, site),
        )


def shield(model: Model) -> Iterator[Outcome]:
    """Pipe so near a joist's edge that a nail reaches it: a steel plate has to cover it.

    A lawful notch always wants one; a bore that keeps the wood the book asks never does. A cut that breaks a rule
    of its own does not apply: it has to go first. Reads ``shield.edge`` and ``shield.thickness``. Source: IRC
    P2603.2.1.
    """
    least, thickness = model.book.number("shield.edge"), model.book.number("shield.thickness")
    for site, settled in settle(model, "shield-plate-needed", ("bore", "notch"), when=lambda cut: not cut.faults):
        cut = site.cut
        wood = 0.0 if cut is None else min(cut.wood_above, cut.wood_below)
        if cut is None or not isinstance(settled, Holds) or not short(wood, least):
            yield settled or DoesNotApply(site.crossing.element)
            continue
        edge = cut.edge or ("top" if cut.wood_above < cut.wood_below else "bottom")
        lies = "lies open in" if cut.kind == "notch" else f"lies {wood:.3f} in from"
        yield site.finding(
            "shield-plate-needed",
            "note",
            wood,
            least,
            f"{site_words(model, site)} {lies} the {edge} of {joist_words(site.joist)}; nails reach as deep as "
            f"{inches(least)} in.",
            model.book.cite("shield.edge"),
            f"Cover it there with a steel plate {thickness:g} in thick.",
        )


A_HOLE = ("joist.bore.edge", "joist.bore.fraction")
"""What a hole in place of the notch would need, which the mend names."""

RULES = (
    Rule("notch-too-deep", "A notch too deep", SUBJECT, "stop", ("joist.notch.depth_fraction",), too_deep, A_HOLE),
    Rule(
        "end-notch-too-deep",
        "A notch at the end too deep",
        SUBJECT,
        "stop",
        ("joist.end_notch.fraction",),
        end_too_deep,
        A_HOLE,
    ),
    Rule("notch-too-long", "A notch too long", SUBJECT, "stop", ("joist.notch.length_fraction",), too_long, A_HOLE),
    Rule("shield-plate-needed", "A shield plate needed", SUBJECT, "note", ("shield.edge", "shield.thickness"), shield),
)
