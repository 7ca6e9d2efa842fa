"""Reading a length that somebody typed, in inches."""

import re

from engine.lengths.numerals import fraction

MOST = 100_000.0
"""Inches past which a typed length is taken for a slip."""

_NUMBER = r"(?:\d{1,9}(?:\s*-\s*|\s+)\d{1,9}\s*/\s*\d{1,9}|\d{1,9}\s*/\s*\d{1,9}|\d{1,9}(?:\.\d{0,12})?|\.\d{1,12})"
_FEET = r"(?:feet|foot|ft\.?|'|′|’)"
_INCHES = r"(?:inches|inch|in\.?|\"|″|”|'')"
_METRIC = r"(mm|cm|m|millimetres?|millimeters?|centimetres?|centimeters?|metres?|meters?)"

_IMPERIAL_FORM = re.compile(
    rf"^(?:({_NUMBER})\s*{_FEET}(?!')\s*(?:-\s*)?)?(?:({_NUMBER})\s*(?:{_INCHES})?)?$", re.IGNORECASE
)
_METRIC_FORM = re.compile(rf"^({_NUMBER})\s*{_METRIC}$", re.IGNORECASE)
_GLYPHS = {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8", "⅓": " 1/3"}


class LengthError(ValueError):
    """A text that is no length: it names the text and shows what would be one."""


def parse(text: str) -> float:
    """The length that `text` writes, in inches.

    A bare number is inches. Feet, inches, fractions, millimetres, centimetres and metres are understood, and
    a leading minus. LengthError says what was wrong.

    >>> parse("10ft"), parse("10' 6 1/2\\""), parse("3-1/2"), parse("7 1/4 in")
    (120.0, 126.5, 3.5, 7.25)
    """
    if len(text) > 60:
        raise LengthError(f"{text[:40]!r}... is too long for a length; write it like 10' 6 1/2\" or 2.5 m")
    words = text.strip()
    for sign, plain in _GLYPHS.items():
        words = words.replace(sign, plain)
    words = words.strip()
    negative = words.startswith(("-", "−"))
    if negative:
        words = words[1:].lstrip()
    value = _inches(text, words)
    if value > MOST:
        raise LengthError(f"{text.strip()!r} is more than {MOST:,.0f} in; check the unit")
    return -value if negative else value


def _inches(text: str, words: str) -> float:
    try:
        metric = _METRIC_FORM.match(words)
        if metric is not None:
            from engine.lengths.metric import to_inches

            return to_inches(fraction(metric[1]), metric[2].lower())
        imperial = _IMPERIAL_FORM.match(words)
        if imperial is not None and (imperial[1] or imperial[2]):
            feet, inches = imperial[1], imperial[2]
            return 12.0 * (fraction(feet) if feet else 0.0) + (fraction(inches) if inches else 0.0)
    except ValueError as fault:
        raise LengthError(f"{text.strip()!r} is not a length: {fault}") from fault
    raise LengthError(f"{text.strip()!r} is not a length; write it like 10ft, 10' 6 1/2\", 3-1/2 or 2.5m")
