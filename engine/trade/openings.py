"""The room that pipes take where they stand plumb between joists, and the play that lets them be slid."""

from __future__ import annotations

from functools import cache

from engine.trade.facts import table
from engine.trade.pipe import drain


@cache
def hole_of(kind: str) -> float | None:
    """Width of the hole that a kind of fixture wants in the floor round its pipe, inches; None when its pipe is all."""
    return table("openings").maybe(kind, "hole")


@cache
def hub(size: float) -> float:
    """Outside diameter of a fitting's hub, inches: its wall is taken as thick as the pipe's, the least it can be."""
    pipe = drain(size)
    return pipe.od + 2.0 * pipe.wall


@cache
def easy_play() -> float:
    """The play round a pipe under which it is pressed rather than slid through its bore, inches."""
    return table("openings").number("bore", "easy play")
