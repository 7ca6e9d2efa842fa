"""What is written or typed, as a value of its unit."""

from __future__ import annotations

from engine.lengths import fraction


def worth(said: object, unit: str, choices: tuple[str, ...] = ()) -> tuple[float | bool | str, str]:
    """What was said as a value of `unit`, and how it is written. ValueError says why it can't be one."""
    if unit == "yes/no":
        if not isinstance(said, bool):
            raise ValueError(f"{said!r} is neither true nor false")
        return said, "yes" if said else "no"
    if unit == "word":
        if not isinstance(said, str) or not said.strip():
            raise ValueError(f"{said!r} is not a word")
        if choices and said not in choices:
            raise ValueError(f"{said!r} is not one of {', '.join(choices)}")
        return said, said
    if isinstance(said, bool) or not isinstance(said, int | float | str):
        raise ValueError(f"{said!r} is not a number")
    number = fraction(said) if isinstance(said, str) else float(said)
    if not 0.0 <= number < 1e6:
        raise ValueError(f"{said!r} is not a number from 0 up")
    return number, said if isinstance(said, str) else f"{number:g}"
