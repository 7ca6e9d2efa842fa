"""lay_out(plan): the floor's wood, stick by stick, from the fields, openings and beams that were drawn."""

from __future__ import annotations

from functools import lru_cache

from engine.framing.beams import beam
from engine.framing.blocking import blocks
from engine.framing.field import LaidField, Stick
from engine.framing.flush import cut_back
from engine.framing.headed_off import headed_off
from engine.framing.records import Framing, Joist, Kind
from engine.plan.records import Beam, FloorOpening, JoistField, Plan, Point

KEPT = 16
"""Floors whose wood is remembered: while pipe is drawn, the same floor is asked for again and again."""

_ORDER: tuple[tuple[Kind, ...], ...] = (("common", "tail", "trimmer"), ("end",), ("rim",), ("header",), ("block",))


def lay_out(plan: Plan) -> Framing:
    """Every stick of the plan's floor: common joists first, with the tails and trimmers among them as they come, then
    end joists, rims, headers and blocks, each in file order, cut back at flush beams; beams by themselves."""
    return _laid(plan.fields, plan.floor.outline, plan.floor_openings, plan.beams)


@lru_cache(maxsize=KEPT)
def _laid(
    fields: tuple[JoistField, ...],
    outline: tuple[Point, ...],
    openings: tuple[FloorOpening, ...],
    beams: tuple[Beam, ...],
) -> Framing:
    laid = [LaidField(field, outline, beams) for field in fields]
    found: list[tuple[LaidField, list[Stick]]] = []
    for field in laid:
        across = field.rims()
        running = cut_back(field, headed_off(field, field.lines(), openings, across))
        running.sort(key=lambda stick: (stick.t, stick.first))
        across += blocks(field, running, across, openings)
        found.append((field, [*running, *cut_back(field, across)]))
    joists = tuple(
        joist
        for kinds in _ORDER
        for field, sticks in found
        for joist in _named(field, [stick for stick in sticks if stick.kind in kinds])
    )
    return Framing(joists, tuple(beam(one, joists) for one in beams))


def _named(field: LaidField, sticks: list[Stick]) -> list[Joist]:
    """The sticks as they stand in plan; what is left of one joist in several pieces is lettered from its start."""
    count: dict[str, int] = {}
    for stick in sticks:
        count[stick.name] = count.get(stick.name, 0) + 1
    seen: dict[str, int] = {}
    made = []
    for stick in sticks:
        letter = ""
        if count[stick.name] > 1 or stick.kind == "tail":
            letter = chr(ord("a") + seen.get(stick.name, 0))
            seen[stick.name] = seen.get(stick.name, 0) + 1
        made.append(field.joist(stick, f"{stick.name}{letter}"))
    return made
