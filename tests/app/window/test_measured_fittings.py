"""Measured fittings: typed in as fractions, every cut at once, doubts asked, kept in the person's own file, offered again."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt

from app.dialogs.new_floor import NewFloorDialog
from app.gauging.dialog import MeasuredFittingsDialog
from app.gauging.own_file import OwnFittingsFile, own_file
from app.settings import SettingsFile
from app.workplace import Workplace
from engine.plan.own_fittings import OwnFittings, dumps
from engine.plan.records import MeasuredTakeOff, Plan
from engine.study import work_out
from engine.takeoff.cutlist import cut_list

BEND = MeasuredTakeOff("quarter_bend", "3", "run_in", 3.0)


class Measuring:
    """A person at the dialog of one plan."""

    def __init__(self, work: Workplace, qtbot) -> None:
        self.work, self._qtbot = work, qtbot
        work.commands["measured_fittings"].trigger()
        self.dialog = work.window.findChildren(MeasuredFittingsDialog)[-1]

    def choose(self, name: str) -> None:
        (item,) = self.dialog.list.findItems(name, Qt.MatchFlag.MatchStartsWith)
        self.dialog.list.setCurrentItem(item)

    def type(self, letter: str, text: str) -> None:
        field = next(field for field in self.dialog.form.fields if field.leg.letter == letter)
        field.line.setFocus()
        field.line.setText(text)
        field.line.editingFinished.emit()
        self._qtbot.waitUntil(lambda: self.work.document.studied)

    def shown(self, mark: str) -> tuple[str, str]:
        """A piece's length before and now."""
        table = self.dialog.cuts
        rows = {table.item(row, 0).text(): row for row in range(table.rowCount())}
        return table.item(rows[mark], 2).text(), table.item(rows[mark], 3).text()

    def doubt(self, letter: str) -> str:
        field = next(field for field in self.dialog.form.fields if field.leg.letter == letter)
        return "" if field.doubt.isHidden() else field.doubt.text()


@pytest.fixture
def hands(make_work, cottage: Plan, qtbot) -> Measuring:
    return Measuring(make_work(cottage), qtbot)


def cuts(plan: Plan) -> dict[str, float]:
    return {row.mark: row.length for row in cut_list(work_out(plan))}


def test_it_lists_the_fittings_of_the_job_with_their_legs(hands: Measuring) -> None:
    names = [hands.dialog.list.item(row).text().split("\n")[0] for row in range(hands.dialog.list.count())]
    assert {"closet flange 4 x 3", "quarter bend 3", "wye 3x3x1-1/2", "sanitary tee 1-1/2"} <= set(names)
    hands.choose("wye")
    assert [field.leg.letter for field in hands.dialog.form.fields] == ["A", "B", "C"]
    assert hands.dialog.sketch.accessibleDescription().startswith("wye 3x3x1-1/2, from the side: A upstream hub")


def test_every_cut_follows_as_it_is_typed(hands: Measuring) -> None:
    """A 3 in bend 1/16 shorter than 3-1/16: each piece at one is 1/16 longer, the one between two 1/8."""
    hands.choose("quarter bend 3")
    hands.type("A", "3")
    after = cuts(hands.dialog.plan)
    assert hands.dialog.cuts.changed
    for mark in hands.dialog.cuts.changed:
        before, now = hands.shown(mark)
        assert before != now
        assert after[mark] != cuts(hands.work.document.settled)[mark]
    assert hands.work.document.proposing
    assert not hands.work.document.modified


def test_a_face_less_a_socket_is_worked_out(hands: Measuring) -> None:
    hands.choose("quarter bend 3")
    hands.type("A", "4 9/16 - 1 1/2")
    assert [row.length for row in hands.dialog.plan.takeoffs] == [3.0625, 3.0625]
    assert hands.doubt("A") == ""


def test_a_doubtful_measure_is_asked_about_and_stands(hands: Measuring, qtbot) -> None:
    hands.choose("quarter bend 3")
    hands.type("A", "4 9/16")
    assert "Was it taken off the hub's face?" in hands.doubt("A")
    hands.type("A", "1 1/4")
    assert "is less than the 1.75 in" in hands.doubt("A")
    hands.dialog.accept()
    document = hands.work.document
    qtbot.waitUntil(lambda: document.studied)
    assert document.study is not None
    assert any(finding.rule == "take-off-too-short" for finding in document.study.findings)


@pytest.mark.parametrize(("text", "words"), [("long", "is not a length"), ("40ft", "longer than any leg")])
def test_what_is_no_measure_changes_nothing(hands: Measuring, text: str, words: str) -> None:
    hands.choose("quarter bend 3")
    field = hands.dialog.form.fields[0]
    field.line.setText(text)
    field.line.editingFinished.emit()
    assert words in hands.doubt("A")
    assert hands.dialog.plan == hands.work.document.settled


def test_an_emptied_field_takes_the_measure_back(hands: Measuring) -> None:
    hands.choose("quarter bend 3")
    hands.type("A", "3")
    hands.type("A", "")
    assert hands.dialog.plan.takeoffs == ()
    assert hands.dialog.cuts.changed == ()


