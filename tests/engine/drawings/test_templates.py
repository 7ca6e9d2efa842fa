"""Full-size templates: every line at its true distance from the centre, whichever way the fixture looks."""

from __future__ import annotations

import math
from collections.abc import Callable

import msgspec
import pytest

from engine.drawings import Arc, Drawing, Fill, Line, Text
from engine.drawings.check_bars import check_bars, upright_bar
from engine.drawings.clipping import clipped
from engine.drawings.labels import Box, text_boxes
from engine.drawings.linetypes import WALL_EDGE, WALL_FILL, WOOD_FILL
from engine.drawings.plate_templates import plate_templates
from engine.drawings.strokes import Stroke
from engine.drawings.templates import View, behind, opening_templates, wrapped
from engine.drawings.tiling import OVERLAP, tiles
from engine.drawings.typeface import text_width
from engine.plan.records import Drain, Fixture, Plan, Point
from engine.study import study

Floor = Callable[..., Plan]
WINDOW = (7.44, 9.22)


def closet_of(plan: Plan) -> Drawing:
    (made,) = opening_templates(study(plan), *WINDOW)
    return made.drawing


def arcs(drawing: Drawing) -> dict[float, Point]:
    return {stroke.radius: stroke.centre for stroke in drawing.strokes if isinstance(stroke, Arc)}


def words(drawing: Drawing) -> str:
    return " ".join(stroke.text for stroke in drawing.strokes if isinstance(stroke, Text))


def spans(drawing: Drawing, grey: float) -> list[Box]:
    found = [stroke for stroke in drawing.strokes if isinstance(stroke, Fill) and stroke.grey == grey]
    return [Box(*(f(p[n] for p in one.points) for f, n in ((min, 0), (min, 1), (max, 0), (max, 1)))) for one in found]


def test_the_closet_worked_by_hand(hand_floor: Floor) -> None:
    drawing = closet_of(hand_floor())
    circles = arcs(drawing)
    # a 5 in hole; 3 in pipe is 3 1/2 in outside (ASTM D2665)
    assert set(circles) == {2.5, 1.75}
    x, y = circles[2.5]
    assert circles[1.75] == (x, y)
    # wall's middle at 106.25, 3 1/2 in of studs: their face at 104.5, 12 1/2 in from the flange at 92
    (wall,) = spans(drawing, WALL_FILL)
    assert wall.bottom - y == pytest.approx(12.5)
    dashed = [s for s in drawing.strokes if isinstance(s, Line) and s.dashes and len(s.points) == 2]
    finished = [line for line in dashed if line.points[0][1] == line.points[1][1] and line.points[0][1] > y + 1.0]
    assert [line.points[0][1] - y for line in finished] == [pytest.approx(12.0)]
    # joist 2's middle at x 32, 1 1/2 in thick: 3 1/4 to 4 3/4 in west of the centre
    (joist,) = spans(drawing, WOOD_FILL)
    assert x - joist.right == pytest.approx(3.25)


def test_the_bolt_line_is_parallel_to_the_wall_through_the_centre(hand_floor: Floor) -> None:
    drawing = closet_of(hand_floor())
    x, y = arcs(drawing)[2.5]
    slots = [
        stroke.points[0][0] - x
        for stroke in drawing.strokes
        if isinstance(stroke, Line) and len(stroke.points) == 2 and math.isclose(math.dist(*stroke.points), 0.36)
    ]
    assert sorted(slots) == [pytest.approx(-3.0), pytest.approx(3.0)]  # 6 in apart, from memory
    assert any(
        isinstance(stroke, Line)
        and stroke.points == ((0.0, pytest.approx(y)), (pytest.approx(drawing.width), pytest.approx(y)))
        for stroke in drawing.strokes
    )
    assert "BOLT LINE, parallel to the finished wall" in words(drawing)


def test_the_ways_to_both_faces_and_to_north_are_told(hand_floor: Floor) -> None:
    said = words(closet_of(hand_floor()))
    assert "A: 3'-0\"" in said
    assert "B: 7'-8\"" in said
    assert "A is the outside face of the west end joist." in said
    assert "12 in to the finished wall w1, 12 1/2 in to its studs" in said
    assert " N " in f" {said} "


