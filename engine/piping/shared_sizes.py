"""What a way of venting asks of the drains that carry its air: each by its own table, some over their whole length."""

from __future__ import annotations

from engine.piping.loads import Loads
from engine.piping.records import VentWay
from engine.piping.sizes import LADDER, Ask, sizes_up, sold, table
from engine.piping.sticks import Stick
from engine.piping.web import Web
from engine.rulebooks import RuleBook
from engine.trade.pipe import label


def shared_asks(book: RuleBook, web: Web, ways: tuple[VentWay, ...], loads: Loads) -> dict[str, list[Ask]]:
    """The demands on waste sticks, by their ids, that come of being part of a shared vent."""
    by_id = {stick.id: stick for stick in web.order}
    found: dict[str, list[Ask]] = {}
    for way in ways:
        pipes = [by_id[pipe] for pipe in way.pipes]
        if not pipes:
            continue
        match way.method:
            case "common vent at two levels":
                _by_own_load(book, found, pipes, "common_vent.load")
            case "horizontal wet vent":
                _by_own_load(book, found, pipes, "wet_vent.load", "wet_vent.least")
            case "vertical wet vent":
                _upright(book, found, pipes)
            case "waste stack vent":
                _stack(book, web, found, pipes, way, loads)
            case "circuit vent":
                below = web.outflow.get(pipes[-1].end)
                total = max(pipe.load for pipe in (*pipes, *([below] if below is not None else [])))
                _throughout(book, found, pipes, "load.branch", total)
            case "combination waste and vent":
                _combination(book, found, pipes)
            case _:
                pass
    return found


def _least(book: RuleBook, key: str) -> list[Ask]:
    return [Ask("shared vent", sold(book.number(key)), key)] if book.has(key) else []


def _by_own_load(book: RuleBook, found: dict[str, list[Ask]], pipes: list[Stick], rows: str, least: str = "") -> None:
    for pipe in pipes:
        asks = found.setdefault(pipe.id, [])
        asks += _least(book, least)
        if book.speaks_of(rows):
            asks.append(table(book, rows).ask(pipe.load, "shared vent"))


def _throughout(book: RuleBook, found: dict[str, list[Ask]], pipes: list[Stick], rows: str, load: float) -> None:
    if book.speaks_of(rows):
        ask = table(book, rows).ask(load, "shared vent")
        for pipe in pipes:
            found.setdefault(pipe.id, []).append(ask)


def _upright(book: RuleBook, found: dict[str, list[Ask]], pipes: list[Stick]) -> None:
    """An upright wet vent goes by its own least and enlargement where the book gives such, else by the wet vents' table."""
    least, up = "vertical_wet_vent.least", "vertical_wet_vent.sizes_up"
    if not book.has(least):
        _by_own_load(book, found, pipes, "wet_vent.load")
        return
    for pipe in pipes:
        asks = found.setdefault(pipe.id, [])
        asks += _least(book, least)
        if book.has(up):
            asks.append(_larger(book, "load.stack", pipe.load, up))


def _larger(book: RuleBook, rows: str, load: float, up: str) -> Ask:
    """So many sizes above what the load alone would need."""
    needed = table(book, rows).needed(load)
    listed = sizes_up(LADDER[-1] if needed is None else needed, int(book.number(up)))
    size = sold(listed)
    return Ask("shared vent", size, up, load, listed=listed if listed != size else None)


def _stack(
    book: RuleBook, web: Web, found: dict[str, list[Ask]], pipes: list[Stick], way: VentWay, loads: Loads
) -> None:
    """A waste stack that vents its fixtures is of one size down to its foot, by all of it and by each place."""
    foot = web.outflow.get(pipes[-1].end)
    stack = [*pipes, *([foot] if foot is not None and foot.shape == "plumb" else [])]
    _throughout(book, found, stack, "stack_vent.total", max(pipe.load for pipe in stack))
    places = table(book, "stack_vent.interval")
    units = [given for fixture in way.members if (given := loads.given_by(fixture)) is not None]
    if not places.rows:
        return
    ladder = [size for size in LADDER if size >= places.rows[0][0]]
    fits = [size for size in ladder if all((most := places.at(size)) is None or unit <= most for unit in units)]
    if fits and fits[0] > ladder[0]:
        held = max(size for size, _ in places.rows if size < fits[0])
        ask = Ask("shared vent", sold(fits[0]), f"stack_vent.interval.{label(held)}", max(units), places.at(held))
        for pipe in stack:
            found.setdefault(pipe.id, []).append(ask)


def _combination(book: RuleBook, found: dict[str, list[Ask]], pipes: list[Stick]) -> None:
    for pipe in pipes:
        asks = found.setdefault(pipe.id, [])
        if book.speaks_of("combination.branch"):
            asks.append(table(book, "combination.branch").ask(pipe.load, "shared vent"))
        elif book.has("combination.needs_leave") and book.flag("combination.needs_leave"):
            continue  # not built before the official agrees: until then nothing is enlarged for it
        elif book.has("combination.sizes_up") and book.speaks_of("load.branch"):
            asks.append(_larger(book, "load.branch", pipe.load, "combination.sizes_up"))
