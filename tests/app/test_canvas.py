"""The view and its scene: zoom, places, layers, keys of the selection, marks of the answers, texts."""

from __future__ import annotations

import math
from itertools import combinations, pairwise

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication, QLineEdit

from app.canvas.answers import spots
from app.canvas.ground import pitches
from app.canvas.lettering import upright
from app.canvas.picture import LAYERS
from app.canvas.places import to_plan, to_scene
from engine.checks.records import Finding
from engine.plan import edits
from engine.plan.records import Fixture, Plan, Wall

SHIFT = Qt.KeyboardModifier.ShiftModifier


def document_of(hand):
    return hand.view.tool.desk.document


def wheel(view, at: QPoint, turned: int) -> None:
    place = QPointF(at)
    event = QWheelEvent(
        place,
        view.viewport().mapToGlobal(place),
        QPoint(),
        QPoint(0, turned),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(view.viewport(), event)


# coordinates and zoom ----------------------------------------------------------------------------------------------


def test_north_is_up_and_the_flip_is_its_own_way_back(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    assert hand.pixel((60.0, 100.0)).y() < hand.pixel((60.0, 10.0)).y()
    assert to_plan(to_scene((12.5, -7.25))) == (12.5, -7.25)


def test_the_whole_floor_is_in_sight_at_first_and_again_on_demand(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    port = hand.view.viewport().rect()
    corners = cottage.floor.outline
    assert all(port.contains(hand.pixel(corner)) for corner in corners)
    hand.view.zoom_by(5.0)
    assert not all(port.contains(hand.pixel(corner)) for corner in corners)
    hand.type("f")
    assert all(port.contains(hand.pixel(corner)) for corner in corners)


def test_the_wheel_zooms_about_the_pointer(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    before, spot = hand.view.scale_now, hand.pixel((100.0, 30.0))
    wheel(hand.view, spot, 240)
    assert hand.view.scale_now > before * 1.2
    held = to_plan(hand.view.mapToScene(spot))
    assert math.dist(held, (100.0, 30.0)) < 1.0


def test_zoom_stays_in_bounds(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    for _ in range(200):
        hand.view.zoom_by(1.3)
    nearest = hand.view.scale_now
    for _ in range(400):
        hand.view.zoom_by(0.7)
    assert 50.0 < nearest < 200.0
    assert 0.05 < hand.view.scale_now < 1.0


def test_a_place_is_brought_to_the_middle_and_pointed_out_for_a_moment(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    hand.view.show_place((10.0, 100.0))
    middle = hand.view.viewport().rect().center()
    assert (hand.pixel((10.0, 100.0)) - middle).manhattanLength() < 6
    assert hand.view.scene().sketches.snapped == ((10.0, 100.0), "here")
    qtbot.waitUntil(lambda: hand.view.scene().sketches.snapped is None)


def test_the_middle_button_and_space_take_the_sheet_in_hand(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    hand.view.zoom_by(3.0)
    under = to_plan(hand.view.mapToScene(QPoint(400, 400)))
    hand.view.set_tool("wall")
    hand.press(under, button=Qt.MouseButton.MiddleButton)
    hand.move((under[0] + 10.0, under[1]), button=Qt.MouseButton.MiddleButton)
    moved = to_plan(hand.view.mapToScene(QPoint(400, 400)))
    hand.release(under, button=Qt.MouseButton.MiddleButton)
    assert moved[0] < under[0] - 5.0
    assert document_of(hand).plan is cottage
    assert hand.view.tool_name == "wall"


@pytest.mark.parametrize(("scale", "fine"), [(20.0, 1.0), (4.0, 6.0), (1.0, 12.0), (0.3, 48.0), (0.05, 48.0)])
def test_the_grid_grows_coarser_as_the_view_goes_away(scale: float, fine: float) -> None:
    assert pitches(scale)[0] == fine


def test_the_scale_bar_stands_for_a_length_that_fits(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    for factor in (1.0, 4.0, 4.0, 0.01):
        hand.view.zoom_by(factor)
        bar = hand.view.scale_bar
        assert 20.0 < bar.length() * hand.view.scale_now <= 150.0


# layers ------------------------------------------------------------------------------------------------------------


def test_every_layer_hides_and_shows_again(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    qtbot.waitUntil(lambda: document_of(hand).studied)
    whole = hand.view.grab().toImage()
    for name in LAYERS:
        hand.view.set_layer_visible(name, False)
        if name not in ("heights", "vents", "water"):
            assert hand.view.grab().toImage() != whole, name
        hand.view.set_layer_visible(name, True)
        assert hand.view.grab().toImage() == whole, name
    with pytest.raises(KeyError, match="no layer is called 'ducts'"):
        hand.view.set_layer_visible("ducts", False)


def test_what_is_hidden_is_not_hit_and_stays_hidden_when_drawn_anew(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    hand.view.set_layer_visible("drains", False)
    hand.click((36.0, 40.0))
    assert document_of(hand).selection == {"j1"}
    document_of(hand).commit(edits.set_field(cottage, "d1", "size", "4"), "size")
    hand.click((36.0, 40.0))
    hand.click((-20.0, -20.0))
    hand.click((36.0, 40.0))
    assert document_of(hand).selection == {"j1"}


def test_a_fixtures_body_follows_the_thickness_of_its_wall(canvas, cottage: Plan) -> None:
    """A 2x6's face lies 1 in farther out than a 2x4's: 5.5 / 2 less 3.5 / 2 (worked by hand)."""
    hand = canvas(cottage)
    scene = hand.view.scene()
    before = scene.area_of("f2").boundingRect().left()
    document_of(hand).commit(edits.set_field(cottage, "w2", "lumber", "2x6"), "thicken")
    assert scene.area_of("f2").boundingRect().left() == pytest.approx(before - 1.0)


# keys of the selection ---------------------------------------------------------------------------------------------


def test_tab_walks_everything_in_reading_order_and_then_leaves(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    seen = []
    for _ in range(len(document.elements)):
        hand.key(Qt.Key.Key_Tab)
        seen.append(next(iter(document.selection)))
    assert set(seen) == set(document.elements)
    assert seen.index("w1") < seen.index("f1") < seen.index("x1")
    hand.key(Qt.Key.Key_Tab)
    assert document.selection == frozenset()
    hand.view.setFocus()
    hand.key(Qt.Key.Key_Backtab, SHIFT)
    assert document.selection == {seen[-1]}


def test_arrows_nudge_by_an_inch_or_a_sixteenth_as_one_step(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    document.select(["x1"])
    for _ in range(3):
        hand.key(Qt.Key.Key_Up)
    hand.key(Qt.Key.Key_Left, SHIFT)
    assert document.element("x1").at == (36.0 - 1.0 / 16.0, 23.0)
    assert document.element("d1").points[-1] == document.element("x1").at
    document.undo()
    assert document.plan is cottage


def test_t_turns_a_fixture_about_its_outlet(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    document.select(["f1"])
    hand.type("t")
    assert (document.element("f1").turn, document.element("f1").at) == (0.0, (36.0, 92.0))
    hand.key(Qt.Key.Key_T, SHIFT)
    assert document.element("f1").turn == 270.0


def test_delete_takes_the_selection_out_as_one_step(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    document.select(["d1", "d2"])
    hand.key(Qt.Key.Key_Delete)
    assert document.plan.drains == ()
    assert document.undo_label == "delete 2 things"
    assert document.selection == frozenset()
    document.undo()
    assert document.plan is cottage


def test_enter_asks_for_the_properties_of_a_single_thing(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    document_of(hand).select(["f1"])
    with qtbot.waitSignal(hand.view.edit_requested) as asked:
        hand.key(Qt.Key.Key_Return)
    assert asked.args == ["f1"]


def test_letters_do_not_steal_from_a_text_field(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    field = QLineEdit()
    qtbot.addWidget(field)
    qtbot.keyClicks(field, "wall t d")
    assert field.text() == "wall t d"
    assert hand.view.tool_name == "choose"


def test_the_canvas_tells_what_was_picked_and_follows_the_selection(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    with qtbot.waitSignal(hand.view.picked) as told:
        hand.click((36.0, 20.0))
    assert told.args == [frozenset({"x1"})]
    document_of(hand).select(["d2"])
    assert hand.view.scene().outlined() == {"d2"}


# answers -----------------------------------------------------------------------------------------------------------


def test_every_cut_has_its_mark_and_a_bad_one_another(canvas, cottage: Plan, qtbot) -> None:
    """A 3 in drain is wider than a third of a 2x8 (IRC 2021 R502.8.1), a 1-1/2 in one is not wider than a 2x10's."""
    hand = canvas(cottage)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    answers = hand.view.scene().answers
    assert answers.shown("crossings") == len(document.study.model.cuts) == 2
    assert all(cut.legal for cut in document.study.model.cuts)
    whole = hand.view.grab().toImage()
    small = edits.set_field(cottage, "j1", "lumber", "2x8")
    document.commit(edits.set_field(small, "d2", "size", "3"), "shallower")
    qtbot.waitUntil(lambda: document.studied)
    assert [cut.legal for cut in document.study.model.cuts] == [False, False]
    assert hand.view.grab().toImage() != whole


def test_findings_are_marked_and_a_click_on_the_mark_picks_their_elements(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(replace(cottage, exits=()))
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    answers = hand.view.scene().answers
    assert answers.shown("findings") == len(answers.spots) > 0
    spot = answers.spots[0]
    mark = to_plan(hand.view.mapToScene(hand.pixel(spot.at) + QPoint(13, -13)))
    hand.click(mark)
    wanted = {name for finding in spot.findings for name in finding.elements} & set(document.elements)
    assert document.selection == wanted


def finding(at: tuple[float, float, float], weight: str) -> Finding:
    return Finding("a-rule", weight, at, (), None, None, "", "text", "common practice", "")  # type: ignore[arg-type]


def test_findings_at_one_place_share_a_mark_of_the_heaviest_weight() -> None:
    found = spots(
        [finding((0.0, 0.0, 0.0), "note"), finding((0.2, 0.0, -5.0), "stop"), finding((9.0, 0.0, 0.0), "look")]
    )
    assert [(spot.at, spot.weight, len(spot.findings)) for spot in found] == [
        ((0.0, 0.0), "stop", 2),
        ((9.0, 0.0), "look", 1),
    ]


def test_a_selected_run_shows_its_heights_and_slope(canvas, cottage: Plan, qtbot) -> None:
    """The run falls 1/4 in per ft; each end's height is that of the study, to the nearest sixteenth."""
    hand = canvas(cottage)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    assert not any(text.endswith("down") for text in hand.view.scene().lettering.shown())
    document.select(["d2"])
    shown = hand.view.scene().lettering.shown()
    assert "1/4 in per ft" in shown
    heights = document.study.model.heights
    from app.canvas.heights import down
    from engine.piping.records import UNDER, Node

    for point in document.element("d2").points:
        assert down(heights[Node(*point, UNDER)]) in shown


# texts -------------------------------------------------------------------------------------------------------------


def test_texts_never_overlap_each_other_nor_the_pipe_they_name(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    for factor in (1.0, 1.6, 1.6, 0.3):
        hand.view.zoom_by(factor)
        boxes = hand.view.scene().lettering.boxes()
        for (name, a), (other, b) in combinations(boxes, 2):
            overlap = a.intersected(b)
            assert overlap.width() < 3.0 or overlap.height() < 3.0, (name, other)
        for key, area in ((f"SAN {drain.size}", document.element(drain.id).points) for drain in cottage.drains):
            for name, box in boxes:
                if name == key:
                    scaled = [QPointF(x * hand.view.scale_now, -y * hand.view.scale_now) for x, y in area]
                    assert not any(_crosses(box, a, b) for a, b in pairwise(scaled)), name


def _crosses(box, a: QPointF, b: QPointF) -> bool:
    return any(box.contains(a + (b - a) * (k / 200.0)) for k in range(201))


@pytest.mark.parametrize(
    ("heading", "read"), [(0, 0), (90, 90), (-90, 90), (180, 0), (135, -45), (-45, -45), (270, 90)]
)
def test_texts_are_read_without_turning_ones_head(heading: float, read: float) -> None:
    assert upright(heading) == pytest.approx(read)


def test_user_text_is_shown_as_typed(canvas, cottage: Plan) -> None:
    odd = "<b>&amp; \u202e wall"
    hand = canvas(edits.set_field(cottage, "w1", "name", odd))
    assert odd in hand.view.scene().lettering.shown()


# endings -----------------------------------------------------------------------------------------------------------


def test_letting_go_in_mid_drag_leaves_no_item_and_no_proposal(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    hand.click((36.0, 20.0))
    hand.press((36.0, 20.0))
    hand.move((36.0, 10.0))
    scene = hand.view.scene()
    hand.view.let_go()
    assert scene.items() == []
    assert document.plan is cottage
    document.commit(edits.add_new(cottage, Wall, start=(0.0, 50.0), end=(60.0, 50.0)), "later")
    assert scene.items() == []
    hand.view.let_go()


def test_every_kind_of_fixture_is_drawn(canvas, bare: Plan) -> None:
    from engine.trade.fixtures import KINDS

    plan = bare
    for k, kind in enumerate(KINDS):
        plan = edits.add_new(plan, Fixture, kind=kind, at=(20.0 + 10.0 * k, 20.0 + 12.0 * k), turn=45.0 * k)
    hand = canvas(plan)
    assert hand.view.scene().pictured() == set(document_of(hand).elements)
    hand.view.grab()


def test_many_texts_are_set_when_things_rest(canvas, cottage: Plan, qtbot, monkeypatch) -> None:
    from app.canvas import scene

    hand = canvas(cottage)
    monkeypatch.setattr(scene, "MANY", 0)
    document_of(hand).commit(edits.set_field(cottage, "w2", "name", "a new name"), "name")
    lettering = hand.view.scene().lettering
    assert "a new name" not in lettering.shown()
    qtbot.waitUntil(lambda: "a new name" in lettering.shown())


def test_lines_keep_their_weight_on_a_sharper_screen(canvas, cottage: Plan) -> None:
    """Cosmetic pens count dots, not pixels: with twice as many they must be twice as wide."""
    from app import palette

    hand = canvas(cottage)
    dots = hand.view.devicePixelRatioF()
    before = palette.line_pen("waste").widthF()
    assert palette.set_density(2.0 * dots)
    try:
        hand.view.scene().redraw()
        assert palette.line_pen("waste").widthF() == 2.0 * before
        assert hand.view.scene().pictured() == set(document_of(hand).elements)
    finally:
        palette.set_density(dots)


def test_the_whole_floor_stays_in_sight_while_the_window_changes_until_one_zooms(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    first = hand.view.scale_now
    hand.view.resize(600, 500)
    assert hand.view.scale_now < first
    hand.view.zoom_by(1.5)
    held = hand.view.scale_now
    hand.view.resize(900, 700)
    assert hand.view.scale_now == held


def test_leaving_the_canvas_takes_a_hovering_fixture_away(canvas, cottage: Plan) -> None:
    from PySide6.QtCore import QEvent

    hand = canvas(cottage)
    hand.view.set_tool("place:shower")
    hand.move((90.0, 40.0), button=Qt.MouseButton.NoButton)
    assert len(document_of(hand).plan.fixtures) == 3
    QApplication.sendEvent(hand.view, QEvent(QEvent.Type.Leave))
    assert document_of(hand).plan is cottage


def test_findings_stay_in_sight_and_in_reach_from_far_away(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(replace(cottage, exits=()))
    document = document_of(hand)
    qtbot.waitUntil(lambda: document.studied)
    hand.view.zoom_by(0.1)
    answers = hand.view.scene().answers
    assert 0.5 < answers.badge_size < 1.0
    spot = max(answers.spots, key=lambda spot: spot.at[0])
    lifted = round(13 * answers.badge_size)
    hand.click(to_plan(hand.view.mapToScene(hand.pixel(spot.at) + QPoint(lifted, -lifted))))
    wanted = {name for finding in spot.findings for name in finding.elements} & set(document.elements)
    assert document.selection == wanted
