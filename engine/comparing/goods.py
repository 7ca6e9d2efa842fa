"""What is drawn or bought otherwise under another book: sizes of pipe, and lines of the shopping list."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.drain_sizes import drained
from engine.checks.model import Model
from engine.checks.vent_words import called
from engine.comparing.records import PartBeside, SizeBeside
from engine.comparing.sides import Sides
from engine.study import Study
from engine.takeoff.shopping import shopping
from engine.takeoff.size_words import why_drain, why_vent
from engine.takeoff.supports import supports
from engine.trade.pipe import label

Line = tuple[str, str, str, str]


def sizes_beside(sides: Sides) -> tuple[SizeBeside, ...]:
    """Pipes whose size is another, those of one drawn thing that change alike in one row, in file order."""
    return tuple(dict.fromkeys(_sizes(sides)))


def _sizes(sides: Sides) -> Iterator[SizeBeside]:
    here, there = sides.here.model, sides.there.model
    for pipe in here.network.pipes:
        other = there.network.by_id.get(pipe.id)
        if other is None or other.size == pipe.size:
            continue
        named = drained(here, pipe.element) if pipe.system == "waste" else called(here, pipe.element)
        yield SizeBeside(
            pipe.element,
            named,
            pipe.system,
            label(pipe.size),
            label(other.size),
            _why(here, pipe.id),
            _why(there, pipe.id),
        )


def _why(model: Model, pipe: str) -> str:
    drain, vent = model.network.drain_sizes.get(pipe), model.network.vent_sizes.get(pipe)
    if drain is not None:
        return why_drain(model, drain)
    return why_vent(model, vent) if vent is not None else ""


def parts_beside(sides: Sides) -> tuple[PartBeside, ...]:
    """Lines of the shopping list, pipe left out, of which the books need another number."""
    here, there = _lines(sides.here), _lines(sides.there)
    return tuple(
        PartBeside(*line, here.get(line, 0), there.get(line, 0))
        for line in sorted({*here, *there})
        if here.get(line, 0) != there.get(line, 0)
    )


def _lines(study: Study) -> dict[Line, int]:
    counts: dict[Line, int] = {}
    for line in shopping(study.model, supports(study.model)):
        key = (line.part, line.size, line.system, line.unit)
        counts[key] = counts.get(key, 0) + line.count
    return counts
