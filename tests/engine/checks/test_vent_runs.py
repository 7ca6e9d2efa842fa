"""Vents by their length: IRC 2021 P3113.1 and P3113.2 (read), UPC 2021 Table 703.2 and 904.2 (read)."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.checks.records import Holds, NotJudged
from engine.plan.records import Exit, Fixture, Floor, Plan, Riser, Vent
from engine.study import study
from tests.engine.checks.judged_plans import amended, counts, drain, findings, model_of, outcomes

UPC = "upc-2021"
ROOF, TEE, TURN = 126.0, 18.0, 60.0


def overhead(length: float, size: str | None, book: str = "irc-2021", tee: float = TEE, roof: float = ROOF) -> Plan:
    """A lavatory whose vent rises to 60 in over the floor, runs level so far, and goes up through the roof.

    Above the tee that is (60 - tee) + length + (roof - 60 + 6) in: with the tee at 18 and the roof at 126 in, 114 + length.
    """
    start, end = (240.0, 240.0), (240.0 + length, 240.0)
    return Plan(
        rulebook=book,
        floor=Floor(outline=((0.0, 0.0), (4000.0, 0.0), (4000.0, 480.0), (0.0, 480.0)), roof_above_floor=roof),
        fixtures=(Fixture("f1", "lavatory", start, turn=90.0, outlet_above_floor=tee),),
        risers=(Riser("r1", start, vent=size, top="none"), Riser("r2", end, vent=size)),  # type: ignore[arg-type]
        vents=(Vent("v1", (start, end), above_floor=TURN, size=size),),  # type: ignore[arg-type]
        drains=(drain(start, (200.0, 240.0), id="d"),),
        exits=(Exit("x1", (200.0, 240.0)),),
    )


class TestAllAlong:
    rule = "vent-too-long-for-size"

    @pytest.mark.parametrize(("length", "small"), [(366.0, False), (366.0625, True)])
    def test_forty_feet_and_a_sixteenth_more(self, length: float, small: bool) -> None:
        """114 + 366 = 480 in: 1-1/4 in holds; past that the whole vent is a size larger, 1-1/2 in."""
        found = findings(self.rule, overhead(length, "1-1/4"))
        assert sorted({one.elements[0] for one in found}) == (["r1", "r2", "v1"] if small else [])
        for one in found:
            assert (one.measured, one.limit, one.cites) == (pytest.approx(480.0625), 480, "IRC 2021 P3113.1")
            assert one.mend.startswith("Make the vent 1-1/2 in all along")
        assert findings(self.rule, overhead(length, "1-1/2")) == []

    def test_measured_to_a_stack_s_vent(self) -> None:
        """P3113.2: a vent that comes into another fixture's upright vent is measured to there."""
        plan = overhead(400.0, "1-1/4")
        assert len(findings(self.rule, plan)) == 3
        end = plan.risers[1].at
        onto = replace(
            plan,
            fixtures=(*plan.fixtures, Fixture("f2", "lavatory", end, turn=90.0)),
            drains=(*plan.drains, drain(end, (end[0], 100.0), id="d2")),
            exits=(*plan.exits, Exit("x2", (end[0], 100.0))),
        )
        assert findings(self.rule, onto) == []
        assert len(findings(self.rule, amended(onto, "vent.measured_to_stack", False))) == 3

    def test_the_uniform_code_s_lengths(self) -> None:
        """1-1/2 in may be 60 ft, 720 in: 114 + 606."""
        at, past = overhead(606.0, "1-1/2", UPC), overhead(606.0625, "1-1/2", UPC)
        assert findings(self.rule, at) == []
        found = findings(self.rule, past)
        assert {(round(one.measured or 0, 4), one.limit, one.cites) for one in found} == {
            (720.0625, 720, "UPC 2021 Table 703.2")
        }
        assert findings(self.rule, overhead(606.0625, "2", UPC)) == []

    @pytest.mark.parametrize("book", ["irc-2021", UPC])
    def test_automatic_sizes_keep_to_it(self, book: str) -> None:
        for length in (300.0, 366.0625, 606.0625, 900.0, 1500.0):
            assert findings(self.rule, overhead(length, None, book)) == []

    def test_amended(self) -> None:
        plan = overhead(366.0, "1-1/4")
        assert len(findings(self.rule, amended(plan, "vent.long_run", 479.9375))) == 3

    def test_not_judged_where_a_height_is_not_known(self) -> None:
        """A vent that leaves a drain under the floor whose height is not known, since it reaches no exit."""
        plan = Plan(
            floor=Floor(outline=((0.0, 0.0), (480.0, 0.0), (480.0, 480.0), (0.0, 480.0))),
            fixtures=(Fixture("f1", "shower", (240.0, 100.0)),),
            drains=(drain((240.0, 100.0), (200.0, 100.0), (100.0, 100.0), id="d"),),
            risers=(Riser("r1", (200.0, 100.0)),),
        )
        (found,) = outcomes(self.rule, plan)
        assert isinstance(found, NotJudged) and "height of the drain" in found.missing

    def test_holds_on_every_part(self) -> None:
        assert counts(self.rule, overhead(100.0, "1-1/2")) == (3, 0, 0, 0)


