"""Where joints are drawn: grade left out, short lengths drawn out, long risers broken, the nearer pipe whole."""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path

import pytest

from engine.drawings.isometric import isometrics
from engine.drawings.isometric.levels import settle
from engine.drawings.isometric.lines import PaperLine, cross
from engine.drawings.isometric.sheets import skeleton
from engine.drawings.isometric.skeleton import Length, Skeleton
from engine.drawings.isometric.views import best_turn
from engine.drawings.strokes import Line
from engine.joinery.records import Space
from engine.plan.file import read
from engine.plan.records import Plan
from engine.study import study

SAMPLES = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))


def hung(*lengths: tuple[str, str, str], **at: Space) -> Skeleton:
    """Joints at places, and waste pieces between them by shape."""
    bones = Skeleton("drains")
    for key, place in at.items():
        bones.joint(key, place)
    for number, (shape, start, end) in enumerate(lengths, 1):
        bones.lengths.append(
            Length(f"D{number}", "piece", "waste", 2.0, shape, start, end, (f"d{number}",))  # type: ignore[arg-type]
        )
    return bones


def as_built(length: Length) -> float:
    return 0.0


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_level_pipes_lie_level_and_plumb_ones_stand_plumb(path: Path) -> None:
    bones = skeleton(study(read(path)), "drains")
    places = settle(bones, as_built, 30.0).at
    for length in bones.lengths:
        a, b = places[length.start], places[length.end]
        if length.shape == "level":
            assert a[2] == pytest.approx(b[2])
        if length.shape == "plumb":
            assert a[:2] == pytest.approx(b[:2])


def test_the_grade_is_left_out_upstream_of_the_lowest_joint() -> None:
    """1/4 in/ft over 96 in is 2 in; the riser above keeps its own 20 in."""
    bones = hung(("level", "up", "low"), ("plumb", "top", "up"), low=(0, 0, -8), up=(96, 0, -6), top=(96, 0, 14))
    places = settle(bones, as_built, 100.0).at
    assert places == {"low": (0, 0, -8), "up": (96, 0, -8), "top": (96, 0, 12)}


def test_a_short_length_is_drawn_out_and_carries_what_hangs_on_it_along() -> None:
    bones = hung(("level", "b", "a"), ("level", "c", "b"), a=(0, 0, 0), b=(2, 0, 0), c=(2, 40, 0))
    places = settle(bones, lambda _: 6.0, 100.0).at
    assert places == {"a": (0, 0, 0), "b": (6, 0, 0), "c": (6, 40, 0)}


def test_a_slanting_length_is_drawn_out_along_its_own_heading() -> None:
    bones = hung(("level", "b", "a"), a=(0, 0, 0), b=(3, 3, 0))
    x, y, _ = settle(bones, lambda _: 6.0, 100.0).at["b"]
    assert x == pytest.approx(y)
    assert math.hypot(x, y) == pytest.approx(6.0)


def test_a_ring_is_left_as_built_rather_than_drawn_off_its_axes() -> None:
    square: dict[str, Space] = {"a": (0, 0, 0), "b": (40, 0, 0), "c": (40, 3, 0), "d": (0, 2, 0)}
    bones = hung(("level", "b", "a"), ("level", "c", "b"), ("level", "c", "d"), ("level", "d", "a"), **square)
    assert settle(bones, lambda _: 6.0, 100.0).at == square


def test_a_long_riser_is_broken_where_nothing_stands_on_it() -> None:
    """114 in bare above the tee are drawn as 30; what lies lower stays as it is."""
    bones = hung(("plumb", "top", "tee"), ("plumb", "tee", "foot"), foot=(0, 0, -6), tee=(0, 0, 19), top=(0, 0, 133))
    found = settle(bones, as_built, 30.0)
    assert [found.at[key][2] for key in ("foot", "tee", "top")] == [-6, 19, 49]
    assert found.breaks == ((19.0, 49.0, 84.0),)


def test_all_risers_are_broken_alike_so_that_overhead_vents_stay_level() -> None:
    bones = hung(
        ("plumb", "t1", "f1"), ("plumb", "t2", "f2"), ("level", "t1", "t2"),
        f1=(0, 0, 0), t1=(0, 0, 90), f2=(50, 0, 4), t2=(50, 0, 90),
    )  # fmt: skip
    at = settle(bones, as_built, 30.0).at
    assert at["t1"][2] == at["t2"][2] < 40.0


@pytest.mark.parametrize(
    ("near", "far", "turn"),
    [
        # in plan one pipe crosses under another: the upper one hides the lower from every corner
        (((0, 20, 10), (40, 20, 10)), ((20, 0, 0), (20, 40, 0)), 0),
        (((0, 20, 10), (40, 20, 10)), ((20, 0, 0), (20, 40, 0)), 2),
        # of two that stand on a level the one toward the looker's corner is whole
        (((0, 0, 0), (0, 0, 40)), ((30, 10, -10), (10, 30, -10)), 0),
    ],
)
def test_the_pipe_behind_is_left_out_where_they_cross(
    near: tuple[Space, Space], far: tuple[Space, Space], turn: int
) -> None:
    from engine.drawings.isometric.axes import project

    bones = hung(("level", "a", "b"), ("level", "c", "d"), a=near[0], b=near[1], c=far[0], d=far[1])
    places = settle(hung(a=near[0], b=near[1], c=far[0], d=far[1]), as_built, 1000.0)
    lines = [
        PaperLine(each, project(places.at[each.start], turn), project(places.at[each.end], turn))
        for each in bones.lengths
    ]
    cross(lines, places, turn, 1.0)
    assert lines[0].gaps == []
    assert len(lines[1].gaps) == 1


def test_the_view_is_taken_from_where_least_is_hidden(hand_floor: Callable[..., Plan]) -> None:
    answer = study(hand_floor())
    bones = skeleton(answer, "drains")
    turn = best_turn(bones, settle(bones, as_built, 30.0))
    assert [sheet.turn for sheet in isometrics(answer, "drains", 10.0, 6.4)] == [turn]
    assert [sheet.turn for sheet in isometrics(answer, "drains", 10.0, 6.4, turn=3)] == [3]


@pytest.mark.parametrize("turn", range(4))
def test_pipes_run_along_the_axes_from_every_corner(turn: int, hand_floor: Callable[..., Plan]) -> None:
    """Each piece of the hand floor runs at 30 or 90 degrees, or, where it lies at 45 in plan, at 0 or 90."""
    sheet = isometrics(study(hand_floor()), "drains", 10.0, 6.4, turn=turn)[0]
    for shown in sheet.shown:
        if shown.what == "piece":
            for line in shown.strokes:
                if isinstance(line, Line) and line.weight > 0.3 and len(line.points) == 2:
                    (ax, ay), (bx, by) = line.points
                    angle = abs(math.degrees(math.atan2(by - ay, bx - ax))) % 180.0
                    assert min(abs(angle - each) for each in (0.0, 30.0, 90.0, 150.0, 180.0)) < 0.1, shown.name
