"""Air admittance valves: IRC 2021 P3114 (read, but which height is for which type: sources differ); UPC 2021 301.3."""

from __future__ import annotations

from typing import Any

import pytest
from msgspec.structs import replace

from engine.plan.records import Fixture, Plan, Riser, Vent
from engine.rulebooks import load
from engine.study import study
from tests.engine.checks.judged_plans import amended, armed, broken, counts, findings, not_judged
from tests.engine.checks.vented_plans import column

SIXTEENTH = 1.0 / 16.0
UPC = "upc-2021"
AT = (240.0, 240.0)


def valve(above: float | None = None, book: str = "irc-2021", **given: Any) -> Plan:
    """A sink on a riser that ends in a valve; its arm enters 18 in above the floor."""
    plan = armed("lavatory", 12.0, outlet_above_floor=18.0, rim_above_floor=31.0)
    return replace(plan, rulebook=book, risers=(Riser("r1", AT, top="valve", above_floor=above),), **given)


def open_too(plan: Plan) -> Plan:
    """The same house with a second sink that is vented through the roof."""
    other = (200.0, 240.0)
    return replace(
        plan,
        fixtures=(*plan.fixtures, Fixture("f2", "lavatory", other, turn=0.0)),
        risers=(*plan.risers, Riser("r2", other)),
    )


class TestAccepted:
    rule = "valve-not-accepted"

    def test_the_residential_code_takes_it(self) -> None:
        assert counts(self.rule, valve()) == (1, 0, 0, 0)

    def test_the_uniform_code_does_not_until_the_official_does(self) -> None:
        found = broken(self.rule, valve(book=UPC))
        assert (found.elements, found.weight, found.cites) == (("r1",), "stop", "UPC 2021 301.3")
        assert "amendment" in found.mend
        assert counts(self.rule, amended(valve(book=UPC), "valve.allowed", True)) == (1, 0, 0, 0)

    def test_a_county_that_takes_none(self) -> None:
        assert broken(self.rule, amended(valve(), "valve.allowed", False)).cites == "IRC 2021 P3114, amended"

    def test_a_house_without_one(self) -> None:
        assert counts(self.rule, armed("lavatory", 12.0)) == (0, 0, 0, 1)


class TestHeight:
    rule = "valve-too-low"

    def test_four_inches_over_the_arm(self) -> None:
        assert counts(self.rule, valve(22.0)) == (1, 0, 1, 0)
        found = broken(self.rule, valve(22.0 - SIXTEENTH))
        assert (found.measured, found.limit, found.unit, found.cites) == (4.0 - SIXTEENTH, 4.0, "in", "IRC 2021 P3114")
        assert "22 in above the floor" in found.mend

    def test_where_no_height_is_given_it_is_drawn_high_enough(self) -> None:
        assert counts(self.rule, valve()) == (1, 0, 1, 0)

    def test_the_highest_drain_that_it_vents_counts(self) -> None:
        """An overhead run brings it the air of another sink whose tee is 24 in up: 28 is then the least."""
        b = (200.0, 240.0)
        plan = valve(40.0)
        plan = replace(
            plan,
            fixtures=(*plan.fixtures, Fixture("f2", "lavatory", b, turn=0.0, outlet_above_floor=38.0)),
            vents=(Vent("v1", (b, AT), above_floor=39.0),),
            risers=(*plan.risers, Riser("r2", b, top="none")),
        )
        assert broken(self.rule, plan).measured == 2.0
        assert (
            findings(self.rule, replace(plan, risers=(replace(plan.risers[0], above_floor=42.0), plan.risers[1]))) == []
        )

    def test_what_the_drawing_cannot_tell_is_told_once_for_each(self) -> None:
        (found,) = not_judged(self.rule, valve(30.0))
        assert "hand can reach it" in found.missing
        assert "6 in over insulation" in found.missing

    def test_not_judged_where_the_drain_has_no_height(self) -> None:
        """A valve on a riser that stands on a drain under the floor which leads nowhere."""
        plan = replace(valve(30.0), fixtures=(), exits=())
        assert any("height of the drain" in one.missing for one in not_judged(self.rule, plan))

    def test_a_stack_s_valve_goes_by_the_rim(self) -> None:
        """Three sinks on one waste stack: the valve stands 6 in over the highest rim, 36 + 6 = 42."""
        plan = column(("lavatory", 30.0), ("kitchen_sink", 22.0), ("lavatory", 14.0), size="2", vent="2")
        rims = tuple(replace(one, rim_above_floor=36.0) for one in plan.fixtures)

        def ending(above: float) -> Plan:
            return replace(plan, fixtures=rims, risers=(replace(plan.risers[0], top="valve", above_floor=above),))

        assert counts(self.rule, ending(42.0)) == (1, 0, 1, 0)
        found = broken(self.rule, ending(42.0 - SIXTEENTH))
        assert (found.measured, found.limit) == (6.0 - SIXTEENTH, 6.0)
        assert "the rim of" in found.text

    def test_not_judged_where_a_stack_s_rims_are_not_known(self, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setattr("engine.checks.served._rim", lambda _model, _fixture: None)
        plan = column(("lavatory", 30.0), ("kitchen_sink", 22.0), ("lavatory", 14.0), size="2", vent="2")
        plan = replace(plan, risers=(replace(plan.risers[0], top="valve", above_floor=60.0),))
        assert any("rim" in one.missing for one in not_judged(self.rule, plan))

    def test_a_place_that_asks_for_more(self) -> None:
        assert broken(self.rule, amended(valve(22.0), "valve.above_branch", 6)).limit == 6.0

    def test_the_uniform_code_gives_no_height(self) -> None:
        book = load(UPC)
        assert book.silence("valve.above_branch")
        counted = study(amended(valve(20.0, book=UPC), "valve.allowed", True)).looked_at[self.rule]
        assert counted == {"holds": 0, "broken": 0, "not_judged": 0, "does_not_apply": 1}


class TestOneOpenVent:
    rule = "valve-without-open-vent"

    def test_a_house_on_valves_alone(self) -> None:
        found = broken(self.rule, valve())
        assert (found.measured, found.limit, found.cites) == (0.0, 1.0, "IRC 2021 P3114")

    def test_one_vent_through_the_roof_is_enough(self) -> None:
        assert counts(self.rule, open_too(valve())) == (1, 0, 0, 0)

    def test_a_riser_to_the_roof_that_joins_nothing_is_none(self) -> None:
        assert broken(self.rule, replace(valve(), risers=(*valve().risers, Riser("r9", (50.0, 50.0))))).elements == (
            "r1",
        )

    def test_a_house_without_a_valve_does_not_apply(self) -> None:
        assert counts(self.rule, armed("lavatory", 12.0)) == (0, 0, 0, 1)

    def test_the_uniform_code_has_no_such_rule(self) -> None:
        assert load(UPC).silence("valve.one_vent_outdoors")

    def test_a_place_that_asks_for_none(self) -> None:
        assert counts(self.rule, amended(valve(), "valve.one_vent_outdoors", False)) == (1, 0, 0, 0)


def test_a_bath_behind_a_cabinet_on_one_valve() -> None:
    """The place, the height and the open vent: a plan cannot settle the first, and says so."""
    found = study(valve(24.0))
    assert "valve-without-open-vent" in {one.rule for one in found.findings}
    assert any(rule == "valve-too-low" for rule, _ in found.not_judged)
