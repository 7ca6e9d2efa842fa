"""Everything that the checks may read, worked out once and handed over read-only."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any, TypeVar

from engine.crossings.records import Crossing, JoistCut, SharedHole, Window
from engine.crossings.stretches import Line
from engine.framing.records import Framing, Joist
from engine.joinery.records import Joinery
from engine.piping.records import Network, Node
from engine.plan.records import Plan
from engine.rulebooks import RuleBook
from engine.water.network import WaterNetwork

T = TypeVar("T")


class Model:
    """Everything that the checks may read: the plan, the book and each stage's answer, worked out once."""

    __slots__ = (
        "book",
        "crossings",
        "crossings_of",
        "cuts",
        "framing",
        "heights",
        "joinery",
        "joists",
        "lines",
        "memo",
        "network",
        "plan",
        "shared",
        "water",
        "windows",
    )

    plan: Plan
    book: RuleBook
    framing: Framing
    joists: dict[str, Joist]
    network: Network
    water: WaterNetwork
    lines: tuple[Line, ...]
    crossings: tuple[Crossing, ...]
    crossings_of: dict[str, list[Crossing]]
    windows: tuple[Window, ...]
    heights: dict[Node, float]
    joinery: Joinery
    shared: tuple[SharedHole, ...]
    cuts: tuple[JoistCut, ...]
    memo: dict[Callable[[Model], object], Any]


def once_a_model(work: Callable[[Model], T]) -> Callable[[Model], T]:
    """What is worked out of a model for several rules, or for one rule at every element: done at the first call."""

    @wraps(work)
    def known(model: Model) -> T:
        memo = model.memo
        found: T = memo[work] if work in memo else memo.setdefault(work, work(model))
        return found

    return known
