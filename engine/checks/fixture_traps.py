"""Traps by the fixtures over them: wide enough, no wider than scours, of one size with their arm, which turns little."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from engine.checks.model import Model
from engine.checks.outcomes import COMMON, fixtures, name, place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import over, short
from engine.joinery.legs import bend
from engine.piping.records import Pipe, Trap
from engine.piping.sizes import sizes_up
from engine.plan.records import Fixture
from engine.trade import fixtures as trade
from engine.trade.pipe import label, nominal


def _traps(model: Model) -> Iterator[tuple[Fixture, Trap]]:
    """Every fixture whose trap is bought, with it; closets have theirs inside."""
    for trap in model.network.traps:
        if trap.size:
            yield fixtures(model)[trap.fixture], trap


def _finding(
    model: Model, rule: str, trap: Trap, measured: float, limit: float, unit: str, text: str, key: str, mend: str
) -> Finding:
    at = place(model, trap.node)
    return Finding(rule, "stop", at, (trap.fixture,), measured, limit, unit, text, model.book.cite(key), mend)


def flow_of(fixture: Fixture) -> float | None:
    """What a shower's heads give together, gallons a minute; None where one head's flow is not known."""
    one = trade.fixture(fixture.kind).flow if fixture.flow_gpm is None else fixture.flow_gpm
    return None if one is None else one * fixture.heads


FLOWS = "trap.shower_flow"

Least = tuple[float | None, str, str]
"""A fixture's least trap with the key that gives it and, behind a size, for what; without one, what is missing."""


def _least(model: Model, fixture: Fixture) -> Least:
    """A fixture's least trap by the book: a shower's by what its heads give together where the book goes by that."""
    book, key = model.book, f"trap.least.{fixture.kind}"
    if fixture.kind != "shower" or not book.speaks_of(FLOWS):
        return (book.number(key), key, "") if book.has(key) else (None, key, "the book gives no trap for it")
    flow = flow_of(fixture)
    if flow is None:
        return None, FLOWS, "what its heads give is not known"
    rows = sorted((nominal(row.rsplit(".", 1)[-1]), row) for row in book.keys(FLOWS))
    size, row = next(((size, row) for size, row in rows if not over(flow, book.number(row))), (None, FLOWS))
    return size, row, "no trap is given for so much water" if size is None else f" for {flow:g} gpm"


def too_small(model: Model) -> Iterator[Outcome]:
    """A trap's least size by its fixture; a shower's by what its heads give together, where the book goes by that.

    Holds: 1-1/2 in under a bathtub; 2 in under a shower of 12.3 gpm. Broken: 1-1/4 in under a kitchen sink; 1-1/2 in
    under a shower by the UPC, or of more than 5.7 gpm by the IRC. Source: IRC Table P3201.7; UPC Table 702.1.
    """
    for fixture, trap in _traps(model):
        words, (least, key, why) = name(model, fixture.id), _least(model, fixture)
        if least is None:
            yield NotJudged(place(model, trap.node), (fixture.id,), f"{words}: {why}")
            continue
        if not short(trap.size, least):
            yield Holds(fixture.id)
            continue
        text = f"{words} has a {label(trap.size)} in trap; it needs {label(least)} in{why}."
        mend = f"Take a {label(least)} in trap, and a drain no smaller."
        yield _finding(model, "trap-too-small", trap, trap.size, least, "in", text, key, mend)


def under_the_usual(model: Model) -> Iterator[Outcome]:
    """A trap that the book lets be smaller than the trade's usual one, which other codes ask for.

    Holds: a 2 in trap under a shower. To know: 1-1/2 in under one of 2.5 gpm by the IRC. Below the book's least it is
    another rule's. Source: common practice, no source.
    """
    for fixture, trap in _traps(model):
        usual, (least, _, _) = trade.fixture(fixture.kind).trap, _least(model, fixture)
        if usual is None or least is None or short(trap.size, least):
            yield DoesNotApply(fixture.id)
        elif not short(trap.size, usual):
            yield Holds(fixture.id)
        else:
            text = (
                f"{name(model, fixture.id)} has a {label(trap.size)} in trap, which may be; {label(usual)} in is usual and "
                "empties faster."
            )
            mend = f"Take a {label(usual)} in trap and drain while the floor is open."
            at, ids = place(model, trap.node), (fixture.id,)
            yield Finding("trap-under-the-usual", "note", at, ids, trap.size, usual, "in", text, COMMON, mend)


def raised_too_far(model: Model) -> Iterator[Outcome]:
    """How much larger than its table's size a trap may be, so that its water still scours it.

    Holds: a 2 in trap under a kitchen sink. Broken: 3 in. Combination waste and vent asks for more, and does not
    apply. Source: UPC 702.1 (read: an exam page); the IRC sets none but the drain's own size.
    """
    key = "trap.sizes_up_most"
    steps = int(model.book.number(key))
    for fixture, trap in _traps(model):
        least = f"trap.least.{fixture.kind}"
        if trap.method == "combination waste and vent" or not model.book.has(least):
            yield DoesNotApply(fixture.id)
            continue
        most = sizes_up(model.book.number(least), steps)
        if not over(trap.size, most):
            yield Holds(fixture.id)
            continue
        text = (
            f"{name(model, fixture.id)} has a {label(trap.size)} in trap; it may be {label(most)} in at most, "
            "so that its water scours it."
        )
        yield _finding(
            model, "trap-too-large", trap, trap.size, most, "in", text, key, f"Take a {label(most)} in trap or smaller."
        )


