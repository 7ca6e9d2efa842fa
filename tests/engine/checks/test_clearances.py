"""Room round fixtures: IRC 2021 P2705.1, P2708.1, R307.1; UPC 2021 402.5, 408.6."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from engine.plan.records import Fixture, Plan, Wall
from engine.study import study
from tests.engine.checks.judged_plans import amended, bare, broken, counts, findings
from tests.engine.checks.vented_plans import by

BOOKS = ("irc-2021", "upc-2021")
FACE = 2.25
"""From a 2x4 wall's centre line to its board's face: half of 3-1/2, and 1/2."""


def beside_wall(middle: float, kind: str = "water_closet", finish: float = 0.5) -> Plan:
    """A fixture that looks north, its middle so far east of a wall's finished face at x 0."""
    wall = Wall("w", (-1.75 - finish, -10.0), (-1.75 - finish, 200.0), finish=finish)
    return bare(fixtures=(Fixture("f", kind, (middle, 60.0), turn=90.0),), walls=(wall,))  # type: ignore[arg-type]


def before_wall(clear: float, kind: str = "water_closet", depth: float = 28.0) -> Plan:
    """A fixture that looks north, with so much room from its front edge to a wall's board."""
    front = 60.0 + depth - 12.0 if kind == "water_closet" else 60.0 + depth / 2.0
    y = front + clear + FACE
    fixture = Fixture("f", kind, (100.0, 60.0), turn=90.0, depth=depth)  # type: ignore[arg-type]
    return bare(fixtures=(fixture,), walls=(Wall("w", (0.0, y), (200.0, y)),))


class TestBeside:
    rule = "too-little-room-beside"

    @pytest.mark.parametrize("book", BOOKS)
    @pytest.mark.parametrize("kind", ["water_closet", "bidet"])
    def test_fifteen_and_a_sixteenth_less(self, book: str, kind: str) -> None:
        assert counts(self.rule, by(book, beside_wall(15.0, kind))) == (1, 0, 0, 0)
        found = broken(self.rule, by(book, beside_wall(14.9375, kind)))
        assert (found.measured, found.limit, found.unit) == (pytest.approx(14.9375), 15.0, "in")
        assert found.elements == ("f", "w")

    def test_a_public_question(self) -> None:
        """A closet 12-1/2 in from the finished side wall: 2-1/2 short."""
        found = broken(self.rule, beside_wall(12.5))
        assert (found.measured, found.cites) == (pytest.approx(12.5), "IRC 2021 P2705.1")

    def test_the_board_counts(self) -> None:
        thick = beside_wall(15.0, finish=0.5)
        tiled = replace(thick, walls=(replace(thick.walls[0], finish=1.0),))
        assert broken(self.rule, tiled).measured == pytest.approx(14.5)

    def test_a_lavatory_by_one_book_only(self) -> None:
        assert len(findings(self.rule, beside_wall(12.0, "lavatory"))) == 1
        assert counts(self.rule, by("upc-2021", beside_wall(12.0, "lavatory"))) == (0, 0, 0, 1)

    def test_a_tub_counts(self) -> None:
        plan = bare(
            fixtures=(
                Fixture("f", "water_closet", (100.0, 60.0), turn=90.0),
                Fixture("bt", "bathtub", (130.0, 70.0), turn=90.0, trap_at=(136.0, 70.0)),
            )
        )
        found = broken(self.rule, plan)
        assert found.elements == ("f", "bt")

    @pytest.mark.parametrize("book", BOOKS)
    @pytest.mark.parametrize("back", [9.75, 10.0, 11.0])
    def test_the_wall_behind_a_closet_with_a_short_rough_in_is_not_beside_it(self, book: str, back: float) -> None:
        """Bowls are made for 10 in as well as 12 (common practice): a usual bowl's outline then reaches into the wall."""
        wall = Wall("w", (0.0, 60.0 - back - FACE), (200.0, 60.0 - back - FACE))
        plan = bare(fixtures=(Fixture("f", "water_closet", (100.0, 60.0), turn=90.0),), walls=(wall,))
        assert counts(self.rule, by(book, plan)) == (1, 0, 0, 0)

    def test_nor_is_the_wall_in_which_a_basins_drain_stands_off_the_middle(self) -> None:
        plan = bare(
            fixtures=(Fixture("f", "lavatory", (100.0, 60.0), turn=90.0),),
            walls=(Wall("w", (0.0, 60.1875), (200.0, 60.1875)),),
        )
        assert counts(self.rule, plan) == (1, 0, 0, 0)

    def test_a_wall_that_ends_at_its_back_corner_is_beside_it_still(self) -> None:
        """A corner of the room: the wall behind it and one 12 in aside."""
        walls = (Wall("b", (0.0, 47.0), (200.0, 47.0)), Wall("w", (88.0 - FACE, 47.0), (88.0 - FACE, 200.0)))
        plan = bare(fixtures=(Fixture("f", "water_closet", (100.0, 60.0), turn=90.0),), walls=walls)
        assert broken(self.rule, plan).measured == pytest.approx(12.0)

    def test_a_place_that_asks_for_more(self) -> None:
        assert broken(self.rule, amended(beside_wall(16.0), "clearance.side", 18)).limit == 18.0

    def test_others_do_not_apply(self) -> None:
        assert counts(self.rule, beside_wall(4.0, "kitchen_sink")) == (0, 0, 0, 1)

    @given(turn=st.floats(0.0, 359.0), x=st.floats(-100.0, 100.0), y=st.floats(-100.0, 100.0))
    def test_the_same_however_the_plan_lies(self, turn: float, x: float, y: float) -> None:
        plan, (c, s) = beside_wall(13.0), (math.cos(math.radians(turn)), math.sin(math.radians(turn)))

        def moved(point: tuple[float, float]) -> tuple[float, float]:
            return (point[0] * c - point[1] * s + x, point[0] * s + point[1] * c + y)

        fixture, wall = plan.fixtures[0], plan.walls[0]
        turned = replace(
            plan,
            fixtures=(replace(fixture, at=moved(fixture.at), turn=fixture.turn + turn),),
            walls=(replace(wall, start=moved(wall.start), end=moved(wall.end)),),
        )
        assert broken(self.rule, turned).measured == pytest.approx(13.0, abs=1e-6)


