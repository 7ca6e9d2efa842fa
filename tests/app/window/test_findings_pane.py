"""The findings pane: grouped and counted, jumps to the place, and says aloud when there is nothing to stop for."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt

from app.panels.verdict import WEIGHTS, Entry, count, entries, in_words
from app.workplace import Workplace
from engine.plan.edits import add_ruling, set_plan
from engine.plan.file import read
from engine.plan.records import Plan, Ruling

SAMPLES = Path(__file__).resolve().parents[3] / "samples"


@pytest.fixture
def faulty() -> Plan:
    return read(SAMPLES / "cottage-with-mistakes.jway")


@pytest.fixture
def sound() -> Plan:
    return read(SAMPLES / "one-bath-cottage.jway")


def studied(make_work, qtbot, plan: Plan) -> Workplace:
    work: Workplace = make_work(plan)
    qtbot.waitUntil(lambda: work.document.studied, timeout=20_000)
    return work


def test_every_finding_is_listed_under_its_weight(make_work, qtbot, faulty: Plan) -> None:
    work = studied(make_work, qtbot, faulty)
    study, tree = work.document.study, work.findings.tree
    listed = {group.name: [one.key for row in group.rows for one in (row.rows or (row,))] for group in tree.rows.groups}
    for weight in ("stop", "look", "note"):
        wanted = [(f.rule, f.at) for f in study.findings if f.weight == weight]
        assert sorted((entry.rule, entry.at) for entry in listed.get(weight, [])) == sorted(wanted)
    assert len(listed.get("not judged", [])) == len(study.not_judged)
    assert [group.title for group in tree.rows.groups] == [
        f"{WEIGHTS[name]} ({len(rows)})" for name, rows in listed.items()
    ]


def test_choosing_a_finding_goes_to_its_place_and_selects_its_things(make_work, qtbot, faulty: Plan) -> None:
    work = studied(make_work, qtbot, faulty)
    tree = work.findings.tree
    entry = next(entry for entry in entries(work.document.study) if entry.weight == "stop" and entry.elements)
    index = tree.rows.places((entry,))[0]
    tree.scrollTo(index)
    with qtbot.waitSignal(work.findings.place_wanted) as asked:
        qtbot.mouseClick(tree.viewport(), Qt.MouseButton.LeftButton, pos=tree.visualRect(index).center())
    assert asked.args == [entry.at[:2]]
    assert work.document.selection == frozenset(entry.elements) & work.document.elements.keys()


def test_a_place_in_sight_leaves_the_view_as_it_is_and_another_is_brought_there(make_work, qtbot, faulty: Plan) -> None:
    work = studied(make_work, qtbot, faulty)
    entry = next(entry for entry in entries(work.document.study) if entry.weight == "stop" and entry.elements)
    scale, centre = work.view.scale_now, work.view.mapToScene(work.view.viewport().rect().center())
    work.findings.go_to(entry)
    assert work.view.scale_now == scale
    assert work.view.mapToScene(work.view.viewport().rect().center()) == centre
    assert work.view.scene().sketches.snapped == (entry.at[:2], "here")
    work.view.zoom_by(6.0)
    work.view.scroll_by(QPoint(-3000, -3000))
    work.findings.go_to(entry)
    middle = work.view.mapToScene(work.view.viewport().rect().center())
    assert abs(middle.x() - entry.at[0]) < 2.0
    assert abs(middle.y() + entry.at[1]) < 2.0


def test_choosing_something_else_unlights_the_finding(make_work, qtbot, faulty: Plan) -> None:
    work = studied(make_work, qtbot, faulty)
    entry = next(entry for entry in entries(work.document.study) if entry.rule == "runs-uphill")
    work.findings.go_to(entry)
    assert work.findings.tree.selected == (entry,)
    work.document.select(["w1"])
    assert work.findings.tree.selected == ()
    assert "Choose a finding" in work.findings.card.sentence


def test_findings_of_one_rule_on_one_run_share_a_row_that_opens(make_work, qtbot, faulty: Plan) -> None:
    """The sample's d7 is a 3 in drain bored through six joists: IRC 2021 R502.8.1."""
    work = studied(make_work, qtbot, faulty)
    tree = work.findings.tree
    row = next(row for group in tree.rows.groups for row in group.rows if row.text.startswith("Bore too large"))
    assert row.text == "Bore too large: d7 through 6 joists"
    assert len(row.rows) == 6
    assert len({one.text for one in row.rows}) == 6
    assert all(one.text.startswith("f1.") for one in row.rows)
    place = tree.rows.places((row.key,))[0]
    assert not tree.isExpanded(place)
    tree.scrollTo(place)
    qtbot.mouseClick(tree.viewport(), Qt.MouseButton.LeftButton, pos=tree.visualRect(place).center())
    assert work.document.selection == {"d7"}
    assert "5 more" in work.findings.card.told["More"]
    qtbot.keyClick(tree, Qt.Key.Key_Right)
    assert tree.isExpanded(place)
    inner = tree.rows.places((row.rows[2].key,))[0]
    tree.scrollTo(inner)
    qtbot.mouseClick(tree.viewport(), Qt.MouseButton.LeftButton, pos=tree.visualRect(inner).center())
    assert work.findings.card.sentence == row.rows[2].key.text
    work.commands["next_finding"].trigger()
    assert tree.selected == (row.rows[3].key,)
    work.document.commit(set_plan(faulty, name="Renamed"), "rename")
    qtbot.waitUntil(lambda: work.document.studied, timeout=20_000)
    assert tree.isExpanded(tree.rows.places((row.key,))[0]), "an open row stays open"


