"""Mends by wood: a floor framed with deeper lumber."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from engine.mending import costs
from engine.mending.ideas import Idea
from engine.plan import edits
from engine.plan.records import JoistField, Plan
from engine.trade import lumber


def framed(plan: Plan, name: str) -> Iterator[Idea]:
    """A field framed with deeper lumber, the shallowest first."""
    field = edits.find(plan, name)
    if not isinstance(field, JoistField) or field.member != "sawn":
        return
    now = field.depth or lumber.actual(field.lumber).depth
    deeper_ones = [one for one in lumber.listed() if lumber.actual(one).depth > now and one.startswith("2x")]
    for steps, size in enumerate(deeper_ones[:2]):
        make = partial(edits.set_fields, plan, name, lumber=size, depth=None)
        yield Idea(f"Frame {name} with {size}", costs.LUMBER * (1 + steps), make)
