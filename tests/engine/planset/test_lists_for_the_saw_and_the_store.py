"""Gauge sheet, cut list, sticks and shopping list as a reader sees them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import msgspec
import pytest
from pypdf import PdfReader

from engine.plan.file import read
from engine.plan.records import MeasuredTakeOff, OnHand, Plan, StickForSale
from engine.planset import write
from engine.study import study
from engine.takeoff.gauge import gauge

Floor = Callable[..., Plan]
SAMPLES = sorted((Path(__file__).parents[3] / "samples").glob("*.jway"))


def sheet(path: Path, title: str) -> str:
    """The text of every page of a sheet."""
    pages = [" ".join(page.extract_text().split()) for page in PdfReader(path).pages]
    found = [page for page in pages if f"SHEET {title}" in page]
    assert found, title
    return " ".join(found)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_the_gauge_sheet_has_every_fitting_and_box(path: Path, tmp_path: Path) -> None:
    found = study(read(path))
    words = sheet(write(found, tmp_path)[0], "Gauge sheet")
    for gauged in gauge(found.model):
        assert f"{gauged.name} {gauged.count} in this job" in words
    hubs = sum(1 for gauged in gauge(found.model) for leg in gauged.legs if leg.socket is not None)
    assert words.count(" = ") == hubs  # face and socket make a take-off


def test_a_measure_is_told_and_a_doubtful_one_questioned(hand_floor: Floor, tmp_path: Path) -> None:
    rows = tuple(MeasuredTakeOff("quarter_bend", "3", leg, 1.5) for leg in ("run_in", "run_out"))  # type: ignore[arg-type]
    words = sheet(write(study(msgspec.structs.replace(hand_floor(), takeoffs=rows)), tmp_path)[0], "Gauge sheet")
    assert 'Stands at 1 1/2" ± 1/16", measured.' in words
    assert "is less than the 1.75 in that the corner of its own outside takes" in words


def test_the_cut_list_tells_what_is_sawn_first(hand_floor: Floor, tmp_path: Path) -> None:
    words = sheet(write(study(hand_floor()), tmp_path)[0], "Cut list")
    assert '3 1/8" ± 3/8" 9 1/8"' in words
    assert '112 15/16" ± 3/16" 118 15/16"' in words
    assert "Marks as on the plan and the isometric" in words


def test_the_marks_stand_on_the_plan(hand_floor: Floor, tmp_path: Path) -> None:
    found = study(hand_floor())
    words = sheet(write(found, tmp_path)[0], "Floor plan")
    for piece in found.model.joinery.pieces:
        assert piece.mark in words.replace(",", " ").split()
    assert "piece on the cut list" in words


def test_the_sticks_are_drawn_and_their_proof_said(hand_floor: Floor, tmp_path: Path) -> None:
    sold = (StickForSale("3", 120.0, 21.5),)
    words = sheet(write(study(msgspec.structs.replace(hand_floor(), sticks=sold)), tmp_path)[0], "Sticks to buy")
    assert '3" PVC: buy 1 of 10 ft, 21.50 together' in words
    assert "Proven. No other choice of sticks has a lower price" in words
    assert "drawn to scale: one inch of paper is" in words
    assert "left" in words


def test_the_shopping_list_is_ticked_where_all_is_there(hand_floor: Floor, tmp_path: Path) -> None:
    plan = msgspec.structs.replace(hand_floor(), on_hand=(OnHand("closet seal", "", 2),))
    words = sheet(write(study(plan), tmp_path)[0], "Shopping list")
    assert "– closet seal 1 1 2" in words
    assert "3 quarter bend 3 2 1" in words
    assert "Made under International Residential Code, 2021 edition (IRC 2021)" in words
    assert "What people forget" in words
    assert "Not counted" in words


def test_nothing_stands_alone_at_the_foot_of_a_column(tmp_path: Path) -> None:
    import pdfplumber

    path = write(study(read(SAMPLES[0])), tmp_path)[0]
    headings = ("Cement and primer", "Insulation and tape", "What people forget", "Vents and roof")
    seen = 0
    with pdfplumber.open(path) as pdf:
        for page in pdf.pages:
            lines = page.extract_text_lines()
            for line in lines:
                if line["text"].strip() in headings:
                    seen += 1
                    assert line["bottom"] < page.height - 0.94 * 72 - 30
    assert seen
