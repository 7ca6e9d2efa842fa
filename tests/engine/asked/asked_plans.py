"""Floors typed in from questions that people asked in public, and what the program answers to them.

Plan x runs east and y north from the inside of the framing's south-west corner, as the questions were measured; heights
are given down from the joists' top. Only the numbers are theirs; positions were made to fit where none were given.
"""

from __future__ import annotations

from typing import Any

from engine.checks.records import Finding
from engine.plan.records import Drain, Exit, Floor, JoistField, Plan, Point
from engine.study import Study, study

NO_JOISTS = ((-20.0, -20.0), (500.0, -20.0), (500.0, 500.0), (-20.0, 500.0))


def joists(
    first: float, last: float, length: float, lumber: str = "2x10", spacing: float = 16.0, **given: Any
) -> JoistField:
    """Joists that run north-south with their centres from `first` to `last`, over a length from y 0."""
    return JoistField(
        id="j",
        corner=(first - spacing, 0.0),
        size=(last - first + 2.0 * spacing, length),
        lumber=lumber,  # type: ignore[arg-type]
        spacing=spacing,
        first=spacing,
        **given,
    )


def floor(*fields: JoistField, **collections: Any) -> Plan:
    """A floor wide enough for everything, with these joists and what is drawn on it."""
    return Plan(floor=Floor(outline=NO_JOISTS), fields=fields, **collections)


def run(*points: Point, id: str = "d1", **given: Any) -> Drain:
    return Drain(id=id, points=points, **given)


def leaving(at: Point, down: float | None = None) -> tuple[Exit, ...]:
    """An exit, its axis so far below the joists' top where that is told."""
    return (Exit("x1", at, pinned_z=None if down is None else -down),)


def said(answer: Study, rule: str) -> list[Finding]:
    """What one rule found."""
    return [found for found in answer.findings if found.rule == rule]


def numbers(answer: Study, rule: str) -> list[tuple[float | None, float | None]]:
    """What one rule measured, and against what, to a thousandth."""
    return [
        (
            None if found.measured is None else round(found.measured, 3),
            None if found.limit is None else round(found.limit, 3),
        )
        for found in said(answer, rule)
    ]


def ask(plan: Plan, book: str = "irc-2021") -> Study:
    from msgspec.structs import replace

    return study(replace(plan, rulebook=book))
