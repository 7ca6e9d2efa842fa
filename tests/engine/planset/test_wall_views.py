"""The sheets of walls as a reader sees them: every hole with its figures, on every paper, and the list beside them."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from pypdf import PdfReader

from engine.lengths import inches
from engine.plan.file import read
from engine.plan.records import Floor, Plan, Wall
from engine.planset.book import Book
from engine.planset.papers import PAPERS
from engine.planset.wall_sheet import plates_and_studs
from engine.planset.wall_views import CAUTION, SCALES, wall_sheets
from engine.study import study
from engine.takeoff.wall_holes import wall_holes
from tests.engine.wet_walls import wet_walls

SAMPLES = Path(__file__).resolve().parents[3] / "samples"
PLANS = {path.stem: read(path) for path in sorted(SAMPLES.glob("*.jway"))} | {"wet-walls": wet_walls()}


def printed(plan: Plan, paper: str = "letter") -> list[str]:
    answer = study(plan)
    book = Book(plan, PAPERS[paper], answer.model.book.short)
    raw = book.saved([*plates_and_studs(book, answer), *wall_sheets(book, answer)])
    return [" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(raw)).pages]


@pytest.mark.parametrize("paper", sorted(PAPERS))
@pytest.mark.parametrize("name", PLANS)
def test_every_figure_of_every_hole_is_on_the_sheets(name: str, paper: str) -> None:
    plan = PLANS[name]
    sheets = [page for page in printed(plan, paper) if "SOLE PLATE FROM ABOVE" in page]
    words = " ".join(sheets)
    for row in wall_holes(study(plan).model):
        assert row.wall.upper() in words
        assert row.bit in words
        for value in (row.from_end, row.from_other, row.from_face, row.from_other_face):
            assert f'{inches(value)}"' in words
    for sheet in sheets:
        assert CAUTION[:40] in sheet and SCALES[:40] in sheet
        assert "MEASURE FROM HERE" in sheet and "Hook the tape" in sheet and "SUBFLOOR: HOOK HERE" in sheet


def test_the_list_has_the_numbers_of_the_drawings() -> None:
    first = printed(PLANS["cottage-with-kitchen"])[0]
    assert "7 kitchen wall sole plate" in first and "7 kitchen wall top plates" in first
    assert "Legal?" in first


def test_a_floor_without_pipes_in_walls_has_no_such_sheet() -> None:
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 120.0), (0.0, 120.0))
    plan = Plan(floor=Floor(outline), walls=(Wall("w", (10.0, 10.0), (90.0, 10.0)),))
    answer = study(plan)
    assert wall_sheets(Book(plan, PAPERS["letter"], "x"), answer) == []
