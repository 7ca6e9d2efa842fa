"""Typing into the properties: what empty fields show, how lists are typed, and how a refusal is worded."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from app.canvas.wood import bearing_lines
from app.workplace import Workplace
from engine.plan.edits import add_new, set_fields
from engine.plan.records import Beam, DoubledJoist, Floor, FloorOpening, JoistField, JoistShift, Plan, Wall
from tests.app.window.details_by_hand import shown, write


@pytest.fixture
def wood() -> Plan:
    """10 ft by 9 ft of 2x10 at 16 in, whose joists are numbered 0 to 8, with a beam and a wall."""
    return Plan(
        floor=Floor(outline=((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))),
        fields=(JoistField("j1", (0.0, 0.0), (120.0, 108.0)),),
        beams=(Beam("b1", (0.0, 54.0), (120.0, 54.0)),),
        walls=(Wall("w1", (10.0, 50.0), (58.0, 50.0)),),
    )


def line_of(work: Workplace, field: str):
    return work.details.editors[field].line


class TestEmptyFields:
    @pytest.mark.parametrize(
        ("element", "field", "words"),
        [
            ("j1", "shifts", 'such as 3 by 1 1/2"'),
            ("j1", "doubled", "such as 3; 5 west; 7 x3"),
            ("j1", "blocking", "such as 5'; 10'"),
            ("w1", "stud_shifts", 'such as 2 by 1 1/2"'),
            ("w1", "first_stud", "one spacing: 1'-4\""),
            ("w1", "height", "usual: 8'-1 1/8\""),
        ],
    )
    def test_they_show_an_example_or_what_holds(
        self, make_work, wood: Plan, element: str, field: str, words: str
    ) -> None:
        assert line_of(shown(make_work, wood, element), field).placeholderText() == words

    def test_a_beam_says_where_the_joists_underside_is(self, make_work, wood: Plan, qtbot) -> None:
        work = shown(make_work, wood, "b1")
        qtbot.waitUntil(lambda: line_of(work, "top_z").placeholderText() == 'under the joists: 9 1/4"')

    def test_a_species_that_is_not_told_is_no_depth(self, make_work, wood: Plan) -> None:
        box = shown(make_work, wood, "j1").details.editors["species"].box
        assert (box.currentText(), box.toolTip()) == ("not told: span not judged",) * 2

    @pytest.mark.parametrize(("direction", "end"), [("north-south", "west"), ("east-west", "south")])
    def test_tips_say_how_to_type_and_name_the_sides(self, make_work, wood: Plan, direction: str, end: str) -> None:
        work = shown(make_work, set_fields(wood, "j1", direction=direction), "j1")
        said = work.details.editors["doubled"].toolTip()
        assert f"0 is the end joist at the {end}" in said
        assert "inches" not in said


class TestLists:
    def test_a_joist_by_its_name_on_the_plan(self, make_work, qtbot, wood: Plan) -> None:
        work = shown(make_work, wood, "j1")
        write(qtbot, work.details.editors["doubled"], "j1.3; 5 west")
        assert work.document.plan.fields[0].doubled == (DoubledJoist(3), DoubledJoist(5, side="west or south"))
        write(qtbot, work.details.editors["shifts"], 'j1.4 by 1 1/2"')
        assert work.document.plan.fields[0].shifts == (JoistShift(4, 1.5),)

    def test_another_fields_joist_is_refused(self, make_work, qtbot, wood: Plan) -> None:
        work = shown(make_work, wood, "j1")
        write(qtbot, work.details.editors["doubled"], "j2.3")
        assert "doubles no joist" in work.details.editors["doubled"].complaint
        assert work.document.plan is wood

    @pytest.mark.parametrize(
        ("element", "field", "text", "words"),
        [
            ("j1", "doubled", "1; 40", "j1 has joists 0 to 8: no 40"),
            ("j1", "shifts", '9 by 1"', "j1 has joists 0 to 8: no 9"),
            ("j1", "measured", '12 is 9"', "j1 has joists 0 to 8: no 12"),
            ("j1", "blocking", "4'; 15'", "j1 is 9'-0\" long: nothing of it lies at 15'-0\""),
            ("w1", "doubled", "2; 7", "w1 has studs 0 to 3: no 7"),
        ],
    )
    def test_numbers_that_fit_nothing_are_told_at_once(
        self, make_work, qtbot, wood: Plan, element: str, field: str, text: str, words: str
    ) -> None:
        work = shown(make_work, wood, element)
        write(qtbot, work.details.editors[field], text)
        assert work.details.editors[field].complaint == words
        assert work.document.plan is wood

    def test_the_last_joist_is_there(self, make_work, qtbot, wood: Plan) -> None:
        work = shown(make_work, wood, "j1")
        write(qtbot, work.details.editors["doubled"], "8 west")
        assert work.details.editors["doubled"].complaint == ""


class TestRefusals:
    @pytest.mark.parametrize(
        ("element", "field", "text", "words"),
        [
            ("b1", "top_z", "-3", 'expected 0" to 10\'-0" down, found minus 3"'),
            ("j1", "spacing", "9 ft", 'expected 4" to 4\'-0", found 9\'-0"'),
            ("j1", "measured", '3 is 1"', 'expected 2" to 2\'-6", found 1"'),
        ],
    )
    def test_ranges_are_told_as_the_field_is_written(
        self, make_work, qtbot, wood: Plan, element: str, field: str, text: str, words: str
    ) -> None:
        work = shown(make_work, wood, element)
        write(qtbot, work.details.editors[field], text)
        assert work.details.editors[field].complaint == words

    def test_every_line_of_a_refusal_is_to_be_seen(self, make_work, qtbot, wood: Plan) -> None:
        """In a pane as narrow as it goes, the words under the field take the height that they need."""
        work = shown(make_work, wood, "j1")
        editor = work.details.editors["shifts"]
        write(qtbot, editor, "the third one a little to the east")
        qtbot.waitUntil(lambda: editor._fault.isVisible())
        fault = editor._fault
        qtbot.waitUntil(lambda: fault.height() >= fault.heightForWidth(fault.width()))


@pytest.mark.parametrize(("direction", "ends"), [("north-south", ["south", "north"]), ("east-west", ["west", "east"])])
def test_overhangs_are_called_by_the_compass(make_work, wood: Plan, direction: str, ends: list[str]) -> None:
    work = shown(make_work, set_fields(wood, "j1", direction=direction), "j1")
    editor = work.details.editors["overhangs"]
    assert [part.text() for part in editor._parts] == ends
    assert [line.accessibleName() for line in editor.lines] == [f"Overhangs, {end}" for end in ends]


def test_the_line_that_overhanging_joists_bear_on_is_drawn(wood: Plan) -> None:
    """2 ft out at the north end of 9 ft: the outside of the bearing is at 7 ft."""
    (field,) = set_fields(wood, "j1", overhangs=(0.0, 24.0)).fields
    assert bearing_lines(field) == (((0.0, 84.0), (120.0, 84.0)),)


def test_an_openings_measures_are_typed_and_its_south_west_corner_stays(make_work, qtbot, wood: Plan) -> None:
    """Drawn from its south-east corner."""
    work = shown(make_work, add_new(wood, FloorOpening, start=(63.25, 40.0), end=(32.75, 70.0)), "o1")
    editor = work.details.editors["measures"]
    assert [line.text() for line in editor.lines] == ["2'-6 1/2\"", "2'-6\""]
    line = editor.lines[1]
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "4'")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    (opening,) = work.document.plan.floor_openings
    assert (opening.start, opening.end) == ((32.75, 40.0), (63.25, 88.0))
    assert work.document.undo_label == "change measures of o1"
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "0")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert editor.complaint == "expected some width both ways"
