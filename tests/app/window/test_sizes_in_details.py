"""Load and size of a selected drain, riser, vent or fixture in the properties pane, in step with plan and study."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt

from app.workplace import Workplace
from engine.plan.file import read

SAMPLES = Path(__file__).resolve().parents[3] / "samples"


@pytest.fixture
def work(make_work, qtbot) -> Workplace:
    made: Workplace = make_work(read(SAMPLES / "cottage-with-kitchen.jway"))
    qtbot.waitUntil(lambda: made.document.studied, timeout=20_000)
    return made


def told(work: Workplace, element: str) -> str:
    work.document.select(frozenset({element}))
    box = work.details.sizes
    assert box is not None
    assert box.isVisibleTo(work.details) == bool(box.told)
    return box.told


def test_a_main_tells_each_stretch_with_its_group(work: Workplace) -> None:
    """IRC 2021 Tables P3004.1 and P3005.4.2: half bath 4, full bath 5, with the kitchen sink and the washer 9."""
    words = told(work, "d1")
    assert "half-bath group 4, in place of 3 + 1 = 4" in words
    assert "full-bath group 5, in place of 3 + 1 + 2 = 6; with 2 + 2 = 4: 9 in all" in words
    assert "May carry 42 (IRC 2021 Table P3005.4.2)." in words
    assert "The least is 3 in: a closet drains through it, which asks for 3 in." in words


def test_a_riser_tells_drain_and_vent(work: Workplace) -> None:
    words = told(work, "r2")
    assert words.startswith("1-1/2 in upright drain, chosen by the program.")
    assert "1-1/2 in vent, chosen by the program.\nServes kitchen sink: 2." in words


def test_a_fixture_tells_its_units(work: Workplace) -> None:
    assert told(work, "wc1").startswith("Gives 3 fixture units. IRC 2021 Table P3004.1, from memory.")


def test_what_drains_nothing_tells_nothing(work: Workplace) -> None:
    assert told(work, "w1") == ""
    assert told(work, "wh1") == ""


def test_a_size_typed_by_hand_is_told_with_the_least(work: Workplace, qtbot) -> None:
    assert "3 in building drain, drawn." in told(work, "d1")
    editor = work.details.editors["size"]
    box = editor.focusProxy()
    assert box is not None
    box.setFocus()
    qtbot.keyClick(box, Qt.Key.Key_End)
    qtbot.waitUntil(
        lambda: work.document.studied and "4 in building drain, drawn." in work.details.sizes.told, timeout=20_000
    )
    assert "The least is 3 in" in work.details.sizes.told


def test_the_other_book_tells_its_sums(work: Workplace, qtbot) -> None:
    """UPC 2021 Table 702.1: 3 + 1 + 2 + 2 + 3 = 11."""
    told(work, "d1")
    work.document.commit(replace(work.document.plan, rulebook="upc-2021"), "judge by the other book")
    qtbot.waitUntil(
        lambda: work.document.studied and "3 + 1 + 2 + 2 + 3 = 11" in work.details.sizes.told, timeout=20_000
    )
