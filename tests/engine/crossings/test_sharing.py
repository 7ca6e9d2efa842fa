"""Water tubes that pass a joist in one hole: the least circle round them, the bit, and what is judged by it.

Tube outsides: 1/2 in 0.625, 3/4 in 0.875; bits 7/8, 1-1/8, 1-3/8, 1-7/8, 2-1/8 with 1/16 in of play at least. A 2x6 is
5-1/2 deep and bored 1-1/2 wide at most, since 2 in stay at each edge (IRC 2021 R502.8.1); joists 105 long from y 1.5.
"""

from __future__ import annotations

import itertools
import math
from typing import Any

import hypothesis.strategies as st
import pytest
from hypothesis import given, settings
from msgspec.structs import replace

from engine.checks.joist_cuts import RULES as JOIST_RULES
from engine.crossings.cuts import clear_of
from engine.crossings.gaps import wood_between
from engine.crossings.records import JoistCut, by_crossing
from engine.crossings.sharing import own_bore
from engine.plan.records import Drain, Exit, Floor, JoistField, Plan, Supply
from engine.study import Study, study

Path = tuple[tuple[float, float], ...]


def tube(name: str, y: float, water: str = "cold", to: float | None = None, **given: Any) -> Supply:
    """A bare 1/2 in tube from x 40 to 56, square through the joist at x 48 unless it ends at another y."""
    points = ((40.0, y), (56.0, y if to is None else to))
    return Supply(name, water, points, **({"insulation": 0.0} | given))  # type: ignore[arg-type]


def studied(*supplies: Supply, lumber: str = "2x6", book: str = "irc-2021", **given: Any) -> Study:
    field = JoistField("F", (0.0, 0.0), (120.0, 108.0), lumber=lumber)
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))
    return study(Plan(floor=Floor(outline=outline), fields=(field,), supplies=supplies, rulebook=book, **given))


def cuts(*supplies: Supply, **given: Any) -> tuple[JoistCut, ...]:
    return studied(*supplies, **given).model.cuts


def rules(found: Study) -> set[str]:
    return {one.rule for one in found.findings if one.weight != "note"} - {"water-dead-end"}


