"""What brings further bowls and a dishwasher to one trap: common practice, no source; the air gap from memory (UPC 807.3)."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.plan.records import Fixture, Plan
from engine.study import study
from engine.takeoff.answers import parts_answer
from tests.engine.checks.judged_plans import armed


def listed(plan: Plan) -> dict[str, int]:
    names = ("continuous waste", "branch tailpiece", "hose clamp", "air gap", "tee with trap adapter")
    lines = parts_answer(study(plan))["parts"]
    return {name: sum(line["count"] for line in lines if name in line["part"]) for name in names}


def with_dishwasher(disposer: bool = False) -> Plan:
    plan = armed("kitchen_sink", 12.0, disposer=disposer)
    return replace(plan, fixtures=(*plan.fixtures, Fixture("dw", "dishwasher", (260.0, 240.0), through="f1")))


def test_two_and_three_bowls() -> None:
    for bowls in (1, 2, 3):
        assert listed(armed("kitchen_sink", 12.0, bowls=bowls))["continuous waste"] == bowls - 1


@pytest.mark.parametrize(("book", "gaps"), [("irc-2021", 0), ("upc-2021", 1)])
def test_a_dishwasher_through_the_sink(book: str, gaps: int) -> None:
    found = listed(replace(with_dishwasher(), rulebook=book))
    assert (found["branch tailpiece"], found["hose clamp"], found["air gap"]) == (1, 1, gaps)


def test_by_a_disposer_it_needs_no_tailpiece() -> None:
    assert listed(with_dishwasher(disposer=True))["branch tailpiece"] == 0


def test_like_fixtures_side_by_side() -> None:
    """Two lavatories on one trap: a continuous waste, and no second trap. IRC 2021 P3201.6, from memory."""
    plan = armed("lavatory", 12.0)
    plan = replace(plan, fixtures=(*plan.fixtures, Fixture("f2", "lavatory", (240.0, 264.0), through="f1")))
    assert listed(plan)["continuous waste"] == 1
    assert [part.kind for part in study(plan).model.joinery.parts].count("tubular_trap") == 1


def test_a_tub_into_the_standpipe_and_a_washer_into_the_tub() -> None:
    """IRC 2021 P2706.1.2.1; a washer's hose hangs over the tub's rim and takes no part."""
    pipe = armed("washer_standpipe", 12.0)
    fed = replace(pipe, fixtures=(*pipe.fixtures, Fixture("lt", "laundry_tub", (240.0, 264.0), through="f1")))
    assert listed(fed)["tee with trap adapter"] == 1
    tub = armed("laundry_tub", 12.0)
    fed = replace(tub, fixtures=(*tub.fixtures, Fixture("wm", "washer_standpipe", (240.0, 264.0), through="f1")))
    assert sum(listed(fed).values()) == 0


@pytest.mark.parametrize(("book", "gaps"), [("irc-2021", 0), ("upc-2021", 1)])
def test_a_dishwasher_alone_stands_on_a_standpipe(book: str, gaps: int) -> None:
    """IRC 2021 P2717.1, from memory: its hose hangs in an open pipe. The trap at 16 in, the top at 34: 18 in of pipe."""
    plan = replace(armed("dishwasher", 12.0), rulebook=book)
    joinery = study(plan).model.joinery
    kinds = [part.kind for part in joinery.parts]
    assert kinds.count("p_trap") == 1
    assert "tubular_trap" not in kinds
    assert (listed(plan)["hose clamp"], listed(plan)["air gap"]) == (1, gaps)
    stood = next(piece for piece in joinery.pieces if any("standpipe" in pipe for pipe in piece.pipes))
    trap = next(part for part in joinery.parts if part.kind == "p_trap")
    assert (stood.axis, stood.cut) == (18.0, 18.0 - trap.ports[0].takeoff.length)


def test_a_sinks_wide_trap_takes_its_tailpiece_by_an_adapter() -> None:
    """A 2 in trap is glued; a 2 by 1-1/2 trap adapter is sold for its inlet, and no pipe stands up to the rim."""
    joinery = study(armed("kitchen_sink", 12.0, "2")).model.joinery
    assert [part.size for part in joinery.parts if part.kind == "trap_adapter_spigot"] == [(2.0, 1.5)]
    assert not any("standpipe" in pipe for piece in joinery.pieces for pipe in piece.pipes)
    wide = study(armed("kitchen_sink", 12.0, "3")).model.joinery
    assert [part.size for part in wide.parts if part.kind == "flush_bushing"][-1] == (3.0, 2.0)
