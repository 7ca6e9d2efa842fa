"""Each crossing of pipe and wood as the rules on joists look at it: with its joist, its height and its cut."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Literal, NamedTuple

from engine.checks.model import Model, once_a_model
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Weight
from engine.crossings.cuts import clear_of
from engine.crossings.limits import judged_by_book
from engine.crossings.records import Crossing, JoistCut, SharedHole
from engine.crossings.windows import crossing_heights
from engine.framing.records import Joist
from engine.framing.telling import noun
from engine.lengths import inches
from engine.plan.outline import listed
from engine.trade.pipe import label

SUBJECT = "joist cuts"
"""What the rules on crossings are listed under."""

Asks = Literal["bore", "notch"]


class Site(NamedTuple):
    """One crossing. `z` is None where the axis's height is not known; `cut` is None there, and where pipe is clear.

    `asks` is what the run wants of this joist: None where it passes under, or is known to be clear of the wood, and
    where another tube asks for the hole that it shares. `by_book` tells whether the book's numbers for joists speak of
    this member. `hole` is what it shares with other tubes, if any; at the first of them crossing and height are the hole's.
    """

    crossing: Crossing
    joist: Joist
    z: float | None
    cut: JoistCut | None
    asks: Asks | None
    by_book: bool
    hole: SharedHole | None = None

    @property
    def told_with_another(self) -> bool:
        """Whether the hole is told of at another tube, the first of those that share it."""
        return self.hole is not None and self.hole.crossing.id != self.crossing.id

    @property
    def runs(self) -> tuple[str, ...]:
        """The runs that pass in this hole or notch, each once."""
        return (self.crossing.element,) if self.hole is None else runs_in(self.hole)

    @property
    def clear(self) -> bool:
        """Whether the pipe is known to lie wholly above or below the joist."""
        return self.z is not None and clear_of(self.crossing, self.joist, self.z)

    @property
    def place(self) -> tuple[float, float, float]:
        """Where the axis crosses the joist; height 0 where none is known."""
        return (*self.crossing.at, 0.0 if self.z is None else self.z)

    def not_judged(self, missing: str) -> NotJudged:
        """The outcome of a rule that lacks a datum here."""
        return NotJudged(self.place, (self.crossing.element, self.joist.id), missing)

    def finding(
        self,
        rule: str,
        weight: Weight,
        measured: float | None,
        limit: float | None,
        text: str,
        cites: str,
        mend: str,
        beside: tuple[str, ...] = (),
    ) -> Finding:
        """The outcome of a rule that is broken here; `beside` are the other elements that have a part in it."""
        elements = (*dict.fromkeys((*self.runs, *beside)), self.joist.id)
        unit = "" if measured is None else "in"
        return Finding(rule, weight, self.place, elements, measured, limit, unit, text, cites, mend)


def _asks(crossing: Crossing, joist: Joist, z: float | None) -> Asks | None:
    if crossing.passing == "under" or (z is not None and clear_of(crossing, joist, z)):
        return None
    return "notch" if crossing.passing == "notched" else "bore"


Settled = tuple[Site, Outcome | None]
"""A crossing and what a rule says of it; None where the rule is broken there."""


@once_a_model
def sites(model: Model) -> tuple[Site, ...]:
    """Every crossing with its joist, height and cut, in the crossings' order."""
    return tuple(_sites(model))


def _sites(model: Model) -> Iterator[Site]:
    cuts = {cut.crossing: cut for cut in model.cuts}
    uncut = tuple(crossing for crossing in model.crossings if crossing.id not in cuts)
    heights = crossing_heights(model.plan, model.network, model.heights, uncut, model.framing)
    holes = {tube.crossing: hole for hole in model.shared for tube in hole.tubes}
    for own in model.crossings:
        cut, hole = cuts.get(own.id), holes.get(own.id)
        crossing = own if hole is None or hole.crossing.id != own.id else hole.crossing
        z = heights.get(crossing.id) if cut is None else -cut.down_from_top
        joist = model.joists[crossing.joist]
        asks = _asks(crossing, joist, z) if hole is None or crossing is hole.crossing else None
        yield Site(crossing, joist, z, cut, asks, judged_by_book(joist), hole)


def settle(
    model: Model,
    rule: str,
    asks: tuple[Asks, ...],
    missing: Callable[[Site], str] | None = None,
    when: Callable[[JoistCut], bool] | None = None,
) -> Iterator[Settled]:
    """Each crossing with what one rule on cuts says of it, as the cut was judged when it was worked out.

    The rule looks at sawn joists from which one of `asks` is wanted, and only at cuts that `when` picks out.
    `missing` names the datum that a cut lacks which could not be judged.
    """
    for site in sites(model):
        element, cut = site.crossing.element, site.cut
        outcome: Outcome | None
        if site.asks not in asks or not site.by_book:
            outcome = DoesNotApply(element)
        elif cut is None:
            outcome = site.not_judged(no_height(site))
        elif when is not None and not when(cut):
            outcome = DoesNotApply(element)
        elif rule in cut.unjudged:
            outcome = site.not_judged(missing(site) if missing is not None else rule)
        else:
            outcome = None if rule in cut.faults else Holds(element)
        yield site, outcome


def no_height(site: Site) -> str:
    """What is missing where a pipe's height is not known."""
    return f"the height of {site.crossing.element}: it is joined to no exit that would set it"


def no_bearing(site: Site) -> str:
    """What is missing where a place along the span cannot be told."""
    if not site.joist.supports:
        return f"the bearing of joist {site.joist.id} is not drawn"
    if len(site.joist.supports) == 1:
        return f"a second bearing of joist {site.joist.id}: one alone makes no span"
    return f"the book's word on the overhang of joist {site.joist.id} past its last bearing"


def runs_in(hole: SharedHole) -> tuple[str, ...]:
    """The runs whose tubes share a hole, each once."""
    return tuple(dict.fromkeys(tube.element for tube in hole.tubes))


def run_words(runs: tuple[str, ...]) -> str:
    """The runs of one hole or notch in words: ``c1``, or ``c1 with h1`` where they share it."""
    return " with ".join((runs[0], listed(runs[1:]))) if len(runs) > 1 else runs[0]


def site_words(model: Model, site: Site) -> str:
    """What passes at a site in words: the pipe, or the first tube with those that share its hole."""
    if site.hole is None:
        return pipe_words(model, site.crossing)
    of_run = {crossing.element: crossing for crossing in model.crossings if crossing.element in site.runs}
    first, *others = (pipe_words(model, of_run[name]) for name in site.runs)
    return f"{first} with {listed(others)} in one hole" if others else first


def pipe_words(model: Model, crossing: Crossing) -> str:
    """A crossing's pipe in words: its run and size, and that its insulation goes through with it."""
    pipe = model.network.by_id.get(crossing.pipe)
    if pipe is not None:
        return f"{crossing.element}'s {label(pipe.size)} in pipe"
    supply = next(supply for supply in model.plan.supplies if supply.id == crossing.element)
    return f"{crossing.element}'s {supply.size} in tube" + (" with its insulation" if supply.insulation else "")


def joist_words(joist: Joist) -> str:
    """A joist in words: its id and its depth by the tape."""
    return f"{noun(joist)} {joist.id} ({inches(joist.depth)} in deep)"
