"""The sheet of fixture units and pipe sizes, read back from the PDF: IRC 2021 Tables P3004.1 and P3005.4.2."""

from __future__ import annotations

import io
from pathlib import Path

from pypdf import PdfReader

from engine.plan.file import read
from engine.plan.records import Floor, Plan
from engine.planset.book import Book
from engine.planset.load_sheet import TITLE, load_sheet
from engine.planset.papers import paper_named
from engine.study import study
from tests.engine.checks.sized_plans import by

SAMPLES = Path(__file__).resolve().parents[3] / "samples"


def words(plan: Plan) -> str:
    found = study(plan)
    book = Book(plan, paper_named("letter"), found.model.book.short)
    pages = PdfReader(io.BytesIO(book.saved(load_sheet(book, found)))).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def test_fixtures_drains_and_vents() -> None:
    text = words(read(SAMPLES / "cottage-with-kitchen.jway"))
    for part in (
        TITLE,
        "bath lavatory 1 1-1/4 in IRC 2021 Table P3004.1",
        "full-bath group 5, in place of 3 + 1 + 2 = 6; with 2 + 2 = 4: 9 in all",
        "3, drawn 42 IRC 2021 Table P3005.4.2",
        "a closet drains through it, which asks for 3 in",
        "1/2 of the drain that it serves, 3 in by the book",
    ):
        assert part in text, part
    assert "May serve" not in text, "the IRC has no table of what a vent may serve"


def test_by_the_other_book() -> None:
    text = words(by("upc-2021", read(SAMPLES / "cottage-with-kitchen.jway")))
    assert "3 + 1 + 2 + 2 + 3 = 11" in text
    assert "May serve" in text


def test_a_floor_with_nothing_to_drain() -> None:
    text = words(Plan(floor=Floor(outline=((0.0, 0.0), (120.0, 0.0), (120.0, 120.0), (0.0, 120.0)))))
    assert "No fixture that drains is drawn yet." in text
