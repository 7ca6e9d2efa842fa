"""Questions about fall, with the answers that the trade agreed on: IRC 2021 P3005.3, UPC 2021 708.1."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.lengths import feet_inches
from engine.plan.records import Fixture, Riser
from engine.takeoff.answers import parts_answer
from engine.takeoff.heights import height_table
from tests.engine.asked.asked_plans import ask, floor, joists, leaving, numbers, run, said


class TestSquareFittingsOnASlopedDrain:
    """If fittings are true 90s, where does the slope come from? From play in the hubs: work by heights."""

    plan = floor(
        joists(16.0, 112.0, 120.0, lumber="2x12"),
        fixtures=(Fixture("wc", "water_closet", (3.0, 60.0)),),
        drains=(run((3.0, 60.0), (123.0, 60.0), size="3"),),
        exits=leaving((123.0, 60.0), 7.5),
    )

    def test_a_height_at_every_crossing_and_end(self) -> None:
        rows = [row for row in height_table(ask(self.plan).model) if row.element == "d1"]
        assert len(rows) >= 9
        along = {round(row.along, 3): row.centre_down for row in rows}
        # 10 ft at 1/4 in per ft falls 2-1/2 in, 5 ft half of that
        assert along[120.0] - along[0.0] == pytest.approx(2.5)
        assert all(row.bottom_down > row.centre_down for row in rows)

    def test_no_fitting_is_listed_for_the_slope(self) -> None:
        parts = {line["part"] for line in parts_answer(ask(self.plan))["parts"] if line["system"] == "SAN"}
        assert not any("22-1/2" in part or "sixteenth" in part for part in parts)


class TestQuarterInchPerFourFeet:
    """2-1/2 in of fall in 40 ft of 3 in drain: 1/16 in per foot, where 1/8 or 1/4 is asked."""

    plan = floor(
        fixtures=(Fixture("wc", "water_closet", (0.0, 0.0)),),
        drains=(run((0.0, 0.0), (480.0, 0.0), size="3", slope=2.5 / 40.0),),
        exits=leaving((480.0, 0.0), 10.5),
    )

    @pytest.mark.parametrize(("book", "limit"), [("irc-2021", 0.125), ("upc-2021", 0.25)])
    def test_both_books(self, book: str, limit: float) -> None:
        answer = ask(self.plan, book)
        assert numbers(answer, "slope-too-small") == [(0.062, limit)]
        (found,) = said(answer, "slope-too-small")
        assert "per foot" in found.text

    def test_the_first_height_is_eight_down(self) -> None:
        heights = ask(self.plan).model.heights
        assert heights[next(node for node in heights if node.x == 0.0 and node.level < -1e8)] == pytest.approx(-8.0)


class TestWhichWayItPoints:
    """A closet's short arm runs west over a main that runs east: each falls its own way, and nothing is wrong."""

    plan = floor(
        fixtures=(Fixture("wc", "water_closet", (40.0, 20.0)),),
        drains=(
            run((40.0, 20.0), (24.0, 20.0), id="d2", size="3", join="drop"),
            run((0.0, 20.0), (24.0, 20.0), (120.0, 20.0), id="d1", size="3"),
        ),
        exits=leaving((120.0, 20.0)),
    )

    def test_passes(self) -> None:
        answer = ask(self.plan)
        assert said(answer, "runs-uphill") == []
        assert said(answer, "slope-too-small") == []

    def test_turned_over_it_runs_uphill(self) -> None:
        arm = replace(self.plan.drains[0], slope=-0.25)
        tilted = replace(self.plan, drains=(arm, self.plan.drains[1]))
        assert said(ask(tilted), "runs-uphill") != []


class TestMoreThanTheLeast:
    """ "Slope exactly 1/4 in per foot, more is a violation": no, the books set a least."""

    @pytest.mark.parametrize("slope", [0.25, 0.375, 1.0])
    def test_no_stop(self, slope: float) -> None:
        plan = floor(
            fixtures=(Fixture("sh", "shower", (100.0, 40.0)),),
            drains=(run((100.0, 40.0), (60.0, 40.0), (20.0, 40.0), size="2", slope=slope),),
            risers=(Riser("r1", (60.0, 40.0)),),
            exits=leaving((20.0, 40.0)),
        )
        stops = [found.rule for found in ask(plan).findings if found.weight == "stop" and "slope" in found.rule]
        assert stops == []


def test_lengths_print_as_a_tape_reads_them() -> None:
    assert feet_inches(2.5) == '2 1/2"'
