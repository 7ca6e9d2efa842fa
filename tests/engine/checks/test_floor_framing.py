"""The floor's own wood: spans (IRC 2021 Tables R502.3.1(1), (2)), bearings (R502.6), partitions (R502.4), the belly.

Span cells are those printed in "Material Selection, Dimensions, and Span Tables" (spruce-pine-fir, 40 psf) and "Floor Joist
Span Chart (2012 IRC)"; the rest are worked out by the tables' method on stresses from memory.
"""

from __future__ import annotations

from typing import Any

import pytest

from engine.checks.floor_framing import RULES
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome
from engine.plan.records import (
    Beam,
    DoubledJoist,
    Drain,
    Exit,
    Fixture,
    Floor,
    JoistField,
    JoistShift,
    Plan,
    Supply,
    Wall,
)
from engine.rulebooks import load
from engine.study import work_out

JUDGES = {rule.id: rule.judge for rule in RULES}


def floor(**given: Any) -> Plan:
    """A floor of spruce-pine-fir 2x10 at 16 in, 120 in wide, on 3-1/2 in plates."""
    along = given.pop("along", 108.0)
    whole = {"walls", "beams", "fixtures", "drains", "exits", "supplies"}
    things = {name: given.pop(name) for name in list(given) if name in whole}
    belly = given.pop("belly", None)
    field = JoistField(
        **({"id": "j1", "corner": (0.0, 0.0), "size": (120.0, along), "species": "spruce-pine-fir"} | given)
    )
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, along), (0.0, along))
    return Plan(floor=Floor(outline=outline, belly=belly), fields=(field,), **things)


def said(rule: str, plan: Plan) -> list[Outcome]:
    return list(JUDGES[rule](work_out(plan)))


def only(rule: str, plan: Plan) -> Outcome:
    (found,) = said(rule, plan)
    return found


