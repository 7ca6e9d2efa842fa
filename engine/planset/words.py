"""The one door for text onto the sheets: what the user typed is printed as typed, and never read as markup.

A text is composed (NFC), loses its control characters and the marks that turn the direction of writing, and shows
a square for each letter that the typeface does not have. Paragraphs are made nowhere else.
"""

from __future__ import annotations

import unicodedata
from typing import TYPE_CHECKING, Any
from xml.sax.saxutils import escape

from engine.planset.fonts import BOLD, MISSING, REGULAR, register

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

MOST_LETTERS = 12_000
"""Longer texts are cut off, and say so: a sheet is no place for a book."""

_CUT = " ... (cut off here)"


def plain(text: str) -> str:
    """A text for drawing as it stands, on one line."""
    return " ".join(_sound(text).split())


def fitted(text: str, width: float, font: str, size: float) -> str:
    """A text for one line, cut off with an ellipsis where it is wider than `width` points."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    words = plain(text)
    if stringWidth(words, font, size) <= width:
        return words
    low, high = 0, len(words)
    while low < high:
        middle = (low + high + 1) // 2
        if stringWidth(words[:middle] + "…", font, size) <= width:
            low = middle
        else:
            high = middle - 1
    return words[:low].rstrip() + "…"


def paragraph(text: str, size: float = 9.0, bold: bool = False, lead: str = "", **style: Any) -> Flowable:
    """A text as a paragraph that flows. `lead` comes first, in bold; both are printed as typed."""
    from reportlab.lib.styles import ParagraphStyle
    from reportlab.platypus import Paragraph  # noqa: TID251

    register()
    font = BOLD if bold else REGULAR
    options: dict[str, Any] = {"fontName": font, "fontSize": size, "leading": size * 1.24, "splitLongWords": 1}
    made = ParagraphStyle("words", **{**options, **style})
    body = _marked(text)
    if lead:
        body = f'<font name="{BOLD}">{_marked(lead)}</font> {body}'
    return Paragraph(body, made)


def _marked(text: str) -> str:
    """A text with its own line breaks kept and nothing in it that could be read as markup."""
    lines = _sound(text).splitlines()
    return "<br/>".join(escape(line) for line in lines)


def _sound(text: str) -> str:
    letters = register()
    composed = unicodedata.normalize("NFC", text)
    if len(composed) > MOST_LETTERS:
        composed = composed[:MOST_LETTERS] + _CUT
    kept = []
    for letter in composed:
        if letter in "\n\t":
            kept.append(letter if letter == "\n" else " ")
        elif unicodedata.category(letter) in ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp") or (
            unicodedata.category(letter) == "Mn" and ord(letter) not in letters
        ):
            continue
        else:
            kept.append(letter if ord(letter) in letters else MISSING)
    return "".join(kept)
