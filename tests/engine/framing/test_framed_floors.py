"""Openings, doubled joists, blocks, overhangs, beams and outlines that are no rectangle. Places are worked by hand.

Wood is 1-1/2 in thick (dry sizes of PS 20 softwood). Framing of openings as in IRC R502.10: headers between trimmers, tail
joists on the headers.
"""

from __future__ import annotations

import math

import pytest

from engine.drafting.guides import bay_lines
from engine.framing.outside import outside_of
from engine.framing.wood import Wood
from engine.plan.records import (
    Beam,
    DoubledJoist,
    FloorOpening,
    JoistShift,
    MeasuredJoist,
)
from tests.engine.framing.laid_floors import kinds, laid, named


class TestOpenings:
    # commons at 16, 32, 48 ...; the opening 30 in by 36 in between the faces at x 33 to 63 and y 40 to 76
    opening = FloorOpening("o1", (33.0, 40.0), (63.0, 76.0))

    def test_the_joist_within_is_cut_back_to_tails_on_two_headers(self) -> None:
        framing = laid([self.opening])
        south, north = named(framing, "F.3a"), named(framing, "F.3b")
        assert (south.kind, south.start, south.end, south.length) == ("tail", (48.0, 1.5), (48.0, 38.5), 37.0)
        assert (north.start, north.end) == ((48.0, 77.5), (48.0, 106.5))
        for header, y in ((named(framing, "o1.header-south"), 39.25), (named(framing, "o1.header-north"), 76.75)):
            assert (header.start, header.end, header.length) == ((33.0, y), (63.0, y), 30.0)
            assert (header.opening, header.supports) == ("o1", ((0.0, 0.0), (30.0, 30.0)))

    def test_trimmers_stand_face_to_the_opening_and_take_the_place_of_a_joist_there(self) -> None:
        framing = laid([self.opening])
        west, east = named(framing, "o1.trimmer-west"), named(framing, "o1.trimmer-east")
        assert (west.start, west.end) == ((32.25, 1.5), (32.25, 106.5))
        assert east.start == (63.75, 1.5)
        # joist 2 at 32 and joist 4 at 64 would stand in the trimmers' wood
        assert [joist.id for joist in framing.joists if joist.kind == "common"] == ["F.1", "F.5", "F.6", "F.7"]

    def test_a_tail_bears_on_the_plate_and_hangs_on_its_header(self) -> None:
        south = named(laid([self.opening]), "F.3a")
        assert south.supports == ((0.0, 2.0), (37.0, 37.0))

    def test_doubled_wood_takes_its_room_outside_the_clear_way(self) -> None:
        double = FloorOpening("o1", (33.0, 40.0), (63.0, 76.0), headers=2, trimmers=2)
        framing = laid([double])
        header, trimmer = named(framing, "o1.header-south"), named(framing, "o1.trimmer-west")
        assert (header.start, header.thickness, header.plies) == ((33.0, 38.5), 3.0, 2)
        assert (trimmer.start[0], trimmer.thickness) == (31.5, 3.0)
        assert named(framing, "F.3a").end == (48.0, 37.0)

    def test_rim_and_end_joist_do_for_a_header_and_a_trimmer_at_the_floors_edge(self) -> None:
        framing = laid([FloorOpening("o1", (0.0, 0.0), (31.0, 30.0))])
        assert kinds(framing)["header"] == ["o1.header-north"]
        assert kinds(framing)["trimmer"] == ["o1.trimmer-east"]
        assert named(framing, "o1.header-north").start == (1.5, 30.75)
        assert named(framing, "F.1a").start == (16.0, 31.5)

    def test_an_opening_between_two_joists_leaves_them_whole(self) -> None:
        framing = laid([FloorOpening("o1", (34.0, 40.0), (46.0, 60.0))])
        assert "tail" not in kinds(framing)
        assert {"F.2", "F.3"} <= {joist.id for joist in framing.joists} | {"F.2", "F.3"}

    def test_the_bay_at_an_opening_ends_at_its_headers(self) -> None:
        wood = Wood(laid([self.opening]))
        inside = wood.bay_at((48.0, 50.0))
        assert inside is not None
        assert (inside.corner, inside.opposite) == ((33.0, 40.0), (63.0, 76.0))
        beyond = wood.bay_at((40.0, 20.0))
        assert beyond is not None
        assert (beyond.joists, beyond.corner, beyond.opposite) == (
            ("o1.trimmer-west", "F.3a"),
            (33.0, 1.5),
            (47.25, 38.5),
        )

    def test_middles_of_bays_stop_where_a_tail_does(self) -> None:
        lines = bay_lines(laid([self.opening]))
        assert ((40.125, 1.5), (40.125, 38.5)) in lines
        assert ((48.0, 38.5), (48.0, 77.5)) in lines

    def test_east_west_joists_are_headed_off_alike(self) -> None:
        turned = laid([FloorOpening("o1", (40.0, 33.0), (76.0, 63.0))], direction="east-west", size=(108.0, 120.0))
        assert named(turned, "o1.header-west").start == (39.25, 33.0)
        assert named(turned, "F.3a").end == (38.5, 48.0)