class TestTwoTubes:
    def test_side_by_side_they_take_one_hole(self) -> None:
        # 0.625 + 0.625 = 1.250 wide; with 1/16 of play 1.3125: bit 1-3/8. Middle 40.3125, 38.8125 from the joist's start
        (made,) = cuts(tube("c1", 40.0), tube("h1", 40.625, "hot"))
        assert (made.bit, made.diameter, made.limit) == ("1-3/8", 1.375, 1.5)
        assert (made.from_start, made.from_end) == (38.8125, 66.1875)
        assert (made.down_from_top, made.up_from_bottom) == (2.75, 2.75)
        # 2.75 - 1.375 / 2
        assert (made.wood_above, made.wood_below) == (2.0625, 2.0625)
        assert (made.legal, made.faults) == (True, ())
        assert (made.pipe, made.element) == ("c1.0", "c1")
        assert (made.pipes, made.elements) == (("c1.0", "h1.0"), ("c1", "h1"))
        assert made.at == (48.0, 40.3125)

    @pytest.mark.parametrize(
        ("apart", "bit", "faults"),
        [
            (10 / 16, "1-3/8", ()),
            # 0.6875 + 0.625 + 0.0625 = 1.375: the bit just does
            (11 / 16, "1-3/8", ()),
            # one sixteenth past: 1.4375 takes the next bit, 1-7/8, over 1-1/2
            (12 / 16, "1-7/8", ("bore-too-large",)),
            # bores of 7/8 touch with their axes 7/8 apart
            (14 / 16, "1-7/8", ("bore-too-large",)),
        ],
    )
    def test_the_limit_of_a_2x6(self, apart: float, bit: str, faults: tuple[str, ...]) -> None:
        (made,) = cuts(tube("c1", 40.0), tube("h1", 40.0 + apart, "hot"))
        assert (made.bit, made.faults) == (bit, faults)

    def test_bores_that_do_not_touch_stay_two(self) -> None:
        # 15/16 between axes: 1/16 of wood
        first, second = cuts(tube("c1", 40.0), tube("h1", 40.9375, "hot"))
        assert first.faults == second.faults == ("bores-close-together",)
        assert first.gap == pytest.approx(1 / 16)
        assert (first.tubes, second.tubes) == ((), ())

    def test_one_over_the_other_they_take_one_hole(self) -> None:
        # axes 4 and 4-5/8 down, one place: the middle 4.3125 down in a 2x10
        (made,) = cuts(tube("c1", 40.0, down=4.0), tube("h1", 40.0, "hot", down=4.625), lumber="2x10")
        assert (made.bit, made.from_start, made.down_from_top) == ("1-3/8", 38.5, 4.3125)

    def test_heights_far_apart_part_them(self) -> None:
        assert len(cuts(tube("c1", 40.0, down=3.0), tube("h1", 40.0, "hot", down=6.0), lumber="2x10")) == 2

    def test_askew_to_each_other_in_height(self) -> None:
        # 3 along and 4 up, in eighths: 0.625 between axes
        (made,) = cuts(tube("c1", 40.0, down=4.0), tube("h1", 40.375, "hot", down=4.5), lumber="2x10")
        assert (made.bit, made.from_start, made.down_from_top) == ("1-3/8", 38.6875, 4.25)

    def test_insulation_goes_through_with_them(self) -> None:
        # 0.625 + 2 x 0.25 = 1.125 each, 2.25 both, 2.3125 with play: bit 2-9/16; a 2x8 takes 2.4167, a 2x10 3.0833
        pair = (tube("c1", 40.0, insulation=0.25), tube("h1", 41.125, "hot", insulation=0.25))
        (made,) = cuts(*pair, lumber="2x10")
        assert (made.bit, made.legal) == ("2-9/16", True)
        (made,) = cuts(*pair, lumber="2x8")
        assert made.faults == ("bore-too-large",)

    def test_two_widths_lie_off_the_middle(self) -> None:
        # 0.625 and 0.875 touch at 0.75: 1.5 wide from 39.6875 to 41.1875, middle 40.4375; 1.5625 with play: bit 1-7/8
        (made,) = cuts(tube("c1", 40.0), tube("h1", 40.75, "hot", size="3/4"), lumber="2x8")
        assert (made.bit, made.from_start) == ("1-7/8", pytest.approx(38.9375))

    def test_another_bore_keeps_its_distance_from_the_hole(self) -> None:
        # hole 38.125 to 39.5 from the start; a bore of 7/8 at 41.9375 begins at 41.5, 2 in on, and 1/16 nearer does not do
        near = (tube("c1", 40.0), tube("h1", 40.625, "hot"))
        assert {made.legal for made in cuts(*near, tube("c2", 43.4375))} == {True}
        first, second = cuts(*near, tube("c2", 43.375))
        assert first.faults == second.faults == ("bores-close-together",)
        assert (first.beside, second.beside) == ("c2.0@F.3", "c1.0@F.3")

    def test_at_one_angle_the_hole_follows_them(self) -> None:
        # both climb 3 in 4: square to them 0.8 of the way along, so 0.625 apart are 0.78125 along the joist
        pair = (tube("c1", 40.0, to=52.0), tube("h1", 40.78125, "hot", to=52.78125))
        (made,) = cuts(*pair, lumber="2x10")
        assert made.bit == "1-3/8"
        assert made.from_start == pytest.approx(46.0 + 0.390625 - 1.5)
        # 1.5 thick x 3/4, and the bit over 0.8
        assert made.length == pytest.approx(1.125 + 1.375 / 0.8)

    def test_lines_that_draw_apart_take_a_wider_hole(self) -> None:
        # h1 climbs 1 in 8, c1 falls as much; 0.75 apart in the middle, at each face 1.5 / 8 more between or less
        pair = (tube("c1", 41.0, to=39.0), tube("h1", 39.75, "hot", to=41.75))
        (made,) = cuts(*pair, lumber="2x10")
        assert made.length == made.diameter
        # outermost at a face: 0.75 / 2 + 0.75 / 8 from the middle, and the tube's half askew
        wide = 2.0 * (0.375 + 0.09375 + 0.3125 / math.cos(math.atan(1 / 8)))
        (hole,) = studied(*pair, lumber="2x10").model.shared
        assert hole.crossing.width == pytest.approx(wide)
        assert (hole.crossing.skew, hole.lean) == (0.0, 0.0)