class TestLevel:
    rule = "vent-level-too-far"

    @pytest.mark.parametrize(("length", "small"), [(240.0, False), (240.0625, True)])
    def test_a_third_of_the_size_s_length(self, length: float, small: bool) -> None:
        """8 units need 1-1/2 in, of whose 60 ft 20 ft, 240 in, may lie level."""
        plan = amended(overhead(length, "1-1/2", UPC), "dfu.lavatory", 8)
        found = findings(self.rule, plan)
        assert {one.elements[0] for one in found} == ({"r1", "r2", "v1"} if small else set())
        for one in found:
            assert (one.measured, one.limit) == (pytest.approx(240.0625), pytest.approx(240))
            assert one.cites == "UPC 2021 904.2"

    def test_a_size_larger_than_need_be(self) -> None:
        """1 unit needs 1-1/4 in: on 1-1/2 in it may lie level all the way."""
        assert findings(self.rule, overhead(600.0, "1-1/2", UPC)) == []

    def test_a_hundred_and_twenty_feet_level(self) -> None:
        """A vent that needs 2 in, 120 ft level and 60 ft up: over 40 ft level, so a size larger all along, 2-1/2 in
        (questions and answers on the uniform codes); 3 in is the next that can be drawn. 2-1/2 in may be 180 ft long,
        which these are: 60 - 18 = 42 and 732 - 60 + 6 = 678 in up, 1440 level, 2160 in all."""
        plan = amended(overhead(1440.0, "2", UPC, roof=732.0), "dfu.lavatory", 9)
        assert {(one.measured, one.limit) for one in findings(self.rule, plan)} == {(1440.0, 480.0)}
        automatic = amended(overhead(1440.0, None, UPC, roof=732.0), "dfu.lavatory", 9)
        sizing = model_of(automatic).network.vent_sizes["v1.0"]
        assert (sizing.length, sizing.level, sizing.least) == (2160.0, 1440.0, 3.0)
        assert {ask.by: (ask.size, ask.listed) for ask in sizing.asks if "length" in ask.by} == {
            "length": (3.0, 2.5),
            "level length": (3.0, 2.5),
        }
        assert findings(self.rule, automatic) == []

    def test_amended(self) -> None:
        plan = amended(overhead(240.0625, "1-1/2", UPC), "dfu.lavatory", 8)
        assert findings(self.rule, amended(plan, "vent.level_share", 0.5)) == []

    def test_an_upright_vent_holds(self) -> None:
        plan = overhead(240.0, None, UPC)
        alone = replace(plan, risers=(Riser("r1", (240.0, 240.0)),), vents=())
        assert outcomes(self.rule, alone) == [Holds("r1")]

    def test_the_residential_code_sets_no_share(self) -> None:
        assert study(overhead(400.0, "1-1/2")).looked_at[self.rule]["does_not_apply"] == 1