class TestPlies:
    def test_a_doubled_joist_has_its_second_ply_on_the_side_told(self) -> None:
        framing = laid(doubled=(DoubledJoist(2), DoubledJoist(4, side="west or south"), DoubledJoist(5, plies=3)))
        assert [(named(framing, f"F.{n}").start[0], named(framing, f"F.{n}").thickness) for n in (2, 4, 5)] == [
            (32.75, 3.0),
            (63.25, 3.0),
            (81.5, 4.5),
        ]

    def test_a_doubled_end_joist_stays_within_the_field(self) -> None:
        framing = laid(doubled=(DoubledJoist(0, side="west or south"), DoubledJoist(8)))
        assert (named(framing, "F.0").start[0], named(framing, "F.8").start[0]) == (1.5, 118.5)

    def test_a_measured_joist_has_its_own_depth(self) -> None:
        framing = laid(measured=(MeasuredJoist(3, 9.75),))
        assert [named(framing, f"F.{n}").depth for n in (2, 3)] == [9.25, 9.75]

    def test_a_measured_end_joist_says_nothing_of_a_trimmer(self) -> None:
        framing = laid([TestOpenings.opening], measured=(MeasuredJoist(0, 9.75), MeasuredJoist(1, 9.5)))
        trimmers = [joist.depth for joist in framing.joists if joist.kind == "trimmer"]
        assert trimmers == [9.25, 9.25]


class TestBearings:
    def test_an_overhang_sets_the_bearing_in_from_the_end(self) -> None:
        # bearing from 24 to 27-1/2 in of the floor; joists begin 1-1/2 in in
        framing = laid(overhangs=(24.0, 0.0))
        assert named(framing, "F.1").supports == ((22.5, 26.0), (103.0, 105.0))
        assert named(framing, "F.rim-south").supports == ()
        assert named(framing, "F.rim-north").supports == ((0.0, 120.0),)

    def test_joists_rest_on_a_beam_under_them(self) -> None:
        framing = laid(beams=[Beam("b1", (0.0, 54.0), (120.0, 54.0), width=3.0)])
        assert named(framing, "F.1").supports == ((0.0, 2.0), (51.0, 54.0), (103.0, 105.0))
        beam = framing.beams[0]
        assert (beam.top, beam.bottom, beam.along, beam.supports) == (-9.25, -18.5, (1.0, 0.0), ())

    def test_they_rest_on_none_that_hangs_lower_or_carries_nothing(self) -> None:
        for beam in (
            Beam("b1", (0.0, 54.0), (120.0, 54.0), top_z=-12.0),
            Beam("b1", (0.0, 54.0), (120.0, 54.0), bearing=False),
        ):
            assert named(laid(beams=[beam]), "F.1").supports == ((0.0, 2.0), (103.0, 105.0))

    def test_a_slanting_beam_is_met_where_it_lies(self) -> None:
        framing = laid(beams=[Beam("b1", (0.0, 20.0), (100.0, 120.0), width=4.0)])
        # at x 16 its middle lies at y 36, and it is 4 x sqrt 2 wide along the joist
        low, high = named(framing, "F.1").supports[1]
        assert (low + high) / 2.0 == pytest.approx(34.5)
        assert high - low == pytest.approx(4.0 * math.sqrt(2.0))

    def test_a_beam_that_ends_on_a_joists_centre_carries_it_from_either_side(self) -> None:
        ends = ((0.0, 54.0), (0.75, 54.0))
        for start, end in (ends, ends[::-1]):
            framing = laid(beams=[Beam("b1", start, end, width=3.0)])
            assert named(framing, "F.0").supports == ((0.0, 2.0), (51.0, 54.0), (103.0, 105.0))