def arm_not_as_trap(model: Model) -> Iterator[Outcome]:
    """An arm of its trap's own size, where the book wants it so: a wider arm earns no longer way to the vent.

    Holds: a 2 in arm from a 2 in trap. Broken: a 2 in arm from a 1-1/2 in trap, drawn so to claim the 2 in row. An arm
    of the least size that a store has, from a 1-1/4 in trap, is let pass. Source: UPC 1003.3.
    """
    key = "trap_arm.as_trap"
    for fixture, trap in _traps(model):
        if not trap.arm or not model.book.says(key) or trap.method == "combination waste and vent":
            yield DoesNotApply(fixture.id)
            continue
        wide = next((pipe for pipe in _level_arm(model, trap) if pipe.pinned_size and over(pipe.size, trap.size)), None)
        if wide is None or (wide.size <= sizes_up(trap.size, 1) and trap.size < SMALLEST_SOLD):
            yield Holds(fixture.id)
            continue
        text = (
            f"{wide.element} is {label(wide.size)} in, and the trap of {name(model, fixture.id)} {label(trap.size)} in; "
            "trap and arm are of one size."
        )
        mend = f"Make the arm {label(trap.size)} in, or the trap {label(wide.size)} in where it may be."
        yield _finding(model, "arm-wider-than-trap", trap, wide.size, trap.size, "in", text, key, mend)


SMALLEST_SOLD = nominal("1-1/2")
"""Drain pipe that stores have begins here (common practice, no source)."""


def _level_arm(model: Model, trap: Trap) -> Iterator[Pipe]:
    for pipe in (model.network.by_id[arm] for arm in trap.arm):
        if pipe.shape != "level":
            return
        yield pipe


def tailpiece(model: Model) -> Iterator[Outcome]:
    """A trap no smaller than the tailpiece that its fixture has.

    Holds: 1-1/2 in under a sink. Broken: 1-1/4 in. Source: IRC P2703.1 (read for sinks and tubs), P3201.7.
    """
    for fixture, trap in _traps(model):
        key = f"tailpiece.least.{fixture.kind}"
        if not model.book.has(key):
            yield DoesNotApply(fixture.id)
            continue
        least = model.book.number(key)
        if not short(trap.size, least):
            yield Holds(fixture.id)
            continue
        text = (
            f"{name(model, fixture.id)} has a {label(least)} in tailpiece at least, and a {label(trap.size)} in trap; the "
            "trap is no smaller than the tailpiece."
        )
        mend = f"Take a {label(least)} in trap."
        yield _finding(model, "tailpiece-wider-than-trap", trap, trap.size, least, "in", text, key, mend)


def arm_turns(model: Model) -> Iterator[Outcome]:
    """How far an arm may turn in plan before its vent without a cleanout of its own.

    Holds: 90 degrees on 2 in; 135 on 3 in. Broken: 95 degrees on 2 in. Turns in fittings that a cleanout on the same
    run reaches are let pass. Source: UPC 1002.3; the IRC judges turns as cleanouts' affair.
    """
    small, large = "trap_arm.turn_without_cleanout_most.under_3", "trap_arm.turn_without_cleanout_most.from_3"
    rodded = {cleanout.at for cleanout in model.plan.cleanouts}
    for fixture, trap in _traps(model):
        arm = list(_level_arm(model, trap))
        if not arm:
            yield DoesNotApply(fixture.id)
            continue
        turned = sum(bend(a, b) for a, b in pairwise(arm))
        key = small if short(arm[0].size, nominal("3")) else large
        most = model.book.number(key)
        ends = {(node.x, node.y) for pipe in arm for node in (pipe.start, pipe.end)}
        if not over(turned, most + _HALF_DEGREE) or ends & rodded:
            yield Holds(fixture.id)
            continue
        text = f"The arm of {name(model, fixture.id)} turns {turned:.0f} degrees before its vent; {most:g} is the most without a cleanout."
        mend = "Draw it straighter, or bring the vent nearer."
        yield _finding(model, "arm-turns-too-much", trap, turned, most, "degrees", text, key, mend)


_HALF_DEGREE = 0.5
"""Drawn angles are met within this."""


def _rule(rule: str, title: str, reads: tuple[str, ...], judge: object, may: tuple[str, ...] = ()) -> Rule:
    return Rule(rule, title, "traps", "stop", reads, judge, may)  # type: ignore[arg-type]


RULES = (
    _rule("trap-too-small", "A trap too small for its fixture", ("trap.least",), too_small, (FLOWS,)),
    Rule(
        "trap-under-the-usual",
        "A trap smaller than is usual",
        "traps",
        "note",
        ("trap.least",),
        under_the_usual,
        (FLOWS,),
    ),
    _rule(
        "trap-too-large", "A trap too large for its fixture", ("trap.sizes_up_most",), raised_too_far, ("trap.least",)
    ),
    _rule("arm-wider-than-trap", "An arm that is not of its trap's size", ("trap_arm.as_trap",), arm_not_as_trap),
    _rule("tailpiece-wider-than-trap", "A trap smaller than its tailpiece", ("tailpiece.least",), tailpiece),
    _rule(
        "arm-turns-too-much",
        "A trap arm that turns too much",
        ("trap_arm.turn_without_cleanout_most",),
        arm_turns,
    ),
)
