"""Questions about flat wyes and cleanouts: IRC 2021 P3005.2.4, P3005.3; UPC 2021 707.4, 708.1."""

from __future__ import annotations

import math

import pytest
from msgspec.structs import replace

from engine.plan.records import Cleanout, Fixture, Point, Riser
from tests.engine.asked.asked_plans import ask, floor, leaving, numbers, run, said


class TestClosetOnTheSideArmOfAFlatWye:
    """A 3 in wye lies flat, its barrel at 1/4: should it be rolled? Yes: level, the branch has 0.707 of that."""

    plan = floor(
        fixtures=(Fixture("wc", "water_closet", (31.0, 9.0)), Fixture("sh", "shower", (0.0, 0.0))),
        drains=(
            run((0.0, 0.0), (40.0, 0.0), (120.0, 0.0), size="3"),
            run((31.0, 9.0), (40.0, 0.0), id="d2", size="3"),
        ),
        exits=leaving((120.0, 0.0)),
    )

    @pytest.mark.parametrize(("book", "weight"), [("irc-2021", "note"), ("upc-2021", "look")])
    def test_both_books_and_both_cures(self, book: str, weight: str) -> None:
        answer = ask(self.plan, book)
        assert numbers(answer, "slope-lost-in-flat-wye") == [(0.177, 0.25)]
        (found,) = said(answer, "slope-lost-in-flat-wye")
        assert found.weight == weight
        assert "0.5 degrees" in found.mend and "0.354" in found.mend


class TestTheShowerUpstreamOfATurn:
    """One level turn of more than 45 degrees below a shower: its drain is no cleanout, since its trap can't be taken off."""

    plan = floor(
        fixtures=(Fixture("sh", "shower", (30.0, 30.0)), Fixture("wc", "water_closet", (90.0, 60.0))),
        drains=(run((30.0, 30.0), (30.0, 60.0), (90.0, 60.0), (200.0, 60.0), size="3"),),
        risers=(Riser("r1", (30.0, 60.0)),),
        exits=leaving((200.0, 60.0)),
    )

    def test_a_cleanout_is_wanted_at_the_turn(self) -> None:
        (found,) = said(ask(self.plan), "sharp-turn-without-cleanout")
        assert (found.measured, found.limit, found.at[:2]) == (90.0, 45.0, (30.0, 60.0))

    def test_another_within_forty_feet_up_the_drain_serves_it(self) -> None:
        above = replace(
            self.plan,
            drains=(run((30.0, 0.0), (30.0, 30.0), (30.0, 60.0), (90.0, 60.0), (200.0, 60.0), size="3"),),
            fixtures=self.plan.fixtures[1:],
            cleanouts=(Cleanout("k1", (30.0, 0.0)),),
        )
        assert said(ask(above), "sharp-turn-without-cleanout") == []


class TestDoesTheTurnUpToACleanoutCount:
    """A run of 60 ft with bends of 45, 45 and 22-1/2, and a riser to a plug at its upper end: 112-1/2 of 135."""

    def bent(self, *turns: float) -> tuple[Point, ...]:
        heading, points = 0.0, [(0.0, 100.0), (180.0, 100.0)]
        for turn in turns:
            heading += math.radians(turn)
            x, y = points[-1]
            points.append((x + 180.0 * math.cos(heading), y + 180.0 * math.sin(heading)))
        return tuple(points)

    @pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
    @pytest.mark.parametrize("raised", [True, False])
    def test_passes(self, book: str, raised: bool) -> None:
        points = self.bent(45.0, -45.0, 22.5)
        plan = floor(
            drains=(run(*points, size="3"),),
            risers=(Riser("r1", points[0], top="capped", above_floor=24.0),) if raised else (),
            cleanouts=(Cleanout("k1", points[0], above_floor=12.0 if raised else None),),
            exits=leaving(points[-1]),
        )
        answer = ask(plan, book)
        for rule in ("turns-without-cleanout", "sharp-turn-without-cleanout", "upper-end-without-cleanout"):
            assert said(answer, rule) == []

    def test_a_forty_foot_run_whose_turns_pass_135_wants_two(self) -> None:
        """One for the run, one for the turns."""
        points = self.bent(90.0, 90.0)
        plan = floor(drains=(run(*points, size="3"),), exits=leaving(points[-1]))
        answer = ask(plan, "upc-2021")
        assert len(said(answer, "upper-end-without-cleanout")) == 1
        assert numbers(answer, "turns-without-cleanout") == [(180.0, 135.0)]