class TestBlocks:
    def test_a_row_stands_between_all_neighbours(self) -> None:
        blocks = [joist for joist in laid(blocking=(54.0,)).joists if joist.kind == "block"]
        assert len(blocks) == 8
        assert (blocks[1].start, blocks[1].end, blocks[1].id) == ((16.75, 54.0), (31.25, 54.0), "F.block-1-2")

    def test_no_block_stands_in_an_opening(self) -> None:
        framing = laid([TestOpenings.opening], blocking=(54.0,))
        assert all(joist.end[0] <= 33.0 or joist.start[0] >= 63.0 for joist in framing.joists if joist.kind == "block")


class TestOutlines:
    ell = ((0.0, 0.0), (120.0, 0.0), (120.0, 60.0), (64.75, 60.0), (64.75, 108.0), (0.0, 108.0))

    def test_joists_end_at_the_rim_of_the_side_that_cuts_them(self) -> None:
        framing = laid(outline=self.ell, to_outline=True)
        assert (named(framing, "F.5").start, named(framing, "F.5").end) == ((80.0, 1.5), (80.0, 58.5))
        assert named(framing, "F.1").end == (16.0, 106.5)
        ends = [joist.start[0] for joist in framing.joists if joist.kind == "end"]
        assert ends == [0.75, 64.0, 119.25]
        assert sorted(joist.start[1] for joist in framing.joists if joist.kind == "rim") == [0.75, 59.25, 107.25]

    def test_a_joist_that_would_stand_in_a_side_joist_is_left_out(self) -> None:
        framing = laid(outline=self.ell, to_outline=True)
        assert [joist.number for joist in framing.joists if joist.kind == "common"] == [1, 2, 3, 5, 6, 7]

    def test_what_is_said_of_numbered_joists_is_not_meant_for_one_along_the_outline(self) -> None:
        told = {"measured": (MeasuredJoist(0, 9.5), MeasuredJoist(1, 9.75)), "doubled": (DoubledJoist(8),)}
        framing = laid(outline=self.ell, to_outline=True, **told)
        depths = {joist.id: joist.depth for joist in framing.joists if joist.depth != 9.25}
        assert depths == {"F.0": 9.5, "F.1": 9.75}
        assert (named(framing, "F.side-1").plies, named(framing, "F.8").plies) == (1, 2)
        assert named(framing, "F.8").start == (118.5, 1.5)

    def test_a_shifted_end_joist_moves_also_where_the_outline_cuts(self) -> None:
        framing = laid(outline=self.ell, to_outline=True, shifts=(JoistShift(0, 1.5),))
        assert named(framing, "F.0").start[0] == 2.25

    def test_a_slanting_side_cuts_each_joist_square_where_both_faces_clear_its_rim(self) -> None:
        corner_off = ((0.0, 0.0), (120.0, 0.0), (120.0, 58.0), (70.0, 108.0), (0.0, 108.0))
        framing = laid(outline=corner_off, to_outline=True)
        # side y = 178 - x; its rim's inner face lies 1-1/2 x sqrt 2 lower; the far face of joist 5 is at x 80.75
        assert named(framing, "F.5").end[1] == pytest.approx(178.0 - 80.75 - 1.5 * math.sqrt(2.0), abs=1e-5)
        slant = [joist for joist in framing.joists if joist.kind == "rim" and 0.0 < abs(joist.along[1]) < 1.0]
        assert len(slant) == 1
        assert slant[0].length == pytest.approx(50.0 * math.sqrt(2.0))

    def test_where_the_rims_fill_what_the_outline_leaves_no_joist_stands(self) -> None:
        sliver = ((0.0, 0.0), (120.0, 0.0), (120.0, 2.5), (0.0, 2.5))
        framing = laid(outline=sliver, to_outline=True)
        assert {joist.kind for joist in framing.joists} <= {"rim"}

    def test_a_field_within_the_outline_is_laid_as_it_is(self) -> None:
        whole, cut = laid(), laid(to_outline=True)
        assert whole == cut


class TestOutsideFaces:
    def test_a_joist_at_a_corner_that_turns_in_looks_out_only_past_it(self) -> None:
        framing = laid(outline=TestOutlines.ell, to_outline=True)
        inner = next(joist for joist in framing.joists if joist.kind == "end" and joist.start[0] == 64.0)
        found = outside_of(inner, TestOutlines.ell)
        # its heading is north, so its right is east; the notch begins at y 60, and the joist at 1-1/2
        assert found is not None
        assert (found.side, inner.start[1] + found.first, inner.start[1] + found.last) == (1.0, 60.0, 108.0)

    def test_a_common_joist_looks_out_nowhere(self) -> None:
        framing = laid(outline=TestOutlines.ell, to_outline=True)
        assert outside_of(named(framing, "F.1"), TestOutlines.ell) is None
