"""Tables and texts that flow: over pages, in columns, and what happens to a row that fits no sheet."""

from __future__ import annotations

import io

import pytest
from pypdf import PdfReader

from engine.plan.records import Floor, Plan
from engine.planset.book import Book, PlanSetError
from engine.planset.flow import Column, flowed, note, table
from engine.planset.papers import paper_named

PLAN = Plan(floor=Floor(outline=((0.0, 0.0), (120.0, 0.0), (120.0, 96.0))))
COLUMNS = (Column("Mark", 1), Column("Words", 4))


@pytest.fixture
def book() -> Book:
    return Book(PLAN, paper_named("letter"), "IRC 2021")


def words_on(book: Book, pages: list[object]) -> list[str]:
    return [page.extract_text() for page in PdfReader(io.BytesIO(book.saved(pages))).pages]  # type: ignore[arg-type]


def test_a_long_table_goes_on_with_its_heads(book: Book) -> None:
    rows = [[f"D{n}", "words"] for n in range(200)]
    pages = words_on(book, flowed(book, "Cut list", [table(COLUMNS, rows, 9.0, 9.0)]))
    assert len(pages) > 3
    assert all("Mark" in page for page in pages)
    assert sum(page.count("words") for page in pages) == 200


def test_a_row_taller_than_a_page_is_split(book: Book) -> None:
    rows = [["D1", "word " * 4000]]
    pages = words_on(book, flowed(book, "Cut list", [table(COLUMNS, rows, 4.0, 9.0)]))
    assert sum(page.count("word") for page in pages) == 2400  # 12,000 letters are printed, then it says so
    assert "(cut off here)" in " ".join(pages[-1].split())


def test_what_cannot_be_split_is_named(book: Book) -> None:
    from reportlab.platypus import Spacer

    class Tall(Spacer):
        def getPlainText(self) -> str:
            return "row 7 of the joist cuts"

    with pytest.raises(
        PlanSetError, match="Joist cuts: the text beginning “row 7 of the joist cuts” is taller than a sheet"
    ):
        flowed(book, "Joist cuts", [note("first", 9.0), Tall(10, 5000)])


def test_two_columns_fill_before_the_page_turns(book: Book) -> None:
    rows = [[f"D{n}", "x"] for n in range(60)]
    pages = flowed(book, "Heights", [table(COLUMNS, rows, 4.0, 9.0)], columns=2)
    assert len(pages) == 1
