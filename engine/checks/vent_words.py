"""What vents and heights are called in the sentences of findings."""

from __future__ import annotations

from engine.checks.model import Model, once_a_model
from engine.lengths import inches
from engine.plan.outline import describe
from engine.plan.records import Drain, Riser, Vent


def called(model: Model, element: str) -> str:
    """A run or riser as a sentence begins with it: ``Vent v1``, ``Riser r2``."""
    return _words(model).get(element, element)


@once_a_model
def _words(model: Model) -> dict[str, str]:
    drawn: tuple[Vent | Riser | Drain, ...] = (*model.plan.vents, *model.plan.risers, *model.plan.drains)
    return {one.id: describe(one) for one in drawn}


def over_floor(model: Model, z: float) -> str:
    """A height over the joists' top as one says it from the finished floor: ``30 in above the floor``."""
    above = z - model.plan.floor.finished_z
    return f"{inches(abs(above))} in {'above' if above >= 0.0 else 'below'} the floor"
