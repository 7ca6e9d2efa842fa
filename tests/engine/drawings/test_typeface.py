"""The table of letter widths against the typeface's own file."""

from __future__ import annotations

import pytest

from engine.drawings.typeface import CAP_HEIGHT, text_width, type_size


@pytest.mark.parametrize(("bold", "file"), [(False, "SourceSansPro-Regular.ttf"), (True, "SourceSansPro-Semibold.ttf")])
def test_every_width_is_the_typefaces(bold: bool, file: str) -> None:
    from reportlab.pdfbase.ttfonts import TTFontFile

    from engine.planset.fonts import folder

    face = TTFontFile(str(folder() / file))
    assert round(face.capHeight) == CAP_HEIGHT * 1000
    for code in range(32, 127):
        # a height of the capitals' own share makes the type size one inch
        assert text_width(chr(code), CAP_HEIGHT, bold) == pytest.approx(face.charWidths[code] / 1000, abs=6e-4)


def test_type_size_makes_the_capitals_as_high_as_asked() -> None:
    # 3/32 in of capitals: 0.09375 / 0.66 x 72 points
    assert type_size(3 / 32) == pytest.approx(10.227, abs=1e-3)
