"""Questions about what lands on the floor's wood, with the answers that the trade agreed on."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.mending import mends_for
from engine.plan.records import Exit, Fixture, Floor, JoistField, JoistShift, Plan, Wall
from engine.study import study
from tests.engine.asked.asked_plans import said


class TestClosetOverAnEngineeredJoist:
    """A closet right over an I-joist 11-1/4 in deep: no number is given, and its flanges are never cut."""

    plan = Plan(
        floor=Floor(outline=((0.0, 0.0), (115.2, 0.0), (115.2, 120.0), (0.0, 120.0))),
        fields=(
            JoistField("j1", (0.0, 0.0), (115.2, 120.0), lumber="2x12", depth=11.25, spacing=19.2, member="engineered"),
        ),
        fixtures=(Fixture("wc1", "water_closet", (38.4, 60.0)),),
    )

    def test_it_is_told_before_a_pipe_is_drawn(self) -> None:
        (found,) = said(study(self.plan), "lands-on-wood")
        assert found.weight == "stop"
        assert "its flanges are never cut" in found.text
        assert "maker" in found.mend

    def test_no_mend_cuts_it(self) -> None:
        answer = study(self.plan)
        (found,) = said(answer, "lands-on-wood")
        assert all("headed off" not in mend.words for mend in mends_for(answer, found))


class TestClosetBesideAWallWithAJoistUnderIt:
    """A closet 12-1/2 in from the finished wall where 15 is asked, and a joist at 15: farther out, or the joist moves.

    The flange's hole is 5 in wide and a joist 1-1/2 in: 15 + 2-1/2 + 3/4 clears it, at 18-1/4 in or more. The framers' tip: the
    joist near a closet is set by the closet, before the floor goes on.
    """

    def plan(self, x: float, shift: float = 0.0) -> Plan:
        shifts = (JoistShift(1, shift),) if shift else ()
        return Plan(
            floor=Floor(outline=((-4.0, 0.0), (116.0, 0.0), (116.0, 100.0), (-4.0, 100.0))),
            fields=(JoistField("j1", (-4.0, 0.0), (120.0, 100.0), first=19.0, shifts=shifts),),
            walls=(Wall("w1", (-2.25, 0.0), (-2.25, 100.0), exterior=True),),
            fixtures=(Fixture("wc1", "water_closet", (x, 80.0)),),
            exits=(Exit("x1", (x, 20.0)),),
        )

    def test_too_near_to_the_wall_where_it_stands(self) -> None:
        (found,) = said(study(self.plan(12.5)), "too-little-room-beside")
        assert (found.measured, found.limit) == (12.5, 15.0)

    def test_fifteen_in_out_it_lands_on_the_joist(self) -> None:
        (found,) = said(study(self.plan(15.0)), "lands-on-wood")
        assert found.elements[-1] == "j1.1"
        assert found.mend.startswith("Move it 3 1/4 in")

    @pytest.mark.parametrize(("x", "clear"), [(18.25, True), (18.25 - 1 / 16, False)])
    def test_from_where_it_is_clear(self, x: float, clear: bool) -> None:
        assert (said(study(self.plan(x)), "lands-on-wood") == []) is clear

    def test_moving_the_joist_or_heading_it_off_is_offered(self) -> None:
        answer = study(self.plan(15.0))
        (found,) = said(answer, "lands-on-wood")
        words = [mend.words for mend in mends_for(answer, found)]
        assert any(word.startswith("Move joist j1.1 ") and word.endswith("by 3 1/4 in") for word in words)
        assert any("joist j1.1 headed off" in word for word in words)

    def test_with_the_joist_moved_it_is_clear(self) -> None:
        assert said(study(self.plan(15.0, 3.25)), "lands-on-wood") == []
        assert said(study(replace(self.plan(15.0, 3.25))), "too-little-room-beside") == []
