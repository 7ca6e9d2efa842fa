"""Mends on the drain's way to the ground: a box or heat against frost, a sleeve where it passes concrete."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from engine.checks.records import Finding
from engine.checks.way_down import drops, least_sleeve
from engine.mending import costs
from engine.mending.ideas import Idea, Maker
from engine.plan import edits
from engine.study import Study
from engine.trade.pipe import label


def guarded(study: Study, finding: Finding) -> Iterator[Idea]:
    """The drop boxed, else wound with heat cable."""
    for exit_ in study.plan.exits:
        if exit_.id in finding.elements:
            make = partial(edits.set_field, study.plan, exit_.id, "frost_guard", "box")
            yield Idea(f"Put an insulated box round the drop of {exit_.id}", costs.FITTING, make)
            make = partial(edits.set_field, study.plan, exit_.id, "frost_guard", "heat")
            yield Idea(f"Put listed heat cable round the drop of {exit_.id}", costs.SIZE, make)


def sleeved(study: Study, finding: Finding) -> Iterator[Idea]:
    """The least sleeve that is sold and wide enough."""
    for drop in drops(study.model):
        size = least_sleeve(study.model, drop)
        if drop.exit.id in finding.elements and size is not None:
            make = partial(edits.set_field, study.plan, drop.exit.id, "sleeve", label(size))
            yield Idea(f"Put a {label(size)} in sleeve round {drop.exit.id}", costs.SIZE, make)


MAKERS: dict[str, Maker] = {
    "drop-open-to-frost": guarded,
    "no-sleeve": sleeved,
}
