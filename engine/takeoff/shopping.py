"""The shopping list: every part of the joinery, what holds the pipes, and what is used up in joining them."""

from __future__ import annotations

from collections import Counter

from engine.checks.model import Model
from engine.takeoff.assembly import assembly
from engine.takeoff.boring_tools import tools_to_buy
from engine.takeoff.consumables import joining, rings, sleeves, thread_tape
from engine.takeoff.fastenings import fastenings
from engine.takeoff.partnames import size_words, words
from engine.takeoff.records import ShoppingLine, Support
from engine.takeoff.way_down import way_down
from engine.trade.fittings import KINDS

__all__ = ["not_counted", "shopping", "size_words", "words"]


def shopping(model: Model, held: tuple[Support, ...]) -> tuple[ShoppingLine, ...]:
    """Everything to buy besides pipe and tube, drains first; each line with its arithmetic and source."""
    return (
        *_parts(model),
        *_closers(model),
        *rings(model),
        *fastenings(model, held),
        *way_down(model),
        *joining(model),
        *sleeves(model),
        *thread_tape(model),
        *tools_to_buy(model),
    )


def not_counted(model: Model, held: tuple[Support, ...]) -> tuple[str, ...]:
    """What a job like this needs that the list does not count, and why."""
    if not model.joinery.parts:
        return ()
    missing = ["The fixtures themselves, their faucets and valve bodies, and what comes with them."]
    if model.plan.supplies:
        missing.append("Supply tubes from the stops to the fixtures, and what the water heater's maker asks for.")
    if any(one.block is not None for one in held):
        missing.append(
            "Lumber that the floor's framing leaves: blocks may be cut from it in place of what is listed for them."
        )
    if model.plan.fields:
        headed = ", those of the openings in it among them" if model.plan.floor_openings else ""
        missing.append(
            f"The floor's own framing: its lumber, hangers and nails{headed}. The framing sheet lists its sticks."
        )
    if model.joinery.faults:
        missing.append("Fittings at the places that the findings say no fitting makes.")
    return tuple(missing)


def _parts(model: Model) -> list[ShoppingLine]:
    counts: Counter[tuple[str, tuple[float, ...], str]] = Counter()
    notes: dict[tuple[str, tuple[float, ...], str], dict[str, None]] = {}
    for part in model.joinery.parts:
        key = (part.kind, part.size, part.system)
        counts[key] += 1
        if part.note:
            notes.setdefault(key, {})[part.note] = None
    lines = []
    for (kind, size, system), count in counts.items():
        why = "; ".join(notes.get((kind, size, system), ()))
        lines.append(ShoppingLine(words(kind), size_words(size), count, "each", system, why, "", kind))
    order = {"waste": 0, "vent": 1}
    return sorted(lines, key=lambda line: (line.kind not in KINDS, order.get(line.system, 2), line.part))


def _closers(model: Model) -> list[ShoppingLine]:
    """What the assembly order asks for beside the parts: repair couplings where a ring of pipe is closed."""
    counts: Counter[tuple[str, float]] = Counter()
    for step in assembly(model):
        for kind, size, count in step.needs:
            counts[kind, size] += count
    return [
        ShoppingLine(words(kind), size_words((size,)), count, "each", "vent", "to close a ring of pipe", "", kind)
        for (kind, size), count in counts.items()
    ]
