"""lay_out(plan): the floor's wood, stick by stick, from the fields, openings and beams that were drawn."""

from __future__ import annotations

from functools import lru_cache

from engine.framing.beams import beam
from engine.framing.blocking import blocks
from engine.framing.field import LaidField, Stick
from engine.framing.flush import cut_back
from engine.framing.headed_off import headed_off
from engine.framing.lapping import lapped
from engine.framing.records import Framing, Joist, Kind
from engine.plan.records import Beam, FloorOpening, JoistField, Plan, Point

KEPT = 16
"""Floors whose wood is remembered: while pipe is drawn, the same floor is asked for again and again."""

_ORDER: tuple[tuple[Kind, ...], ...] = (("common", "tail", "trimmer"), ("end",), ("rim",), ("header",), ("block",))


def lay_out(plan: Plan) -> Framing:
    """Every stick of the plan's floor: common joists first, with the tails and trimmers among them as they come, then
    end joists, rims, headers and blocks, each in file order, cut back at flush beams and lapped; beams by themselves."""
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
        running = headed_off(field, field.lines(), openings, across)
        if field.field.laps:
            running = lapped(field, running, openings)
        running = cut_back(field, running)
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
    alike: dict[str, list[Stick]] = {}
    for stick in sticks:
        alike.setdefault(stick.name, []).append(stick)
    letters = {}
    for mates in alike.values():
        for place, stick in enumerate(sorted(mates, key=lambda one: one.reach[0][::-1])):
            if len(mates) > 1 or stick.kind == "tail":
                letters[id(stick)] = chr(ord("a") + place)
    return [field.joist(stick, f"{stick.name}{letters.get(id(stick), '')}") for stick in sticks]
