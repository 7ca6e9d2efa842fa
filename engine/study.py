"""study(plan): the whole answer in one call."""

from __future__ import annotations

from engine import checks, rulebooks
from engine.checks.model import Model
from engine.checks.records import Finding, NotJudged
from engine.crossings import cuts, find, sharing, windows
from engine.framing import layout
from engine.joinery import build as joinery
from engine.piping import network as piping
from engine.plan.records import Plan
from engine.rulebooks import RuleBook
from engine.water.network import WaterNetwork


class Study:
    """A plan's whole answer: the model, the findings, and how often each rule was looked at.

    `findings` stand in order of weight, then rule; `looked_at` counts for each rule how often it holds, is
    broken, could not be judged and does not apply; `not_judged` says where and which datum is missing.
    """

    __slots__ = ("findings", "looked_at", "model", "not_judged", "plan")

    def __init__(
        self,
        plan: Plan,
        model: Model,
        findings: tuple[Finding, ...],
        not_judged: tuple[tuple[str, NotJudged], ...],
        looked_at: dict[str, dict[str, int]],
    ) -> None:
        self.plan = plan
        self.model = model
        self.findings = findings
        self.not_judged = not_judged
        self.looked_at = looked_at


def work_out(plan: Plan, by: RuleBook | None = None) -> Model:
    """The plan's pipes in three dimensions with their fittings and cuts, before anything is judged.

    `by` is a book to use in place of the one that the plan names with its amendments.
    """
    model = Model()
    model.memo = {}
    model.plan = plan
    model.book = book = rulebooks.load(plan.rulebook, plan.amendments) if by is None else by
    model.framing = framing = layout.lay_out(plan)
    model.joists = {joist.id: joist for joist in framing.members}
    model.network = network = piping.build(plan, book)
    model.water = water = WaterNetwork(plan)
    model.lines = lines = tuple(find.lines_under(network, plan))
    model.crossings = crossed = find.find(network, plan, framing, book, lines)
    model.windows = windows.windows(plan, book, network, framing, crossed)
    model.heights = heights = windows.heights(network, model.windows)
    axis = windows.crossing_heights(plan, network, heights, crossed, framing)
    model.shared = shared = sharing.shared(crossed, framing, axis, book, lines)
    model.cuts = cuts.cut(crossed, framing, axis, book, shared)
    model.joinery = joinery.build(plan, book, network, heights, crossed, framing, water)
    by_joist: dict[str, list[object]] = {}
    for crossing in crossed:
        by_joist.setdefault(crossing.joist, []).append(crossing)
    model.crossings_of = by_joist  # type: ignore[assignment]
    return model


def study(plan: Plan, by: RuleBook | None = None) -> Study:
    """Work out the pipes in three dimensions and judge them. Pure; never changes the plan.

    `by` is a book to use in place of the plan's own. Raises what :func:`engine.rulebooks.load` raises where the plan
    names a book or value that does not exist.
    """
    model = work_out(plan, by)
    findings, not_judged, looked_at = checks.judge(model)
    return Study(plan, model, findings, not_judged, looked_at)
