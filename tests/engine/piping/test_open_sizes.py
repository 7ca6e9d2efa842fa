"""Sizes that are left open satisfy every rule on sizes, whatever is drawn; and which kind of drain each pipe is.

Kinds: IRC 2021 chapter 2 and the titles of Tables P3005.4.1 and P3005.4.2.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from msgspec.structs import replace

from engine.checks import ALL_RULES
from engine.plan.file import read
from engine.plan.records import Plan
from engine.study import study
from tests.engine.checks.judged_plans import amended, armed, model_of
from tests.engine.checks.sized_plans import branch, building_drain, by, in_wall, single
from tests.engine.checks.vented_plans import column, island_sink, level_branch
from tests.engine.coarse_plans import bathrooms, plans

SAMPLES = Path(__file__).resolve().parents[3] / "samples"
BOOKS = ("irc-2021", "upc-2021")
SHARED = {
    "common-vent-too-small",
    "wet-vent-too-small",
    "waste-stack-too-small",
    "stack-vent-narrower",
    "circuit-branch-too-small",
}
SIZES = {rule.id for rule in ALL_RULES if rule.subject == "sizes"} - {"stack-too-long"}
VENTS = {
    "vent-too-small-for-drain",
    "vent-too-small-for-load",
    "closet-vent-too-small",
    "vent-too-long-for-size",
    "vent-level-too-far",
}


def opened(plan: Plan) -> Plan:
    """The plan with every size of pipe and trap left open."""
    return replace(
        plan,
        amendments=(),
        drains=tuple(replace(one, size=None) for one in plan.drains),
        vents=tuple(replace(one, size=None) for one in plan.vents),
        risers=tuple(replace(one, size=None, vent=None) for one in plan.risers),
        fixtures=tuple(replace(one, trap=None) for one in plan.fixtures),
    )


def complaints(plan: Plan) -> list[str]:
    """What the rules on sizes say; lengths only where no drain lies deeper than a vent is taken to reach beforehand."""
    found = study(plan)
    deepest = min((exit_.tail_z for exit_ in plan.exits), default=0.0)
    sunk = min(found.model.heights.values(), default=0.0) < deepest
    rules = (SIZES | VENTS | SHARED) - ({"vent-too-long-for-size", "vent-level-too-far"} if sunk else set())
    return [f"{one.rule}: {one.text}" for one in found.findings if one.rule in rules]


@pytest.mark.parametrize("book", BOOKS)
@pytest.mark.parametrize("path", sorted(SAMPLES.glob("*.jway")), ids=lambda path: path.stem)
def test_in_the_samples(path: Path, book: str) -> None:
    assert complaints(by(book, opened(read(path)))) == []


@pytest.mark.parametrize("units", [2, 5])
def test_what_comes_down_to_a_tubs_trap_is_of_its_size(units: int) -> None:
    """Before the trap's arm as after it, whatever the tub is said to give: UPC 2021 1003.3."""
    plan = amended(by("upc-2021", opened(armed("bathtub", 30.0))), "dfu.bathtub", units)
    sizes = {pipe.id: pipe.size for pipe in model_of(plan).network.pipes}
    assert sizes["f1.drop"] == sizes["d1.0"] == 1.5
    assert [text for text in complaints(plan) if text.startswith("drain-gets-smaller")] == []


@given(plans())
@settings(deadline=None, max_examples=150, suppress_health_check=[HealthCheck.too_slow])
def test_in_any_plan(plan: Plan) -> None:
    for book in BOOKS:
        assert complaints(by(book, opened(plan))) == []


@given(bathrooms())
@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
def test_in_any_bathroom(plan: Plan) -> None:
    for book in BOOKS:
        assert complaints(by(book, opened(plan))) == []


@pytest.mark.parametrize("book", BOOKS)
@pytest.mark.parametrize(
    "plan",
    [
        column(("lavatory", 40.0), ("kitchen_sink", 18.0)),
        column(("lavatory", 60.0), ("lavatory", 40.0), ("kitchen_sink", 18.0)),
        column(("kitchen_sink", 60.0), ("washer_standpipe", 40.0), ("kitchen_sink", 18.0)),
        level_branch("lavatory", "shower", "bathtub", "water_closet", size=None),
        level_branch("shower", "shower", "shower", "shower", vent_after=2, size=None),
        island_sink(size=None),
    ],
    ids=["two levels", "three levels", "waste stack", "wet vent", "circuit", "combination"],
)
def test_in_each_way_of_venting(plan: Plan, book: str) -> None:
    assert complaints(by(book, opened(plan))) == []


class TestKinds:
    def kinds(self, plan: Plan) -> dict[str, str]:
        return {pipe: sizing.kind for pipe, sizing in model_of(plan).network.drain_sizes.items()}

    def test_the_line_that_leaves_the_house_and_what_runs_into_it(self) -> None:
        kinds = self.kinds(branch(4))
        assert kinds["main.1"] == kinds["main.2"] == "building drain"
        assert kinds["m.0"] == "building drain branch"
        assert kinds["main.0"] == "fixture drain", "one closet's alone"
        assert kinds["b2.0"] == kinds["u.0"] == "trap arm"

    def test_what_empties_into_upright_pipe_is_a_branch(self) -> None:
        kinds = self.kinds(branch(4, join="drop"))
        assert (kinds["m.0"], kinds["m.drop"]) == ("branch", "vertical drain")

    def test_a_fixture_s_own_drain_past_its_vent(self) -> None:
        kinds = self.kinds(single("shower"))
        assert (kinds["f1.drop"], kinds["a.0"], kinds["d.0"]) == ("vertical drain", "trap arm", "fixture drain")
        kinds = self.kinds(in_wall("lavatory"))
        assert (kinds["f1.arm"], kinds["r1.0"], kinds["d.0"]) == ("trap arm", "vertical drain", "fixture drain")

    def test_the_larger_load_is_the_building_drain_upstream(self) -> None:
        kinds = self.kinds(building_drain(4))
        assert kinds["m.0"] == "building drain"
