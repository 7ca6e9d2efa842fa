"""Questions about bores, notches and studs, with the answers that the trade agreed on: IRC 2021 R502.8.1."""

from __future__ import annotations

import pytest

from engine.plan.records import Fixture, Plan, Riser, Supply
from tests.engine.asked.asked_plans import ask, floor, joists, leaving, numbers, run, said


class TestThreeInchDrainNearTheSupport:
    """A 3 in drain through five 2x10s, 24 in from their ends: the place along the span does not raise the limit."""

    plan = floor(
        joists(8.0, 72.0, 102.0),
        drains=(run((78.0, 24.0), (2.0, 24.0), size="3"),),
        exits=leaving((2.0, 24.0), 5.5),
    )

    def test_every_crossing_is_too_large_a_bore(self) -> None:
        assert numbers(ask(self.plan), "bore-too-large") == [(3.5, 3.083)] * 5

    def test_ways_past_it_are_offered_and_no_repair(self) -> None:
        mend = said(ask(self.plan), "bore-too-large")[0].mend.lower()
        assert "below" in mend and "head" in mend and "bay" in mend
        assert "plywood" not in mend and "sister" not in mend


class TestNotchUnderTwoByEights:
    """A notch a little under 2 in deep, 4 ft along a 10 ft span of 2x8: too deep, and in the middle third."""

    def plan(self, along: float) -> Plan:
        return floor(
            joists(8.0, 40.0, 123.5, lumber="2x8"),
            drains=(run((44.0, along), (4.0, along), size="1-1/2", passing="notched", slope=0.25),),
            exits=leaving((4.0, along), 6.3),
        )

    def test_depth_and_place(self) -> None:
        answer = ask(self.plan(48.0))
        assert {limit for _, limit in numbers(answer, "notch-too-deep")} == {round(7.25 / 6.0, 3)}
        assert len(said(answer, "notch-in-middle-third")) == 3

    def test_a_bore_is_offered_in_its_place_with_its_heights(self) -> None:
        """2x8: 2 in of wood above and below; a 2-1/8 in bore for 1-1/2 in pipe has its axis 3-1/16 to 4-3/16 down."""
        mend = said(ask(self.plan(48.0)), "notch-too-deep")[0].mend
        assert "Bore it instead" in mend
        assert "3 1/16" in mend and "4 3/16" in mend

    def test_near_the_end_the_place_is_right_and_the_depth_still_wrong(self) -> None:
        answer = ask(self.plan(20.0))
        assert said(answer, "notch-in-middle-third") == []
        assert said(answer, "notch-too-deep") != []


class TestHoleTooHigh:
    """A hole of 2-3/4 in in a 2x10 with 3/4 in of wood above it: size alone must not clear a hole."""

    def test_size_passes_and_the_edge_fails(self) -> None:
        plan = floor(
            joists(8.0, 24.0, 120.0),
            drains=(run((30.0, 30.0), (2.0, 30.0), size="2", slope=0.0001),),
            exits=leaving((2.0, 30.0), 2.125),
        )
        answer = ask(plan)
        assert said(answer, "bore-too-large") == []
        # the bit for 2 in pipe is 2-9/16 in: 2.125 less its half leaves 0.844 in, short of 2
        assert {limit for _, limit in numbers(answer, "bore-near-edge")} == {2.0}
        assert [round(found.measured or 0.0, 2) for found in said(answer, "bore-near-edge")] == [0.84, 0.84]


class TestKitchenSinkAcrossTheRoom:
    """A drain moved ten feet from its stack, joists square to the run: the holes pass, the distance to the vent does not.

    A trap in the bay stands for the sink's, so that the run begins at its own place.
    """

    plan = floor(
        joists(16.0, 112.0, 120.0),
        fixtures=(Fixture("ks", "bathtub", (120.0, 40.0), trap_at=(120.0, 40.0)),),
        drains=(run((120.0, 40.0), (0.0, 40.0), (0.0, 20.0), id="d1", size="1-1/2", slope=0.25),),
        risers=(Riser("r1", (0.0, 40.0)),),
        exits=leaving((0.0, 20.0), 6.1),
    )

    def test_seven_bores_hold(self) -> None:
        """2-1/8 in bores leave 3.125 in of travel in a 2x10, and 10 ft at 1/4 in per ft asks 2.5."""
        answer = ask(self.plan)
        assert len([cut for cut in answer.model.cuts if cut.at[0] >= 16.0]) == 7
        assert said(answer, "bore-too-large") == []
        assert {cut.diameter for cut in answer.model.cuts} == {2.125}

    @pytest.mark.parametrize(("book", "limit"), [("irc-2021", 72.0), ("upc-2021", 42.0)])
    def test_the_vent_is_too_far(self, book: str, limit: float) -> None:
        (found,) = said(ask(self.plan, book), "trap-too-far-from-vent")
        assert found.limit == limit
        # 120 in from the trap to the stack, counted from the weir of a trap in the bay
        assert found.measured == pytest.approx(120.0 - 5.25)


class TestTubingThroughJoists:
    """3/4 in tube through 2x8s, hot and cold 6 in apart: nothing to report."""

    def test_passes(self) -> None:
        plan = floor(
            joists(8.0, 56.0, 120.0, lumber="2x8"),
            supplies=(
                Supply("c1", "cold", ((60.0, 20.0), (4.0, 20.0)), size="3/4", down=3.6, insulation=0.0),
                Supply("h1", "hot", ((60.0, 26.0), (4.0, 26.0)), size="3/4", down=3.6, insulation=0.0),
            ),
        )
        answer = ask(plan)
        assert len(answer.model.cuts) == 8
        assert {cut.legal for cut in answer.model.cuts} == {True}
        assert all(1.0 <= cut.diameter <= 1.125 for cut in answer.model.cuts)
        assert [found for found in answer.findings if found.rule.startswith(("bore", "shield"))] == []


class TestEngineered:
    """A closet centred over an I-joist: no number is given, and the clash in plan is shown."""

    def test_maker_or_engineer(self) -> None:
        plan = floor(
            joists(19.2, 57.6, 120.0, spacing=19.2, member="engineered", depth=11.25),
            fixtures=(Fixture("wc", "water_closet", (38.4, 60.0)),),
            drains=(run((38.4, 60.0), (38.4, 20.0), size="3"),),
            exits=leaving((38.4, 20.0), 8.0),
        )
        answer = ask(plan)
        # the closet's 3.5 in pipe lands on the member with the whole of its 1-1/2 in
        assert any("wc" in found.elements for found in said(answer, "lands-on-wood"))
        crossing = floor(
            joists(19.2, 57.6, 120.0, spacing=19.2, member="engineered", depth=11.25),
            drains=(run((70.0, 60.0), (4.0, 60.0), size="3"),),
            exits=leaving((4.0, 60.0), 6.0),
        )
        engineered = [f for f in ask(crossing).findings if "engineer" in f.rule or "maker" in f.text.lower()]
        assert len(engineered) == 3
        assert {found.weight for found in engineered} == {"stop"}
        assert {found.limit for found in engineered} == {None}
