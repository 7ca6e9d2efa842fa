"""Joists laid out from a field. Positions are worked by hand; lumber sizes are the dry sizes of PS 20 softwood."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.framing.layout import lay_out
from engine.framing.records import Framing, Joist
from engine.plan.records import Floor, JoistField, JoistShift, Plan


def _plan(*fields: JoistField) -> Plan:
    return Plan(floor=Floor(outline=((0.0, 0.0), (1.0, 0.0), (0.0, 1.0))), fields=fields)


def _field(**given: object) -> JoistField:
    return JoistField(**({"id": "F", "corner": (0.0, 0.0), "size": (120.0, 108.0)} | given))  # type: ignore[arg-type]


def _laid(**given: object) -> Framing:
    return lay_out(_plan(_field(**given)))


def _of(framing: Framing, kind: str) -> list[Joist]:
    return [joist for joist in framing.joists if joist.kind == kind]


def _xs(framing: Framing, kind: str = "common") -> list[float]:
    return [joist.start[0] for joist in _of(framing, kind)]


def test_commons_stand_at_multiples_of_the_spacing_from_the_west_outside_face() -> None:
    assert _xs(_laid()) == [16.0, 32.0, 48.0, 64.0, 80.0, 96.0, 112.0]


def test_joists_between_two_rims_are_three_inches_shorter_than_the_floor() -> None:
    # 108 - 2 x 1-1/2 = 105
    for joist in _of(_laid(), "common") + _of(_laid(), "end"):
        assert (joist.start[1], joist.end[1], joist.length) == (1.5, 106.5, 105.0)
        assert joist.along == (0.0, 1.0)


def test_rims_run_full_length_with_their_outside_faces_on_the_edges() -> None:
    south, north = _of(_laid(), "rim")
    assert (south.start, south.end, south.length) == ((0.0, 0.75), (120.0, 0.75), 120.0)
    assert (north.start, north.end, north.along) == ((0.0, 107.25), (120.0, 107.25), (1.0, 0.0))


def test_end_joists_have_their_outer_faces_on_the_edges() -> None:
    assert _xs(_laid(), "end") == [0.75, 119.25]


def test_joists_are_numbered_from_the_west_end_joist_and_named_after_their_field() -> None:
    framing = _laid(size=(60.0, 108.0))
    assert [(j.id, j.number, j.kind) for j in framing.joists] == [
        ("F.1", 1, "common"),
        ("F.2", 2, "common"),
        ("F.3", 3, "common"),
        ("F.0", 0, "end"),
        ("F.4", 4, "end"),
        ("F.rim-south", 0, "rim"),
        ("F.rim-north", 1, "rim"),
    ]


def test_first_moves_all_commons() -> None:
    assert _xs(_laid(first=12.5, size=(60.0, 108.0))) == [12.5, 28.5, 44.5]


@pytest.mark.parametrize(
    ("width", "expected"),
    [
        (98.25, [16.0, 32.0, 48.0, 64.0, 80.0, 96.0]),  # 96 + 0.75 touches the end joist's face at 96.75
        (98.0, [16.0, 32.0, 48.0, 64.0, 80.0]),  # would overlap it by 1/4
        (97.0, [16.0, 32.0, 48.0, 64.0, 80.0]),
    ],
)
def test_a_common_that_would_stand_in_the_end_joist_is_left_out(width: float, expected: list[float]) -> None:
    assert _xs(_laid(size=(width, 108.0))) == expected


def test_a_first_common_in_the_west_end_joist_is_left_out() -> None:
    assert _xs(_laid(first=1.0, size=(40.0, 108.0))) == [17.0, 33.0]


def test_a_field_too_narrow_for_commons_has_ends_and_rims_only() -> None:
    assert [joist.kind for joist in _laid(size=(12.0, 40.0)).joists] == ["end", "end", "rim", "rim"]


def test_east_west_joists_are_laid_from_the_south() -> None:
    framing = _laid(direction="east-west", size=(108.0, 60.0), corner=(10.0, 20.0))
    common = _of(framing, "common")[0]
    assert (common.start, common.end, common.along, common.length) == ((11.5, 36.0), (116.5, 36.0), (1.0, 0.0), 105.0)
    west, east = _of(framing, "rim")
    assert (west.id, west.start, west.end, west.along) == ("F.rim-west", (10.75, 20.0), (10.75, 80.0), (0.0, 1.0))
    assert (east.id, east.start) == ("F.rim-east", (117.25, 20.0))


def test_shifts_move_single_joists_and_stop_at_the_ends() -> None:
    shifts = (JoistShift(2, -2.5), JoistShift(7, 40.0), JoistShift(0, 3.0), JoistShift(8, 5.0))
    framing = _laid(shifts=shifts)
    # the last common stops with its face on the end joist's: 120 - 1.5 - 0.75
    assert _xs(framing) == [16.0, 29.5, 48.0, 64.0, 80.0, 96.0, 117.75]
    assert _xs(framing, "end") == [3.75, 119.25]


@pytest.mark.parametrize(
    ("lumber", "depth"), [("2x4", 3.5), ("2x6", 5.5), ("2x8", 7.25), ("2x10", 9.25), ("2x12", 11.25)]
)
def test_lumber_has_its_dry_surfaced_size(lumber: str, depth: float) -> None:
    # dry softwood sizes as published with the lumber standard DOC PS 20
    assert {(joist.thickness, joist.depth) for joist in _laid(lumber=lumber).joists} == {(1.5, depth)}


def test_a_measured_depth_replaces_the_lumbers() -> None:
    assert {joist.depth for joist in _laid(lumber="2x8", depth=7.5).joists} == {7.5}


def test_end_bearing_counts_from_the_rims_outside_face() -> None:
    # 3-1/2 from outside, 1-1/2 of it under the rim: 2 on the joist
    for joist in _of(_laid(), "common"):
        assert joist.supports == ((0.0, 2.0), (103.0, 105.0))


def test_an_end_bearing_no_wider_than_the_rim_leaves_the_joist_hung_at_its_end() -> None:
    assert _of(_laid(end_bearing=1.5), "common")[0].supports == ((0.0, 0.0), (105.0, 105.0))


def test_an_end_bearing_of_nothing_is_a_bearing_that_is_not_drawn() -> None:
    framing = _laid(end_bearing=0.0)
    assert all(joist.supports == () for joist in framing.joists)


def test_bearing_lines_are_as_wide_as_a_flat_2x4() -> None:
    # centre 54 from outside, 52.5 from the joist's end, 1-3/4 to each side
    assert _of(_laid(bearings=(54.0,)), "common")[0].supports == ((0.0, 2.0), (50.75, 54.25), (103.0, 105.0))


def test_bearings_that_overlap_are_one_and_end_with_the_joist() -> None:
    supports = _of(_laid(bearings=(3.0, 107.0, 50.0, 52.0)), "common")[0].supports
    # 3 - 1.5 +- 1.75 -> 0 to 3.25; 107 -> 103.75 to 107.25, cut at 105; 50 and 52 join
    assert supports == ((0.0, 3.25), (46.75, 52.25), (103.0, 105.0))


def test_rims_bear_along_their_whole_length() -> None:
    assert _of(_laid(), "rim")[0].supports == ((0.0, 120.0),)


def test_engineered_fields_make_engineered_members() -> None:
    assert {joist.member for joist in _laid(member="engineered").joists} == {"engineered"}


def test_commons_of_all_fields_come_first() -> None:
    framing = lay_out(_plan(_field(id="A"), _field(id="B", corner=(120.0, 0.0))))
    kinds = [joist.kind for joist in framing.joists]
    assert kinds == sorted(kinds, key=["common", "end", "rim"].index)
    assert len({joist.id for joist in framing.joists}) == len(framing.joists)


@given(
    width=st.integers(12 * 16, 600 * 16).map(lambda n: n / 16),
    spacing=st.sampled_from([12.0, 16.0, 19.2, 24.0]),
    first=st.none() | st.integers(12, 96 * 16).map(lambda n: n / 16),
)
def test_commons_never_overlap_the_ends_and_leave_no_room_for_another(
    width: float, spacing: float, first: float | None
) -> None:
    framing = _laid(size=(width, 100.0), spacing=spacing, first=first)
    xs = _xs(framing)
    assert all(2.25 - 1e-6 <= x <= width - 2.25 + 1e-6 for x in xs)
    assert all(abs(b - a - spacing) < 1e-9 for a, b in itertools.pairwise(xs))
    if xs:
        assert xs[-1] + spacing > width - 2.25
    else:
        assert (spacing if first is None else first) > width - 2.25 or (first is not None and first < 2.25)


@given(st.sampled_from(["north-south", "east-west"]), st.floats(-500, 500), st.floats(-500, 500))
def test_turning_a_field_a_quarter_turns_its_joists(direction: str, x: float, y: float) -> None:
    framing = _laid(direction=direction, corner=(x, y), size=(96.0, 144.0), bearings=(60.0,))
    other = "east-west" if direction == "north-south" else "north-south"
    # mirrored in the line x = y: west becomes south
    mirrored = _laid(direction=other, corner=(y, x), size=(144.0, 96.0), bearings=(60.0,))
    for one, two in zip(framing.joists, mirrored.joists, strict=True):
        assert one.start == two.start[::-1]
        assert one.end == two.end[::-1]
        assert one.supports == two.supports
        assert one.length == two.length
