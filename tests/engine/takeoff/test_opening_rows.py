"""Openings set out for whoever frames them; places are worked by hand. Wood is 1-1/2 in thick."""

from __future__ import annotations

from engine.plan.records import Floor, FloorOpening, JoistField, Plan
from engine.study import work_out
from engine.takeoff.opening_rows import opening_rows


def plan(*openings: FloorOpening) -> Plan:
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))
    return Plan(
        floor=Floor(outline=outline),
        fields=(JoistField("j1", (0.0, 0.0), (120.0, 108.0)),),
        floor_openings=openings,
    )


def test_an_opening_is_told_from_the_outside_faces_with_its_wood() -> None:
    opening = FloorOpening("o1", (33.0, 40.0), (63.0, 76.0), headers=2, name="hatch")
    (row,) = opening_rows(work_out(plan(opening)))
    assert (row.name, row.west, row.east, row.south, row.north) == ("hatch", 33.0, 63.0, 40.0, 76.0)
    assert row.headers == (("south", 2, 30.0), ("north", 2, 30.0))
    assert row.trimmers == (("west", 1, 105.0), ("east", 1, 105.0))
    # joist 3 at 48: from the rim at 1-1/2 to the double header at 37, and from 79 to the rim at 106-1/2
    assert row.tails == (("joist 3a (tail)", 35.5), ("joist 3b (tail)", 27.5))


def test_two_openings_keep_their_own_tails() -> None:
    west, east = FloorOpening("o1", (17.0, 40.0), (47.0, 60.0)), FloorOpening("o2", (81.0, 40.0), (111.0, 60.0))
    first, second = opening_rows(work_out(plan(west, east)))
    assert {words.split()[1][:1] for words, _ in first.tails} == {"2"}
    assert {words.split()[1][:1] for words, _ in second.tails} == {"6"}


def test_one_that_frames_nothing_is_left_out() -> None:
    assert opening_rows(work_out(plan(FloorOpening("o1", (200.0, 0.0), (220.0, 20.0))))) == ()