@pytest.mark.parametrize("turn", [0.0, 90.0, 180.0, 270.0, 30.0, -135.0])
def test_a_view_keeps_distances_and_hands_and_puts_the_back_up(turn: float) -> None:
    view = View((10.0, 20.0), turn)
    back = (10.0 - 5.0 * math.cos(math.radians(turn)), 20.0 - 5.0 * math.sin(math.radians(turn)))
    assert view.seen(back) == (pytest.approx(0.0, abs=1e-9), pytest.approx(5.0))
    a, b = view.seen((11.0, 20.0)), view.seen((10.0, 21.0))
    assert math.hypot(*a) == pytest.approx(1.0)
    assert a[0] * b[1] - a[1] * b[0] == pytest.approx(1.0)  # not mirrored: east to north turns to the left
    assert math.cos(math.radians(view.heading(0.0))) == pytest.approx(a[0], abs=1e-9)
    assert math.sin(math.radians(view.heading(0.0))) == pytest.approx(a[1], abs=1e-9)


def test_a_closet_that_looks_east_has_north_to_the_right(hand_floor: Floor) -> None:
    """Its back to the partition, which is no wall behind it 33 in off: no paper reaches that, so it is only told."""
    base = hand_floor()
    closet = msgspec.structs.replace(base.fixtures[0], turn=180.0)
    drawing = closet_of(msgspec.structs.replace(base, fixtures=(closet, *base.fixtures[1:])))
    # partition's middle at 70.25, studs 1 3/4 nearer: 32 1/2 in from x 36; 1/2 in of board before them
    assert "32 in to the finished wall p1, 32 1/2 in to its studs" in words(drawing)
    assert drawing.height == WINDOW[1]
    letter = next(s for s in drawing.strokes if isinstance(s, Text) and s.text == "N")
    tips = [s.points[0] for s in drawing.strokes if isinstance(s, Fill) and len(s.points) == 3]
    tip = min(tips, key=lambda at: math.dist(at, letter.at))
    assert letter.at[0] < tip[0]  # the back, east, is up: north lies left


def test_no_wall_behind_is_said(hand_floor: Floor) -> None:
    plan = msgspec.structs.replace(hand_floor(), walls=())
    assert behind(plan, View((36.0, 92.0), 270.0)) is None
    drawing = closet_of(plan)
    assert "no wall is drawn behind it: no finish is allowed for" in words(drawing)
    assert drawing.height == WINDOW[1]


def test_a_shower_has_its_pipe_hole(hand_floor: Floor) -> None:
    base = hand_floor()
    shower = Fixture(id="sh1", kind="shower", at=(60.0, 30.0), turn=90.0)
    plan = msgspec.structs.replace(
        base,
        fixtures=(*base.fixtures, shower),
        drains=(*base.drains, Drain(id="d3", points=((60.0, 30.0), (36.0, 30.0)), size="2")),
    )
    _, made = opening_templates(study(plan), *WINDOW)
    # 2 in pipe is 2 3/8 in outside; the least listed bit with 1/16 in of play is 2-9/16
    assert set(arcs(made.drawing)) == {2.5625 / 2.0, 2.375 / 2.0}
    assert "HOLE TO MAKE: 2 9/16 in" in words(made.drawing)
    assert "by its maker's sheet" in words(made.drawing)


