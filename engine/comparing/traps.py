"""How each trap is vented under two books, and why that is not the same."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.venting import SECTIONS, limit_of
from engine.comparing.records import TrapBeside, TrapSide
from engine.comparing.sides import Sides, same
from engine.piping.records import Trap
from engine.rulebooks.saying import plain
from engine.takeoff.vent_rows import VentRow, vent_rows

_FROM_FLANGE = "trap_arm.closet_from_flange"


def traps_beside(sides: Sides) -> tuple[TrapBeside, ...]:
    """Every trap that a drain leaves under either book, in the plan's order."""
    here, there = ({row.fixture: row for row in vent_rows(study.model)} for study in (sides.here, sides.there))
    names = (fixture.id for fixture in sides.plan.fixtures if fixture.id in here or fixture.id in there)
    return tuple(_beside(sides, name, here.get(name), there.get(name)) for name in names)


def _beside(sides: Sides, fixture: str, here: VentRow | None, there: VentRow | None) -> TrapBeside:
    row = here or there
    assert row is not None
    why = _why(sides, fixture, here, there) if here is not None and there is not None else ()
    return TrapBeside(fixture, row.words, _side(here), _side(there), tuple(dict.fromkeys(why)))


def _side(row: VentRow | None) -> TrapSide | None:
    if row is None:
        return None
    return TrapSide(row.state, row.method, row.how, row.distance, row.limit, row.section, row.limit_section)


def _why(sides: Sides, fixture: str, here: VentRow, there: VentRow) -> Iterator[str]:
    mine, theirs = (_trap(study.model.network.traps, fixture) for study in (sides.here, sides.there))
    if here.method != there.method:
        yield from _methods(sides, mine, theirs)
    elif not same(here.distance, there.distance):
        if mine.kind == "water_closet" and _FROM_FLANGE in sides.parted:
            yield sides.told(_FROM_FLANGE)
        else:
            yield "Its pipes run to the vent by other fittings, or at another height."
    if not same(here.limit, there.limit):
        for study, trap in ((sides.here, mine), (sides.there, theirs)):
            _, key = limit_of(study.model, trap)
            if key in sides.parted:
                yield sides.told(key)


def _methods(sides: Sides, mine: Trap, theirs: Trap) -> Iterator[str]:
    """What makes it another method: the value that refuses the one, else that a book does not have the other."""
    refused = [trap.breaks for trap in (mine, theirs) if trap.method is None and trap.breaks]
    yield from (sides.told(key) for key in refused if key in sides.parted)
    for trap, book, who in ((mine, sides.theirs, sides.there_is), (theirs, sides.mine, sides.here_is)):
        stem = SECTIONS[trap.method][-1] if trap.method is not None else ""
        why = book.silence(stem.split(".")[0]) or book.silence(stem) if stem else None
        if why is not None:
            yield f"{who} has no {trap.method}: {plain(why)}."
    for trap, who in ((mine, sides.here_is), (theirs, sides.there_is)):
        if trap.method is None and trap.why:
            yield f"By {who}: {trap.why}."


def _trap(traps: tuple[Trap, ...], fixture: str) -> Trap:
    return next(trap for trap in traps if trap.fixture == fixture)
