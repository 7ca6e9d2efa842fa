"""The heights that an exit may have under two books."""

from __future__ import annotations

from engine.comparing.records import ExitBeside, ExitSide
from engine.comparing.sides import Sides, windows_by_exit
from engine.crossings.records import Window
from engine.lengths import down, inches, up


def exits_beside(sides: Sides) -> tuple[ExitBeside, ...]:
    """Every exit that is drawn, by both books."""
    here, there = windows_by_exit(sides.here), windows_by_exit(sides.there)
    return tuple(ExitBeside(name, _side(here[name]), _side(there[name])) for name in here if name in there)


def _side(window: Window) -> ExitSide:
    return ExitSide(window.low, window.high, window.chosen, window.low_set_by or "", window.high_set_by or "")


def exit_words(window: Window | ExitSide) -> str:
    """An exit's heights as inches down from the joists' top, each end rounded inward: the end of a sentence."""
    low, high = window.low, window.high
    if low is None and high is None:
        return "nothing limits the exit's height"
    if low is None or high is None:
        end = f"at least {inches(up(-high))} in" if high is not None else f"at most {inches(down(-(low or 0.0)))} in"
        return f"the exit lies {end} down ({window.high_set_by if high is not None else window.low_set_by})"
    if low > high:
        return (
            f"no height serves: {window.high_set_by} asks for {inches(up(-high))} in down or more, {window.low_set_by} "
            f"for {inches(down(-low))} in or less"
        )
    if up(-high) > down(-low):
        return f"the exit must lie {-high:.3f} in down ({window.high_set_by})"
    return f"the exit may lie {inches(up(-high))} to {inches(down(-low))} in down"