class TestTiles:
    def test_what_fits_is_one_sheet_in_the_middle(self) -> None:
        (tile,) = tiles(square(4.0, 6.0), 7.0, 9.0)
        assert (tile.number, tile.of) == (1, 1)
        assert tile.window == Box(1.5, 1.5, 5.5, 7.5)

    def test_the_sheets_cover_the_drawing_and_overlap(self) -> None:
        made = tiles(square(15.0, 20.0), 7.0, 9.0)
        # 7 + 6.5 = 13.5 is short of 15, so 3 across; 9 + 8.5 = 17.5 is short of 20, so 3 up
        assert [tile.of for tile in made] == [9] * 9
        reach = [tile.window.right for tile in made[:3]]
        assert len({round(wide, 9) for wide in reach}) == 1
        assert sum(reach) - 2.0 * OVERLAP == pytest.approx(15.0)
        assert sum(tile.window.top for tile in made[::3]) - 2.0 * OVERLAP == pytest.approx(20.0)

    def test_a_cut_edge_lies_on_the_line_it_is_glued_to(self, hand_floor: Floor) -> None:
        drawing = closet_of(hand_floor())
        low, high = tiles(drawing, *WINDOW)
        (glue,) = (s for s in low.strokes if isinstance(s, Line) and s.dashes == (0.1, 0.05))
        assert glue.points[0][1] == pytest.approx(low.window.top - OVERLAP)
        assert low.window.top + high.window.top - OVERLAP == pytest.approx(drawing.height)
        assert high.window.bottom == 0.0
        # both sheets' diamonds and the joist's edge meet when the cut edge lies on the line
        up = glue.points[0][1]
        diamonds = [sorted(corners(tile.strokes)) for tile in (low, high)]
        assert len(diamonds[0]) == 2
        for one, other in zip(*diamonds, strict=True):
            assert one == (pytest.approx(other[0]), pytest.approx(other[1] + up))

    def test_no_text_is_lost_or_cut(self, hand_floor: Floor) -> None:
        drawing = closet_of(hand_floor())
        made = tiles(drawing, *WINDOW)
        shown = {stroke.text for tile in made for stroke in tile.strokes if isinstance(stroke, Text)}
        assert {stroke.text for stroke in drawing.strokes if isinstance(stroke, Text)} <= shown
        for tile in made:
            for stroke in tile.strokes:
                for box in text_boxes(stroke) if isinstance(stroke, Text) else ():
                    assert box.left >= -1e-6
                    assert box.right <= WINDOW[0] + 1e-6
                    assert box.bottom >= -1e-6
                    assert box.top <= WINDOW[1] + 1e-6

    @pytest.mark.parametrize("window", [WINDOW, (7.2, 9.9), (10.6, 14.7)])
    def test_no_seam_runs_through_a_text(self, window: tuple[float, float], hand_floor: Floor) -> None:
        (made,) = opening_templates(study(hand_floor()), *window)
        low, _ = tiles(made.drawing, *window)
        seam = low.window.top - OVERLAP
        crossed = [
            stroke.text
            for stroke in low.strokes
            if isinstance(stroke, Text) and any(box.bottom < seam < box.top for box in text_boxes(stroke))
        ]
        assert crossed == []

    def test_one_sheet_that_just_holds_it_is_enough(self, hand_floor: Floor) -> None:
        """The studs 12 1/2 in behind, the hole 2 1/2 in before the centre: 15 in, and 0.2 in round them."""
        (made,) = opening_templates(study(hand_floor()), 9.94, 15.22)
        assert len(tiles(made.drawing, 9.94, 15.22)) == 1
        (hole,) = (s for s in made.drawing.strokes if isinstance(s, Arc) and s.radius == 2.5)
        assert hole.centre[1] - 2.5 > 0.0
        assert hole.centre[1] + 12.5 < 15.22
        for stroke in made.drawing.strokes:
            for box in text_boxes(stroke) if isinstance(stroke, Text) else ():
                assert box.bottom >= 0.0
                assert box.top <= 15.22

    def test_the_hole_is_never_parted(self, hand_floor: Floor) -> None:
        low, _ = tiles(closet_of(hand_floor()), *WINDOW)
        (hole,) = (s for s in low.strokes if isinstance(s, Arc) and s.radius == 2.5)
        assert hole.centre[1] + 2.5 < low.window.top - OVERLAP
        assert hole.centre[1] - 2.5 > 0.0


def square(width: float, height: float) -> Drawing:
    line = Line(((0.0, 0.0), (width, height)), 0.25)
    return Drawing((line,), width, height, (0.0, 0.0, width, height))


def corners(strokes: tuple[Stroke, ...]) -> list[Point]:
    """The middles of the diamonds: black areas of four corners."""
    found = [s.points for s in strokes if isinstance(s, Fill) and s.grey == 0.0 and len(s.points) == 4]
    return [(sum(x for x, _ in points) / 4.0, sum(y for _, y in points) / 4.0) for points in found]


