"""The windows alone of a plan that is being thought about: pipes, wood and where they cross, without fittings and rules."""

from __future__ import annotations

from engine import rulebooks
from engine.crossings import find, windows
from engine.crossings.records import Window
from engine.framing import layout
from engine.piping import network as piping
from engine.plan.records import Plan


def windows_of(plan: Plan) -> tuple[Window, ...]:
    """The windows of a plan's exits and open rises."""
    book = rulebooks.load(plan.rulebook, plan.amendments)
    framing = layout.lay_out(plan)
    network = piping.build(plan, book)
    crossed = find.find(network, plan, framing, book)
    return windows.windows(plan, book, network, framing, crossed)


def shut_by(found: tuple[Window, ...]) -> float:
    """By how much the windows that are empty are so, together, inches."""
    return sum(
        max(0.0, one.low - one.high) for one in found if one.low is not None and one.high is not None and not one.others
    )
