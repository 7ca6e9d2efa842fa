"""The sheet of fixture units and pipe sizes that a permit office asks for: by fixture, by drain and by vent."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.planset.book import Book, Page
from engine.planset.flow import Column, flowed, heading, note, table
from engine.study import Study
from engine.takeoff.size_rows import SizeRow, UnitRow, drain_rows, unit_rows, vent_size_rows

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

TITLE = "Fixture units and pipe sizes"


def load_sheet(book: Book, study: Study) -> list[Page]:
    """A table of the fixtures with their units, then of each stretch of drain and of vent with what sets its size."""
    size, width = book.paper.type_size, book.area().width
    story: list[Flowable] = [
        note(
            "A drain's load is the fixture units of all fixtures above it; where the book counts several fixtures as a group, "
            "the group's value stands in place of their sum from where their pipes have joined. Which table holds goes by "
            "what the pipe is: the building drain and its level branches have one of their own by slope, where the book has "
            "it; other level pipe goes by the table of branches, upright pipe by that of stacks. Sizes are inches. A size that "
            "was left open is the least that the book allows and stores stock; “drawn” marks one that was chosen.",
            size,
        )
    ]
    fixtures, drains, vents = unit_rows(study.model), drain_rows(study.model), vent_size_rows(study.model)
    if not fixtures:
        return flowed(book, TITLE, [*story, note("No fixture that drains is drawn yet.", size)])
    story += [heading("Fixtures", size * 1.2), table(_FIXTURES, [_fixture(row) for row in fixtures], width, size)]
    if drains:
        story += [heading("Drains", size * 1.2), table(_DRAINS, [_drain(row) for row in drains], width, size)]
    if vents:
        by_load = any(row.most is not None for row in vents)
        columns = [column for column in _VENTS if by_load or column.title != _MAY_SERVE]
        cells = [_vent(row, by_load) for row in vents]
        story += [heading("Vents", size * 1.2), table(columns, cells, width, size)]
    return flowed(book, TITLE, story)


_FIXTURES = (
    Column("Fixture", 24),
    Column("Units", 7, "RIGHT"),
    Column("Trap", 14),
    Column("Section", 22),
    Column("How known", 13),
    Column("Counts with it", 40),
)
_DRAINS = (
    Column("Drain", 13),
    Column("What it is", 15),
    Column("Carries", 21),
    Column("Fixture units", 22),
    Column("Size", 9),
    Column("May carry", 7, "RIGHT"),
    Column("Table", 16),
    Column("What sets the least size", 34),
)
_MAY_SERVE = "May serve"
_VENTS = (
    Column("Vent", 13),
    Column("Serves", 33),
    Column("Units", 7, "RIGHT"),
    Column("Size", 9),
    Column(_MAY_SERVE, 7, "RIGHT"),
    Column("Section", 16),
    Column("What sets the least size", 52),
)


def _fixture(row: UnitRow) -> list[str]:
    units = "not known" if row.units is None else f"{row.units:g}"
    return [row.words, units, row.trap, row.section, row.known, row.note]


def _size(row: SizeRow) -> str:
    return f"{row.size}, drawn" if row.drawn else row.size


def _why(row: SizeRow) -> str:
    least = "" if row.least == row.size else f"{row.least} in is the least: "
    others = f"; {row.others}" if row.others else ""
    return f"{least}{row.why}{others}"


def _most(row: SizeRow) -> str:
    return "" if row.most is None else f"{row.most:g}"


def _drain(row: SizeRow) -> list[str]:
    return [row.words, row.kind, row.fixtures, row.told, _size(row), _most(row), row.section, _why(row)]


def _vent(row: SizeRow, by_load: bool) -> list[str]:
    """A vent's cells; `by_load` where the book has a table of what a vent may serve."""
    served = [_most(row)] if by_load else []
    return [row.words, row.fixtures, f"{row.load:g}", _size(row), *served, row.section, _why(row)]
