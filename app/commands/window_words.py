"""The heights that an exit may have, in words; its ends rounded inward, so that both can be built."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from app.commands.quantity import tape
from app.commands.terminal import wrapped
from engine.lengths import down, up
from engine.plan.outline import listed

if TYPE_CHECKING:
    from engine.crossings.records import Window
    from engine.plan.records import Plan

SAME = 1.0 / 64.0
"""Inches under which a window's two ends are one height."""


def window_words(windows: Iterable[Window], plan: Plan) -> list[str]:
    """A paragraph for each exit that a drain reaches; without one, a sentence that says so."""
    lines: list[str] = []
    for window in windows:
        if window.exit is not None:
            lines += wrapped(_sentence(window), "  ")
    return lines or [f"  {without_window(plan)}"]


def without_window(plan: Plan) -> str:
    """Why no exit of the plan has a height yet."""
    exits = [one.id for one in plan.exits]
    if not exits:
        return "No exit is drawn yet, so no height can be told."
    return f"No drain reaches exit {listed(exits)} yet, so no height can be told."


def _sentence(window: Window) -> str:
    """Heights are the drain's axis, told as inches down from the top of the joists."""
    chosen = f"{'pinned' if window.pinned else 'chosen'}: {tape(-window.chosen)} down"
    others = "".join(f"; also {tape(-z)} down ({how})" for z, how in window.others)
    return f"{window.exit}: {_allowed(window)}; {chosen}{others}."


def _allowed(window: Window) -> str:
    low, high = window.low, window.high
    low_by, high_by = window.low_set_by or "nothing", window.high_set_by or "nothing"
    if low is None:
        if high is None:
            return "nothing drawn limits its axis"
        return f"its axis may lie {tape(up(-high))} down or more (set by {high_by}); nothing limits it below"
    if high is None:
        return f"its axis may lie {tape(down(-low))} down or less (set by {low_by}); nothing limits it above"
    if low > high:
        return (
            f"no height serves: {high_by} asks for {tape(up(-high))} down or more, {low_by} for "
            f"{tape(down(-low))} or less; they exclude each other by {tape(up(low - high))}"
        )
    if high - low < SAME:
        return f"its axis must lie {-high:.3f} in down (set by {high_by})"
    return f"its axis may lie from {_span(high, low)} down (upper end set by {high_by}, lower end by {low_by})"


def _span(high: float, low: float) -> str:
    """From the least depth to the greatest, inward to sixteenths; in decimals when no sixteenth lies between."""
    least, most = up(-high), down(-low)
    return f"{-high:.3f} to {-low:.3f} in" if least > most else f"{tape(least)} to {tape(most)}"
