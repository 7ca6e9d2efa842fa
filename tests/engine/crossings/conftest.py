"""Small floors and pipes made by hand, so that crossings can be tested without the pipe graph being built."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import pytest

from engine.framing.layout import lay_out
from engine.framing.records import Framing
from engine.piping.records import UNDER, Network, Node, Pipe
from engine.plan.records import Floor, JoistField, Plan, Point, Supply

Run = Callable[..., list[Pipe]]
Net = Callable[..., Network]


def made_run(
    element: str, points: Sequence[Point], size: float = 1.5, passing: str = "through", slope: float = 0.25
) -> list[Pipe]:
    """One drain run's pipes, in the order of its points, which is the way the water goes."""
    nodes = [Node(x, y, UNDER) for x, y in points]
    pipes = []
    for segment in range(len(nodes) - 1):
        start, end = nodes[segment], nodes[segment + 1]
        run = math.dist(start[:2], end[:2])
        pipes.append(
            Pipe(
                id=f"{element}.{segment}",
                element=element,
                segment=segment,
                system="waste",
                shape="level",
                start=start,
                end=end,
                run=run,
                heading=((end.x - start.x) / run, (end.y - start.y) / run),
                slope=slope,
                size=size,
                pinned_size=True,
                passing=passing,  # type: ignore[arg-type]
                fixture=None,
                load=1.0,
                carries=(),
            )
        )
    return pipes


def made_network(*runs: list[Pipe]) -> Network:
    network = Network()
    network.pipes = tuple(pipe for run in runs for pipe in run)
    network.by_id = {pipe.id: pipe for pipe in network.pipes}
    return network


def made_plan(fields: Sequence[JoistField] = (), supplies: Sequence[Supply] = ()) -> Plan:
    return Plan(
        floor=Floor(outline=((0.0, 0.0), (1.0, 0.0), (0.0, 1.0))), fields=tuple(fields), supplies=tuple(supplies)
    )


def made_floor(lumber: str = "2x10", **given: object) -> Framing:
    """Joists north-south at x 16, 32, ... on a floor 120 x 108, so 105 long, unless told otherwise."""
    field = JoistField(**({"id": "F", "corner": (0.0, 0.0), "size": (120.0, 108.0), "lumber": lumber} | given))  # type: ignore[arg-type]
    return lay_out(made_plan([field]))


@pytest.fixture
def run() -> Run:
    return made_run


@pytest.fixture
def net() -> Net:
    return made_network


@pytest.fixture
def plan_of() -> Callable[..., Plan]:
    return made_plan


@pytest.fixture
def floor() -> Callable[..., Framing]:
    return made_floor
