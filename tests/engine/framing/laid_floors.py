"""A floor of one field, 120 in by 108 in unless told otherwise, and its sticks by their names."""

from __future__ import annotations

from collections.abc import Sequence

from shapely.geometry import Polygon

from engine.framing.layout import lay_out
from engine.framing.records import Framing, Joist
from engine.framing.shadow import band
from engine.plan.records import (
    Beam,
    Floor,
    FloorOpening,
    JoistField,
    Plan,
    Point,
)

SQUARE = ((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))


def laid(
    openings: Sequence[FloorOpening] = (),
    beams: Sequence[Beam] = (),
    outline: tuple[Point, ...] = SQUARE,
    **given_: object,
) -> Framing:
    field = JoistField(**({"id": "F", "corner": (0.0, 0.0), "size": (120.0, 108.0)} | given_))  # type: ignore[arg-type]
    return lay_out(
        Plan(floor=Floor(outline=outline), fields=(field,), floor_openings=tuple(openings), beams=tuple(beams))
    )


def named(framing: Framing, name: str) -> Joist:
    (found,) = (joist for joist in framing.members if joist.id == name)
    return found


def kinds(framing: Framing) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for joist in framing.members:
        found.setdefault(joist.kind, []).append(joist.id)
    return found


def wood_of(joists: Sequence[Joist]) -> list[Polygon]:
    return [Polygon(band(joist.start, joist.end, joist.thickness)) for joist in joists]