def test_stepping_into_a_closed_row_opens_it(make_work, qtbot, faulty: Plan) -> None:
    work = studied(make_work, qtbot, faulty)
    tree = work.findings.tree
    row = next(row for group in tree.rows.groups for row in group.rows if row.text.startswith("Notch too deep"))
    work.findings.go_to(row.rows[1].key)
    assert tree.isExpanded(tree.rows.places((row.key,))[0])
    assert tree.selected == (row.rows[1].key,)


def test_the_card_tells_measure_limit_section_and_mend(make_work, qtbot, faulty: Plan) -> None:
    work = studied(make_work, qtbot, faulty)
    entry = next(e for e in entries(work.document.study) if e.measured is not None and e.limit is not None and e.mend)
    work.findings.go_to(entry)
    told = work.findings.card.told
    assert told["According to"] == entry.cites
    assert told["Mend"] == entry.mend
    assert "limit" in told["Measured"]
    assert work.findings.card.sentence == entry.text


def test_a_ruling_stands_beside_its_finding(make_work, qtbot, faulty: Plan) -> None:
    work = studied(make_work, qtbot, faulty)
    entry = next(e for e in entries(work.document.study) if e.weight == "stop" and e.elements)
    ruled = add_ruling(faulty, Ruling(entry.elements[0], "May stay <as it is>.", "county office", "May"))
    work.document.commit(ruled, "write a ruling")
    qtbot.waitUntil(lambda: work.document.studied, timeout=20_000)
    work.findings.go_to(entry)
    assert work.findings.card.told["Ruling"] == "May stay <as it is>. (county office, May)"


def test_keys_step_through_the_findings_round_the_end(make_work, qtbot, faulty: Plan) -> None:
    work = studied(make_work, qtbot, faulty)
    rows = [row for group in work.findings.tree.rows.groups for row in group.rows]
    listed = [one.key for row in rows for one in (row.rows or (row,))]
    assert len(listed) == len(entries(work.document.study))
    work.commands["next_finding"].trigger()
    assert work.findings.tree.selected == (listed[0],)
    work.commands["last_finding"].trigger()
    assert work.findings.tree.selected == (listed[-1],)
    work.commands["next_finding"].trigger()
    assert work.findings.tree.selected == (listed[0],)


def test_a_chosen_finding_stays_chosen_when_the_plan_is_studied_anew(make_work, qtbot, faulty: Plan) -> None:
    work = studied(make_work, qtbot, faulty)
    entry = entries(work.document.study)[3]
    work.findings.go_to(entry)
    work.document.commit(set_plan(faulty, name="Renamed"), "rename")
    qtbot.waitUntil(lambda: work.document.studied, timeout=20_000)
    assert work.findings.tree.selected == (entry,)


def test_nothing_to_stop_for_says_how_much_was_looked_at(make_work, qtbot, sound: Plan) -> None:
    work = studied(make_work, qtbot, sound)
    told = count(work.document.study)
    assert [f for f in work.document.study.findings if f.weight == "stop"] == []
    assert "Nothing to stop for" in work.findings.said
    assert f"{told.looked_at} things looked at" in work.findings.said
    assert told.looked_at == told.holds + told.broken + told.not_judged > 50


def test_an_empty_floor_claims_nothing(make_work, qtbot) -> None:
    work = studied(make_work, qtbot, None)
    assert (
        "Nothing is drawn yet that a rule could judge." in work.findings.said
        or count(work.document.study).looked_at > 0
    )
    if count(work.document.study).looked_at == 0:
        assert "Nothing to stop for" not in work.findings.said


def test_numbers_are_told_in_words(make_work, qtbot, faulty: Plan) -> None:
    work = studied(make_work, qtbot, faulty)
    told = count(work.document.study)
    assert in_words(work.document.study).startswith(f"{told.looked_at} things looked at under ")


def test_a_rule_reads_as_words() -> None:
    entry = Entry("stop", "bore-too-wide", (), (0.0, 0.0, 0.0), "", None, None, "", "", "")
    assert entry.title == "Bore too wide"
