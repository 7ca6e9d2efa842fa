"""The templates as a printer gets them: true to 0.01 in, told to be printed at 100 %, with bars that prove it."""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path

import msgspec
import pdfplumber
import pypdfium2
import pytest
from pypdf import PdfReader

from engine.drawings.linetypes import WALL_FILL
from engine.plan.records import Floor, Plan
from engine.planset import PAPERS, PaperError, templates
from engine.planset.papers import POINTS
from engine.planset.templates import AT_FULL_SIZE, NOTHING, window_of
from engine.study import study

Floors = Callable[..., Plan]
TRUE = 0.01 * POINTS
"""How far a measured length may be off, points: 0.01 in."""


@pytest.fixture
def made(hand_plan: Plan, tmp_path: Path) -> Path:
    path = tmp_path / "templates.pdf"
    path.write_bytes(templates.pdf(study(hand_plan)))
    return path


def test_every_page_says_at_which_size_to_print_it(made: Path) -> None:
    reader = PdfReader(made)
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    count = len(reader.pages)
    assert count == 3  # the closet on two sheets, the riser's plates on one
    for number, page in enumerate(reader.pages, 1):
        text = " ".join(page.extract_text().split())
        assert f"FULL SIZE, 1 : 1. {AT_FULL_SIZE}" in text
        assert f"T-{number} of {count}" in text
        assert "100 mm" in text
        assert text.count("4 in") >= 2


def test_the_outline_names_each_template_once(made: Path) -> None:
    titles = [str(entry.title) for entry in PdfReader(made).outline if not isinstance(entry, list)]
    assert titles == ["T-1  Opening for water closet (wc1), mark 1", "T-3  Risers through wall plates"]


def test_the_hole_and_the_pipe_are_true(made: Path) -> None:
    with pdfplumber.open(made) as pdf:
        wide = sorted(curve["x1"] - curve["x0"] for curve in pdf.pages[0].curves)
        high = sorted(curve["bottom"] - curve["top"] for curve in pdf.pages[0].curves)
        plate = [curve["x1"] - curve["x0"] for curve in pdf.pages[2].curves]
    # 3 1/2 in of pipe in a 5 in hole
    assert [x for x in wide if x > 200.0] == [
        pytest.approx(3.5 * POINTS, abs=TRUE),
        pytest.approx(5.0 * POINTS, abs=TRUE),
    ]
    assert [x for x in high if x > 200.0] == [
        pytest.approx(3.5 * POINTS, abs=TRUE),
        pytest.approx(5.0 * POINTS, abs=TRUE),
    ]
    assert any(x == pytest.approx(2.125 * POINTS, abs=TRUE) for x in plate)


def test_the_wall_is_where_it_is_when_the_sheets_are_glued(made: Path) -> None:
    """Its stud face 12 1/2 in from the flange's centre, counted over the glued seam."""
    with pdfplumber.open(made) as pdf:
        low, high = pdf.pages[:2]
        hole = max(low.curves, key=lambda curve: curve["x1"] - curve["x0"])
        window = window_of(PAPERS["letter"])
        glue = next(word for word in low.extract_words() if word["text"] == "GLUE")
        dashed = [line for line in low.lines if line["top"] > glue["top"] and math.isclose(line["top"], line["bottom"])]
        seam = min(line["top"] for line in dashed)
        first = (hole["top"] + hole["bottom"]) / 2.0 - seam
        bottom = high.height - window.bottom * POINTS
        (wall,) = (
            rect for rect in high.rects if rect["non_stroking_color"] in (WALL_FILL, (WALL_FILL,)) and rect["fill"]
        )
        second = bottom - wall["bottom"]
    assert first + second == pytest.approx(12.5 * POINTS, abs=2.0 * TRUE)