def test_accepting_is_one_step_and_cancelling_none(hands: Measuring, qtbot) -> None:
    hands.choose("quarter bend 3")
    hands.type("A", "3")
    hands.choose("wye")
    hands.type("C", "3 1/2")
    hands.dialog.accept()
    document = hands.work.document
    assert (document.undo_label, len(document.settled.takeoffs)) == ("measure fittings", 3)
    document.undo()
    assert document.settled.takeoffs == ()
    again = Measuring(hands.work, qtbot)
    again.choose("quarter bend 3")
    again.type("A", "3")
    again.dialog.reject()
    assert not document.proposing
    assert document.plan.takeoffs == ()
    assert not document.can_undo


def test_measures_are_kept_with_the_makers_name_and_offered_again(
    hands: Measuring, settings: SettingsFile, qtbot
) -> None:
    hands.choose("quarter bend 3")
    hands.type("A", "3")
    hands.dialog.maker.setText("blue boxes from the yard")
    hands.dialog.accept()
    kept = own_file(settings).read()
    assert kept.maker == "blue boxes from the yard"
    assert {(row.kind, row.leg, row.length) for row in kept.takeoffs} == {
        ("quarter_bend", "run_in", 3.0),
        ("quarter_bend", "run_out", 3.0),
    }
    hands.work.document.undo()
    again = Measuring(hands.work, qtbot)
    assert again.dialog.maker.text() == "blue boxes from the yard"
    assert not again.dialog.before.isHidden()
    assert again.dialog.plan.takeoffs == ()  # offered, not taken
    qtbot.mouseClick(again.dialog.before, Qt.MouseButton.LeftButton)
    assert len(again.dialog.plan.takeoffs) == 2
    assert again.dialog.before.isHidden()
    again.dialog.reject()


def test_nothing_is_kept_that_is_not_to_be_kept(hands: Measuring, settings: SettingsFile) -> None:
    hands.choose("quarter bend 3")
    hands.type("A", "3")
    hands.dialog.keep.setChecked(False)
    hands.dialog.accept()
    assert not own_file(settings).path.exists()


def test_a_folder_that_refuses_is_told_and_the_plan_can_still_be_used(hands: Measuring, settings: SettingsFile) -> None:
    own_file(settings).path.mkdir(parents=True)
    hands.choose("quarter bend 3")
    hands.type("A", "3")
    hands.dialog.accept()
    assert "can't be kept" in hands.dialog.fault
    assert hands.work.document.settled.takeoffs == ()
    hands.dialog.accept()
    assert len(hands.work.document.settled.takeoffs) == 2


class TestOwnFile:
    """The file itself: missing, hostile, put aside."""

    def test_no_file_is_nothing_measured(self, tmp_path: Path) -> None:
        own = OwnFittingsFile(tmp_path / "fittings.json")
        assert own.read() == OwnFittings()
        assert own.fault == ""

    @pytest.mark.parametrize("raw", [b"", b"\xff\xfe", b"[" * 50_000, b'{"format": "x"}', b" " * 300_000])
    def test_a_hostile_file_is_told_and_put_aside_only_when_something_is_kept(self, tmp_path: Path, raw: bytes) -> None:
        path = tmp_path / "fittings.json"
        path.write_bytes(raw)
        own = OwnFittingsFile(path)
        assert own.read() == OwnFittings()
        assert "can't be used" in own.fault
        assert path.read_bytes() == raw
        own.keep(OwnFittings("mine", (BEND,)))
        assert path.with_suffix(".unreadable.json").read_bytes() == raw
        assert OwnFittingsFile(path).read() == OwnFittings("mine", (BEND,))

    def test_fittings_that_nobody_knows_are_left_out(self, tmp_path: Path) -> None:
        path = tmp_path / "fittings.json"
        odd = MeasuredTakeOff("<img src=x>", "3", "run_in", 3.0)
        path.write_bytes(dumps(OwnFittings("", (odd, BEND))))
        assert OwnFittingsFile(path).read().takeoffs == (BEND,)

    def test_a_file_that_is_a_folder_is_told(self, tmp_path: Path) -> None:
        (tmp_path / "fittings.json").mkdir()
        own = OwnFittingsFile(tmp_path / "fittings.json")
        assert own.read() == OwnFittings()
        assert "can't be read" in own.fault

    def test_the_window_opens_over_a_hostile_file_and_says_so(
        self, make_work, cottage: Plan, settings: SettingsFile, qtbot
    ) -> None:
        path = own_file(settings).path
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(b"not mine")
        hands = Measuring(make_work(cottage), qtbot)
        assert "can't be used" in hands.dialog.fault
        hands.dialog.reject()


class TestNewFloor:
    """A new plan is offered the measures, and takes them over only when they are ticked."""

    def test_nothing_measured_nothing_offered(self, qtbot) -> None:
        dialog = NewFloorDialog(own=OwnFittings())
        qtbot.addWidget(dialog)
        dialog.show()
        assert dialog.fittings.isHidden()

    @pytest.mark.parametrize("ticked", [False, True])
    def test_the_next_plan_starts_from_them_where_ticked(
        self, work: Workplace, settings: SettingsFile, ticked: bool
    ) -> None:
        own_file(settings).keep(OwnFittings("Ash & <b>Sons</b>", (BEND,)))
        work.commands["new"].trigger()
        dialog = work.window.findChildren(NewFloorDialog)[-1]
        assert dialog.fittings.text() == "Start with 1 &measured take-offs on Ash && <b>Sons</b>"
        assert not dialog.fittings.isChecked()
        dialog.fittings.setChecked(ticked)
        dialog.accept()
        assert work.document.settled.takeoffs == ((BEND,) if ticked else ())
