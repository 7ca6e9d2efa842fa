"""One plan under two books: what differs, and whether the reason given is the value that makes it."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from msgspec.structs import replace

from engine.comparing import Comparison, SameBookError, compare
from engine.comparing.answers import beside_answer
from engine.comparing.records import FindingBeside, TrapBeside
from engine.comparing.telling import told
from engine.plan import file
from engine.plan.records import Amendment, Plan
from engine.rulebooks import RuleBookError
from engine.study import study
from tests.engine.checks.vented_plans import by, column, level_branch
from tests.engine.coarse_plans import bathrooms, plans

HandFloor = Callable[..., Plan]
SAMPLES = Path(__file__).resolve().parents[3] / "samples"
UPC, IRC = "upc-2021", "irc-2021"
COUNTY = {"said_by": "the county", "on": "2026-03-02"}


def finding(comparison: Comparison, rule: str, element: str) -> FindingBeside:
    return next(one for one in comparison.findings if one.rule == rule and element in one.finding.elements)


def trap(comparison: Comparison, fixture: str) -> TrapBeside:
    return next(one for one in comparison.traps if one.fixture == fixture)


class TestReasons:
    """A difference is explained by the value that makes it, in both books."""

    # IRC 2021 Table P3105.1: 96 in for a 2 in trap; UPC 2021 Table 1002.2: 60 in
    def test_a_trap_too_far_in_one_book(self, hand_floor: HandFloor) -> None:
        plan = hand_floor()
        sink = replace(plan.fixtures[1], kind="kitchen_sink", trap="2", arm=80.0)
        comparison = compare(replace(plan, fixtures=(plan.fixtures[0], sink)), UPC)
        found = finding(comparison, "trap-too-far-from-vent", "lav1")
        assert (found.where, found.finding.measured, found.finding.limit) == ("there", 80.0, 60.0)
        assert found.why == (
            "Farthest from a trap's weir to its vent (2 in): 96 in by IRC 2021 Table P3105.1; "
            "60 in by UPC 2021 Table 1002.2.",
        )
        beside = trap(comparison, "lav1")
        assert beside.here is not None and beside.there is not None
        assert (beside.here.state, beside.there.state) == ("vented", "too far")
        assert (beside.here.limit, beside.there.limit) == (96.0, 60.0)
        assert found.why[0] in beside.why

    def test_the_books_change_places(self, hand_floor: HandFloor) -> None:
        plan = hand_floor()
        sink = replace(plan.fixtures[1], kind="kitchen_sink", trap="2", arm=80.0)
        turned = compare(by(UPC, replace(plan, fixtures=(plan.fixtures[0], sink))), IRC)
        found = finding(turned, "trap-too-far-from-vent", "lav1")
        assert found.where == "here"
        assert found.why == (
            "Farthest from a trap's weir to its vent (2 in): 60 in by UPC 2021 Table 1002.2; "
            "96 in by IRC 2021 Table P3105.1.",
        )

    # UPC 2021 908.2, from memory: the closet joins last; the IRC does not ask it (P3108)
    def test_a_trap_without_air_in_one_book(self) -> None:
        plan = file.read(SAMPLES / "one-bath-cottage.jway")
        found = finding(compare(plan, UPC), "trap-without-vent", "sh1")
        assert found.where == "there"
        assert found.why[0] == (
            "Whether the closet must join a wet vent last: no by IRC 2021 P3108; yes by UPC 2021 908.2 (from memory)."
        )
        assert found.why[1].startswith("By IRC 2021 it is vented: it joins the drain below bath lavatory")

    # UPC 2021 707.4 asks for a cleanout at each upper end; the IRC does not
    def test_a_rule_that_the_other_code_does_not_have(self) -> None:
        plan = file.read(SAMPLES / "cottage-with-kitchen.jway")
        comparison = compare(plan, UPC)
        found = finding(comparison, "upper-end-without-cleanout", "d4")
        assert found.why == ("IRC 2021 has no such rule: no cleanout is asked for at each upper end.",)
        silent = {one.rule: (one.silent, one.why) for one in comparison.silent}
        assert silent["upper-end-without-cleanout"] == ("here", "no cleanout is asked for at each upper end")
        assert silent["no-cleanout-at-sewer"][0] == "there"

    # IRC 2021 P3005.1.4 and Table P3005.1 take a quarter bend under a 4x3 flange; UPC 2021 706.4 does not
    def test_a_fitting_that_takes_more_room(self) -> None:
        plan = file.read(SAMPLES / "one-bath-cottage.jway")
        comparison = compare(plan, UPC)
        why = " ".join(finding(comparison, "no-height-fits", "x1").why)
        assert "There stands quarter bend 3 in by IRC 2021, long-sweep quarter bend 3 in by UPC 2021." in why
        assert "no by UPC 2021 706.4" in why
        (exit_,) = comparison.exits
        assert exit_.differs and exit_.there.low is not None and exit_.there.high is not None
        assert exit_.there.low > exit_.there.high

    def test_what_follows_from_the_exit_s_height(self) -> None:
        plan = file.read(SAMPLES / "one-bath-cottage.jway")
        (why,) = finding(compare(plan, UPC), "bore-near-edge", "d2").why
        assert why.startswith("Its pipes hang at another height, since x1 lies 7 7/16 in down by IRC 2021")

    # IRC 2021 P3105.1 exception; UPC 2021 Table 1002.2, note: 6 ft from the flange
    def test_a_closet_is_measured_in_one_book_only(self, hand_floor: HandFloor) -> None:
        beside = trap(compare(hand_floor(), UPC), "wc1")
        assert beside.here is not None and beside.there is not None
        assert (beside.here.limit, beside.there.limit) == (None, 72.0)
        assert any("closet siphons itself" in why and "72 in by UPC 2021 Table 1002.2" in why for why in beside.why)

    # UPC 2021 Table 703.2 and 904.1
    def test_sizes_that_each_book_takes_at_the_least(self) -> None:
        comparison = compare(file.read(SAMPLES / "cottage-with-kitchen.jway"), UPC)
        sizes = {(one.element, one.system): one for one in comparison.sizes}
        assert (sizes["r1", "vent"].here, sizes["r1", "vent"].there) == ("1-1/2", "2")
        assert "it vents a closet, which asks for 2 in" in sizes["r1", "vent"].there_why
        assert (sizes["r2", "waste"].here, sizes["r2", "waste"].there) == ("1-1/2", "2")
        bends = {(part.part, part.size): (part.here, part.there) for part in comparison.parts}
        assert bends["street quarter bend", "3"] == (1, 0)
        assert bends["long-sweep quarter bend", "3"] == (0, 1)


class TestMethods:
    """IRC 2021 P3107.3, P3109; UPC 2021 908.1: two fixtures on one upright drain go by other rules."""

    def test_another_method_by_another_section(self) -> None:
        plan = column(("lavatory", 32.0), ("kitchen_sink", 18.0))
        beside = trap(compare(plan, UPC), "f2")
        assert beside.here is not None and beside.there is not None
        assert (beside.here.method, beside.there.method) == ("common vent at two levels", "vertical wet vent")
        assert beside.differs

    def test_a_method_that_only_one_book_has(self) -> None:
        """The UPC has no waste stack that is a vent, from memory."""
        plan = column(("lavatory", 32.0), ("washer_standpipe", 24.0), ("lavatory", 6.0))
        beside = trap(compare(plan, UPC), "f3")
        assert beside.here is not None and beside.here.method == "waste stack vent"
        assert any("UPC 2021 has no waste stack vent: a waste stack is no vent" in why for why in beside.why)

    def test_the_same_in_both_has_no_reason(self) -> None:
        plan = level_branch("floor_drain", "floor_drain", "floor_drain", "shower")
        same = [one for one in compare(plan, UPC).traps if one.here == one.there]
        assert all(not one.differs for one in same)


class TestAmendments:
    """They belong to the book that they were made for."""

    amended = Amendment("trap_arm.length.2", 60.0, **COUNTY)

    def test_the_other_book_stands_without_them(self, hand_floor: HandFloor) -> None:
        valve = replace(hand_floor(), amendments=(Amendment("valve.allowed", False, **COUNTY), self.amended))
        comparison = compare(valve, UPC)
        assert (comparison.here.amended, comparison.there.amended) == (2, 0)
        assert [(one.key, one.becomes, one.said_by, one.on) for one in comparison.left_out] == [
            ("trap_arm.length.2", "60 in", "the county", "2026-03-02"),
            ("valve.allowed", "no", "the county", "2026-03-02"),
        ]
        assert comparison.left_out[0].there == "60 in by UPC 2021 Table 1002.2"
        assert comparison.left_out[1].there == "no by UPC 2021 301.3 (sources differ)"

    def test_one_of_a_value_that_the_other_lacks_is_told(self, hand_floor: HandFloor) -> None:
        plan = replace(hand_floor(), amendments=(Amendment("outlet_to_trap.sideways_most", 24.0, **COUNTY),))
        (left,) = compare(plan, UPC).left_out
        assert left.there.startswith("no rule in UPC 2021 (")

    def test_a_plan_beside_its_own_book_as_printed(self, hand_floor: HandFloor) -> None:
        plan = hand_floor()
        sink = replace(plan.fixtures[1], kind="kitchen_sink", trap="2", arm=80.0)
        plan = replace(plan, fixtures=(plan.fixtures[0], sink), amendments=(self.amended,))
        found = finding(compare(plan, IRC), "trap-too-far-from-vent", "lav1")
        assert found.where == "here"
        assert found.why == (
            "Farthest from a trap's weir to its vent (2 in): 60 in by IRC 2021 Table P3105.1, amended; "
            "96 in by IRC 2021 Table P3105.1.",
        )

    def test_nothing_to_set_beside(self, hand_floor: HandFloor) -> None:
        with pytest.raises(SameBookError, match="IRC 2021 already"):
            compare(hand_floor(), IRC)
        with pytest.raises(RuleBookError, match="no rule book 'atlantis'"):
            compare(hand_floor(), "atlantis")


class TestCounts:
    @pytest.mark.parametrize("name", sorted(path.stem for path in SAMPLES.glob("*.jway")))
    def test_they_are_those_of_the_two_studies(self, name: str) -> None:
        plan = replace(file.read(SAMPLES / f"{name}.jway"), amendments=())
        other = IRC if plan.rulebook == UPC else UPC
        comparison, here, there = compare(plan, other), study(plan), study(by(other, plan))
        for (_, mine, theirs), weight in zip(comparison.counts, ("stop", "look", "note"), strict=False):
            assert mine == sum(found.weight == weight for found in here.findings)
            assert theirs == sum(found.weight == weight for found in there.findings)
        assert comparison.counts[-1] == ("not judged", len(here.not_judged), len(there.not_judged))
        by_where = [one.where for one in comparison.findings]
        both = by_where.count("both") + comparison.alike
        assert by_where.count("here") + both == len(here.findings)
        assert by_where.count("there") + both == len(there.findings)
        assert all(one.why for one in comparison.findings)

    def test_values_that_tell_are_among_those_that_differ(self) -> None:
        comparison = compare(file.read(SAMPLES / "one-bath-cottage.jway"), UPC)
        values = {value.key: value for value in comparison.values}
        assert values["trap_arm.length.2"].tells and values["wet_vent.closet_last"].tells
        assert values["shield.edge"].tells
        assert values["shield.edge"].rules == ("shield-plate-needed", "nails-reach-pipe")
        assert not all(value.tells for value in comparison.values)
        assert "vent.roof_above" not in values, "6 in in both"


def test_two_plans_alike_make_one_answer_and_it_is_plain_data(hand_floor: HandFloor) -> None:
    first, second = (beside_answer(compare(hand_floor(), UPC)) for _ in range(2))
    assert json.dumps(first, allow_nan=False) == json.dumps(second, allow_nan=False)
    assert first["here"]["name"] == IRC and first["there"]["name"] == UPC
    assert set(first["counts"]) == {"to stop for", "to look at", "to know", "not judged"}
    assert {trap["fixture"] for trap in first["traps"]} == {"wc1", "lav1"}
    assert all({"where", "rule", "title", "why", "here", "there"} <= set(row) for row in first["findings"])


@settings(max_examples=60, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(plans())
def test_any_plan_is_compared_to_the_end(plan: Plan) -> None:
    comparison = compare(plan, UPC)
    json.dumps(beside_answer(comparison), allow_nan=False)
    assert all(len(row) == len(section.columns) for section in told(comparison) for row in section.rows)


@settings(max_examples=30, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(bathrooms())
def test_any_bath_is_compared_with_reasons(plan: Plan) -> None:
    comparison = compare(by(UPC, plan), IRC)
    assert all(one.why for one in comparison.findings)
    assert all(one.why for one in comparison.traps if one.here and one.there and one.here.method != one.there.method)