class TestWhoShares:
    def test_three_in_a_row(self) -> None:
        # 3 x 0.625 = 1.875, 1.9375 with play: bit 2-1/8, in a 2x8 (2.4167) and not in a 2x6
        three = (tube("c1", 40.0), tube("h1", 40.625, "hot"), tube("c2", 41.25))
        (made,) = cuts(*three, lumber="2x8")
        assert (made.bit, made.legal, made.elements) == ("2-1/8", True, ("c1", "h1", "c2"))
        (made,) = cuts(*three)
        assert made.faults == ("bore-too-large",)

    def test_a_chain_too_long_for_any_bit_says_so(self) -> None:
        row = tuple(tube(f"c{n}", 40.0 + 0.625 * n) for n in range(8))
        found = studied(*row, lumber="2x10")
        (made,) = found.model.cuts
        assert (made.bit, made.diameter, made.faults) == (None, 5.0, ("bore-too-large",))
        told = next(one for one in found.findings if one.rule == "bore-too-large")
        assert told.elements == (*(f"c{n}" for n in range(8)), "F.3")
        assert "c0's 1/2 in tube with c1's" in told.text
        # 2 + 7/8
        assert told.mend.startswith("Set c0, c1, c2, c3, c4, c5, c6 and c7 2 7/8 in apart from axis to axis or more")

    def test_a_triangle_is_held_by_all_three(self) -> None:
        # two at 5/8, the third over the gap and touching both: sides 0.625, circumradius 0.625 / sqrt 3, and 0.3125
        up = 0.625 * math.sqrt(3) / 2
        three = (
            tube("c1", 40.0, down=5.0),
            tube("h1", 40.625, "hot", down=5.0),
            tube("c2", 40.3125, down=5.0 - up),
        )
        (hole,) = studied(*three, lumber="2x10").model.shared
        assert hole.crossing.width == pytest.approx(2 * (0.625 / math.sqrt(3) + 0.3125))
        assert hole.z == pytest.approx(-5.0 + up / 3)

    def test_a_notch_is_shared_with_nothing(self) -> None:
        notched = tube("h1", 40.625, "hot", passing="notched", down=0.3125)
        first, second = cuts(tube("c1", 40.0), notched, lumber="2x10")
        assert (first.kind, second.kind, first.tubes, second.tubes) == ("bore", "notch", (), ())

    def test_a_drain_has_its_hole_for_itself(self) -> None:
        drain = Drain("d1", ((56.0, 40.0), (30.0, 40.0)), size="1-1/2")
        out = Exit("x1", (30.0, 40.0), pinned_z=-4.0)
        made = cuts(tube("c1", 41.0, down=4.0), lumber="2x10", drains=(drain,), exits=(out,))
        at_joist = [one for one in made if one.joist == "F.3"]
        assert len(at_joist) == 2
        assert all(one.tubes == () for one in at_joist)

    def test_a_tube_that_ends_in_the_wood_shares_no_hole(self) -> None:
        ends = Supply("h1", "hot", ((40.0, 40.625), (48.0, 40.625)), insulation=0.0)
        assert all(made.tubes == () for made in cuts(tube("c1", 40.0), ends))

    def test_a_rim_is_bored_once_and_judged_by_nobody(self) -> None:
        out = (
            Supply("c1", "cold", ((40.0, 20.0), (40.0, -4.0)), insulation=0.0),
            Supply("h1", "hot", ((40.625, 20.0), (40.625, -4.0)), insulation=0.0),
        )
        found = studied(*out)
        (made,) = found.model.cuts
        assert (made.joist, made.bit, made.legal) == ("F.rim-south", "1-3/8", None)
        told = [one for one in found.findings if one.rule == "rim-cut"]
        assert [one.elements for one in told] == [("c1", "h1", "F.rim-south")]

    def test_tubes_in_one_place_are_told_of_all_the_same(self) -> None:
        assert "pipes-in-one-place" in rules(studied(tube("c1", 40.0), tube("h1", 40.5625, "hot")))
        assert "pipes-in-one-place" not in rules(studied(tube("c1", 40.0), tube("h1", 40.625, "hot")))


@pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
def test_both_books_judge_the_hole_by_what_they_say_of_holes(book: str) -> None:
    legal = studied(tube("c1", 40.0), tube("h1", 40.625, "hot"), book=book)
    broken = studied(tube("c1", 40.0), tube("h1", 40.75, "hot"), book=book)
    silent = not legal.model.book.has("joist.bore.fraction")
    assert [made.legal for made in legal.model.cuts] == [None if silent else True]
    assert ("bore-too-large" in rules(broken)) is not silent


def test_a_hole_is_told_of_once_with_all_that_pass() -> None:
    found = studied(tube("c1", 40.0), tube("h1", 40.75, "hot"))
    told = [one for one in found.findings if one.rule == "bore-too-large"]
    assert [one.elements for one in told] == [("c1", "h1", "F.3")]
    assert "c1's 1/2 in tube with h1's 1/2 in tube in one hole is 1.375 in wide over both" in told[0].text
    # 2 + 7/8 from axis to axis; 2.875 - 0.75 more
    assert "2 7/8 in apart from axis to axis, 2 1/8 in more than now" in told[0].mend
    assert found.looked_at["bore-too-large"]["broken"] == 1
    assert sum(found.looked_at["bore-too-large"].values()) == len(found.model.crossings)


sixteenth = st.integers(0, 48).map(lambda n: 40.0 + n / 16)
tubes = st.lists(
    st.builds(
        lambda y, turn, water, size, thick, down, passing: (y, turn, water, size, thick, down, passing),
        sixteenth,
        st.sampled_from([0.0, 0.0, 0.0, 6.0, -6.0, 2.0, 16.0]),
        st.sampled_from(["cold", "hot"]),
        st.sampled_from(["3/8", "1/2", "3/4", "1"]),
        st.sampled_from([0.0, 0.0, 0.25]),
        st.sampled_from([None, None, 3.0, 3.5, 4.0, 5.25]),
        st.sampled_from([None, None, None, "notched", "under"]),
    ),
    min_size=2,
    max_size=6,
)


def drawn(rows: list[tuple[Any, ...]]) -> list[Supply]:
    return [
        tube(f"s{n}", y, water, to=y + turn, size=size, insulation=thick, down=down, passing=passing)
        for n, (y, turn, water, size, thick, down, passing) in enumerate(rows)
    ]


