"""Traps and the fixtures over them: IRC 2021 P3201, Table P3201.7; UPC 2021 chapter 10, Table 702.1."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.plan.records import Cleanout, Exit, Fixture, Plan, Riser
from tests.engine.checks.judged_plans import amended, armed, bare, broken, counts, drain, findings, not_judged
from tests.engine.checks.vented_plans import by, column, island_sink

BOOKS = ("irc-2021", "upc-2021")


def shower(trap: str | None = None, pipe: str = "3", **given: object) -> Plan:
    return bare(
        fixtures=(Fixture("sh", "shower", (100.0, 40.0), trap=trap, **given),),  # type: ignore[arg-type]
        drains=(drain((100.0, 40.0), (60.0, 40.0), (20.0, 40.0), size=pipe),),
        risers=(Riser("r1", (60.0, 40.0)),),
        exits=(Exit("x1", (20.0, 40.0)),),
    )


class TestTooSmall:
    rule = "trap-too-small"

    @pytest.mark.parametrize("book", BOOKS)
    @pytest.mark.parametrize(
        ("kind", "least", "smaller"),
        [
            ("kitchen_sink", "1-1/2", "1-1/4"),
            ("laundry_tub", "1-1/2", "1-1/4"),
            ("washer_standpipe", "2", "1-1/2"),
            ("bar_sink", "1-1/2", "1-1/4"),
        ],
    )
    def test_by_fixture(self, book: str, kind: str, least: str, smaller: str) -> None:
        assert counts(self.rule, by(book, armed(kind, 12.0, least))) == (1, 0, 0, 0)
        found = broken(self.rule, by(book, armed(kind, 12.0, smaller)))
        assert found.weight == "stop"
        assert "Table" in found.cites

    @pytest.mark.parametrize("book", BOOKS)
    def test_a_lavatory_may_have_the_smallest(self, book: str) -> None:
        assert counts(self.rule, by(book, armed("lavatory", 12.0, "1-1/4"))) == (1, 0, 0, 0)

    @pytest.mark.parametrize(
        ("heads", "gpm", "trap", "limit"),
        [
            (1, 2.5, "1-1/2", None),
            (1, 5.7, "1-1/2", None),
            (1, 5.75, "1-1/2", 2.0),
            (2, 6.15, "2", None),
            (6, 2.5, "2", 3.0),
            (6, 2.5, "3", None),
        ],
    )
    def test_a_shower_by_its_water(self, heads: int, gpm: float, trap: str, limit: float | None) -> None:
        """IRC 2021 Table P3201.7: 5.7 gpm through 1-1/2 in, 12.3 through 2, 25.8 through 3; six heads give 15."""
        found = findings(self.rule, shower(trap, heads=heads, flow_gpm=gpm))
        assert [one.limit for one in found] == ([] if limit is None else [limit])

    def test_by_the_uniform_code_a_shower_has_two_inches(self) -> None:
        assert broken(self.rule, by("upc-2021", shower("1-1/2"))).limit == 2.0
        assert findings(self.rule, by("upc-2021", shower("2"))) == []

    def test_what_is_chosen_of_itself_is_enough(self) -> None:
        assert findings(self.rule, shower(None, heads=6)) == []

    def test_more_water_than_the_table_has(self) -> None:
        assert len(not_judged(self.rule, shower("4", heads=12, flow_gpm=5.0))) == 1

    def test_not_judged_without_its_row(self) -> None:
        plan = armed("kitchen_sink", 12.0, "1-1/2")
        assert len(not_judged(self.rule, plan, lacking="trap.least.kitchen_sink")) == 1

    def test_a_place_that_asks_for_more(self) -> None:
        found = broken(self.rule, amended(armed("kitchen_sink", 12.0, "1-1/2"), "trap.least.kitchen_sink", "2"))
        assert (found.measured, found.limit) == (1.5, 2.0)
        assert "amended" in found.cites


class TestUnderTheUsual:
    """2 in under a shower is usual (common practice, no source), and the least by the UPC's Table 702.1."""

    rule = "trap-under-the-usual"

    def test_a_size_under_it(self) -> None:
        found = broken(self.rule, shower("1-1/2"))
        assert (found.weight, found.measured, found.limit, found.cites) == ("note", 1.5, 2.0, "common practice")

    def test_the_usual(self) -> None:
        assert counts(self.rule, shower("2")) == (1, 0, 0, 0)
        assert counts(self.rule, by("upc-2021", shower("2"))) == (1, 0, 0, 0)

    def test_what_is_too_small_is_another_rules(self) -> None:
        assert counts(self.rule, by("upc-2021", shower("1-1/2"))) == (0, 0, 0, 1)
        assert counts(self.rule, shower("1-1/2", flow_gpm=5.75)) == (0, 0, 0, 1)
        assert counts(self.rule, amended(shower("1-1/2"), "trap.shower_flow.1-1/2", 2)) == (0, 0, 0, 1)


