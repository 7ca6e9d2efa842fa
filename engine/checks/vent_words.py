"""What vents and heights are called in the sentences of findings."""

from __future__ import annotations

from engine.checks.model import Model
from engine.lengths import inches
from engine.plan.outline import describe
from engine.plan.records import Drain, Riser, Vent


def called(model: Model, element: str) -> str:
    """A run or riser as a sentence begins with it: ``Vent v1``, ``Riser r2``."""
    words = model.memo.get("pipe words")
    if not isinstance(words, dict):
        drawn: tuple[Vent | Riser | Drain, ...] = (*model.plan.vents, *model.plan.risers, *model.plan.drains)
        words = model.memo["pipe words"] = {one.id: describe(one) for one in drawn}
    found: str = words.get(element, element)
    return found


def over_floor(model: Model, z: float) -> str:
    """A height over the joists' top as one says it from the finished floor: ``30 in above the floor``."""
    above = z - model.plan.floor.finished_z
    return f"{inches(abs(above))} in {'above' if above >= 0.0 else 'below'} the floor"
