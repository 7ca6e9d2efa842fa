"""Combination waste and vent: IRC 2021 P3111 and Table P3111.3 (from memory); UPC 2021 910."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.plan.records import Plan
from tests.engine.checks.judged_plans import amended, armed, broken, counts, findings, model_of, not_judged
from tests.engine.checks.vented_plans import by, island_sink


def agreed(plan: Plan) -> Plan:
    """The same plan, its drain without a vent of its own approved by the official: UPC 2021 910.2."""
    return amended(plan, "combination.needs_leave", False)


def drains(plan: Plan) -> dict[str, float]:
    """The size of each drawn drain, inches."""
    return {pipe.element: pipe.size for pipe in model_of(plan).network.pipes if pipe.system == "waste"}


class TestSlope:
    """IRC 2021 P3111: at most 1/2 in per ft. The UPC sets none."""

    rule = "combination-too-steep"

    def test_a_quarter_and_a_half(self) -> None:
        assert findings(self.rule, island_sink(slope=0.25)) == []
        assert findings(self.rule, island_sink(slope=0.5)) == []

    def test_past_it(self) -> None:
        found = broken(self.rule, island_sink(slope=0.5625))
        assert (found.measured, found.limit, found.unit) == (0.5625, 0.5, "in per ft")
        assert found.cites.startswith("IRC 2021 P3111")
        # a question about an oversized drain in place of a vent: 3/4 in per ft fails
        assert broken(self.rule, island_sink("bar_sink", slope=0.75)).measured == 0.75

    def test_a_place_that_allows_more(self) -> None:
        assert findings(self.rule, amended(island_sink(slope=0.75), "combination.slope_most", 1)) == []

    def test_it_does_not_apply_to_others(self) -> None:
        assert counts(self.rule, armed("kitchen_sink", 12.0)) == (0, 0, 0, 1)


class TestDrop:
    """IRC 2021 P3111: the one upright pipe, from the fixture, at most 8 ft. UPC 2021 910.5: 2 ft."""

    rule = "combination-drop-too-long"

    def test_from_a_counter(self) -> None:
        assert counts(self.rule, island_sink()) == (1, 0, 0, 1)

    def test_the_two_books(self) -> None:
        from engine.study import study

        plan = island_sink()
        fixed = replace(plan, exits=(replace(plan.exits[0], pinned_z=-12.0),))
        high = study(fixed).model.heights
        foot = next(z for node, z in high.items() if (node.x, node.y) == (180.0, 160.0) and node.level < -1e8)

        # a tee so far above the floor that the drop is just as long as asked
        def dropping(tall: float) -> float:
            return tall + foot - plan.floor.finished_z

        def raised(tall: float, book: str):  # type: ignore[no-untyped-def]
            fixtures = tuple(
                replace(one, outlet_above_floor=dropping(tall)) if one.id == "sink" else one for one in fixed.fixtures
            )
            return by(book, replace(fixed, fixtures=fixtures))

        assert findings(self.rule, raised(96.0, "irc-2021")) == []
        assert broken(self.rule, raised(96.0625, "irc-2021")).measured == pytest.approx(96.0625)
        assert findings(self.rule, agreed(raised(24.0, "upc-2021"))) == []
        assert broken(self.rule, agreed(raised(24.0625, "upc-2021"))).limit == 24.0

    def test_not_before_the_official_agrees(self) -> None:
        plan = by("upc-2021", island_sink(outlet=40.0))
        assert counts(self.rule, plan) == (0, 0, 0, 2)
        assert counts(self.rule, agreed(plan)) == (0, 1, 0, 1)

    def test_not_judged_without_a_height(self) -> None:
        plan = replace(island_sink(), exits=())
        assert counts(self.rule, plan)[2] == 1


class TestSize:
    rule = "combination-too-small"

    def test_the_residential_codes_table(self) -> None:
        """2 in takes 3 units to a branch (from memory); 1-1/2 in does not stand in the table, and is no vent at all."""
        assert counts(self.rule, island_sink(size="2")) == (1, 0, 0, 1)
        assert counts(self.rule, island_sink(size="1-1/2")) == (0, 0, 0, 2)
        (found,) = findings("trap-without-vent", island_sink(size="1-1/2"))
        assert found.cites == "IRC 2021 Table P3111.3"
        assert "2 in at least" in found.text

    def test_more_than_its_row(self) -> None:
        plan = amended(island_sink(size="2"), "combination.branch.2", 1)
        found = broken(self.rule, plan)
        assert (found.measured, found.limit, found.unit) == (2, 1, "fixture units")
        assert "amended" in found.cites

    def test_a_bar_sink(self) -> None:
        """A bar sink gives 1 unit on 2 in pipe falling 1/4 in per ft: it passes."""
        assert findings(self.rule, island_sink("bar_sink", size="2")) == []

    def test_the_uniform_code_enlarges_trap_and_pipe(self) -> None:
        """UPC 2021 910: two sizes over the usual, half sizes counted: 1-1/2 makes 2-1/2 of the trap; 2 units need 2 in
        (Table 703.2), made 3 in."""
        found = findings(self.rule, agreed(by("upc-2021", island_sink(size="2"))))
        assert {(one.elements[0], one.measured, one.limit) for one in found} == {("sink", 1.5, 2.5), ("d2", 2.0, 3.0)}
        wide = agreed(by("upc-2021", island_sink(size="3", trap="3")))
        assert findings(self.rule, wide) == []

    def test_until_the_official_agrees_there_is_one_thing_to_say(self) -> None:
        assert counts(self.rule, by("upc-2021", island_sink(size="2"))) == (0, 0, 0, 1)

    def test_nothing_is_enlarged_for_it_before_the_official_agrees(self) -> None:
        """A sink's 2 units ask 2 in of the UPC (Table 703.2), and the vents of its drain 3.14 sq in; 3 in once it is agreed."""
        plan = by("upc-2021", island_sink(size=None))
        assert drains(plan)["d2"] == 2.0
        assert drains(agreed(plan))["d2"] == 3.0

    def test_not_judged_without_a_table(self) -> None:
        assert not_judged(self.rule, island_sink(size="3"), lacking="combination.branch.3") != []

    def test_it_does_not_apply_to_others(self) -> None:
        assert counts(self.rule, armed("kitchen_sink", 12.0)) == (0, 0, 0, 1)


class TestLeave:
    """UPC 2021 910.2: only on plans that the official approved first."""

    rule = "combination-without-leave"

    def test_until_the_official_agrees(self) -> None:
        plan = by("upc-2021", island_sink(size="3", trap="3"))
        found = broken(self.rule, plan)
        assert (found.weight, found.elements, found.cites) == ("stop", ("sink",), "UPC 2021 910.2")
        assert "no vent is drawn" in found.text
        assert findings(self.rule, agreed(plan)) == []

    def test_it_does_not_apply_to_others(self) -> None:
        assert counts(self.rule, by("upc-2021", armed("kitchen_sink", 12.0))) == (0, 0, 0, 1)
