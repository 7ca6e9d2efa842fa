"""The findings pane: grouped and counted, jumps to the place, and says aloud when there is nothing to stop for."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt

from app.panels.verdict import WEIGHTS, Entry, count, entries, in_words
from app.workplace import Workplace
from engine.plan.edits import add_ruling
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
    listed = {group.name: [row.key for row in group.rows] for group in tree.rows.groups}
    for weight in ("stop", "look", "note"):
        wanted = [(f.rule, f.at) for f in study.findings if f.weight == weight]
        assert [(entry.rule, entry.at) for entry in listed.get(weight, [])] == wanted
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
    centre = work.view.mapToScene(work.view.viewport().rect().center())
    assert abs(centre.x() - entry.at[0]) < 60.0


def test_the_card_tells_measure_limit_section_and_mend(make_work, qtbot, faulty: Plan) -> None:
    work = studied(make_work, qtbot, faulty)
    entry = next(e for e in entries(work.document.study) if e.measured is not None and e.limit is not None and e.mend)
    work.findings.go_to(entry)
    told = work.findings.card.told
    assert told["Rests on"] == entry.cites
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
    listed = entries(work.document.study)
    work.commands["next_finding"].trigger()
    assert work.findings.tree.selected == (listed[0],)
    work.commands["last_finding"].trigger()
    assert work.findings.tree.selected == (listed[-1],)
    work.commands["next_finding"].trigger()
    assert work.findings.tree.selected == (listed[0],)


def test_a_chosen_finding_stays_chosen_when_the_plan_is_studied_anew(make_work, qtbot, faulty: Plan) -> None:
    from engine.plan.edits import set_plan

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
