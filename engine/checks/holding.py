"""Whether there is wood to hang a pipe from: stretches of it that lie past every joist field."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import groupby
from typing import Literal, NamedTuple

from engine.checks.model import Model
from engine.checks.outcomes import name
from engine.checks.records import Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import over
from engine.crossings.stretches import Line
from engine.framing.shadow import share_in_box
from engine.lengths import inches, up
from engine.piping.records import Node
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
    over_it = _fields_over(model)
    for element, lines in groupby(model.lines, key=lambda line: line.element):
        run = list(lines)
        if not model.plan.fields:
            start = run[0].start
            yield NotJudged((start.x, start.y, 0.0), (element,), "the joists: none are drawn")
            continue
        water = run[0].system in ("cold", "hot")
        key = spacing_key("PEX" if water else model.plan.material, 0.0, "horizontal")
        limit = model.book.number(key)
        bare = [one for one in _bare(run, over_it) if over(one.length, limit)]
        if not bare:
            yield Holds(element)
        for one in bare:
            yield Finding(
                "support-has-nothing-to-hold-to",
                "look",
                (*one.at, 0.0),
                (element,),
                one.length,
                limit,
                "in",
                f"{name(model, element)} runs {inches(up(one.length))} in with no joist over it; it is to be held every "
                f"{inches(limit)} in.",
                model.book.cite(key),
                "Draw the joists that are there, lead it under the floor, or plan posts or a trench for it.",
            )


def _fields_over(model: Model) -> Callable[[Line], Sequence[JoistField]]:
    """The fields whose rectangle a line may pass: all where there are few, else by a tree."""
    fields = model.plan.fields
    if len(fields) <= FEW:
        return lambda _: fields
    import shapely

    tree = shapely.STRtree(
        [
            shapely.box(x, y, x + wide, y + long)
            for (x, y), (wide, long) in ((field.corner, field.size) for field in fields)
        ]
    )
    lines, there = tree.query(shapely.linestrings([[line.start[:2], line.end[:2]] for line in model.lines]))
    found: dict[str, list[JoistField]] = {}
    for line, field in zip(lines.tolist(), there.tolist(), strict=True):
        found.setdefault(model.lines[line].id, []).append(fields[field])
    return lambda line: found.get(line.id, ())


FEW = 2
"""So many fields are looked through one by one for each line."""


def _bare(run: list[Line], over_it: Callable[[Line], Sequence[JoistField]]) -> Iterator[Bare]:
    """The bare stretches of a run; one that goes on round a corner is one stretch."""
    stretch: list[tuple[Point, Point]] = []
    for line in run:
        for low, high in _gaps(line, over_it(line)):
            part = _along(line, low), _along(line, high)
            if stretch and stretch[-1][1] != part[0]:
                yield _whole(stretch)
                stretch = []
            stretch.append(part)
    if stretch:
        yield _whole(stretch)


def _along(line: Line, share: float) -> Point:
    if share in (0.0, 1.0):
        node = line.end if share else line.start
        return node.x, node.y
    (x0, y0), (x1, y1) = line.start[:2], line.end[:2]
    return x0 + share * (x1 - x0), y0 + share * (y1 - y0)


def _whole(stretch: list[tuple[Point, Point]]) -> Bare:
    """A bare stretch's length, and the place halfway along it."""
    length = sum(math.dist(*part) for part in stretch)
    left = length / 2.0
    for start, end in stretch:
        run = math.dist(start, end)
        if left <= run:
            share = left / run if run else 0.0
            return Bare(length, (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])))
        left -= run
    return Bare(length, stretch[-1][1])


def _gaps(line: Line, fields: Sequence[JoistField]) -> list[tuple[float, float]]:
    """The parts of a line, as shares of it from its start, that lie in no field."""
    if len(fields) == 1 and all(_holds(fields[0], node) for node in (line.start, line.end)):
        return []
    covered = sorted(share for field in fields if (share := _inside(line, field)) is not None)
    gaps, reached = [], 0.0
    for low, high in covered:
        if low > reached:
            gaps.append((reached, low))
        reached = max(reached, high)
    return [*gaps, (reached, 1.0)] if reached < 1.0 else gaps


def _holds(field: JoistField, node: Node) -> bool:
    """Whether a node lies in a field's rectangle, its edges included."""
    (x, y), (wide, long) = field.corner, field.size
    return x <= node.x <= x + wide and y <= node.y <= y + long


def _inside(line: Line, field: JoistField) -> tuple[float, float] | None:
    """From where to where a line lies in a field's rectangle, as shares; None where nowhere, or at a point only."""
    (x, y), (wide, long) = field.corner, field.size
    share = share_in_box(line.start[:2], line.end[:2], field.corner, (x + wide, y + long))
    return share if share is not None and share[0] < share[1] else None


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
