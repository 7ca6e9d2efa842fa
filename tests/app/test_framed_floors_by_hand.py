"""Openings, beams and outlines drawn by hand, and their properties."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from app.canvas.places import to_scene
from app.panels.writing import DOUBLED, LAYERS, MEASURED
from app.tools.floor_outline import out_of_square
from app.tools.grips import grips, pulled
from app.tools.sketch import Words
from engine.framing.layout import lay_out
from engine.plan import edits
from engine.plan.outline import tell
from engine.plan.records import Beam, DoubledJoist, Floor, FloorLayer, FloorOpening, JoistField, MeasuredJoist, Plan
from engine.plan.start import new_floor


@pytest.fixture
def bare() -> Plan:
    """A floor 10 ft by 9 ft of 2x10 at 16 in, with nothing on it."""
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))
    return Plan(floor=Floor(outline=outline), fields=(JoistField("j1", (0.0, 0.0), (120.0, 108.0)),))


def document_of(hand):
    return hand.view.tool.desk.document


def test_an_opening_is_drawn_from_corner_to_corner_between_faces_of_joists(canvas, bare: Plan) -> None:
    """From joist 2's east face at 32-3/4 to joist 4's west face at 63-1/4; joist 3 between is headed off."""
    hand = canvas(bare)
    hand.view.set_tool("heading_off")
    hand.drag((32.9, 40.0), (63.1, 70.0))
    document = document_of(hand)
    (opening,) = document.plan.floor_openings
    assert (opening.start[0], opening.end[0]) == (32.75, 63.25)
    assert document.undo_label == "head joists off round o1"
    assert document.selection == {"o1"}
    cut = [joist.id for joist in lay_out(document.plan).joists if joist.kind == "tail"]
    assert cut == ["j1.3a", "j1.3b"]
    document.undo()
    assert document.plan == bare


def test_a_wide_opening_gets_double_wood(canvas, bare: Plan) -> None:
    """Past 4 ft the header is double, and so are its trimmers (IRC R502.10)."""
    hand = canvas(bare)
    hand.view.set_tool("heading_off")
    hand.drag((20.0, 40.0), (90.0, 70.0))
    (opening,) = document_of(hand).plan.floor_openings
    assert (opening.headers, opening.trimmers) == (2, 2)


def test_an_opening_without_width_is_refused(canvas, bare: Plan) -> None:
    hand = canvas(bare)
    hand.view.set_tool("heading_off")
    hand.click((40.0, 40.0))
    hand.click((40.0, 70.0))
    assert document_of(hand).plan == bare


def test_a_beam_is_drawn_by_its_line_and_pulled_by_its_ends(canvas, bare: Plan) -> None:
    hand = canvas(bare)
    hand.view.set_tool("beam")
    hand.drag((0.0, 54.0), (120.0, 54.0))
    document = document_of(hand)
    (beam,) = document.plan.beams
    assert {beam.start[1], beam.end[1]} == {54.0}
    assert document.undo_label == "draw beam b1"
    longer = pulled(document.plan, grips(beam)[1], (132.0, 54.0)).beams[0]
    assert longer.end == (132.0, 54.0)
    assert len(lay_out(document.plan).joists[0].supports) == 3


def test_an_opening_is_pulled_by_its_corners(bare: Plan) -> None:
    plan = edits.add_new(bare, FloorOpening, start=(33.0, 40.0), end=(63.0, 70.0))
    (opening,) = plan.floor_openings
    across = pulled(plan, grips(opening)[1], (20.0, 30.0)).floor_openings[0]
    assert (across.start, across.end) == ((20.0, 30.0), (33.0, 40.0))


def test_the_outline_is_drawn_corner_after_corner_and_the_joists_follow(canvas, bare: Plan) -> None:
    hand = canvas(bare)
    hand.view.set_tool("outline")
    for corner in ((0.0, 0.0), (120.0, 0.0), (120.0, 60.0), (64.0, 60.0), (64.0, 108.0), (0.0, 108.0)):
        hand.click(corner, Qt.KeyboardModifier.AltModifier)
    hand.key(Qt.Key.Key_Return)
    document = document_of(hand)
    assert len(document.plan.floor.outline) == 6
    (field,) = document.plan.fields
    assert field.to_outline
    assert document.undo_label == "draw the floor's outline"
    assert min(joist.length for joist in lay_out(document.plan).joists if joist.kind == "common") < 60.0
    document.undo()
    assert document.plan == bare


def test_an_outline_that_crosses_itself_is_refused(canvas, bare: Plan, qtbot) -> None:
    hand = canvas(bare)
    hand.view.set_tool("outline")
    for corner in ((0.0, 0.0), (100.0, 100.0), (100.0, 10.0), (40.0, 100.0)):
        hand.click(corner, Qt.KeyboardModifier.AltModifier)
    with qtbot.waitSignal(hand.view.hint_changed, check_params_cb=lambda text: "sides that don't meet" in text):
        hand.key(Qt.Key.Key_Return)
    assert document_of(hand).plan == bare


def test_backspace_takes_the_last_corner_back(canvas, bare: Plan) -> None:
    hand = canvas(bare)
    hand.view.set_tool("outline")
    for corner in ((0.0, 0.0), (100.0, 0.0), (50.0, 50.0)):
        hand.click(corner, Qt.KeyboardModifier.AltModifier)
    hand.key(Qt.Key.Key_Backspace)
    hand.click((100.0, 90.0), Qt.KeyboardModifier.AltModifier)
    hand.key(Qt.Key.Key_Return)
    corners = document_of(hand).plan.floor.outline
    assert [(round(x), round(y)) for x, y in corners] == [(0, 0), (100, 0), (100, 90)]


def test_the_joists_on_the_canvas_follow_an_opening(canvas, bare: Plan) -> None:
    hand = canvas(bare)
    before = hand.view.scene().area_of("j1")
    plan = edits.add_new(bare, FloorOpening, start=(33.0, 40.0), end=(63.0, 70.0))
    document_of(hand).commit(plan, "head off")
    assert "o1" in hand.view.scene().pictured()
    words = [tag.text for tag in hand.view.scene()._pictures["j1"].tags]
    assert "j1.3a" in words
    assert hand.view.scene().area_of("j1") == before


def test_they_are_told_in_words(bare: Plan) -> None:
    plan = edits.add_new(bare, FloorOpening, start=(33.0, 40.0), end=(63.0, 70.0), name="hatch way")
    plan = edits.add_new(plan, Beam, start=(0.0, 54.0), end=(120.0, 54.0), material="steel", bearing=False)
    assert tell(plan, plan.floor_openings[0]) == "Hatch way o1: 2'-6\" by 2'-6\" clear, single headers, single trimmers"
    assert tell(plan, plan.beams[0]) == "Beam b1: steel, 10'-0\", 4 1/2 in wide and 9 1/4 in deep"


class TestWriting:
    @pytest.mark.parametrize(
        ("text", "value"),
        [
            ("3", (DoubledJoist(3),)),
            ("3; 5 west; 7 x3", (DoubledJoist(3), DoubledJoist(5, side="west or south"), DoubledJoist(7, plies=3))),
            ("", ()),
        ],
    )
    def test_doubled_joists(self, text: str, value: tuple[DoubledJoist, ...]) -> None:
        assert DOUBLED.read(text) == value
        assert DOUBLED.say(value) == text

    def test_measured_joists(self) -> None:
        assert MEASURED.read('3 is 9 3/4"') == (MeasuredJoist(3, 9.75),)
        assert MEASURED.say((MeasuredJoist(3, 9.75),)) == '3 is 9 3/4"'

    def test_layers_from_the_lowest_up(self) -> None:
        layers = (FloorLayer(0.71875, "plywood"), FloorLayer(0.25, "backer board"))
        assert LAYERS.read('23/32" plywood + 1/4" backer board') == layers
        assert LAYERS.read(LAYERS.say(layers)) == layers
        assert LAYERS.read("0") == ()

    @pytest.mark.parametrize(("writing", "text"), [(DOUBLED, "west 3"), (MEASURED, "3"), (LAYERS, "tile")])
    def test_what_says_nothing_is_told(self, writing, text: str) -> None:
        with pytest.raises(ValueError, match="write its"):
            writing.read(text)


def test_a_field_cut_off_at_the_outline_is_hit_only_on_the_floor(canvas, bare: Plan) -> None:
    ell = ((0.0, 0.0), (120.0, 0.0), (120.0, 60.0), (64.0, 60.0), (64.0, 108.0), (0.0, 108.0))
    hand = canvas(edits.set_outline(bare, ell))
    area = hand.view.scene().area_of("j1")
    assert area.contains(to_scene((30.0, 90.0)))
    assert not area.contains(to_scene((100.0, 90.0)))


class TestTheOutlineByItsTool:
    def test_it_catches_the_floors_corners_not_the_walls_line(self, canvas) -> None:
        """Pressed a little off each corner: the walls' ends at 1-3/4 in are not what is meant."""
        hand = canvas(new_floor(120.0, 108.0))
        hand.view.set_tool("outline")
        for corner in ((0.6, 1.2), (119.2, 1.0), (119.5, 60.4), (64.2, 60.3), (64.3, 107.2), (0.5, 107.6)):
            hand.click(corner)
        hand.key(Qt.Key.Key_Return)
        document = document_of(hand)
        assert document.plan.floor.outline == (
            (0.0, 0.0),
            (120.0, 0.0),
            (120.0, 60.0),
            (64.0, 60.0),
            (64.0, 108.0),
            (0.0, 108.0),
        )
        assert len(document.plan.walls) == 6
        document.undo()
        assert document.plan == new_floor(120.0, 108.0)

    def test_the_last_corner_comes_out_square_with_the_first(self, canvas, bare: Plan) -> None:
        hand = canvas(bare)
        hand.view.set_tool("outline")
        hand.click((20.0, 20.0), Qt.KeyboardModifier.AltModifier)
        first = document_of(hand)
        hand.click((90.0, 20.0))
        hand.click((90.0, 80.0))
        hand.click((20.7, 80.6))
        hand.key(Qt.Key.Key_Return)
        corners = first.plan.floor.outline
        assert (corners[3][0], corners[3][1]) == (corners[0][0], corners[2][1])

    def test_what_became_of_the_walls_is_told(self, canvas, qtbot) -> None:
        hand = canvas(new_floor(120.0, 108.0))
        hand.view.set_tool("outline")
        for corner in ((0.0, 0.0), (120.0, 0.0), (120.0, 60.0), (64.0, 60.0), (64.0, 108.0), (0.0, 108.0)):
            hand.click(corner)
        told = "Walls w2 and w3 moved along the new outline; walls w5 and w6 drawn along its new sides."
        with qtbot.waitSignal(hand.view.hint_changed, check_params_cb=lambda text: text == told):
            hand.key(Qt.Key.Key_Return)

    @pytest.mark.parametrize(
        ("end", "told"), [((120.0, 2.0), "2 in"), ((120.0, 0.0), ""), ((84.0, 84.0), ""), ((60.0, 30.0), "")]
    )
    def test_a_side_out_of_square_is_marked(self, end: tuple[float, float], told: str) -> None:
        assert out_of_square((0.0, 0.0), end) == told


