"""The sheets with the drains from the side as a reader sees them: on every paper, and one with the list of heights."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path

import pdfplumber
import pytest
from pypdf import PdfReader

from engine.lengths import inches
from engine.plan.file import read
from engine.plan.records import Plan
from engine.planset.book import Book
from engine.planset.carrying_lists import heights
from engine.planset.line_sheets import line_sheets
from engine.planset.papers import PAPERS
from engine.study import study
from engine.takeoff.drain_lines import drain_lines
from engine.takeoff.schedules import taken_off

Floor = Callable[..., Plan]
SAMPLES = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))


def saved(plan: Plan, paper: str = "letter") -> bytes:
    answer = study(plan)
    book = Book(plan, PAPERS[paper], answer.model.book.short)
    return book.saved(line_sheets(book, answer, taken_off(answer.model)))


def words(raw: bytes) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(raw)).pages]


@pytest.mark.parametrize("paper", sorted(PAPERS))
@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_line_is_there_and_nothing_leaves_the_border(path: Path, paper: str) -> None:
    plan = read(path)
    raw = saved(plan, paper)
    sheets = words(raw)
    for line in drain_lines(study(plan).model).drawn:
        assert any(f"DRAIN {line.element} " in sheet for sheet in sheets)
    for sheet in sheets:
        assert "ALONG FROM EXIT" in sheet and "never by a rule laid on the paper" in sheet
        assert "fitting" in sheet
    with pdfplumber.open(io.BytesIO(raw)) as pdf:
        for page in pdf.pages:
            right, foot = page.width - 0.38 * 72, page.height - 0.38 * 72
            for word in page.extract_words():
                assert word["x0"] >= 0.38 * 72 - 0.5 and word["x1"] <= right + 0.5
                assert word["top"] >= 0.38 * 72 - 0.5 and word["bottom"] <= foot + 0.5


def test_the_figures_are_those_of_the_list_of_heights(hand_plan: Plan) -> None:
    """Both sheets read back: each height of d2 stands on the list's row and, with its mark, in the line's column."""
    answer = study(hand_plan)
    taken = taken_off(answer.model)
    listed, drawn = Book(hand_plan, PAPERS["letter"], "x"), Book(hand_plan, PAPERS["letter"], "x")
    table = " ".join(words(listed.saved(heights(listed, answer, taken))))
    sheet = " ".join(words(drawn.saved(line_sheets(drawn, answer, taken))))
    (line,) = [line for line in drain_lines(answer.model, taken.held).drawn if line.element == "d2"]
    assert len(line.places) > 4
    for place in line.places:
        row = place.row
        assert row.centre_down is not None and row.bottom_down is not None
        centre, bottom = inches(row.centre_down), inches(row.bottom_down)
        assert f"{centre} {bottom}" in table
        assert f'{centre}"' in sheet and f'{bottom}"' in sheet


def test_a_floor_without_a_line_has_no_such_sheet(hand_floor: Floor) -> None:
    plan = Plan(floor=hand_floor().floor)
    answer = study(plan)
    assert line_sheets(Book(plan, PAPERS["letter"], "x"), answer, taken_off(answer.model)) == []
