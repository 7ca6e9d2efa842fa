"""Joists joined of two over a bearing. Places are worked by hand: a floor 120 in by 300 in, wood 1-1/2 in thick."""

from __future__ import annotations

import pytest

from engine.framing.records import Framing
from engine.framing.wood import Wood
from engine.plan.records import Beam, DoubledJoist, FloorOpening, JoistShift
from tests.engine.framing.laid_floors import laid, named

OUTLINE = ((0.0, 0.0), (120.0, 0.0), (120.0, 300.0), (0.0, 300.0))


def lapped(**given: object) -> Framing:
    whole = {"outline": OUTLINE, "size": (120.0, 300.0), "bearings": (150.0,), "laps": (150.0,), "lap": 6.0}
    return laid(**(whole | given))  # type: ignore[arg-type]


def test_the_north_one_stands_beside_the_south_one_for_the_length_of_the_lap() -> None:
    south, north = named(lapped(), "F.4a"), named(lapped(), "F.4b")
    assert (south.start, south.end) == ((64.0, 1.5), (64.0, 153.0))
    assert (north.start, north.end) == ((65.5, 147.0), (65.5, 298.5))
    assert (south.joined, north.joined) == ((False, True), (True, False))


def test_each_bears_on_what_the_bearing_has_under_it() -> None:
    # the bearing lies from 148-1/4 to 151-3/4; the north joist begins at 147
    south, north = named(lapped(), "F.4a"), named(lapped(), "F.4b")
    assert south.supports == ((0.0, 2.0), (146.75, 150.25))
    assert north.supports == ((1.25, 4.75), (149.5, 151.5))


@pytest.mark.parametrize(
    ("moves", "side", "places"),
    [
        ("north or east", "west or south", (64.0, 62.5)),
        ("south or west", "east or north", (65.5, 64.0)),
        ("south or west", "west or south", (62.5, 64.0)),
    ],
)
def test_which_stands_aside_and_to_which_side_is_told(moves: str, side: str, places: tuple[float, float]) -> None:
    framing = lapped(lap_moves=moves, lap_side=side)
    assert (named(framing, "F.4a").start[0], named(framing, "F.4b").start[0]) == places


def test_end_joists_are_butted_over_the_middle_of_the_bearing() -> None:
    south, north = named(lapped(), "F.0a"), named(lapped(), "F.0b")
    assert (south.start, south.end) == ((0.75, 1.5), (0.75, 150.0))
    assert (north.start, north.end) == ((0.75, 150.0), (0.75, 298.5))


def test_what_has_no_room_beside_it_is_butted() -> None:
    # joist 7 stands at 117: its east face at 117-3/4 leaves 3/4 in to the end joist's at 118-1/2
    framing = lapped(shifts=(JoistShift(7, 5.0),))
    assert [named(framing, f"F.7{letter}").start[0] for letter in "ab"] == [117.0, 117.0]
    assert named(framing, "F.7a").end[1] == 150.0


def test_a_doubled_joist_laps_by_all_its_plies() -> None:
    framing = lapped(doubled=(DoubledJoist(4),))
    assert (named(framing, "F.4a").start[0], named(framing, "F.4b").start[0]) == (64.75, 67.75)


def test_trimmers_stay_in_line_and_tails_lap_clear_of_the_opening() -> None:
    # joist 3's north tail begins at 101-1/2, past the header; joists 2 and 4 gave way to the trimmers
    framing = lapped(openings=[FloorOpening("o1", (33.0, 70.0), (63.0, 100.0))])
    assert [named(framing, f"o1.trimmer-west{letter}").start for letter in "ab"] == [(32.25, 1.5), (32.25, 150.0)]
    tails = [(one.id, one.start, one.end[1]) for one in framing.joists if one.number == 3 and one.kind == "tail"]
    assert tails == [
        ("F.3a", (48.0, 1.5), 68.5),
        ("F.3b", (48.0, 101.5), 153.0),
        ("F.3c", (49.5, 147.0), 298.5),
    ]
    assert named(framing, "F.3b").supports[0] == (0.0, 0.0)
    assert named(framing, "F.3c").supports[0] == (1.25, 4.75)


def test_an_opening_at_the_lap_leaves_no_room_in_it() -> None:
    # the opening's west edge is joist 4's east face
    framing = lapped(openings=[FloorOpening("o1", (66.25, 140.0), (76.0, 160.0))])
    assert all(one.end[0] <= 66.25 or one.start[0] >= 76.0 for one in framing.joists if one.runs)


def test_two_laps_alternate() -> None:
    framing = lapped(bearings=(100.0, 200.0), laps=(100.0, 200.0))
    assert [(named(framing, f"F.4{a}").start, named(framing, f"F.4{a}").end[1]) for a in "abc"] == [
        ((64.0, 1.5), 103.0),
        ((65.5, 97.0), 203.0),
        ((64.0, 197.0), 298.5),
    ]


def test_a_flush_beam_where_they_lap_leaves_pieces_that_hang() -> None:
    framing = lapped(beams=[Beam("b1", (1.5, 150.0), (118.5, 150.0), width=8.0, top_z=0.0)])
    south = named(framing, "F.4a")
    assert (south.end[1], south.cut_at, south.joined) == (146.0, ("", "b1"), (False, False))


def test_a_bay_ends_where_its_joists_do() -> None:
    bay = Wood(lapped()).bay_at((56.0, 50.0))
    assert bay is not None
    assert (bay.joists, bay.opposite) == (("F.3a", "F.4a"), (63.25, 153.0))


def test_laps_so_near_that_joists_would_meet_in_one_line_are_butted() -> None:
    """A lap of 6 in each side of 150 and of 155 would put the first and the third piece in one place."""
    close = lapped(laps=(150.0, 155.0))
    assert {named(close, f"F.4{letter}").start[0] for letter in "abc"} == {64.0}
    assert named(close, "F.4a").end[1] == named(close, "F.4b").start[1] == 150.0
    apart = lapped(laps=(150.0, 156.0))
    assert [named(apart, f"F.4{letter}").start[0] for letter in "abc"] == [64.0, 65.5, 64.0]
