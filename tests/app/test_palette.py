"""The canvas's inks can be read on its grounds, and its systems are told apart without colour."""

from __future__ import annotations

from itertools import combinations

import pytest
from PySide6.QtGui import QColor

from app import palette

INKS = ("INK", "QUIET", "WASTE", "VENT", "COLD", "HOT", "LEGAL", "BROKEN", "UNKNOWN", "SNAP", "WOOD_TEXT", "BEARING")


def luminance(colour: str) -> float:
    parts = QColor(colour)
    linear = [
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
        for part in (parts.redF(), parts.greenF(), parts.blueF())
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("ground", ["GROUND", "BEYOND"])
@pytest.mark.parametrize("ink", INKS)
def test_every_ink_of_texts_has_contrast_enough(ink: str, ground: str) -> None:
    """4.5 to 1 for small text: WCAG 2.1, success criterion 1.4.3."""
    a, b = luminance(getattr(palette, ink)), luminance(getattr(palette, ground))
    assert (max(a, b) + 0.05) / (min(a, b) + 0.05) >= 4.5


def test_no_two_systems_share_dashes_or_letters() -> None:
    for one, other in combinations(palette.LINES.values(), 2):
        assert one.letters != other.letters
        assert one.dashes != other.dashes
    assert palette.LINES["waste"].dashes == ()
    assert palette.LINES["waste"].weight == max(line.weight for line in palette.LINES.values())
