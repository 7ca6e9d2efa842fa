"""Numbers with fractions as the trade writes them: ``3/4``, ``1-1/2``, ``2 1/8``, ``0.75``."""

import re

from engine.lengths.rounding import nearest

_MIXED = re.compile(r"^(?:(\d{1,9})(?:\s*-\s*|\s+))?(\d{1,9})\s*/\s*(\d{1,9})$")
_PLAIN = re.compile(r"^(?:\d{1,9}(?:\.\d{0,12})?|\.\d{1,12})$")


def fraction(text: str) -> float:
    """The number that `text` writes. ValueError when it is neither a fraction, a mixed nor a plain number.

    >>> fraction("1-1/4"), fraction("1/3") * 3, fraction("2.5")
    (1.25, 1.0, 2.5)
    """
    words = text.strip()
    if _PLAIN.match(words):
        return float(words)
    found = _MIXED.match(words)
    if found is None:
        raise ValueError(f"{text!r} is not a number such as 2, 2.5, 3/4 or 1-1/2")
    whole, above, below = (int(part or 0) for part in found.groups())
    if below == 0:
        raise ValueError(f"{text!r} divides by zero")
    return whole + above / below


def mixed(x: float, denominator: int = 16, joint: str = " ") -> str:
    """`x` to the nearest 1/`denominator`, in lowest terms, whole and fraction parted by `joint`.

    >>> mixed(2.5625), mixed(1.5, joint="-"), mixed(0.03)
    ('2 9/16', '1-1/2', '0')
    """
    value = nearest(x, denominator)
    parts = round(abs(value) * denominator)
    sign = "-" if value < 0 else ""
    whole, over = divmod(parts, denominator)
    if over == 0:
        return f"{sign}{whole}"
    below = denominator
    while over % 2 == 0 and below % 2 == 0:
        over, below = over // 2, below // 2
    return f"{sign}{whole}{joint}{over}/{below}" if whole else f"{sign}{over}/{below}"