class TestSpans:
    # clear span = outside length less two plates; SPF 2x10 at 16 in, 40 psf: 15-5 = 185 in
    @pytest.mark.parametrize(("span", "expected"), [(185.0, Holds), (185.0 + 1 / 16, Finding)])
    def test_the_cell_is_the_limit(self, span: float, expected: type[Outcome]) -> None:
        found = only("joist-span-too-long", floor(along=span + 7.0))
        assert type(found) is expected
        if isinstance(found, Finding):
            assert (found.weight, found.measured, found.limit) == ("look", span, 185.0)
            assert found.cites == "IRC 2021 Table R502.3.1(2)"
            assert "15'-5\"" in found.text

    # 30 psf, sleeping rooms: 17-2 = 206 in
    @pytest.mark.parametrize(("span", "expected"), [(206.0, Holds), (206.0 + 1 / 16, Finding)])
    def test_under_sleeping_rooms_joists_reach_further(self, span: float, expected: type[Outcome]) -> None:
        assert type(only("joist-span-too-long", floor(along=span + 7.0, rooms="sleeping"))) is expected

    # a heavy finish, 20 psf of dead load: 9-1, 11-6, 14-1, 16-3 as read for spruce-pine-fir at 16 in
    @pytest.mark.parametrize(("lumber", "cell"), [("2x6", 109.0), ("2x8", 138.0), ("2x10", 169.0), ("2x12", 195.0)])
    def test_under_a_heavy_finish_joists_reach_less_far(self, lumber: str, cell: float) -> None:
        given = {"lumber": lumber, "heavy_finish": True}
        assert type(only("joist-span-too-long", floor(along=cell + 7.0, **given))) is Holds
        found = only("joist-span-too-long", floor(along=cell + 7.0625, **given))
        assert isinstance(found, Finding)
        assert found.limit == cell
        assert "living rooms with a heavy finish" in found.text

    @pytest.mark.parametrize(
        "given", [{"species": "hem-fir"}, {"rooms": "sleeping"}, {"spacing": 12.0}, {"spacing": 24.0}]
    )
    def test_other_cells_of_a_heavy_finish_are_not_known(self, given: dict[str, Any]) -> None:
        found = only("joist-span-too-long", floor(heavy_finish=True, **given))
        assert isinstance(found, NotJudged)
        assert "under a heavy finish" in found.missing

    def test_ungraded_lumber_goes_by_no_table(self) -> None:
        found = only("joist-span-too-long", floor(graded=False))
        assert isinstance(found, NotJudged)
        assert "grade stamp" in found.missing

    def test_a_spacing_between_two_columns_goes_by_the_wider(self) -> None:
        # 19.2 in goes by 24 in: 12-7 = 151 in
        assert type(only("joist-span-too-long", floor(along=158.0, spacing=19.2))) is Holds
        found = only("joist-span-too-long", floor(along=158.0625, spacing=19.2))
        assert isinstance(found, Finding)
        assert found.limit == 151.0

    def test_a_bearing_or_a_beam_between_makes_two_spans(self) -> None:
        assert type(only("joist-span-too-long", floor(along=240.0, bearings=(120.0,)))) is Holds
        beam = Beam("b1", (0.0, 120.0), (120.0, 120.0))
        assert type(only("joist-span-too-long", floor(along=240.0, beams=(beam,)))) is Holds
        assert type(only("joist-span-too-long", floor(along=240.0))) is Finding

    @pytest.mark.parametrize(
        ("given", "missing"),
        [
            ({"species": None}, "the species"),
            ({"end_bearing": 0.0}, "fewer than two"),
            ({"lumber": "2x4"}, "the table has none"),
            ({"spacing": 32.0}, "the table has none"),
            ({"overhangs": (12.0, 0.0)}, "overhang their bearing"),
        ],
    )
    def test_what_is_not_told_is_not_judged(self, given: dict[str, Any], missing: str) -> None:
        found = only("joist-span-too-long", floor(**given))
        assert isinstance(found, NotJudged)
        assert missing in found.missing

    def test_engineered_joists_go_by_their_maker(self) -> None:
        assert type(only("joist-span-too-long", floor(member="engineered"))) is DoesNotApply

    def test_the_table_is_in_order(self) -> None:
        """Spans grow with depth, shrink with spacing, and are no shorter under sleeping rooms."""
        book = load("irc-2021", ())
        sizes, spacings = ("2x6", "2x8", "2x10", "2x12"), ("12", "16", "24")
        for species in ("douglas_fir_larch", "hem_fir", "spruce_pine_fir", "southern_pine"):
            cells = {
                (rooms, column, size): book.number(f"joist.span.{rooms}.{column}.{species}_{size}")
                for rooms in ("living", "sleeping")
                for column in spacings
                for size in sizes
            }
            for (rooms, column, size), cell in cells.items():
                assert cells["sleeping", column, size] >= cells["living", column, size]
                if column != "24":
                    assert cell > cells[rooms, spacings[spacings.index(column) + 1], size]
                if size != "2x12":
                    assert cell < cells[rooms, column, sizes[sizes.index(size) + 1]]

    # "12-3 for 2x8", "15-5 for 2x10" at 16 in, 40 psf: Can 2x8 floor joists span 16 feet?; Floor Joists Code vs Engineering
    @pytest.mark.parametrize(
        ("cell", "inches"),
        [
            ("living.16.spruce_pine_fir_2x8", 147),
            ("living.16.spruce_pine_fir_2x10", 185),
            ("living.24.spruce_pine_fir_2x6", 97),
            ("living.16.southern_pine_2x10", 168),
            ("sleeping.16.southern_pine_2x10", 188),
            ("sleeping.16.hem_fir_2x10", 202),
        ],
    )
    def test_printed_cells(self, cell: str, inches: float) -> None:
        assert load("irc-2021", ()).number(f"joist.span.{cell}") == inches


class TestBearings:
    # R502.6: 1-1/2 in on wood; the rim takes 1-1/2 in of the plate
    @pytest.mark.parametrize(
        ("plate", "expected"),
        [(3.5, Holds), (3.0, Holds), (3.0 - 1 / 16, Finding), (1.5, DoesNotApply), (0.0, DoesNotApply)],
    )
    def test_what_the_rim_leaves_of_the_plate(self, plate: float, expected: type[Outcome]) -> None:
        found = only("bearing-too-short", floor(end_bearing=plate))
        assert type(found) is expected
        if isinstance(found, Finding):
            assert (found.measured, found.limit, found.cites) == (1.5 - 1 / 16, 1.5, "IRC 2021 R502.6")
            assert "end bearing of 3 in" in found.mend


