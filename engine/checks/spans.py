"""Where along its clear span a sawn joist may be cut. The span is support to support, never the stick's length."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.mends import another_way, bore_instead
from engine.checks.model import Model
from engine.checks.records import DoesNotApply, Finding, Outcome, Rule
from engine.checks.sites import SUBJECT, Site, joist_words, no_bearing, run_words, settle
from engine.crossings.limits import into_middle, span_at
from engine.crossings.records import JoistCut
from engine.framing.telling import ends
from engine.lengths import down, feet_inches, inches


def notch_in_middle(model: Model) -> Iterator[Outcome]:
    """A notch that reaches into the middle third of the clear span, where bending is greatest.

    Measured from the nearer support's face to the notch's far side. Reads ``joist.notch.middle_from`` and
    ``.middle_to``. Holds: a notch that ends a third of the span from a support. Broken: 1/16 in further in.
    Over a bearing it holds; past the last bearing, or where fewer than two bearings are drawn, it is not judged.
    Source: IRC R502.8.1.
    """
    for site, settled in settle(model, "notch-in-middle-third", ("notch",), no_bearing):
        if settled is not None or site.cut is None:
            yield settled or DoesNotApply(site.crossing.element)
            continue
        yield _in_middle(
            model, site, site.cut, "notch-in-middle-third", "joist.notch.middle_from", bore_instead(model, site)
        )


def bore_in_middle(model: Model) -> Iterator[Outcome]:
    """A bore in the middle third of the clear span, where the official refuses it.

    The code is silent, so bores may lie anywhere along the span and the rule does not apply, unless
    ``joist.bore.middle_allowed`` is amended to no. Then a bore may reach no further in than a notch. Not judged
    where fewer than two bearings are drawn. Source: IRC R502.8.1, by its silence.
    """
    refused = not model.book.flag("joist.bore.middle_allowed")
    for site, settled in settle(model, "bore-in-middle-third", ("bore",), no_bearing, lambda _: refused):
        if settled is not None or site.cut is None:
            yield settled or DoesNotApply(site.crossing.element)
            continue
        yield _in_middle(
            model,
            site,
            site.cut,
            "bore-in-middle-third",
            "joist.bore.middle_allowed",
            another_way(model, site, by_size=False),
        )


def _in_middle(model: Model, site: Site, cut: JoistCut, rule: str, key: str, mend: str) -> Finding:
    start, end = cut.from_start - cut.length / 2.0, cut.from_start + cut.length / 2.0
    span = span_at(site.joist, start, end)
    if span is None:
        raise ValueError(f"{cut.crossing}: {rule} is said to be broken where joist {site.joist.id} has no span")
    reaches, most = into_middle(span, start, end, model.book)
    near = ends(site.joist)[0 if end - span.start <= span.end - start else 1]
    return site.finding(
        rule,
        "stop",
        reaches,
        most,
        f"The {cut.kind} for {run_words(site.runs)} in {joist_words(site.joist)} reaches {inches(reaches)} in from the "
        f"face of the support at its {near} end; of the clear span of {feet_inches(span.length)} only the outer thirds, "
        f"{inches(down(most))} in from each support, may be cut so.",
        model.book.cite(key),
        f"Move it into an outer third of the span. Or else: {mend[0].lower()}{mend[1:]}",
    )


RULES = (
    Rule(
        "notch-in-middle-third",
        "A notch in the middle third of the span",
        SUBJECT,
        "stop",
        ("joist.notch.middle_from", "joist.notch.middle_to"),
        notch_in_middle,
        ("joist.bore.edge", "joist.bore.fraction"),
    ),
    Rule(
        "bore-in-middle-third",
        "A bore in the middle third, where refused",
        SUBJECT,
        "stop",
        ("joist.bore.middle_allowed", "joist.notch.middle_from", "joist.notch.middle_to"),
        bore_in_middle,
    ),
)
