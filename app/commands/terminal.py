"""Lines for a terminal: wrapped, aligned, and free of control characters that a plan's text could smuggle in."""

from __future__ import annotations

import re
import shutil
import textwrap
import unicodedata
from collections.abc import Iterable, Sequence

WIDEST = 100
NARROWEST = 60


def clean(text: str) -> str:
    """The text with every control character but the line's end replaced visibly."""
    return "".join(letter if letter == "\n" or not _controls(letter) else "\ufffd" for letter in text)


def _controls(letter: str) -> bool:
    return unicodedata.category(letter) in {"Cc", "Cs"} or letter in _TURNERS


_TURNERS = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""Letters that turn the reading direction: harmless in a word, misleading in a list."""


def width() -> int:
    """Columns to write in: the terminal's, kept to what reads well."""
    return max(NARROWEST, min(WIDEST, shutil.get_terminal_size((80, 24)).columns))


def wrapped(text: str, indent: str = "", hang: str | None = None) -> list[str]:
    """One paragraph as lines, no measure parted from its fraction or unit; `hang` indents all lines but the first."""
    lines = textwrap.wrap(
        _MEASURE.sub(_FIRM, clean(text).replace("\n", " ")),
        width(),
        initial_indent=indent,
        subsequent_indent=indent if hang is None else hang,
        break_on_hyphens=False,
    )
    return [line.replace(_FIRM, " ") for line in lines]


_FIRM = "\u00a0"
_MEASURE = re.compile(r"(?<=\d) (?=\d+/\d|in\b)")


def table(head: Sequence[str], rows: Iterable[Sequence[str]], right: frozenset[int] = frozenset()) -> list[str]:
    """Rows under a head, columns as wide as their longest cell; the columns in `right` end flush."""
    cells = [[clean(cell).replace("\n", " ") for cell in row] for row in (head, *rows)]
    widths = [max(len(row[column]) for row in cells) for column in range(len(head))]
    lines = [
        "  ".join(
            cell.rjust(wide) if column in right else cell.ljust(wide)
            for column, (cell, wide) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in cells
    ]
    return [lines[0], "  ".join("-" * wide for wide in widths), *lines[1:]]
