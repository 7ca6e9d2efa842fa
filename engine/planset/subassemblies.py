"""The steps of the assembly order in the groups that are worked at in one go."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from engine.checks.model import Model
from engine.plan.outline import listed
from engine.plan.records import Fixture
from engine.takeoff.assembly import Step
from engine.trade import fixtures as trade

_LATER = {
    "thread": "Before anything is glued",
    "close": "Joints that close a ring",
    "loose": "Parts that no joint of the drawing holds",
    "test": "The test",
    "untest": "After the test",
    "roof": "Once the roof is covered",
    "finish": "Once the finish stands",
}


class Subassembly(NamedTuple):
    """Steps that follow each other on one line of pipe or at one time, and what they build."""

    title: str
    steps: tuple[Step, ...]


def subassemblies(model: Model, steps: Iterable[Step]) -> tuple[Subassembly, ...]:
    """All steps in their order: a new group where a new line of pipe or a new time begins."""
    groups: list[list[Step]] = []
    for step in steps:
        if groups and _goes_on(groups[-1][-1], step):
            groups[-1].append(step)
        else:
            groups.append([step])
    return tuple(Subassembly(_title(model, group), tuple(group)) for group in _vents_together(model, groups))


def _goes_on(last: Step, step: Step) -> bool:
    """Whether a step goes on from the last one: at the same time, or glued onto what that one put in place."""
    if step.kind in _LATER or last.kind in _LATER:
        return step.kind == last.kind
    if step.kind == "start":
        return False
    return last.kind == "dry fit" or bool({*last.parts, *last.pieces} & set(step.onto))


def _vents_together(model: Model, groups: list[list[Step]]) -> list[list[Step]]:
    """Lines of nothing but vents that follow each other become one group."""
    systems = {piece.mark: piece.system for piece in model.joinery.pieces}
    found: list[list[Step]] = []
    before = False
    for group in groups:
        pieces = [mark for step in group for mark in step.pieces]
        vents = bool(pieces) and group[0].kind not in _LATER and all(systems[mark] == "vent" for mark in pieces)
        if vents and before:
            found[-1] += group
        else:
            found.append(list(group))
        before = vents
    return found


def _title(model: Model, group: list[Step]) -> str:
    if group[0].kind in _LATER:
        return _LATER[group[0].kind]
    pieces = {piece.mark: piece for piece in model.joinery.pieces}
    parts = {part.id: part for part in model.joinery.parts}
    own = [pieces[mark] for step in group for mark in step.pieces]
    drawn = dict.fromkeys(_element(model, pipe) for piece in own for pipe in piece.pipes)
    stand = dict.fromkeys(element for step in group for part in step.parts for element in parts[part].elements)
    elements = {**drawn, **stand}
    said = {run.id: f"drain {run.id}" for run in model.plan.drains}
    said |= {run.id: f"vent {run.id}" for run in model.plan.vents}
    said |= {riser.id: f"riser {riser.id}" for riser in model.plan.risers}
    runs = [said[element] for element in drawn if element in said]
    served = [_called(fixture) for fixture in model.plan.fixtures if fixture.id in elements]
    exits = [exit_.id for exit_ in model.plan.exits if exit_.id in elements]
    words = listed(runs)
    if own and all(piece.system == "vent" for piece in own):
        words = f"vents: {words}" if words else "vents"
    if group[0].kind == "start" and exits:
        words = f"from exit {listed(exits)}: {words}" if words else f"from exit {listed(exits)}"
    if served:
        words += f"{', ' if words else ''}to {listed(served)}"
    words = words or "pipes apart from the rest"
    return words[:1].upper() + words[1:]


def _element(model: Model, pipe: str) -> str:
    known = model.network.by_id.get(pipe)
    return known.element if known is not None else pipe.split(".")[0]


def _called(fixture: Fixture) -> str:
    return f"{fixture.name or trade.fixture(fixture.kind).words} ({fixture.id})"
