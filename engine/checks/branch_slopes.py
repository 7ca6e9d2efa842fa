"""Slopes of branches in the fittings that they join by."""

from __future__ import annotations

import math
from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import short
from engine.joinery.records import Part, Port
from engine.piping.records import Pipe
from engine.trade.fittings import KINDS
from engine.trade.pipe import label


def flat_wye(model: Model) -> Iterator[Outcome]:
    """What a branch would fall if the wye that it joins by were left dead level across.

    A flat wye's branch keeps only the cosine of its angle of the barrel's pitch: 0.177 in per foot of 1/4. The branch
    is counted with its own slope, for which the wye is rolled a little; the roll is told here and at the wye's step of
    the assembly order. Holds: the barrel is so steep that the branch falls enough by itself. Broken: it would fall
    less than its size needs, which is to be looked at, or less than drawn, which is only noted. Combinations, whose
    branch comes in square, and rolled wyes do not apply. Source: geometry; the least is IRC P3005.3, UPC 708.1.
    """
    for part in model.joinery.parts:
        if part.kind not in ("wye", "double_wye") or part.system != "waste":
            continue
        barrel = _level(model, next((port for port in part.ports if port.role == "run_out"), None))
        for port in part.ports:
            if not port.role.startswith("branch"):
                continue
            branch = _level(model, port)
            if barrel is None or branch is None or branch.slope < 0.0:
                yield DoesNotApply(part.elements[0] if part.elements else "")
            else:
                yield _branch(model, part, barrel, branch)


def _level(model: Model, port: Port | None) -> Pipe | None:
    """The level waste pipe in a port; None where it holds no such pipe."""
    pipe = model.network.by_id.get(port.pipe or "") if port is not None else None
    return pipe if pipe is not None and pipe.shape == "level" and pipe.system == "waste" else None


def kept(barrel: Pipe, branch: Pipe) -> float:
    """What a branch falls while the fitting lies dead level across, inches per foot: the barrel's pitch, foreshortened."""
    return barrel.slope * _along(barrel, branch)


def roll(barrel: Pipe, branch: Pipe) -> float:
    """How far the fitting must be rolled about its barrel for the branch to have its own slope, degrees."""
    along = _along(barrel, branch)
    across = math.sqrt(max(0.0, 1.0 - along * along))
    return math.degrees(math.atan((branch.slope - barrel.slope * along) / (12.0 * across))) if across else 0.0


def _along(barrel: Pipe, branch: Pipe) -> float:
    return barrel.heading[0] * branch.heading[0] + barrel.heading[1] * branch.heading[1]


def _branch(model: Model, part: Part, barrel: Pipe, branch: Pipe) -> Outcome:
    falls, drawn = kept(barrel, branch), branch.slope
    if not short(falls, drawn):
        return Holds(branch.element)
    key = f"slope.least.{label(branch.size)}"
    if not model.book.has(key):
        missing = f"the book gives no least slope for {label(branch.size)} in pipe"
        return NotJudged(part.centre, (branch.element,), missing)
    least = model.book.number(key)
    lost = short(falls, least)
    limit = least if lost else drawn
    than = f"{least:.4g} in per foot that {label(branch.size)} in pipe needs" if lost else f"{drawn:.4g} that is drawn"
    steeper = limit / _along(barrel, branch)
    if part.kind == "double_wye":
        mend = f"A double wye is rolled for one of its branches only: give {barrel.element} {steeper:.3f} in per foot, or use two wyes."
    else:
        mend = (
            f"Roll the wye {roll(barrel, branch):.1f} degrees about {barrel.element}, its branch up, until a level on "
            f"{branch.element} shows {drawn:.4g} in per foot; or give {barrel.element} {steeper:.3f} in per foot."
        )
    return Finding(
        "slope-lost-in-flat-wye",
        "look" if lost else "note",
        part.centre,
        tuple(dict.fromkeys((branch.element, barrel.element))),
        falls,
        limit,
        "in per ft",
        f"Left dead level, the {KINDS[part.kind].words} would let {branch.element} fall only {falls:.3f} in per foot, less "
        f"than the {than}.",
        model.book.cite(key),
        mend,
    )


RULES: tuple[Rule, ...] = (
    Rule("slope-lost-in-flat-wye", "Slope lost in a flat wye", "slope", "look", ("slope.least",), flat_wye),
)
