"""Hubs in bores (hub-in-bore). Common practice, no source: a hub goes in only where a hole as wide as the hub may be bored.

Joist 3 of a 2x10 floor stands at x 48, its east face at 48-3/4. The hub's face lies take-off and socket from the corner.
"""

from __future__ import annotations

import pytest

from engine.checks.hubs import RULES
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome
from engine.plan.records import Drain, Exit, Fixture, Floor, JoistField, Plan
from engine.study import work_out
from engine.trade.fittings import takeoff
from engine.trade.pipe import drain

FACE = 48.75


def turned_at(x: float, size: str, passing: str | None = None) -> Outcome:
    """What is said of a shower's drain that passes joist 3 and turns south in a long sweep at `x`."""
    plan = Plan(
        floor=Floor(outline=((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))),
        fields=(JoistField("j1", (0.0, 0.0), (120.0, 108.0)),),
        fixtures=(Fixture("f1", "shower", (36.0, 60.0)),),
        drains=(Drain("d1", ((36.0, 60.0), (x, 60.0), (x, 20.0)), size=size, passing=passing),),  # type: ignore[arg-type]
        exits=(Exit("x1", (x, 20.0), pinned_z=-5.0),),
    )
    (found,) = RULES[0].judge(work_out(plan))
    return found


def reach(nominal: float) -> float:
    """From the corner to the face of the bend's hub, inches."""
    return takeoff("long_sweep_quarter_bend", (nominal, nominal), "run_in").length + drain(nominal).socket


@pytest.mark.parametrize(("size", "nominal", "weight"), [("2", 2.0, "stop"), ("1-1/2", 1.5, "look")])
def test_a_hub_may_touch_the_joists_face(size: str, nominal: float, weight: str) -> None:
    assert type(turned_at(FACE + reach(nominal), size)) is Holds
    found = turned_at(FACE + reach(nominal) - 1 / 16, size)
    assert isinstance(found, Finding)
    assert (found.rule, found.weight, found.measured) == ("hub-in-bore", weight, pytest.approx(1 / 16))
    # a 2 in hub is 2.683 in wide and wants a 3-5/8 in bit, past the 3.083 in that a 2x10 may have
    assert ("bore 2-9/16 in there" in found.mend) is (weight == "look")


def test_a_run_that_asks_for_no_bore_does_not_apply() -> None:
    assert type(turned_at(FACE + 1.0, "2", "under")) is DoesNotApply


def test_what_collides_is_said() -> None:
    """The hub, wider than the hole for the pipe: how deep it would sit, or that it lies there from face to face (1-1/2 in)."""
    deep = turned_at(FACE + reach(2.0) - 0.5, "2")
    assert isinstance(deep, Finding)
    assert "would sit 1/2 in deep in the hole in joist j1.3" in deep.text
    assert "no hole wider than" in deep.text
    whole = turned_at(FACE + reach(1.5) - 1.75, "1-1/2")
    assert isinstance(whole, Finding)
    assert "from face to face, 1 3/4 in too near to it" in whole.text
    assert "may be bored for it" in whole.text