@settings(max_examples=150, deadline=None)
@given(tubes)
def test_any_tubes_share_just_where_their_own_bores_touch(rows: list[tuple[Any, ...]]) -> None:
    supplies = drawn(rows)
    model = studied(*supplies, lumber="2x10").model
    height = {supply.id: -(9.25 / 2 if supply.down is None else supply.down) for supply in supplies}
    made_for = by_crossing(model.cuts)
    # every crossing that is in the wood is in one cut
    asked = {c.id for c in model.crossings if c.passing != "under" and model.joists[c.joist].kind == "common"}
    asked = {
        c.id for c in model.crossings if c.id in asked and not clear_of(c, model.joists[c.joist], height[c.element])
    }
    named = [crossing for made in model.cuts for crossing in made.crossings]
    assert sorted(named) == sorted(asked)
    # shared where bores touch, one by one
    bores = [c for c in model.crossings if c.id in asked and c.passing == "through" and c.straight]
    for joist in {c.joist for c in bores}:
        here = [c for c in bores if c.joist == joist]
        group = {c.id: c.id for c in here}
        for one, two in itertools.combinations(here, 2):
            if wood_between(own_bore(one, height[one.element]), own_bore(two, height[two.element])) <= 1e-6:
                old, new = group[two.id], group[one.id]
                group = {name: new if its == old else its for name, its in group.items()}
        for one, two in itertools.combinations(here, 2):
            assert (group[one.id] == group[two.id]) is (made_for[one.id] is made_for[two.id])
    # each tube lies within its hole, at both faces and on the bore's own line
    lines = {line.id: line for line in model.lines}
    for hole in model.shared:
        half = model.joists[hole.crossing.joist].thickness / 2.0
        square = math.cos(math.radians(hole.crossing.skew))
        for one in hole.tubes:
            line = lines[one.pipe]
            slope = (line.end.y - line.start.y) / (line.end.x - line.start.x)
            for v in (-half, 0.0, half):
                off = ((one.along + slope * v) - (hole.crossing.along + hole.lean * v)) * square
                assert math.hypot(off, one.z - hole.z) + one.width / 2.0 <= hole.crossing.width / 2.0 + 1e-6
        bore = hole.crossing.bore
        assert bore is None or bore >= hole.crossing.width + 1 / 16 - 1e-6


@settings(max_examples=60, deadline=None)
@given(tubes, st.randoms(use_true_random=False))
def test_the_order_of_the_plan_does_not_matter(rows: list[tuple[Any, ...]], chance: Any) -> None:
    supplies = drawn(rows)
    mixed = list(supplies)
    chance.shuffle(mixed)

    def told(found: tuple[JoistCut, ...]) -> dict[str, JoistCut]:
        return {made.crossing: replace(made, beside="", beside_notch="") for made in found}

    assert told(cuts(*supplies, lumber="2x10")) == told(cuts(*mixed, lumber="2x10"))


@settings(max_examples=60, deadline=None)
@given(tubes)
def test_every_crossing_has_one_outcome_for_each_rule_and_every_hole_one_finding(rows: list[tuple[Any, ...]]) -> None:
    found = studied(*drawn(rows), lumber="2x10")
    for rule in JOIST_RULES:
        assert sum(found.looked_at[rule.id].values()) == len(found.model.crossings), rule.id
    for made in found.model.cuts:
        told = {one.rule for one in found.findings if one.weight == "stop" and one.elements[-1] == made.joist}
        assert set(made.faults) <= told
        wide = [one for one in found.findings if one.rule == "bore-too-large" and one.at[:2] == made.at]
        assert [set(one.elements) for one in wide] == [{*made.elements, made.joist}] * ("bore-too-large" in made.faults)


@settings(max_examples=60, deadline=None)
@given(tubes)
def test_a_mirrored_floor_has_the_same_holes(rows: list[tuple[Any, ...]]) -> None:
    def mirrored(supply: Supply) -> Supply:
        return replace(supply, points=tuple((x, 108.0 - y) for x, y in supply.points))

    def told(made: tuple[JoistCut, ...], flip: bool) -> list[tuple[object, ...]]:
        return sorted(
            (
                one.joist,
                sorted(one.crossings),
                one.bit or "",
                one.faults,
                round(one.from_end if flip else one.from_start, 6),
                round(one.down_from_top, 6),
                round(one.length, 6),
            )
            for one in made
        )

    supplies = drawn(rows)
    here, there = cuts(*supplies, lumber="2x10"), cuts(*map(mirrored, supplies), lumber="2x10")
    assert told(here, flip=False) == told(there, flip=True)
