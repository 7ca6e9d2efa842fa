"""Whether there is wood to hang a pipe from: stretches of it that lie past every joist field."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import Literal, NamedTuple

from engine.checks.model import Model
from engine.checks.outcomes import name
from engine.checks.records import Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import over
from engine.crossings.stretches import Line
from engine.lengths import inches
from engine.plan.records import JoistField, Point


class Bare(NamedTuple):
    """A stretch of a run with no joist field over it: how long, and the place halfway along it."""

    length: float
    at: Point


def spacing_key(material: str, size: float, way: Literal["horizontal", "vertical"]) -> str:
    """The rule book's key for the greatest spacing of a material's supports."""
    wide = material == "PEX" and size > 1.0
    return f"support.{way}.{material}{'_over_1' if wide else ''}"


def nothing_to_hold_to(model: Model) -> Iterator[Outcome]:
    """Pipe under the floor has joists over it at least as often as it is to be held.

    Holds: 48 in of drain between two joist fields. To look at: 48 1/16 in past them, 32 1/16 in of water tube. Not judged
    where no joists are drawn. Source: IRC Table P2605.1; UPC Table 313.3.
    """
    for element, lines in groupby(model.lines, key=lambda line: line.element):
        run = list(lines)
        if not model.plan.fields:
            start = run[0].start
            yield NotJudged((start.x, start.y, 0.0), (element,), "the joists: none are drawn")
            continue
        water = run[0].system in ("cold", "hot")
        key = spacing_key("PEX" if water else model.plan.material, 0.0, "horizontal")
        limit = model.book.number(key)
        worst = max(_bare(run, model.plan.fields), default=Bare(0.0, (0.0, 0.0)))
        if not over(worst.length, limit):
            yield Holds(element)
            continue
        yield Finding(
            "support-has-nothing-to-hold-to",
            "look",
            (*worst.at, 0.0),
            (element,),
            worst.length,
            limit,
            "in",
            f"{name(model, element)} runs {inches(worst.length)} in with no joist over it; it is to be held every "
            f"{inches(limit)} in.",
            model.book.cite(key),
            "Draw the joists that are there, lead it under the floor, or plan posts or a trench for it.",
        )


def _bare(run: list[Line], fields: tuple[JoistField, ...]) -> Iterator[Bare]:
    """The bare stretches of a run; one that goes on round a corner is one stretch, told at its longest part."""
    length, longest, at, end = 0.0, 0.0, (0.0, 0.0), None
    for line in run:
        whole = ((line.end.x - line.start.x) ** 2 + (line.end.y - line.start.y) ** 2) ** 0.5
        for low, high in _gaps(line, fields):
            if low > 0.0 or end != line.start:
                length = longest = 0.0
            part = (high - low) * whole
            middle = (low + high) / 2.0
            if part > longest:
                longest = part
                at = (
                    line.start.x + middle * (line.end.x - line.start.x),
                    line.start.y + middle * (line.end.y - line.start.y),
                )
            length += part
            end = line.end if high >= 1.0 else None
            yield Bare(length, at)


def _gaps(line: Line, fields: tuple[JoistField, ...]) -> list[tuple[float, float]]:
    """The parts of a line, as shares of it from its start, that lie in no field."""
    covered = sorted(share for field in fields if (share := _inside(line, field)) is not None)
    gaps, reached = [], 0.0
    for low, high in covered:
        if low > reached:
            gaps.append((reached, low))
        reached = max(reached, high)
    return [*gaps, (reached, 1.0)] if reached < 1.0 else gaps


def _inside(line: Line, field: JoistField) -> tuple[float, float] | None:
    """From where to where a line lies in a field's rectangle, its edges included; None where nowhere."""
    low, high = 0.0, 1.0
    for axis in (0, 1):
        start, way = line.start[axis], line.end[axis] - line.start[axis]
        least, most = field.corner[axis], field.corner[axis] + field.size[axis]
        if way == 0.0:
            if not least <= start <= most:
                return None
            continue
        first, last = sorted(((least - start) / way, (most - start) / way))
        low, high = max(low, first), min(high, last)
    return (low, high) if low < high else None


RULES: tuple[Rule, ...] = (
    Rule(
        "support-has-nothing-to-hold-to",
        "Pipe with nothing to hang from",
        "supports",
        "look",
        ("support.horizontal",),
        nothing_to_hold_to,
    ),
)