def test_a_wall_drawn_along_the_edge_stands_flush_with_it_as_an_outside_wall(canvas, bare: Plan) -> None:
    hand = canvas(bare)
    hand.view.set_tool("wall")
    hand.drag((0.2, 0.3), (119.8, 0.2))
    (wall,) = document_of(hand).plan.walls
    assert (wall.start, wall.end, wall.exterior) == ((0.0, 1.75), (120.0, 1.75), True)


def test_a_wall_drawn_inside_is_none(canvas, bare: Plan) -> None:
    hand = canvas(bare)
    hand.view.set_tool("wall")
    hand.drag((20.0, 50.0), (100.0, 50.0))
    (wall,) = document_of(hand).plan.walls
    assert not wall.exterior


class TestTheOutlineThatIsThere:
    def test_a_side_is_pulled_out_square_and_its_wall_goes_along(self, canvas) -> None:
        hand = canvas(new_floor(120.0, 108.0))
        hand.view.set_tool("outline")
        hand.press((120.0, 54.0))
        hand.move((125.0, 55.0))
        hand.move((128.0, 57.0))
        hand.release((128.0, 57.0))
        document = document_of(hand)
        assert document.plan.floor.outline == ((0.0, 0.0), (128.0, 0.0), (128.0, 108.0), (0.0, 108.0))
        east = next(wall for wall in document.plan.walls if wall.id == "w2")
        assert (east.start, east.end) == ((126.25, 3.5), (126.25, 104.5))
        assert document.plan.fields[0].size == (128.0, 108.0)
        document.undo()
        assert document.plan == new_floor(120.0, 108.0)

    def test_a_corner_is_pulled_and_the_skew_is_marked(self, canvas, bare: Plan) -> None:
        hand = canvas(bare)
        hand.view.set_tool("outline")
        hand.press((120.0, 108.0))
        hand.move((118.0, 108.0))
        hand.move((116.0, 108.0))
        said = [mark.text for mark in hand.view.scene().sketches.marks if isinstance(mark, Words)]
        assert said == ["4 in out of square"]
        hand.release((116.0, 108.0))
        assert document_of(hand).plan.floor.outline[2] == (116.0, 108.0)

    def test_escape_leaves_it_as_it_was(self, canvas, bare: Plan) -> None:
        hand = canvas(bare)
        hand.view.set_tool("outline")
        hand.press((120.0, 54.0))
        hand.move((128.0, 54.0))
        hand.key(Qt.Key.Key_Escape)
        hand.release((128.0, 54.0))
        assert document_of(hand).plan == bare

    def test_a_click_on_a_corner_begins_a_new_one_there(self, canvas, bare: Plan) -> None:
        hand = canvas(bare)
        hand.view.set_tool("outline")
        for corner in ((0.0, 0.0), (120.0, 0.0), (120.0, 60.0)):
            hand.click(corner)
        hand.key(Qt.Key.Key_Return)
        assert document_of(hand).plan.floor.outline == ((0.0, 0.0), (120.0, 0.0), (120.0, 60.0))
