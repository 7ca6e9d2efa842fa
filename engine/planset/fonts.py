"""The sheets' typeface, Source Sans Pro, registered from its package's files and embedded in every PDF."""

from __future__ import annotations

from functools import cache
from importlib.util import find_spec
from pathlib import Path

REGULAR = "SourceSansPro"
BOLD = "SourceSansPro-Semibold"
MISSING = "■"
"""Stands for a letter that the typeface does not have."""

_FILES = {REGULAR: "SourceSansPro-Regular.ttf", BOLD: "SourceSansPro-Semibold.ttf"}


class FontError(RuntimeError):
    """The typeface's package is not installed as it should be."""


def folder() -> Path:
    """Where the typeface's files lie. FontError when its package is missing."""
    spec = find_spec("font_source_sans_pro")
    if spec is None or spec.origin is None:
        raise FontError("the package font-source-sans-pro is not installed; the sheets' typeface comes from it")
    return Path(spec.origin).parent / "files"


@cache
def register() -> frozenset[int]:
    """Register both weights with the PDF library, once; returns the letters that both have."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    have: frozenset[int] | None = None
    for name, file in _FILES.items():
        font = TTFont(name, str(folder() / file))
        pdfmetrics.registerFont(font)
        letters = frozenset(font.face.charToGlyph)
        have = letters if have is None else have & letters
    pdfmetrics.registerFontFamily(REGULAR, normal=REGULAR, bold=BOLD, italic=REGULAR, boldItalic=BOLD)
    return have or frozenset()
