"""Beams at the joists' level: what they leave of the wood that they meet. Places are worked by hand; 2x10 is 9-1/4 in deep."""

from __future__ import annotations

import math

import pytest

from engine.drafting.guides import bay_lines
from engine.framing.wood import Wood
from engine.plan.records import (
    Beam,
    FloorOpening,
    MeasuredJoist,
)
from tests.engine.framing.laid_floors import kinds, laid, named


class TestFlushBeams:
    # 120 in by 108 in; joists from 1-1/2 to 106-1/2; a beam 4 in wide at y 54 stands from 52 to 56
    girder = Beam("b1", (0.0, 54.0), (120.0, 54.0), width=4.0, depth=9.25, top_z=0.0)

    def test_a_joist_is_two_pieces_that_hang_on_it_from_both_sides(self) -> None:
        framing = laid(beams=[self.girder])
        south, north = named(framing, "F.4a"), named(framing, "F.4b")
        assert (south.start, south.end, south.length) == ((64.0, 1.5), (64.0, 52.0), 50.5)
        assert (north.start, north.end, north.length) == ((64.0, 56.0), (64.0, 106.5), 50.5)
        assert (south.supports, north.supports) == (((0.0, 2.0), (50.5, 50.5)), ((0.0, 0.0), (48.5, 50.5)))
        assert (south.cut_at, north.cut_at) == (("", "b1"), ("b1", ""))
        assert (south.hangers, north.hangers) == (("b1",), ("b1",))
        assert framing.beams[0].flush

    def test_end_joists_are_cut_where_it_reaches_the_outside_and_whole_where_it_ends_against_them(self) -> None:
        through = laid(beams=[self.girder])
        assert [one.id for one in through.joists if one.kind == "end"] == ["F.0a", "F.0b", "F.8a", "F.8b"]
        between = laid(beams=[Beam("b1", (1.5, 54.0), (118.5, 54.0), width=4.0, top_z=0.0)])
        assert [one.id for one in between.joists if one.kind == "end"] == ["F.0", "F.8"]

    @pytest.mark.parametrize(("top", "pieces"), [(0.0, 2), (-9.1875, 2), (-9.25, 1), (None, 1), (-12.0, 1)], ids=str)
    def test_what_stands_up_among_the_joists_cuts_them(self, top: float | None, pieces: int) -> None:
        # 2x10 joists are 9-1/4 deep: a sixteenth higher than their underside is among them
        framing = laid(beams=[Beam("b1", (0.0, 54.0), (120.0, 54.0), top_z=top)])
        assert sum(one.number == 4 and one.kind == "common" for one in framing.joists) == pieces
        assert framing.beams[0].flush == (pieces == 2)

    def test_a_steel_strip_that_carries_nothing_leaves_the_ends_free(self) -> None:
        strip = Beam("b1", (0.0, 54.0), (120.0, 54.0), width=4.0, top_z=0.0, material="steel", bearing=False)
        south = named(laid(beams=[strip]), "F.4a")
        assert (south.supports, south.cut_at, south.hangers) == (((0.0, 2.0),), ("", "b1"), ())

    def test_two_leave_three_pieces(self) -> None:
        other = Beam("b2", (0.0, 80.0), (120.0, 80.0), width=4.0, top_z=0.0)
        middle = named(laid(beams=[other, self.girder]), "F.4b")
        assert (middle.start[1], middle.end[1], middle.cut_at) == (56.0, 78.0, ("b1", "b2"))
        assert middle.supports == ((0.0, 0.0), (22.0, 22.0))

    def test_along_the_joists_it_takes_the_place_of_one_and_cuts_rims_and_blocks(self) -> None:
        # from x 46 to 50, where joist 3 would stand at 48
        beam = Beam("b1", (48.0, 0.0), (48.0, 108.0), width=4.0, top_z=0.0)
        framing = laid(beams=[beam], blocking=(54.0,))
        assert [one.number for one in framing.joists if one.kind == "common"] == [1, 2, 4, 5, 6, 7]
        rims = [(one.id, one.start[0], one.end[0]) for one in framing.joists if one.kind == "rim"]
        assert rims[:2] == [("F.rim-southa", 0.0, 46.0), ("F.rim-southb", 50.0, 120.0)]
        blocks = [(one.start[0], one.end[0]) for one in framing.joists if one.kind == "block"]
        assert blocks[2:4] == [(32.75, 46.0), (50.0, 63.25)]

    def test_a_slanting_one_is_met_square_where_both_faces_clear_it(self) -> None:
        beam = Beam("b1", (0.0, 20.0), (100.0, 120.0), width=4.0, top_z=0.0)
        south = named(laid(beams=[beam]), "F.1a")
        # its lower face is y = x + 20 - 2 x sqrt 2; the joist's near face stands at x 15-1/4
        assert south.end[1] == pytest.approx(15.25 + 20.0 - 2.0 * math.sqrt(2.0), abs=1e-5)

    def test_a_rim_that_lies_aslant_is_cut_along_itself(self) -> None:
        corner_off = ((0.0, 0.0), (120.0, 0.0), (120.0, 58.0), (70.0, 108.0), (0.0, 108.0))
        beam = Beam("b1", (95.0, 0.0), (95.0, 108.0), width=4.0, top_z=0.0)
        framing = laid(outline=corner_off, to_outline=True, beams=[beam])
        slant = sorted(one.start for one in framing.joists if one.kind == "rim" and 0.0 not in one.along)
        # the rim is 1-1/2 thick: of its wood, 0.75 x sqrt 2 to either side of a crossing of its axis goes with the beam
        assert len(slant) == 2
        cut = [one.cut_at for one in framing.joists if one.kind == "rim" and 0.0 not in one.along]
        assert sorted(cut) == [("", "b1"), ("b1", "")]

    def test_it_does_for_a_header_at_an_opening_beside_it(self) -> None:
        framing = laid([FloorOpening("o1", (33.0, 56.0), (63.0, 90.0))], beams=[self.girder])
        assert kinds(framing)["header"] == ["o1.header-north"]
        assert named(framing, "F.3a").end == (48.0, 52.0)
        assert [one.start for one in framing.joists if one.kind == "trimmer"] == [
            (32.25, 1.5),
            (32.25, 56.0),
            (63.75, 1.5),
            (63.75, 56.0),
        ]

    def test_a_bay_ends_at_it_and_there_is_none_over_it(self) -> None:
        wood = Wood(laid(beams=[self.girder]))
        bay = wood.bay_at((56.0, 30.0))
        assert bay is not None
        assert (bay.joists, bay.corner, bay.opposite) == (("F.3a", "F.4a"), (48.75, 1.5), (63.25, 52.0))
        assert wood.bay_at((56.0, 54.0)) is None

    def test_one_along_the_joists_is_the_side_of_a_bay(self) -> None:
        framing = laid(beams=[Beam("b1", (48.0, 0.0), (48.0, 108.0), width=4.0, top_z=0.0)])
        bay = Wood(framing).bay_at((40.0, 50.0))
        assert bay is not None
        assert (bay.joists, bay.width) == (("F.2", "b1"), 46.0 - 32.75)
        assert ((39.375, 1.5), (39.375, 106.5)) in bay_lines(framing)

    def test_a_shallower_joist_over_a_low_one_stays_whole(self) -> None:
        beam = Beam("b1", (0.0, 54.0), (120.0, 54.0), top_z=-9.0)
        framing = laid(beams=[beam], measured=(MeasuredJoist(4, 8.75),))
        assert named(framing, "F.4").length == 105.0


def test_a_block_stands_against_a_joist_of_which_a_beam_leaves_only_part_beside_it() -> None:
    """A beam's slanting tip ends joist 1 within the row's thickness: the row still has a block to either side of it."""
    framing = laid(beams=[Beam("b1", (0.0, 32.0), (10.0, 19.0), width=3.5, top_z=0.0)], blocking=(20.0,), spacing=12.0)
    joist = named(framing, "F.1a")
    assert 19.25 < joist.end[1] < 20.0
    blocks = [one for one in framing.joists if one.kind == "block"]
    assert all(one.start[0] >= 12.75 or one.end[0] <= 11.25 for one in blocks)
