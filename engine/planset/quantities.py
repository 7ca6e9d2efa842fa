"""Measures, places and verdicts in the words of the sheets."""

from __future__ import annotations

import math

from engine.lengths import feet_inches, inches

WEIGHTS = {"stop": "stop", "look": "look", "note": "know"}
"""What a finding's weight asks of the reader."""


def place(at: tuple[float, float, float]) -> str:
    """A point east and north of the floor's south-west corner, and its height about the joists' top."""
    x, y, z = at
    if not (math.isfinite(x) and math.isfinite(y)):
        return ""
    words = f"{feet_inches(x)} E, {feet_inches(y)} N"
    if not math.isfinite(z) or abs(z) > 1.0e6 or z == 0.0:
        return words
    return f'{words}, {inches(abs(z))}" {"down" if z < 0.0 else "up"}'


def quantity(value: float | None, unit: str) -> str:
    """A number with its unit, three decimals at most; empty when there is none."""
    if value is None:
        return ""
    if not math.isfinite(value):
        return "unlimited"
    shown = f"{value:.3f}".rstrip("0").rstrip(".")
    return f"{shown or '0'} {unit}".strip()


def tape(value: float | None) -> str:
    """A length as a tape shows it, to 1/16 in; a dash when it is not known."""
    return "–" if value is None else f'{inches(value)}"'


def sheet_numbers(numbers: list[int]) -> str:
    """Sheets' numbers with runs of neighbours drawn together: P-1 to P-3, P-5."""
    parts: list[str] = []
    start = last = None
    for number in [*sorted(numbers), None]:
        if last is not None and number == last + 1:
            last = number
            continue
        if start is not None:
            parts.append(f"P-{start}" if start == last else f"P-{start} to P-{last}")
        start = last = number
    return ", ".join(parts)
