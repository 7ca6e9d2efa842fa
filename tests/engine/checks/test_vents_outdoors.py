"""Main vents, and what an island's vent is let off: IRC 2021 P3102, UPC 2021 905."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.plan.records import Exit, Fixture, Plan, Riser, Vent
from tests.engine.checks.dry_plans import FOOT, UPC, bay, sinks
from tests.engine.checks.judged_plans import amended, bare, broken, counts, drain, findings


class TestMainVent:
    """IRC 2021 P3102.1, P3102.2; UPC 906.1."""

    rule = "no-vent-outdoors"

    def test_a_riser_through_the_roof(self) -> None:
        assert counts(self.rule, bay(0.0)) == (1, 0, 0, 0)
        assert counts(self.rule, sinks(42.0)) == (1, 0, 0, 0)

    def test_a_valve_or_a_capped_end_is_none(self) -> None:
        for top in ("valve", "capped"):
            found = broken(self.rule, bay(0.0, risers=(Riser("r1", FOOT, top=top, above_floor=40.0),)))
            assert (found.elements, found.weight, found.cites) == (("x1",), "stop", "IRC 2021 P3102.1")

    def test_each_building_drain_has_its_own(self) -> None:
        plan = bay(0.0)
        second = replace(
            plan,
            fixtures=(*plan.fixtures, Fixture("wc2", "water_closet", (300.0, 300.0))),
            drains=(*plan.drains, drain((300.0, 300.0), (200.0, 300.0), id="d2", size="3")),
            exits=(*plan.exits, Exit("x2", (200.0, 300.0))),
        )
        assert broken(self.rule, second).elements == ("x2",)

    def test_an_exit_that_nothing_drains_to_does_not_apply(self) -> None:
        assert counts(
            self.rule, bare(drains=(drain((50.0, 50.0), (20.0, 50.0)),), exits=(Exit("x1", (20.0, 50.0)),))
        ) == (
            0,
            0,
            0,
            1,
        )

    def test_the_uniform_code_asks_for_one_as_well(self) -> None:
        plan = bay(0.0, risers=(Riser("r1", FOOT, top="capped", above_floor=40.0),), rulebook=UPC)
        assert broken(self.rule, plan).cites == "UPC 2021 906.1"

    def test_a_place_that_asks_for_none(self) -> None:
        plan = bay(0.0, risers=(Riser("r1", FOOT, top="capped", above_floor=40.0),))
        assert counts(self.rule, amended(plan, "vent.one_outdoors", False)) == (1, 0, 0, 0)


def island(book: str = "irc-2021", height: float | None = None) -> Plan:
    """A sink with no wall behind it: its vent turns over and comes down, its foot vent runs 40 in to a wall's riser."""
    sink, back, wall = (240.0, 200.0), (240.0, 188.0), (280.0, 188.0)
    return bare(
        rulebook=book,
        fixtures=(Fixture("ks1", "kitchen_sink", sink, turn=0.0, rim_above_floor=36.0),),
        drains=(drain(sink, back, (240.0, 100.0), (100.0, 100.0), size="2"),),
        vents=(Vent("v1", (back, wall), size="1-1/2"),),
        risers=(Riser("r1", sink, top="loop", returns=back, above_floor=height), Riser("r2", wall)),
        exits=(Exit("x1", (100.0, 100.0)),),
    )


class TestIslands:
    """An island's vent has rules of its own (IRC 2021 P3112, UPC 2021 909.1): these leave it alone."""

    @pytest.mark.parametrize("book", ["irc-2021", UPC])
    def test_it_may_lie_low_and_go_far(self, book: str) -> None:
        for rule in ("vent-leaves-drain-flat", "vent-lies-flat", "vent-too-far-from-wall", "vent-joins-too-low"):
            assert findings(rule, island(book)) == [], rule
        assert findings("vent-holds-water", island(book)) == []

    def test_it_is_no_main_vent_by_the_residential_code(self) -> None:
        """IRC P3102.2; the UPC knows no main vent, and this one ends outdoors (906.1)."""
        assert broken("no-vent-outdoors", island()).elements == ("x1",)
        assert findings("no-vent-outdoors", island(UPC)) == []
        assert findings("no-vent-outdoors", amended(island(), "vent.main_by_island", True)) == []


def test_a_floor_without_vents_is_nothing_to_them() -> None:
    for rule in (
        "vent-leaves-drain-flat",
        "vent-lies-flat",
        "vent-too-far-from-wall",
        "vent-holds-water",
        "vent-joins-too-low",
    ):
        assert counts(rule, bare()) == (0, 0, 0, 1), rule