class TestBefore:
    rule = "too-little-room-before"

    @pytest.mark.parametrize(("book", "limit"), [("irc-2021", 21.0), ("upc-2021", 24.0)])
    def test_the_two_books(self, book: str, limit: float) -> None:
        assert counts(self.rule, by(book, before_wall(limit))) == (1, 0, 0, 0)
        found = broken(self.rule, by(book, before_wall(limit - 0.0625)))
        assert (found.measured, found.limit) == (pytest.approx(limit - 0.0625), limit)

    def test_a_body_that_stands_aside_is_not_before_it(self) -> None:
        plan = before_wall(40.0)
        aside = Fixture("ks", "kitchen_sink", (100.0 + 10.0 + 17.0, 90.0), turn=90.0)
        assert findings(self.rule, replace(plan, fixtures=(*plan.fixtures, aside))) == []

    def test_others_do_not_apply(self) -> None:
        assert counts(self.rule, before_wall(4.0, "floor_drain", 6.0)) == (0, 0, 0, 1)


class TestBetween:
    rule = "neighbours-too-close"

    def pair(self, apart: float, book: str = "irc-2021") -> Plan:
        fixtures = (
            Fixture("a", "water_closet", (100.0, 60.0), turn=90.0),
            Fixture("b", "bidet", (100.0 + apart, 45.75), turn=90.0),
        )
        return by(book, bare(fixtures=fixtures))

    @pytest.mark.parametrize("book", BOOKS)
    def test_thirty_and_a_sixteenth_less(self, book: str) -> None:
        assert findings(self.rule, self.pair(30.0, book)) == []
        found = broken(self.rule, self.pair(29.9375, book))
        assert (found.measured, found.limit) == (pytest.approx(29.9375), 30.0)

    def test_those_that_face_each_other_go_by_the_room_before(self) -> None:
        plan = self.pair(10.0)
        turned = replace(plan, fixtures=(plan.fixtures[0], replace(plan.fixtures[1], at=(100.0, 140.0), turn=270.0)))
        assert findings(self.rule, turned) == []


