"""The isometrics on their sheets: every part and piece can be read off the printed page, and the page looks as it did."""

from __future__ import annotations

import os
import re
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pypdfium2
import pytest
from PIL import Image, ImageChops
from pypdf import PdfReader

from engine.drawings.isometric.names import full_name, part_name
from engine.plan.file import read
from engine.plan.records import Plan
from engine.planset import write
from engine.study import study
from engine.trade.habits import CLOSET_EXTRAS

SAMPLES = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))
PICTURES = Path(__file__).parent / "pictures"
DEPTH = 64
SHARE = 0.004
"""A pixel may differ by so many grey levels, and this share of the pixels by more: readers smooth edges differently."""


def pages(path: Path, title: str) -> list[int]:
    """The numbers of the pages with a sheet title, from 0."""
    return [n for n, page in enumerate(PdfReader(path).pages) if title in page.extract_text()[-400:]]


def lines(path: Path, title: str) -> list[str]:
    """The texts of those pages, a drawn text a line."""
    reader = PdfReader(path)
    return [line.strip() for n in pages(path, title) for line in reader.pages[n].extract_text().splitlines()]


@pytest.mark.parametrize("paper", ["letter", "a3"])
@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_everything_on_the_lists_can_be_read_off_the_paper(path: Path, paper: str, tmp_path: Path) -> None:
    answer = study(read(path))
    made = write(answer, tmp_path, paper)[0]
    read_off = Counter([*lines(made, "Drains and vents, isometric"), *lines(made, "Water, isometric")])
    parts = Counter(part_name(part) for part in answer.model.joinery.parts if part.kind not in CLOSET_EXTRAS)
    own_names = {full_name(part.kind) for part in answer.model.joinery.parts}  # these stand in the legend as well
    for name, count in parts.items():
        if name not in own_names:
            assert read_off[name] == count, name
    marks = Counter(found[1] for line in read_off.elements() if (found := re.match(r'^([DV]\d+) [\d/-]+"$', line)))
    assert marks == Counter(piece.mark for piece in answer.model.joinery.pieces)


def test_a_sheet_says_how_it_is_to_be_read(printed: Path) -> None:
    words = lines(printed / "plan-set.pdf", "Drains and vents, isometric")
    assert any(line.startswith("SEEN FROM THE SOUTH-WEST, NOT TO SCALE.") for line in words)
    assert "not to scale" in words
    assert "wye" in words
    assert "combo: combination wye and eighth bend" not in words  # the legend holds what the sheet shows, no more
    assert "SAN: waste drain" in words
    assert "CW: cold water" not in words


def test_what_a_checker_reads_off(printed: Path) -> None:
    """The hand floor: exit pinned 7 3/16 in down, a 3 in pipe of 3.042 in bore, finished floor 1 in up.

    IE = 7.1875 + 1.521 = 8 11/16 below the joists' top, 9 11/16 below the floor.
    """
    words = lines(printed / "plan-set.pdf", "Drains and vents, isometric")
    for line in (
        "WC wc1, 3 DFU",
        "LAV lav1, 1 DFU",
        'trap 1-1/4", arm 6 1/4" to vent',
        "VTR r1",
        "EXIT x1",
        'IE 9 11/16" below floor',
        "8 11/16\" below joists' top",
        "1/4 in/ft",
        '18" above floor',
    ):
        assert line in words, line


def test_a_floor_without_pipes_has_no_isometric(hand_floor: Callable[..., Plan], tmp_path: Path) -> None:
    import msgspec

    bare = msgspec.structs.replace(hand_floor(), fixtures=(), drains=(), risers=(), exits=())
    assert pages(write(study(bare), tmp_path)[0], "isometric") == []


@pytest.mark.parametrize(
    ("name", "title"), [("isometric", "Drains and vents, isometric"), ("isometric-water", "Water, isometric")]
)
def test_the_sheet_looks_as_it_did(name: str, title: str, printed: Path, tmp_path: Path) -> None:
    """When a sheet changes for the better, run once with NEW_SHEET_PICTURES=1 and look."""
    number = pages(printed / "plan-set.pdf", title)[0]
    with pypdfium2.PdfDocument(printed / "plan-set.pdf") as document:
        actual = document[number].render(scale=100 / 72).to_pil().convert("L")
    kept = PICTURES / f"{name}.png"
    if os.environ.get("NEW_SHEET_PICTURES"):
        actual.quantize(16).save(kept, optimize=True)
    expected = Image.open(kept).convert("L")
    assert actual.size == expected.size
    difference = ImageChops.difference(actual, expected)
    over = sum(difference.histogram()[DEPTH:]) / (actual.width * actual.height)
    if over > SHARE:
        actual.save(tmp_path / "actual.png")
        difference.save(tmp_path / "difference.png")
    assert over <= SHARE, f"{over:.2%} of the pixels differ; see {tmp_path}"
