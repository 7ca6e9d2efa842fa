"""The framing set out from one datum; places are worked by hand. Wood is 1-1/2 in thick."""

from __future__ import annotations

import msgspec
from hypothesis import given
from hypothesis import strategies as st

from engine.plan.records import (
    Beam,
    DoubledJoist,
    Floor,
    FloorOpening,
    JoistField,
    JoistShift,
    MeasuredJoist,
    Plan,
    Wall,
)
from engine.study import work_out
from engine.takeoff.framing_rows import Framed, bearing, block_rows, corners, crossing, layout_words, running
from engine.takeoff.squareness import Rectangle, largest_rectangle

ELL = ((10.0, 20.0), (250.0, 20.0), (250.0, 92.0), (178.0, 92.0), (178.0, 140.0), (10.0, 140.0))
"""An ell of 20 by 10 ft whose north-east is cut out from 14 ft on; its south-west corner is not at zero."""


def ell() -> Plan:
    return Plan(
        floor=Floor(outline=ELL),
        fields=(
            JoistField(
                "f1",
                (10.0, 20.0),
                (240.0, 120.0),
                doubled=(DoubledJoist(7), DoubledJoist(3, side="west or south")),
                shifts=(JoistShift(2, -1.5),),
                measured=(MeasuredJoist(4, 9.0),),
                blocking=(90.0,),
                overhangs=(0.0, 24.0),
                to_outline=True,
            ),
        ),
        beams=(Beam("b1", (10.0, 80.0), (250.0, 80.0), name="girder"),),
        walls=(Wall("p1", (130.0, 24.0), (130.0, 80.0), bearing=True, name="partition"),),
    )


def named(rows: tuple[Framed, ...]) -> dict[str, Framed]:
    return {row.name: row for row in rows}


def test_every_corner_is_told_from_the_south_west_one() -> None:
    assert corners(work_out(ell())) == ((0, 0), (240, 0), (240, 72), (168, 72), (168, 120), (0, 120))


def test_joists_are_told_by_faces_marks_and_ends() -> None:
    rows = named(running(work_out(ell())))
    # joist 1: centre at 16, half of 1-1/2 to each side; from the south rim at 1-1/2 to the north one at 118-1/2
    assert (rows["joist 1"].near, rows["joist 1"].mark, rows["joist 1"].far) == (15.25, 16.0, 16.75)
    assert (rows["joist 1"].first, rows["joist 1"].last, rows["joist 1"].length) == (1.5, 118.5, 117.0)
    # joist 7: laid out at 112, its second ply to the east of it: 111-1/4 to 114-1/4
    seven = rows["joist 7"]
    assert (seven.near, seven.mark, seven.far, seven.plies) == (111.25, 112.0, 114.25, 2)
    assert seven.remark == "2 plies, the second on its east side"
    # joist 3: laid out at 48, its second ply to the west: 45-3/4 to 48-3/4
    three = rows["joist 3"]
    assert (three.near, three.mark, three.far) == (45.75, 48.0, 48.75)
    assert three.remark == "2 plies, the second on its west side"
    # joist 2 at 32 - 1-1/2, joist 4 measured
    assert (rows["joist 2"].near, rows["joist 2"].remark) == (29.75, "shifted 1 1/2 in west")
    assert (rows["joist 4"].depth, rows["joist 4"].remark) == (9.0, "depth as measured")
    # the joist along the ell's inner side stands inside the line 168 from the west
    assert (rows["east side joist 1"].near, rows["east side joist 1"].far) == (166.5, 168.0)


def test_rims_beams_walls_and_blocks_are_told_from_the_south() -> None:
    model = work_out(ell())
    rims = named(crossing(model))
    assert (rims["south rim"].near, rims["south rim"].far, rims["south rim"].length) == (0.0, 1.5, 240.0)
    assert {(rim.near, rim.first, rim.last) for rim in rims.values()} == {
        (0, 0, 240),
        (70.5, 168, 240),
        (118.5, 0, 168),
    }
    under = named(bearing(model))
    # the girder is 4-1/2 in wide about 60, and lies against the joists' underside
    assert (under["girder"].near, under["girder"].far, under["girder"].top) == (57.75, 62.25, 9.25)
    # the partition's studs are 3-1/2 in about 120 from the west
    assert (under["partition"].northward, under["partition"].near, under["partition"].far) == (True, 118.25, 121.75)
    (row,) = block_rows(model)
    assert (row.name, row.near, row.far) == ("row 1", 89.25, 90.75)
    lengths = {name: length for length, names in row.blocks for name in names}
    # block 1 from the side joist at 1-1/2 to joist 1 at 15-1/4; block 8 from joist 7 at 114-1/4 to joist 8 at 127-1/4
    assert (lengths["1"], lengths["8"]) == (13.75, 13.0)


def test_the_layout_is_said_with_its_first_centre_and_its_overhang() -> None:
    model = work_out(ell())
    words = layout_words(model, model.plan.fields[0])
    assert "the first one's centre lies 1'-4\" from the west" in words
    assert "the north ends stand 2'-0\" out past the outside of their bearing" in words


def test_a_number_that_a_trimmer_took_is_named() -> None:
    """The hatch's trimmers stand about 192-1/4 and 223-3/4, in the wood of joists 12 (at 192) and 14 (at 224)."""
    hatch = FloorOpening("o1", (193.0 + 10.0, 40.0), (223.0 + 10.0, 64.0), name="hatch")
    plan = msgspec.structs.replace(ell(), floor_openings=(hatch,))
    model = work_out(plan)
    assert "numbers 12 and 14 have no joist of their own" in layout_words(model, model.plan.fields[0])
    whole = work_out(ell())
    assert "no joist of its own" not in layout_words(whole, whole.plan.fields[0])


def test_the_diagonal_is_of_the_largest_rectangle() -> None:
    # 168 x 120 = 20,160 is more than 240 x 72 = 17,280
    assert largest_rectangle(ELL) == Rectangle(10.0, 20.0, 178.0, 140.0)
    # 3, 4, 5
    assert largest_rectangle(((0.0, 0.0), (36.0, 0.0), (36.0, 48.0), (0.0, 48.0))) == Rectangle(0.0, 0.0, 36.0, 48.0)
    assert Rectangle(0.0, 0.0, 36.0, 48.0).diagonal == 60.0


def test_no_rectangle_between_the_corners_of_a_triangle() -> None:
    assert largest_rectangle(((0.0, 0.0), (100.0, 0.0), (50.0, 80.0))) is None


@given(st.integers(2, 9), st.integers(2, 9), st.integers(1, 8), st.integers(1, 8))
def test_the_rectangle_of_any_ell_is_the_larger_of_its_two(wide: int, high: int, notch: int, cut: int) -> None:
    notch, cut = min(notch, wide - 1), min(cut, high - 1)
    outline = ((0, 0), (wide, 0), (wide, high - cut), (wide - notch, high - cut), (wide - notch, high), (0, high))
    found = largest_rectangle(outline)
    assert found is not None
    area = (found.east - found.west) * (found.north - found.south)
    assert area == max(wide * (high - cut), (wide - notch) * high)
