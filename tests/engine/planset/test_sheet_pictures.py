"""One picture for each kind of sheet, as printed at 100 dots per inch, against the one that was looked at.

A pixel may differ by `DEPTH` grey levels, and `SHARE` of the pixels by more: other versions of the reader smooth
edges a little differently. When a sheet changes for the better, run once with NEW_SHEET_PICTURES=1 and look.
"""

from __future__ import annotations

import os
from pathlib import Path

import pypdfium2
import pytest
from PIL import Image, ImageChops
from pypdf import PdfReader

PICTURES = Path(__file__).parent / "pictures"
DEPTH = 64
SHARE = 0.003
SHEETS = {
    "overview": "Floor plan",
    "drains": "Drains and vents",
    "water": "Water",
    "setting-out": "Setting out",
    "assembly-order": "Assembly order",
    "joist-cuts": "Joist cuts",
    "heights": "Heights along the runs",
    "from-the-side": "Drains from the side",
    "cut-list": "Cut list",
}


def picture(path: Path, title: str) -> Image.Image:
    outline = [entry for entry in PdfReader(path).outline if not isinstance(entry, list)]
    number = next(int(str(entry.title).split()[0][2:]) for entry in outline if str(entry.title).endswith(f"  {title}"))
    with pypdfium2.PdfDocument(path) as document:
        return document[number - 1].render(scale=100 / 72).to_pil().convert("L")


@pytest.mark.parametrize("name", sorted(SHEETS))
def test_the_sheet_looks_as_it_did(name: str, printed: Path, tmp_path: Path) -> None:
    actual = picture(printed / "plan-set.pdf", SHEETS[name])
    kept = PICTURES / f"{name}.png"
    if os.environ.get("NEW_SHEET_PICTURES"):
        PICTURES.mkdir(exist_ok=True)
        actual.quantize(16).save(kept, optimize=True)
    expected = Image.open(kept).convert("L")
    assert actual.size == expected.size
    difference = ImageChops.difference(actual, expected)
    over = sum(difference.histogram()[DEPTH:]) / (actual.width * actual.height)
    if over > SHARE:
        actual.save(tmp_path / "actual.png")
        difference.save(tmp_path / "difference.png")
    assert over <= SHARE, f"{over:.2%} of the pixels differ; see {tmp_path}"