class TestShower:
    def shower(self, width: float, depth: float, book: str = "irc-2021") -> Plan:
        return by(book, bare(fixtures=(Fixture("sh", "shower", (100.0, 100.0), width=width, depth=depth),)))

    @pytest.mark.parametrize(
        ("book", "width", "depth", "measured"),
        [
            ("irc-2021", 30.0, 30.0, None),
            ("irc-2021", 29.9375, 36.0, 29.9375),
            # 25 in wide with 1,300 sq in is let off: 25 x 52
            ("irc-2021", 25.0, 52.0, None),
            ("irc-2021", 25.0, 51.9375, 25.0),
            # a shower stall thread: 30 x 34 is 1,020 sq in, 32 x 32 is 1,024
            ("upc-2021", 30.0, 34.0, 1020.0),
            ("upc-2021", 32.0, 32.0, None),
            ("upc-2021", 30.0, 60.0, None),
            ("upc-2021", 29.9375, 60.0, 29.9375),
        ],
    )
    def test_its_size(self, book: str, width: float, depth: float, measured: float | None) -> None:
        found = findings("shower-too-small", self.shower(width, depth, book))
        assert [one.measured for one in found] == ([] if measured is None else [pytest.approx(measured)])

    def wall_before(self, clear: float, short_of: float = 0.0) -> Plan:
        """A 32 in pan that looks north, a wall so far before it that leaves `short_of` inches of its front bare."""
        y = 100.0 + 16.0 + clear + FACE
        wall = Wall("w", (84.0 + short_of, y), (160.0, y))
        return bare(fixtures=(Fixture("sh", "shower", (100.0, 100.0), turn=90.0),), walls=(wall,))

    def test_room_before_it(self) -> None:
        """IRC 2021 R307.1: 24 in."""
        rule = "too-little-room-before-shower"
        assert counts(rule, self.wall_before(24.0)) == (1, 0, 0, 0)
        assert broken(rule, self.wall_before(23.9375)).measured == pytest.approx(23.9375)
        # 22 in of its front are enough for the way in (P2708.1.1)
        assert findings(rule, self.wall_before(10.0, short_of=22.0)) == []
        assert len(findings(rule, self.wall_before(10.0, short_of=21.9375))) == 1

    def test_the_uniform_code_names_none(self) -> None:
        counted = study(by("upc-2021", self.wall_before(4.0))).looked_at["too-little-room-before-shower"]
        assert (counted["broken"], counted["does_not_apply"]) == (0, 1)

    def test_others_do_not_apply(self) -> None:
        assert counts("shower-too-small", beside_wall(20.0)) == (0, 0, 0, 1)
        assert counts("too-little-room-before-shower", beside_wall(20.0)) == (0, 0, 0, 1)

    def test_a_place_that_asks_for_more(self) -> None:
        plan = amended(self.shower(30.0, 30.0), "clearance.shower.area", 1024)
        assert broken("shower-too-small", plan).limit == 1024.0


class TestWhatItRestsOn:
    """Usual footprints are from memory or assumed: what goes by them is to be looked at, what was typed in stops."""

    def pair(self, **given: float) -> Plan:
        tub = Fixture("bt", "bathtub", (130.0, 70.0), turn=90.0, trap_at=(136.0, 70.0), **given)
        return bare(fixtures=(Fixture("f", "water_closet", (100.0, 60.0), turn=90.0), tub))

    def test_a_body_of_the_usual_size(self) -> None:
        found = broken("too-little-room-beside", self.pair())
        assert found.weight == "look"
        assert "usual sizes" in found.text

    def test_a_body_that_was_measured(self) -> None:
        assert broken("too-little-room-beside", self.pair(width=60.0, depth=30.0)).weight == "stop"

    def test_a_wall_stops_whatever_the_fixture(self) -> None:
        assert broken("too-little-room-beside", beside_wall(12.5)).weight == "stop"

    def test_a_tub_whose_trap_is_not_set_may_lie_to_either_side(self) -> None:
        plan = self.pair(width=60.0, depth=30.0)
        bare_tub = replace(plan, fixtures=(plan.fixtures[0], replace(plan.fixtures[1], trap_at=None)))
        assert findings("too-little-room-beside", bare_tub) == []


class TestTwoThingsEndItAlike:
    """Two bodies over one spot leave a closet no room: the first by id is named, wherever the plan lies."""

    @pytest.mark.parametrize("book", BOOKS)
    @pytest.mark.parametrize(("east", "north"), [(0.0, 0.0), (1024.0 + 3.0 / 1024.0, -777.25), (0.1, 1e5)])
    @pytest.mark.parametrize("turned_round", [False, True])
    def test_the_first_by_id(self, book: str, east: float, north: float, turned_round: bool) -> None:
        at = (east, north)
        fixtures = (
            Fixture("a1", "water_closet", at),
            Fixture("a2", "lavatory", at),
            Fixture("a3", "water_closet", at, turn=45.0),
        )
        plan = bare(fixtures=fixtures[::-1] if turned_round else fixtures)
        (found,) = (one for one in findings("too-little-room-before", by(book, plan)) if one.elements[0] == "a1")
        assert (found.elements, found.measured) == (("a1", "a2"), 0.0)
