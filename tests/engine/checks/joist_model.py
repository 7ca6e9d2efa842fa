"""Floors with level runs at given heights, worked out as far as the rules on joist cuts read them."""

from __future__ import annotations

import itertools
import math
from typing import Any, NamedTuple

from engine.checks.joist_cuts import RULES
from engine.checks.model import Model
from engine.checks.records import Finding, Outcome
from engine.crossings.cuts import cut
from engine.crossings.find import find, lines_under
from engine.crossings.sharing import shared
from engine.crossings.windows import crossing_heights
from engine.framing.layout import lay_out
from engine.piping.records import UNDER, Network, Node, Pipe
from engine.plan.records import Amendment, Floor, JoistField, Plan, Point, Supply
from engine.rulebooks import load

JUDGES = {rule.id: rule.judge for rule in RULES}


class Run(NamedTuple):
    """A level drain run: where it crosses (or its points), its axis's height, its size and way past the joists."""

    y: float = 20.0
    z: float | None = -4.6
    size: float = 1.5
    passing: str = "through"
    points: tuple[Point, ...] = ()


def model_of(*runs: Run, amend: tuple[Amendment, ...] = (), supplies: tuple[Supply, ...] = (), **given: Any) -> Model:
    field = JoistField(**({"id": "F", "corner": (0.0, 0.0), "size": (120.0, 108.0)} | given))
    network, heights = Network(), {}
    for number, run in enumerate(runs):
        nodes = [Node(x, y, UNDER) for x, y in run.points or ((56.0, run.y), (43.0, run.y))]
        for segment, (start, end) in enumerate(itertools.pairwise(nodes)):
            length = math.dist(start[:2], end[:2])
            heading = ((end.x - start.x) / length, (end.y - start.y) / length)
            pipe = Pipe(
                f"d{number}.{segment}", f"d{number}", segment, "waste", "level", start, end, length, heading, 0.0,
                run.size, True, run.passing, None, 1.0, (),  # type: ignore[arg-type]
            )  # fmt: skip
            network.pipes += (pipe,)
            network.by_id[pipe.id] = pipe
            if run.z is not None:
                heights[start] = heights[end] = run.z
    model = Model()
    model.plan = Plan(
        floor=Floor(outline=((0.0, 0.0), (1.0, 0.0), (0.0, 1.0))), fields=(field,), supplies=supplies, amendments=amend
    )
    model.book = load("irc-2021", amend)
    model.framing = lay_out(model.plan)
    model.joists = {joist.id: joist for joist in model.framing.members}
    model.network, model.heights, model.memo = network, heights, {}
    model.lines = tuple(lines_under(network, model.plan))
    model.crossings = find(network, model.plan, model.framing, model.book)
    axis = crossing_heights(model.plan, network, heights, model.crossings, model.framing)
    model.shared = shared(model.crossings, model.framing, axis, model.book, model.lines)
    model.cuts = cut(model.crossings, model.framing, axis, model.book, model.shared)
    return model


def outcomes(rule: str, model: Model) -> list[Outcome]:
    return list(JUDGES[rule](model))


def only(rule: str, *runs: Run, **given: Any) -> Outcome:
    (found,) = outcomes(rule, model_of(*runs, **given))
    return found


def broken(rule: str, *runs: Run, **given: Any) -> Finding:
    found = next(found for found in outcomes(rule, model_of(*runs, **given)) if isinstance(found, Finding))
    assert found.rule == rule
    return found


def kind(outcome: Outcome) -> type[Outcome]:
    return type(outcome)


def amended(value: str, becomes: float | bool) -> tuple[Amendment, ...]:
    return (Amendment(value, becomes, "the county's official", "2026-03-01"),)