class TestPartitions:
    wall = Wall("w1", (48.0, 20.0), (48.0, 90.0), bearing=True)

    def test_one_joist_under_it_is_too_few(self) -> None:
        found = only("partition-on-one-joist", floor(walls=(self.wall,)))
        assert isinstance(found, Finding)
        assert (found.measured, found.limit, found.cites) == (1.0, 2.0, "IRC 2021 R502.4")

    def test_none_is_told_as_such(self) -> None:
        found = only("partition-on-one-joist", floor(walls=(Wall("w1", (40.0, 20.0), (40.0, 90.0), bearing=True),)))
        assert isinstance(found, Finding)
        assert "no joist" in found.text

    def test_a_doubled_joist_holds(self) -> None:
        assert type(only("partition-on-one-joist", floor(walls=(self.wall,), doubled=(DoubledJoist(3),)))) is Holds

    def test_two_pieces_of_one_joist_are_one(self) -> None:
        beam = Beam("b1", (1.5, 54.0), (118.5, 54.0), width=4.0, top_z=0.0)
        cut = only("partition-on-one-joist", floor(walls=(self.wall,), beams=(beam,)))
        lapped = only("partition-on-one-joist", floor(walls=(self.wall,), bearings=(54.0,), laps=(54.0,)))
        for found in (cut, lapped):
            assert isinstance(found, Finding)
            assert (found.measured, found.limit) == (1.0, 2.0)

    def test_two_set_apart_want_blocks_every_four_feet(self) -> None:
        # joists 3 and 4 moved to 46-1/2 and 49-1/2: 1-1/2 in apart under a 2x4 wall
        shifts = (JoistShift(3, -1.5), JoistShift(4, -14.5))
        bare = only("partition-on-one-joist", floor(walls=(self.wall,), shifts=shifts))
        assert isinstance(bare, Finding)
        assert (bare.measured, bare.limit) == (105.0, 48.0)
        blocked = floor(walls=(self.wall,), shifts=shifts, blocking=(36.0, 72.0))
        assert type(only("partition-on-one-joist", blocked)) is Holds

    @pytest.mark.parametrize(
        "wall",
        [
            Wall("w1", (48.0, 20.0), (48.0, 90.0)),
            Wall("w1", (20.0, 48.0), (90.0, 48.0), bearing=True),
            Wall("w1", (48.0, 20.0), (48.0, 90.0), bearing=True, exterior=True),
        ],
    )
    def test_other_walls_do_not_apply(self, wall: Wall) -> None:
        assert type(only("partition-on-one-joist", floor(walls=(wall,)))) is DoesNotApply


class TestBelly:
    # a 1/2 in cold line of 0.625 in with 1/2 in of insulation: 13/16 in from axis to underside; joists 9-1/4 in deep
    @pytest.mark.parametrize(("down", "expected"), [(12.4375, Holds), (12.5, Finding)])
    def test_a_line_lies_within_it(self, down: float, expected: type[Outcome]) -> None:
        line = Supply("s1", "cold", ((20.0, 20.0), (20.0, 60.0)), down=down, passing="under")
        found = only("pipe-below-belly", floor(belly=4.0, supplies=(line,)))
        assert type(found) is expected
        if isinstance(found, Finding):
            assert (found.weight, found.measured, found.limit) == ("look", 0.0625, 0.0)

    def test_without_a_belly_it_does_not_apply(self) -> None:
        line = Supply("s1", "cold", ((20.0, 20.0), (20.0, 60.0)), down=20.0)
        assert type(only("pipe-below-belly", floor(supplies=(line,)))) is DoesNotApply

    def test_a_drain_without_an_exit_is_not_judged(self) -> None:
        plan = floor(belly=4.0, drains=(Drain("d1", ((20.0, 20.0), (20.0, 60.0)), size="2"),))
        assert type(only("pipe-below-belly", plan)) is NotJudged

    def test_a_drain_below_it_is_told(self) -> None:
        plan = floor(
            belly=2.0,
            fixtures=(Fixture("f1", "shower", (24.0, 80.0)),),
            drains=(Drain("d1", ((24.0, 80.0), (24.0, 30.0)), size="2"),),
            exits=(Exit("x1", (24.0, 30.0), pinned_z=-14.0),),
        )
        found = only("pipe-below-belly", plan)
        assert isinstance(found, Finding)
        # 14 + 2.375 / 2 - 9.25 - 2
        assert found.measured == pytest.approx(3.9375)
