"""The sheets of joist elevations as a reader sees them: order of work, lines to snap, every cut, on every paper."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from pypdf import PdfReader

from engine.plan.file import read
from engine.plan.records import Floor, Plan
from engine.planset.book import Book
from engine.planset.elevation_sheets import CAUTION, elevation_sheets, line_rows
from engine.planset.papers import PAPERS
from engine.study import study
from engine.takeoff.joist_cuts import cut_rows

SAMPLES = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))


def printed(plan: Plan, paper: str = "letter") -> list[str]:
    answer = study(plan)
    book = Book(plan, PAPERS[paper], answer.model.book.short)
    raw = book.saved(elevation_sheets(book, answer))
    return [" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(raw)).pages]


@pytest.mark.parametrize("paper", sorted(PAPERS))
@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_figure_of_every_cut_is_on_the_sheets(path: Path, paper: str) -> None:
    plan = read(path)
    first, *sheets = printed(plan, paper)
    assert "Mark all, bore nothing yet." in first
    words = " ".join(sheets)
    for row in cut_rows(study(plan).model):
        assert f" {row.number} " in words
        assert row.bit in words
    for sheet in sheets:
        assert CAUTION[:40] in sheet
        assert "MEASURE FROM HERE" in sheet and "no hole reaches in here" in sheet


def test_the_lines_of_the_fuller_sample() -> None:
    """Joists 2 to 7 are bored for d4, all 24 in from the south outside face: 22-1/2 in from the rim's inside face."""
    rows = line_rows(study(read(SAMPLES[0])))
    line = next(row for row in rows if row[3] == "d4")
    assert line[:3] == ('22 1/2" from the south end', "joists 2, 3, 4, 5, 6, 7", "2, 6, 11, 14, 17, 20")
    assert line[4] == '2-9/16"'
    assert next(row for row in rows if row[3] == "c7")[5] == 'all 6"'


def test_what_to_butt_the_tape_on_is_named() -> None:
    first = printed(read(SAMPLES[0]))[0]
    assert "the south end, which stands against the north face of the south rim" in first


def test_a_floor_without_cuts_has_no_such_sheet() -> None:
    plan = Plan(floor=Floor(((0.0, 0.0), (120.0, 0.0), (120.0, 120.0), (0.0, 120.0))))
    answer = study(plan)
    assert elevation_sheets(Book(plan, PAPERS["letter"], "x"), answer) == []