def test_the_bars_are_true_on_every_page(made: Path) -> None:
    with pdfplumber.open(made) as pdf:
        for page in pdf.pages:
            level = [line["x1"] - line["x0"] for line in page.lines if math.isclose(line["top"], line["bottom"])]
            upright = [line["bottom"] - line["top"] for line in page.lines if math.isclose(line["x0"], line["x1"])]
            assert any(x == pytest.approx(4.0 * POINTS, abs=TRUE) for x in level)
            assert any(x == pytest.approx(100.0 / 25.4 * POINTS, abs=TRUE) for x in level)
            assert any(x == pytest.approx(4.0 * POINTS, abs=TRUE) for x in upright)


def test_the_ink_is_true(made: Path) -> None:
    """Measured on the printed dots: at 200 dots to the inch the hole is 1000 dots across, the bar 800 long."""
    with pypdfium2.PdfDocument(made) as document:
        image = document[0].render(scale=200 / 72).to_pil().convert("L")
    with pdfplumber.open(made) as pdf:
        hole = max(pdf.pages[0].curves, key=lambda curve: curve["x1"] - curve["x0"])
    turned = hole["top"] + (hole["bottom"] - hole["top"]) * 0.35
    row = round(turned * 200 / 72)
    dark = [x for x in range(image.width) if image.getpixel((x, row)) < 128]
    middle = (hole["x0"] + hole["x1"]) / 2.0 * 200 / 72
    # 0.75 in over the centre the chord of a 2 1/2 in radius is 2 sqrt(6.25 - 0.5625) = 4.7697 in
    left = max(x for x in dark if x < middle - 2.2 * 200)
    right = min(x for x in dark if x > middle + 2.2 * 200)
    assert right - left == pytest.approx(4.7697 * 200, abs=5)


@pytest.mark.parametrize("paper", sorted(PAPERS))
def test_every_paper_at_its_own_size(paper: str, hand_plan: Plan, tmp_path: Path) -> None:
    path = tmp_path / "t.pdf"
    path.write_bytes(templates.pdf(study(hand_plan), paper))
    chosen = PAPERS[paper]
    with pdfplumber.open(path) as pdf:
        for page in pdf.pages:
            assert (page.width, page.height) == (
                pytest.approx(chosen.short * POINTS, abs=0.1),
                pytest.approx(chosen.long * POINTS, abs=0.1),
            )
            for word in page.extract_words():
                assert word["x0"] >= 0.3 * POINTS
                assert word["x1"] <= page.width - 0.3 * POINTS
                assert word["top"] >= 0.3 * POINTS
                assert word["bottom"] <= page.height - 0.3 * POINTS
        hole = max(pdf.pages[0].curves, key=lambda curve: curve["x1"] - curve["x0"])
    assert hole["x1"] - hole["x0"] == pytest.approx(5.0 * POINTS, abs=TRUE)


def test_an_unknown_paper_is_named(hand_plan: Plan) -> None:
    with pytest.raises(PaperError, match="papyrus"):
        templates.pdf(study(hand_plan), "papyrus")


def test_the_same_study_gives_the_same_bytes(hand_plan: Plan) -> None:
    assert templates.pdf(study(hand_plan)) == templates.pdf(study(hand_plan))


def test_with_nothing_to_open_it_says_so(tmp_path: Path) -> None:
    plan = Plan(floor=Floor(outline=((0.0, 0.0), (120.0, 0.0), (120.0, 96.0), (0.0, 96.0))))
    path = tmp_path / "t.pdf"
    path.write_bytes(templates.pdf(study(plan)))
    (page,) = PdfReader(path).pages
    assert NOTHING in " ".join(page.extract_text().split())


def test_names_are_printed_as_typed(hand_plan: Plan, tmp_path: Path) -> None:
    wild = "<b>Alder & Bank</b> " + "very long " * 30
    fixtures = tuple(msgspec.structs.replace(f, name=wild) if f.id == "wc1" else f for f in hand_plan.fixtures)
    path = tmp_path / "t.pdf"
    path.write_bytes(templates.pdf(study(msgspec.structs.replace(hand_plan, name=wild, fixtures=fixtures))))
    page = PdfReader(path).pages[0].extract_text()
    assert "<b>Alder & Bank</b>" in page
