"""What one fixture gives the drains, in the book's fixture units."""

from __future__ import annotations

from engine.plan.records import Fixture, Plan, Record
from engine.rulebooks import RuleBook
from engine.trade import fixtures as trade
from engine.trade.pipe import label, nominal

FLUSH_MOST = "dfu.flush_most"
LARGE_FLUSH = "dfu.water_closet_over_1_6"


class Units(Record, frozen=True, gc=False):
    """One fixture's load standing alone.

    `units` is all of it, `usual` the part of it that the table gives one such fixture (a shower's further heads come on
    top), `key` the book's value that it rests on. `large_flush` marks a closet that takes the other row.
    """

    fixture: str
    kind: str
    units: float
    usual: float
    key: str
    large_flush: bool = False


def units_of(book: RuleBook, fixture: Fixture) -> Units | None:
    """A fixture's units; None where it drains nothing, or where the book gives none for its kind.

    A closet's flush decides its row, a bidet's trap may, each further head of a shower adds its own, and what drains
    through another fixture's trap counts as the book says. A kind that the table leaves out goes by its trap's size
    where the book has such a table.
    """
    kind = fixture.kind
    if kind == "water_closet" and _large_flush(book, fixture):
        if not book.has(LARGE_FLUSH):
            return None
        units = book.number(LARGE_FLUSH)
        return Units(fixture.id, kind, units, units, LARGE_FLUSH, large_flush=True)
    key = _row(book, fixture)
    if key is None:
        return None
    units = usual = book.number(key)
    if kind == "shower" and fixture.heads > 1:
        if not book.has("dfu.shower_further_head"):
            return None
        units += (fixture.heads - 1) * book.number("dfu.shower_further_head")
    return Units(fixture.id, kind, units, usual, key)


def _large_flush(book: RuleBook, fixture: Fixture) -> bool:
    return fixture.gallons is not None and book.has(FLUSH_MOST) and fixture.gallons > book.number(FLUSH_MOST)


def _row(book: RuleBook, fixture: Fixture) -> str | None:
    """The book's key for a fixture: through another's trap, on its own trap's size, by its kind, or by any trap's size."""
    spec = trade.fixture(fixture.kind)
    trap = nominal(fixture.trap) if fixture.trap is not None else spec.trap
    size = label(trap) if trap is not None else ""
    keys = [f"dfu.through.{fixture.kind}"] if fixture.through is not None else []
    keys += [f"dfu.on_trap.{fixture.kind}.{size}", f"dfu.{fixture.kind}", f"dfu.by_trap.{size}"]
    return next((key for key in keys if book.has(key)), None)


def units_by_fixture(plan: Plan, book: RuleBook) -> dict[str, Units | None]:
    """Every fixture that drains, with its units; None where the book gives none."""
    return {
        fixture.id: units_of(book, fixture) for fixture in plan.fixtures if trade.fixture(fixture.kind).outlet != "none"
    }
