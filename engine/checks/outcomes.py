"""Small makers of outcomes that every check module shares."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model, once_a_model
from engine.checks.records import Finding, Holds, Outcome, Weight
from engine.joinery.pieces import midway
from engine.piping.records import Fault, Node, Pipe
from engine.plan.records import Fixture

COMMON = "common practice"
"""What a finding cites that rests on no code."""


def place(model: Model, node: Node) -> tuple[float, float, float]:
    """A node's place; z is 0 where the height is not known."""
    return (node.x, node.y, model.heights.get(node, 0.0))


def middle(model: Model, pipe: Pipe) -> tuple[float, float, float]:
    """The place halfway along a pipe."""
    return midway(place(model, pipe.start), place(model, pipe.end))


@once_a_model
def fixtures(model: Model) -> dict[str, Fixture]:
    """The plan's fixtures by their ids."""
    return {fixture.id: fixture for fixture in model.plan.fixtures}


def name(model: Model, element: str) -> str:
    """An element by the name its owner gave it, else by its id."""
    return _names(model).get(element, element)


@once_a_model
def _names(model: Model) -> dict[str, str]:
    return {one.id: one.name or f"{one.kind.replace('_', ' ')} {one.id}" for one in model.plan.fixtures}


def faults_as_findings(
    model: Model, rule: str, weight: Weight, elements: tuple[str, ...], cites: str = COMMON
) -> Iterator[Outcome]:
    """The graph's and the joinery's faults under one rule, and `holds` for each element that has none."""
    struck: set[str] = set()
    faults: tuple[Fault, ...] = (*model.network.faults, *model.joinery.faults)
    for fault in faults:
        if fault.rule != rule:
            continue
        struck.update(fault.elements)
        yield Finding(
            rule=rule,
            weight=weight,
            at=(fault.at[0], fault.at[1], fault.z),
            elements=fault.elements,
            measured=fault.measured,
            limit=fault.limit,
            unit=fault.unit or ("in" if fault.measured is not None else ""),
            text=fault.text,
            cites=cites,
            mend=fault.mend,
        )
    for element in elements:
        if element not in struck:
            yield Holds(element)