class TestTooLarge:
    """UPC 2021 702.1: one size up and no more."""

    rule = "trap-too-large"

    def test_a_size_up_and_two(self) -> None:
        assert counts(self.rule, by("upc-2021", armed("kitchen_sink", 12.0, "2"))) == (1, 0, 0, 0)
        found = broken(self.rule, by("upc-2021", armed("kitchen_sink", 12.0, "3")))
        assert (found.measured, found.limit, found.cites) == (3.0, 2.0, "UPC 2021 702.1")

    def test_combination_waste_and_vent_asks_for_more(self) -> None:
        assert findings(self.rule, by("upc-2021", island_sink(size="3", trap="3"))) == []

    def test_a_place_that_takes_two(self) -> None:
        plan = by("upc-2021", armed("kitchen_sink", 12.0, "3"))
        assert findings(self.rule, amended(plan, "trap.sizes_up_most", 3)) == []


class TestArmAsTrap:
    """UPC 2021 1003.3; its example of a tub on a 2 in arm that claims 60 in for a 1-1/2 in trap."""

    rule = "arm-wider-than-trap"

    def tub(self, pipe: str) -> Plan:
        return bare(
            fixtures=(Fixture("bt", "bathtub", (100.0, 40.0), trap_at=(100.0, 40.0)),),
            drains=(drain((100.0, 40.0), (60.0, 40.0), (20.0, 40.0), size=pipe),),
            risers=(Riser("r1", (60.0, 40.0)),),
            exits=(Exit("x1", (20.0, 40.0)),),
            rulebook="upc-2021",
        )

    def test_one_size(self) -> None:
        assert counts(self.rule, self.tub("1-1/2")) == (1, 0, 0, 0)

    def test_a_wider_arm(self) -> None:
        found = broken(self.rule, self.tub("2"))
        assert (found.measured, found.limit, found.cites) == (2.0, 1.5, "UPC 2021 1003.3")

    def test_by_the_residential_code_it_may(self) -> None:
        from engine.study import study

        counted = study(by("irc-2021", self.tub("2"))).looked_at[self.rule]
        assert counted == {"holds": 0, "broken": 0, "not_judged": 0, "does_not_apply": 1}

    def test_a_lavatorys_small_trap_on_the_least_pipe_sold(self) -> None:
        assert findings(self.rule, by("upc-2021", armed("lavatory", 12.0, "1-1/4"))) == []


class TestTailpiece:
    """IRC 2021 P2703.1: 1-1/2 in for sinks."""

    rule = "tailpiece-wider-than-trap"

    def test_a_sink(self) -> None:
        assert counts(self.rule, armed("kitchen_sink", 12.0, "1-1/2")) == (1, 0, 0, 0)
        assert broken(self.rule, armed("kitchen_sink", 12.0, "1-1/4")).limit == 1.5

    def test_a_shower_has_none(self) -> None:
        assert counts(self.rule, shower("2")) == (0, 0, 0, 1)


class TestTurns:
    """UPC 2021 1002.3: 90 degrees under 3 in, 135 from 3 in."""

    rule = "arm-turns-too-much"

    def bent(self, size: str, *points: tuple[float, float]) -> Plan:
        start, vent = points[0], points[-1]
        end = (vent[0], vent[1] - 40.0)
        return bare(
            fixtures=(Fixture("sh", "shower", start, trap=size),),  # type: ignore[arg-type]
            drains=(drain(*points, end, size=size),),
            risers=(Riser("r1", vent),),
            exits=(Exit("x1", end),),
            rulebook="upc-2021",
        )

    def test_a_square_turn(self) -> None:
        plan = self.bent("2", (100.0, 100.0), (80.0, 100.0), (80.0, 80.0))
        assert counts(self.rule, plan) == (1, 0, 0, 0)

    def test_another_eighth(self) -> None:
        points = ((100.0, 100.0), (80.0, 100.0), (80.0, 90.0), (88.0, 82.0))
        found = broken(self.rule, self.bent("2", *points))
        assert (found.limit, found.unit) == (90.0, "degrees")
        assert found.measured == pytest.approx(135.0)
        # 3 in may turn so far
        assert findings(self.rule, self.bent("3", *points)) == []
        rodded = self.bent("2", *points)
        assert findings(self.rule, replace(rodded, cleanouts=(Cleanout("c", (80.0, 90.0)),))) == []

    def test_a_straight_arm(self) -> None:
        assert findings(self.rule, self.bent("2", (100.0, 100.0), (60.0, 100.0))) == []


def test_a_column_of_ordinary_fixtures_breaks_none() -> None:
    for rule in ("trap-too-small", "trap-too-large", "arm-wider-than-trap", "tailpiece-wider-than-trap"):
        assert findings(rule, by("upc-2021", column(("lavatory", 20.0), ("kitchen_sink", 16.0)))) == []