class TestPlates:
    def test_a_hole_in_its_plate(self, hand_floor: Floor) -> None:
        (made,) = plate_templates(study(hand_floor()), *WINDOW)
        (circle,) = (s for s in made.drawing.strokes if isinstance(s, Arc))
        assert circle.radius == 2.125 / 2.0
        (plate,) = spans(made.drawing, WALL_FILL)
        assert plate.top - plate.bottom == pytest.approx(3.5)
        assert circle.centre[1] == pytest.approx((plate.top + plate.bottom) / 2.0)
        assert "Mark 2, riser r1, wall p1: sole plate and top plates." in words(made.drawing)
        assert {"west side", "east side"} <= {s.text for s in made.drawing.strokes if isinstance(s, Text)}

    def test_a_hole_off_the_middle_says_to_which_side(self, hand_floor: Floor) -> None:
        base = hand_floor()
        moved = tuple(
            msgspec.structs.replace(wall, start=(70.75, 0.0), end=(70.75, 108.0)) if wall.id == "p1" else wall
            for wall in base.walls
        )
        (made,) = plate_templates(study(msgspec.structs.replace(base, walls=moved)), *WINDOW)
        (circle,) = (s for s in made.drawing.strokes if isinstance(s, Arc))
        (plate,) = spans(made.drawing, WALL_FILL)
        # the riser stands 1/2 in west of the plate's middle, and west is up
        assert circle.centre[1] - (plate.top + plate.bottom) / 2.0 == pytest.approx(0.5)
        assert "1/2 in off the plate's middle to the west." in words(made.drawing)

    def test_a_wall_that_runs_east_has_its_north_side_up(self, hand_floor: Floor) -> None:
        base = hand_floor()
        turned = tuple(
            msgspec.structs.replace(wall, start=(100.0, 68.0), end=(40.0, 68.0)) if wall.id == "p1" else wall
            for wall in base.walls
        )
        (made,) = plate_templates(study(msgspec.structs.replace(base, walls=turned)), *WINDOW)
        top = max(
            (s for s in made.drawing.strokes if isinstance(s, Text) and s.text.endswith("side")), key=lambda s: s.at[1]
        )
        assert top.text == "north side"
        # the riser at y 69 stands 1 in north of the wall's middle at 68
        (circle,) = (s for s in made.drawing.strokes if isinstance(s, Arc))
        (plate,) = spans(made.drawing, WALL_FILL)
        assert circle.centre[1] - (plate.top + plate.bottom) / 2.0 == pytest.approx(1.0)

    def test_without_a_wall_there_is_no_plate(self, hand_floor: Floor) -> None:
        assert plate_templates(study(msgspec.structs.replace(hand_floor(), walls=())), *WINDOW) == ()

    def test_many_holes_fill_sheet_after_sheet_and_lie_on_them(self, hand_floor: Floor) -> None:
        base = hand_floor()
        walls, risers, fixtures, drains = list(base.walls), list(base.risers), list(base.fixtures), list(base.drains)
        for n in range(8):
            y, off = 12.0 + 6.0 * n, 0.125 * (n + 1)
            walls.append(
                msgspec.structs.replace(walls[1], id=f"q{n}", start=(100.0 + off, y - 2.0), end=(100.0 + off, y + 2.0))
            )
            risers.append(msgspec.structs.replace(risers[0], id=f"s{n}", at=(100.0, y)))
            fixtures.append(Fixture(id=f"l{n}", kind="lavatory", at=(100.0, y), turn=180.0))
            drains.append(Drain(id=f"e{n}", points=((100.0, y), (36.0, y)), size="1-1/2"))
        plan = msgspec.structs.replace(
            base, walls=tuple(walls), risers=tuple(risers), fixtures=tuple(fixtures), drains=tuple(drains)
        )
        made = plate_templates(study(plan), *WINDOW)
        holes = [s for one in made for s in one.drawing.strokes if isinstance(s, Arc)]
        assert len(holes) == 9
        assert len(made) > 1
        for one in made:
            for box in spans(one.drawing, WALL_FILL):
                assert box.left >= -1e-9
                assert box.right <= WINDOW[0] + 1e-9
                assert box.bottom >= -1e-9
                assert box.top <= WINDOW[1]


def test_the_bars_are_4_in_and_100_mm() -> None:
    level = [s for s in check_bars((1.0, 2.0)) if isinstance(s, Line) and s.points[0][1] == s.points[1][1]]
    assert sorted({round(math.dist(*s.points), 9) for s in level}) == [round(100.0 / 25.4, 9), 4.0]
    upright = [s for s in upright_bar((1.0, 2.0)) if isinstance(s, Line) and s.points[0][0] == s.points[1][0]]
    assert {math.dist(*s.points) for s in upright} == {4.0}


def test_what_is_clipped_lies_inside() -> None:
    box = Box(0.0, 0.0, 2.0, 1.0)
    inside = clipped(((-1.0, 0.25), (3.0, 0.25), (3.0, 0.75), (-1.0, 0.75)), box)
    assert sorted(inside) == [(0.0, 0.25), (0.0, 0.75), (2.0, 0.25), (2.0, 0.75)]
    assert clipped(((5.0, 5.0), (6.0, 5.0), (6.0, 6.0)), box) == ()


def test_wrapped_lines_fit() -> None:
    lines = wrapped("the flange in hand is measured before the hole is sawn round it", 0.085, 1.5)
    assert " ".join(lines) == "the flange in hand is measured before the hole is sawn round it"
    assert all(text_width(line, 0.085) <= 1.5 for line in lines)
    assert len(lines) > 1


def test_walls_are_drawn_with_their_edges(hand_floor: Floor) -> None:
    edges = [s for s in closet_of(hand_floor()).strokes if isinstance(s, Line) and s.grey == WALL_EDGE]
    assert len(edges) == 1
