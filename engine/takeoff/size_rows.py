"""Fixture units and pipe sizes as rows: by fixture, and by stretch of drain and vent, each with its table and reason."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.drain_sizes import drained, most_for
from engine.checks.model import Model
from engine.checks.outcomes import name
from engine.checks.vent_words import called
from engine.piping.records import Pipe
from engine.piping.sizes import Ask
from engine.plan.records import Fixture, Record
from engine.rulebooks.saying import KNOWN
from engine.takeoff.size_words import KINDS, why_drain, why_vent
from engine.trade.pipe import label


class UnitRow(Record, frozen=True, gc=False):
    """One fixture's units, None where the book gives none.

    `known` is how the value is known (read, from memory), `note` what of the fixture counts in it: flush, heads, guests.
    """

    fixture: str
    words: str
    units: float | None
    trap: str
    section: str
    known: str
    note: str


class SizeRow(Record, frozen=True, gc=False):
    """A stretch of drain or vent of one size, load and kind.

    `load` is in fixture units and `told` how it comes about; `most` is what the size may carry by the table of `section`,
    None where no table limits it, and `others` what further tables say. `least` is the least size that may be taken and
    `why` what sets it. `drawn` says that the user chose the size.
    """

    element: str
    words: str
    system: str
    kind: str
    fixtures: str
    load: float
    told: str
    size: str
    drawn: bool
    least: str
    most: float | None
    section: str
    others: str
    why: str


def unit_rows(model: Model) -> tuple[UnitRow, ...]:
    """A row for every fixture that drains, in the plan's order."""
    traps = {trap.fixture: trap.size for trap in model.network.traps}
    rows = []
    for fixture in model.plan.fixtures:
        if fixture.id not in model.network.loads.units:
            continue
        found = model.network.loads.units[fixture.id]
        size = traps.get(fixture.id)
        through = f"through {name(model, fixture.through)}" if fixture.through is not None else ""
        trap = through or ("" if size is None else f"{label(size)} in" if size else "its own")
        rows.append(
            UnitRow(
                fixture=fixture.id,
                words=name(model, fixture.id),
                units=None if found is None else found.units,
                trap=trap,
                section="" if found is None else model.book.cite(found.key),
                known="" if found is None else KNOWN[model.book.value(found.key).standing],
                note=_counted_in(model, fixture),
            )
        )
    return tuple(rows)


def _counted_in(model: Model, fixture: Fixture) -> str:
    """What of a fixture makes it count more or less than the plain one."""
    said = []
    if fixture.kind == "water_closet" and fixture.gallons is not None:
        said.append(f"{fixture.gallons:g} gal a flush")
    if fixture.kind == "shower" and fixture.heads > 1:
        said.append(f"{fixture.heads} heads")
    said += [f"takes {name(model, guest)}" for guest in model.network.loads.through.get(fixture.id, ())]
    return ", ".join(said)


def drain_rows(model: Model, element: str | None = None) -> tuple[SizeRow, ...]:
    """A row for each stretch of drain, in file order; `element` takes one drawn thing's only."""
    pipes = [p for p in model.network.pipes if p.system == "waste" and (element is None or p.element == element)]
    return tuple(_merged(_drain(model, pipe) for pipe in pipes if pipe.id in model.network.drain_sizes))


def vent_size_rows(model: Model, element: str | None = None) -> tuple[SizeRow, ...]:
    """A row for each stretch of vent, in file order; `element` takes one drawn thing's only."""
    pipes = [p for p in model.network.pipes if p.system == "vent" and (element is None or p.element == element)]
    return tuple(_merged(_vent(model, pipe) for pipe in pipes if pipe.id in model.network.vent_sizes))


def _merged(rows: Iterator[SizeRow]) -> Iterator[SizeRow]:
    """Rows of one drawn thing that say the same are one."""
    seen: set[SizeRow] = set()
    for row in rows:
        if row not in seen:
            seen.add(row)
            yield row


def _drain(model: Model, pipe: Pipe) -> SizeRow:
    sizing, load = model.network.drain_sizes[pipe.id], model.network.loads.of[pipe.id]
    asks = [ask for ask in sizing.asks if ask.by == "load"]
    first = next((ask for ask in asks if not ask.doubtful), None)
    most = None if first is None else most_for(model, pipe, first)
    others = [
        f"counted as a branch it may carry {most_as_branch:g} by {_section(model, pipe, ask)}"
        for ask in asks
        if ask is not first and (most_as_branch := most_for(model, pipe, ask)) is not None
    ]
    return SizeRow(
        element=pipe.element,
        words=drained(model, pipe.element),
        system="drain",
        kind=KINDS[sizing.kind],
        fixtures=", ".join(name(model, fixture) for fixture in pipe.carries),
        load=load.units,
        told=load.told,
        size=label(pipe.size),
        drawn=pipe.pinned_size,
        least=label(sizing.least),
        most=most,
        section="" if first is None else _section(model, pipe, first),
        others="; ".join(others),
        why=why_drain(model, sizing),
    )


def _vent(model: Model, pipe: Pipe) -> SizeRow:
    sizing = model.network.vent_sizes[pipe.id]
    key = f"vent.load.{label(pipe.size)}"
    by_load = model.book.has(key)
    share = "vent.fraction_of_drain"
    return SizeRow(
        element=pipe.element,
        words=called(model, pipe.element),
        system="vent",
        kind="vent",
        fixtures=", ".join(name(model, fixture) for fixture in sizing.serves),
        load=sizing.load,
        told=f"{sizing.load:g}",
        size=label(pipe.size),
        drawn=pipe.pinned_size,
        least=label(sizing.least),
        most=model.book.number(key) if by_load else None,
        section=model.book.cite(key if by_load else share) if by_load or model.book.has(share) else "",
        others="",
        why=why_vent(model, sizing),
    )


def _section(model: Model, pipe: Pipe, ask: Ask) -> str:
    """The section of the row that an ask's table has for a pipe's size, or for the size that is asked where it has none."""
    own = f"{ask.rows}.{label(pipe.size)}"
    return model.book.cite(own if model.book.has(own) else ask.key) if model.book.has(ask.key) else ""
