"""Where outlets stand: common practice, no source, as makers' sheets have it (Plumbing Rough-In Dimensions)."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.plan.records import Fixture, Plan, Wall
from tests.engine.checks.judged_plans import armed, bare, broken, counts, not_judged


class TestCloset:
    """10, 12 and 14 in from the finished wall; half an inch of give."""

    rule = "closet-off-its-bowl"

    def closet(self, away: float) -> Plan:
        wall = Wall("w", (0.0, 60.0 - away - 2.25), (200.0, 60.0 - away - 2.25))
        return bare(fixtures=(Fixture("f", "water_closet", (100.0, 60.0), turn=90.0),), walls=(wall,))

    @pytest.mark.parametrize("away", [10.0, 12.0, 14.0, 12.5, 11.5])
    def test_where_a_bowl_fits(self, away: float) -> None:
        assert counts(self.rule, self.closet(away)) == (1, 0, 0, 0)

    @pytest.mark.parametrize(("away", "nearest"), [(11.0, 10.0), (12.5625, 12.0), (16.0, 14.0), (9.4375, 10.0)])
    def test_where_none_does(self, away: float, nearest: float) -> None:
        found = broken(self.rule, self.closet(away))
        assert (found.weight, found.measured, found.limit) == ("look", pytest.approx(away), nearest)
        assert found.cites == "common practice"
        assert "from the studs" in found.text

    def test_not_judged_without_a_wall(self) -> None:
        plan = self.closet(12.0)
        turned = replace(plan, fixtures=(replace(plan.fixtures[0], turn=0.0),))
        assert len(not_judged(self.rule, turned)) == 1
        # a floor without walls has nothing to go by, and nothing is said
        assert counts(self.rule, replace(plan, walls=())) == (0, 0, 0, 1)

    def test_others_do_not_apply(self) -> None:
        assert counts(self.rule, armed("lavatory", 12.0)) == (0, 0, 0, 1)


class TestTailpiece:
    rule = "outlet-over-its-tailpiece"

    @pytest.mark.parametrize(
        ("height", "rim", "holds"), [(25.0, None, True), (25.0625, None, False), (27.0, 33.0, True)]
    )
    def test_a_lavatory(self, height: float, rim: float | None, holds: bool) -> None:
        """Its outlet is 6 in under a 31 in rim (assumed until measured): 25 in."""
        plan = armed("lavatory", 12.0, outlet_above_floor=height, rim_above_floor=rim)
        assert counts(self.rule, plan) == ((1, 0, 0, 0) if holds else (0, 1, 0, 0))

    def test_others_do_not_apply(self) -> None:
        assert counts(self.rule, bare(fixtures=(Fixture("f", "shower", (100.0, 60.0)),))) == (0, 0, 0, 1)
