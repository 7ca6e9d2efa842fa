"""Studs and plates: IRC 2021 R602.6, R602.6.1, P2603.2.1; UPC 2021 312.9.

The answers for holes are those of "What's the max size of drain/vent pipe I can put thru a 2x4 stud" and of a "2018 IRC page
on R602.6": a 2x4 bearing stud takes 1.40 in, a 2x6 2.20; nonbearing or doubled 2.10 and 3.30. "Maximum horizontal pipe
diameter in load bearing (2x4) wall" tells that plumb pipe passes plates only; "Plumbing - tie a top plate that is bored" the
ties. Outsides 1.900, 2.375, 3.500 in; a 1-1/2 in pipe goes through a 2 in hole in a stud.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from msgspec.structs import replace

from engine.checks import plate_cuts, plates, studs, wall_frost, wall_room
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome
from engine.framing.studs import stand
from engine.mending import mends_for
from engine.plan.records import (
    Drain,
    Exit,
    Fixture,
    Floor,
    JoistField,
    JoistShift,
    Plan,
    Riser,
    Supply,
    Vent,
    Wall,
)
from engine.study import study, work_out

JUDGES = {rule.id: rule.judge for module in (studs, plates, plate_cuts, wall_room, wall_frost) for rule in module.RULES}


def plan(vent: dict[str, Any] | None = None, riser: dict[str, Any] | None = None, **wall: Any) -> Plan:
    """A wall from (0, 50) to (96, 50) on a floor 8 ft wide, with a level vent in it, a riser in it, or nothing."""
    made = Wall(**({"id": "w1", "start": (0.0, 50.0), "end": (96.0, 50.0), "name": "wall"} | wall))
    outline = ((0.0, 0.0), (96.0, 0.0), (96.0, 100.0), (0.0, 100.0))
    things: dict[str, Any] = {}
    if vent is not None:
        points = vent.pop("points", ((10.0, 50.0), (60.0, 50.0)))
        things["vents"] = (Vent(**({"id": "v1", "points": points, "above_floor": 60.0, "size": "1-1/2"} | vent)),)
    if riser is not None:
        at = riser.pop("at", (24.0, 50.0))
        things["risers"] = (Riser(**({"id": "r1", "at": at, "wall": "w1", "size": "1-1/2", "vent": "1-1/2"} | riser)),)
        things["fixtures"] = (Fixture("l1", "lavatory", at),)
        things["drains"] = (Drain("d1", (at, (at[0], 20.0)), size=things["risers"][0].size),)
        things["exits"] = (Exit("x1", (at[0], 20.0), pinned_z=-6.0),)
    return Plan(
        floor=Floor(outline=outline),
        fields=(JoistField("j1", (0.0, 0.0), (96.0, 100.0), direction="east-west"),),
        walls=(made,),
        **things,
    )


def said(rule: str, drawn: Plan) -> list[Outcome]:
    return [one for one in JUDGES[rule](work_out(drawn)) if type(one) is not DoesNotApply]


def kinds(rule: str, drawn: Plan) -> set[type[Outcome]]:
    return {type(one) for one in said(rule, drawn)}


def broken(rule: str, drawn: Plan) -> Finding:
    found = next(one for one in said(rule, drawn) if isinstance(one, Finding))
    assert found.rule == rule
    return found


class TestHoles:
    ALL = (1, 2, 3, 4, 5)

    @pytest.mark.parametrize(
        ("lumber", "size", "wall", "doubled", "expected"),
        [
            ("2x4", "1-1/2", {}, (), Holds),
            ("2x4", "1-1/2", {"bearing": True}, (), Finding),
            ("2x4", "1-1/2", {"exterior": True}, (), Finding),
            ("2x4", "1-1/2", {"bearing": True}, ALL, Holds),
            ("2x4", "2", {}, (), Finding),
            ("2x6", "2", {}, (), Holds),
            ("2x6", "2", {"bearing": True}, (), Finding),
            ("2x6", "2", {"bearing": True}, ALL, Holds),
            ("2x6", "3", {}, (), Finding),
            ("2x6", "3", {"bearing": True}, ALL, Finding),
        ],
    )
    def test_the_posted_answers(
        self, lumber: str, size: str, wall: dict[str, Any], doubled: tuple[int, ...], expected: type[Outcome]
    ) -> None:
        drawn = plan(vent={"size": size}, lumber=lumber, doubled=doubled, **wall)
        assert kinds("stud-hole-too-wide", drawn) == {expected}

    def test_the_limits_and_the_words(self) -> None:
        found = broken("stud-hole-too-wide", plan(vent={}, bearing=True))
        assert (found.measured, found.limit, found.cites) == (2.0, pytest.approx(1.4), "IRC 2021 R602.6")
        # 1.40 in is told as 1-3/8, to the safe side
        assert "1 3/8 in at most" in found.text
        assert "Double each of these studs" in found.mend

    def test_a_pipe_over_the_plates_bores_no_stud(self) -> None:
        assert said("stud-hole-too-wide", plan(vent={"above_floor": 120.0}, bearing=True)) == []

    # 2 in pipe in a nonbearing 2x6: a 2-9/16 in hole; 5.5 / 2 - 2.5625 / 2 = 1.469 in left in the middle
    @pytest.mark.parametrize(("off", "expected"), [(0.84375, Holds), (0.84375 + 1 / 16, Finding)])
    def test_the_wood_at_the_edge(self, off: float, expected: type[Outcome]) -> None:
        drawn = plan(vent={"size": "2", "points": ((10.0, 50.0 + off), (60.0, 50.0 + off))}, lumber="2x6")
        assert kinds("stud-hole-near-edge", drawn) == {expected}
        if expected is Finding:
            found = broken("stud-hole-near-edge", drawn)
            assert (found.measured, found.limit) == (pytest.approx(0.625 - 1 / 16), 0.625)

    def test_no_more_than_two_doubled_in_a_row(self) -> None:
        two = plan(vent={"points": ((20.0, 50.0), (60.0, 50.0))}, bearing=True, doubled=(2, 3))
        assert kinds("doubled-studs-in-a-row", two) == {Holds}
        three = plan(vent={"points": ((10.0, 50.0), (60.0, 50.0))}, bearing=True, doubled=(1, 2, 3))
        found = broken("doubled-studs-in-a-row", three)
        assert (found.measured, found.limit, found.cites) == (3.0, 2.0, "IRC 2021 R602.6")


class TestPlates:
    @pytest.mark.parametrize(
        ("lumber", "size", "wall", "expected"),
        [
            # 2-1/8 in bit against 1-3/4; 2-9/16 against 2-3/4; 3-5/8 against 2-3/4
            ("2x4", "1-1/2", {"bearing": True}, {Finding}),
            ("2x4", "1-1/2", {"exterior": True}, {Finding}),
            ("2x4", "1-1/2", {}, set()),
            ("2x6", "2", {"bearing": True}, {Holds}),
            ("2x6", "3", {"bearing": True}, {Finding}),
        ],
    )
    def test_a_tie_past_half_of_the_plate(
        self, lumber: str, size: str, wall: dict[str, Any], expected: set[type[Outcome]]
    ) -> None:
        drawn = plan(riser={"size": size, "vent": size}, lumber=lumber, **wall)
        assert kinds("top-plate-wants-tie", drawn) == expected
        if expected == {Finding}:
            found = broken("top-plate-wants-tie", drawn)
            assert found.cites == "IRC 2021 R602.6.1"
            assert "0.054 in thick and 1 1/2 in wide" in found.mend
            assert "8 10d nails" in found.mend

    def test_pipe_that_ends_below_the_plates_wants_none(self) -> None:
        capped = plan(riser={"top": "capped", "above_floor": 60.0}, bearing=True)
        assert said("top-plate-wants-tie", capped) == []

    # plates' underside 97-1/8 - 3 over the subfloor: 94-1/8 + 3/4; the finished floor lies 1 in over the joists
    @pytest.mark.parametrize(("above", "expected"), [(93.875 - 0.95, Holds), (93.875 - 0.95 + 1 / 16, Finding)])
    def test_a_level_vent_stays_out_of_the_plates(self, above: float, expected: type[Outcome]) -> None:
        assert kinds("level-pipe-in-plate", plan(vent={"above_floor": above})) == {expected}

    def test_one_that_lies_on_them_holds(self) -> None:
        assert kinds("level-pipe-in-plate", plan(vent={"above_floor": 96.875 + 0.95})) == {Holds}

    @pytest.mark.parametrize(("lumber", "book", "expected"), [
        ("2x4", "irc-2021", Finding), ("2x4", "upc-2021", Finding),
        ("2x6", "irc-2021", Holds), ("2x6", "upc-2021", Holds),
    ])  # fmt: skip
    def test_nails_reach_pipe_near_a_face(self, lumber: str, book: str, expected: type[Outcome]) -> None:
        drawn = replace(plan(riser={}, lumber=lumber), rulebook=book)
        assert kinds("nails-reach-pipe", drawn) == {expected}
        if expected is Finding:
            found = broken("nails-reach-pipe", drawn)
            # (3-1/2 - 1.900) / 2 = 0.8 in from either face
            assert (found.weight, found.measured) == ("note", pytest.approx(0.8))
            assert found.limit == (1.25 if book == "irc-2021" else 1.0)
            assert found.cites == ("IRC 2021 P2603.2.1" if book == "irc-2021" else "UPC 2021 312.9")

    def test_gaps_are_told_once(self) -> None:
        found = broken("gaps-round-pipes", plan(riser={}))
        assert (found.weight, found.cites) == ("note", "IRC 2021 R302.11")
        assert "2 holes, 1 of them in top plates" in found.text
        assert said("gaps-round-pipes", plan()) == []


class TestRoom:
    @pytest.mark.parametrize(
        ("lumber", "size", "expected"), [("2x4", "2", Holds), ("2x4", "3", Finding), ("2x6", "3", Holds)]
    )
    def test_what_fits_inside(self, lumber: str, size: str, expected: type[Outcome]) -> None:
        """2 in in a 2x4 has 1-1/8 in to spare, 3 in none: "a 6 in wall is required" (Vent pipes for toilet drain)."""
        assert kinds("riser-out-of-wall", plan(riser={"size": size, "vent": size}, lumber=lumber)) == {expected}
        if expected is Finding:
            found = broken("riser-out-of-wall", plan(riser={"size": size, "vent": size}, lumber=lumber))
            assert "nothing to spare" in found.text
            assert found.mend == "Frame wall of 2x6."

    # a 1-1/2 in hub is 1.900 + 2 x 0.145 = 2.190 in: 0.655 in to spare at each side of a 2x4's middle
    @pytest.mark.parametrize(("off", "expected"), [(0.625, Holds), (0.75, Finding)])
    def test_a_hub_stands_within_the_studs(self, off: float, expected: type[Outcome]) -> None:
        drawn = plan(riser={"at": (24.0, 50.0 + off)})
        assert kinds("hub-proud-of-wall", drawn) == {expected}
        if expected is Finding:
            assert "north face" in broken("hub-proud-of-wall", drawn).text

    # stud 1 at 16, its east side at 16-3/4; the hub's radius 1.095
    @pytest.mark.parametrize(("x", "expected"), [(17.875, Holds), (17.75, Finding)])
    def test_a_stud_is_no_place_for_a_riser(self, x: float, expected: type[Outcome]) -> None:
        drawn = plan(riser={"at": (x, 50.0)})
        assert kinds("stud-in-the-way", drawn) == {expected}
        if expected is Finding:
            found = broken("stud-in-the-way", drawn)
            assert found.weight == "look"
            assert "stud 1 of wall" in found.text
            moved = replace(drawn, walls=(replace(drawn.walls[0], stud_shifts=(JoistShift(1, -0.25),)),))
            assert kinds("stud-in-the-way", moved) == {Holds}

    # a 1/2 in tube is 0.625 in outside; stud 2 stands at 32, from 31-1/4 to 32-3/4
    @pytest.mark.parametrize(("x", "expected"), [(33.0625, Holds), (33.0, Finding)])
    def test_nor_for_water_that_comes_up(self, x: float, expected: type[Outcome]) -> None:
        drawn = replace(plan(), supplies=(Supply("s1", "cold", ((x, 20.0), (x, 50.0))),))
        assert kinds("stud-in-the-way", drawn) == {expected}
        if expected is Finding:
            answer = study(drawn)
            (found,) = (one for one in answer.findings if one.rule == "stud-in-the-way")
            assert any(mend.words.startswith("Move stud 2 of wall") for mend in mends_for(answer, found))


class TestFrost:
    @pytest.mark.parametrize(("cold", "expected"), [(33.0, Holds), (32.0, Finding), (None, NotJudged)])
    def test_waste_in_an_outside_wall(self, cold: float | None, expected: type[Outcome]) -> None:
        drawn = plan(riser={}, exterior=True)
        drawn = replace(drawn, floor=replace(drawn.floor, design_temp=cold))
        assert kinds("pipe-freezes-in-wall", drawn) == {expected}

    def test_in_an_inside_wall_it_does_not_apply(self) -> None:
        assert said("pipe-freezes-in-wall", plan(riser={})) == []

    def test_water_that_comes_up_there_counts(self) -> None:
        drawn = replace(plan(exterior=True), supplies=(Supply("s1", "cold", ((30.0, 20.0), (30.0, 50.0))),))
        drawn = replace(drawn, floor=replace(drawn.floor, design_temp=10.0))
        assert broken("pipe-freezes-in-wall", drawn).elements == ("s1", "w1")


class TestLayout:
    def test_studs_stand_at_both_ends_and_at_the_spacing_from_the_start(self) -> None:
        wood = stand(Wall("w1", (0.0, 50.0), (96.0, 50.0)), 0.75)
        assert [stud.centre for stud in wood.studs] == [0.75, 16.0, 32.0, 48.0, 64.0, 80.0, 95.25]
        assert (wood.sole, wood.plates) == ((0.75, 2.25), (0.75 + 94.125, 0.75 + 97.125))

    @pytest.mark.parametrize("length", [20.0, 33.0, 47.5, 96.0, 130.25])
    @pytest.mark.parametrize("spacing", [12.0, 16.0, 24.0])
    def test_none_is_missing_and_none_overlap(self, length: float, spacing: float) -> None:
        wood = stand(Wall("w1", (0.0, 0.0), (0.0, length), stud_spacing=spacing), 0.75)
        centres = [stud.centre for stud in wood.studs]
        assert centres == sorted(centres)
        # a common stud that would stand in the end one is left out: that bay may be a stud wider
        assert max(b - a for a, b in pairwise(centres)) <= spacing + 1.5
        assert all(a.high <= b.low + 1e-9 for a, b in pairwise(wood.studs))
        assert (wood.studs[0].low, wood.studs[-1].high) == (0.0, length)
