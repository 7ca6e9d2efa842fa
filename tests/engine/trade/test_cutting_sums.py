"""Worked examples of cutting, from print and by hand."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.lengths import feet_inches, inches
from engine.trade import cutting, fittings, pipe
from engine.trade.catalogue import listed


def test_face_to_face() -> None:
    """Modern Plumbing, DWV chapter: 2 in pipe, faces 54 apart, sockets 3/4 deep: 55-1/2."""
    depth = pipe.drain(2.0).socket
    assert cutting.between_faces(54.0, depth, depth) == 55.5


def test_toilet_arm_from_centre_to_face() -> None:
    """Modern Plumbing, DWV chapter: 3 in, 16 from the flange pipe's centre to the tee's face; 90 takes off 3: 14-1/2."""
    rounded = next(row for row in listed("quarter_bend", (3.0, 3.0)) if row.standing == "read")
    off = rounded.leg("run_in")
    assert off is not None
    assert cutting.centre_to_face(16.0, off.length, pipe.drain(3.0).socket) == 14.5


def test_fall_to_a_tee() -> None:
    """Modern Plumbing, DWV chapter: 9-1/2 ft at 1/4 in/ft falls 2-3/8; from 1 below the joist that is 3-3/8."""
    fall = cutting.fall(9.5 * 12, 0.25)
    assert inches(fall) == "2 3/8"
    assert 1 + fall == 3.375


def test_fall_from_an_ell() -> None:
    """Modern Plumbing, DWV chapter: ell 1-1/2 below the joist, 7/8 of fall (3-1/2 ft at 1/4): 2-3/8."""
    assert 1.5 + cutting.fall(42, 0.25) == 2.375


def test_ten_feet_between_two_fittings() -> None:
    """Fitting Allowances guide: 10 ft centre to centre, 3-3/4 off each end: 9 ft 4-1/2."""
    assert feet_inches(cutting.between_centres(120, 3.75, 3.75)) == "9'-4 1/2\""


@pytest.mark.parametrize(
    ("bend", "travel", "run"),
    # Rolling Offset Formula; Elements of Plumbing: multiples of the set
    [(60, 1.1547, 0.577), (45, 1.414, 1.000), (30, 2.000, 1.732), (22.5, 2.613, 2.414), (11.25, 5.126, 5.027)],
)
def test_offset_factors(bend: float, travel: float, run: float) -> None:
    assert cutting.offset_travel(1.0, bend) == pytest.approx(travel, abs=5e-4)
    assert cutting.offset_run(1.0, bend) == pytest.approx(run, abs=5e-4)


def test_an_offset_of_twelve() -> None:
    """Elements of Plumbing: set 12 at 45 degrees prints 16.92 with the factor 1.41; exact 16.97."""
    assert cutting.offset_travel(12, 45) == pytest.approx(12 * math.sqrt(2))
    assert cutting.offset_travel(12, 45) == pytest.approx(16.92, abs=0.06)


def test_a_rolling_offset() -> None:
    """How To Figure A Rolling Offset: roll 12, rise 8; Rolling Offset Formula: set 14.42, travel 20.39."""
    true_set = cutting.rolling_set(12, 8)
    assert true_set == pytest.approx(14.42, abs=0.005)
    assert cutting.offset_travel(true_set, 45) == pytest.approx(20.39, abs=0.01)
    assert cutting.offset_run(true_set, 22.5) == pytest.approx(34.81, abs=0.01)
    assert cutting.offset_travel(true_set, 22.5) == pytest.approx(37.68, abs=0.01)


def test_a_rolling_offset_cut() -> None:
    """Rolling Offsets (apprentice notes): rise 30-5/8, roll 17-5/8: set 35.33, travel 50.0; less 3 each end, 44."""
    travel = cutting.offset_travel(cutting.rolling_set(17.625, 30.625), 45)
    assert travel == pytest.approx(50.0, abs=0.05)
    assert cutting.between_centres(travel, 3, 3) == pytest.approx(44.0, abs=0.05)


@pytest.mark.parametrize(("size", "closest"), [(2.0, 6.125), (3.0, 9.125)])
def test_hubs_that_touch(size: float, closest: float) -> None:
    """Worked by hand: 2 x (2-5/16 + 3/4) = 6-1/8; 2 x (3-1/16 + 1-1/2) = 9-1/8."""
    off, depth = fittings.takeoff("quarter_bend", (size, size), "run_in").length, pipe.drain(size).socket
    assert cutting.closest_centres(off, depth, off, depth) == closest


def test_two_short_bends_two_feet_apart() -> None:
    """Worked by hand: 24 - 2 x 2-5/16 = 19-3/8."""
    off = fittings.takeoff("quarter_bend", (2.0, 2.0), "run_in").length
    assert cutting.between_centres(24, off, off) == 19.375


def test_a_street_bend_leaves_no_piece() -> None:
    """Worked by hand: a 3 in street quarter bend in a hub with 3-1/16 to its stop: 3-1/16 + 4-9/16 = 7-5/8."""
    tip = fittings.takeoff("street_quarter_bend", (3.0, 3.0), "run_out").length
    assert cutting.street_centres(3.0625, tip) == 7.625


def test_two_sixteenths_and_the_saw() -> None:
    """Worked by hand: two fittings at 1/16 and a cut at 1/16 may be 3/16 off."""
    bend = fittings.takeoff("quarter_bend", (2.0, 2.0), "run_in")
    assert cutting.spread(bend, bend, 1 / 16) == 3 / 16


def test_length_along_a_quarter_inch_slope() -> None:
    """Worked by hand: 72 x sqrt(1 + (1/48)^2) = 72.0156."""
    assert cutting.along_slope(72, 0.25) == pytest.approx(72.0156, abs=5e-5)


@given(st.floats(1, 500), st.floats(0, 5), st.floats(0, 5), st.floats(0, 2), st.floats(0, 2))
def test_centres_and_faces_agree(distance: float, off_a: float, off_b: float, depth_a: float, depth_b: float) -> None:
    """US Army plumbing lesson: less both fittings, plus both engagements, is the same cut."""
    faces = distance - (off_a + depth_a) - (off_b + depth_b)
    by_faces = cutting.between_faces(faces, depth_a, depth_b)
    assert by_faces == pytest.approx(cutting.between_centres(distance, off_a, off_b), abs=1e-9)


@given(st.floats(0.1, 200), st.floats(5, 85))
def test_an_offset_is_a_right_triangle(set_: float, bend: float) -> None:
    travel, run = cutting.offset_travel(set_, bend), cutting.offset_run(set_, bend)
    assert math.hypot(run, set_) == pytest.approx(travel, rel=1e-9)
