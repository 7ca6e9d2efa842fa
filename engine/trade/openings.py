"""The room that pipes take where they stand plumb between joists, and the play that lets them be slid."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from engine.plan.records import Plan
from engine.trade.facts import table
from engine.trade.pipe import drain


@cache
def hole_of(kind: str) -> float | None:
    """Width of the hole that a kind of fixture wants in the floor round its pipe, inches; None when its pipe is all."""
    return table("openings").maybe(kind, "hole")


class Framed(NamedTuple):
    """Room inside the headers where a joist is headed off: the least between them, and what is kept round a pipe's hub."""

    least: float
    round: float


def framed_round(plan: Plan, elements: tuple[str, ...]) -> Framed:
    """The room that headers leave round what stands in the floor, inches, by the fixtures among these elements."""
    facts = table("openings")
    kinds = [fixture.kind for fixture in plan.fixtures if fixture.id in elements]
    return Framed(
        max((facts.maybe(kind, "framed clear") or 0.0 for kind in kinds), default=0.0),
        facts.number("any", "framed round"),
    )


@cache
def hub(size: float) -> float:
    """Outside diameter of a fitting's hub, inches: its wall is taken as thick as the pipe's, the least it can be."""
    pipe = drain(size)
    return pipe.od + 2.0 * pipe.wall


@cache
def easy_play() -> float:
    """The play round a pipe under which it is pressed rather than slid through its bore, inches."""
    return table("openings").number("bore", "easy play")
