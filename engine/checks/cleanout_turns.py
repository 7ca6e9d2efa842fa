"""Cleanouts that the book wants where a drain turns on the level."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import place
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.checks.rodding import SUBJECT, WAYS_IN, Line, Reached, Turn, rodding
from engine.crossings.limits import over
from engine.lengths import feet_inches


def sharp_turns(model: Model) -> Iterator[Outcome]:
    """A cleanout at a sharp horizontal turn, unless one up the drain is near enough to serve it.

    Each change of direction in a drain is judged by itself, so two eighth bends are no sharp turn; where a branch
    joins a main neither of them turns. A trap that comes off by hand counts for pipe a size larger. Of the turns that
    one new cleanout would serve only the first is told. Holds: a cleanout at the turn or within reach above it.
    Broken: none. A line without a sharp turn does not apply. Source: IRC P3005.2.4.
    """
    limit, reach = model.book.number("cleanout.turn_over"), model.book.number("cleanout.turn_reach")
    found = rodding(model)
    sharp = [turn for turn in found.turns if over(turn.degrees, limit)]
    bent = {turn.line for turn in sharp}
    for number, line in enumerate(found.lines):
        if number not in bent:
            yield DoesNotApply(line.element)
    told: dict[int, float] = {}
    for turn in sharp:
        near = found.nearest(turn.node, turn.after.size)
        served = near is not None and not over(near.far, reach)
        if served or (turn.line in told and not over(turn.along - told[turn.line], reach)):
            yield Holds(turn.after.element)
            continue
        told[turn.line] = turn.along
        yield _sharp(model, turn, near, limit, reach)


def _sharp(model: Model, turn: Turn, near: Reached | None, limit: float, reach: float) -> Finding:
    where = f"{turn.after.element} turns {turn.degrees:g} degrees"
    there = (
        f"the nearest cleanout is {feet_inches(near.far)} up the drain"
        if near is not None
        else "no cleanout lies up the drain"
    )
    return Finding(
        "sharp-turn-without-cleanout",
        "stop",
        place(model, turn.node),
        tuple(dict.fromkeys((turn.before.element, turn.after.element))),
        turn.degrees,
        limit,
        "degrees",
        f"{where} on the level, more than {limit:g}, and {there}: one must stand at the turn, or serve it from no "
        f"more than {feet_inches(reach)} above.",
        model.book.cite("cleanout.turn_over"),
        f"Put a cleanout at the turn, or further up the same drain within {feet_inches(reach)} of it.",
    )


def turns_add_up(model: Model) -> Iterator[Outcome]:
    """One more cleanout wherever the horizontal turns of a line add up to more than the book says.

    Counted down the line from its upper end, anew from each cleanout on it; the turn up to a plug is no part of the
    run and does not count (ask your official). Holds: 45 and 45 and 22-1/2 degrees. Broken: a third 60. A line without
    a turn does not apply. Source: UPC 707.4.
    """
    limit = model.book.number("cleanout.turns_sum_over")
    found = rodding(model)
    turns: dict[int, list[Turn]] = {}
    for turn in found.turns:
        turns.setdefault(turn.line, []).append(turn)
    for number, line in enumerate(found.lines):
        if number not in turns:
            yield DoesNotApply(line.element)
            continue
        total, broken = 0.0, False
        for turn in turns[number]:
            if found.cleanout_on(turn.node) is not None:
                total = 0.0
                continue
            total += turn.degrees
            if over(total, limit):
                yield _bent(model, line, turn, total, limit)
                total, broken = 0.0, True
        if not broken:
            yield Holds(line.element)


def _bent(model: Model, line: Line, turn: Turn, total: float, limit: float) -> Finding:
    return Finding(
        "turns-without-cleanout",
        "stop",
        place(model, turn.node),
        tuple(dict.fromkeys((line.element, turn.after.element))),
        total,
        limit,
        "degrees",
        f"Down to this turn of {turn.after.element} the drain has turned {total:g} degrees on the level with no "
        f"cleanout between; past {limit:g} it needs one more.",
        model.book.cite("cleanout.turns_sum_over"),
        "Put a cleanout at this turn, or make the turns softer.",
    )


RULES: tuple[Rule, ...] = (
    Rule(
        "sharp-turn-without-cleanout",
        "A sharp turn without a cleanout",
        SUBJECT,
        "stop",
        ("cleanout.turn_over", "cleanout.turn_reach"),
        sharp_turns,
        WAYS_IN,
    ),
    Rule(
        "turns-without-cleanout",
        "Turns that add up, without a cleanout",
        SUBJECT,
        "stop",
        ("cleanout.turns_sum_over",),
        turns_add_up,
        WAYS_IN,
    ),
)
