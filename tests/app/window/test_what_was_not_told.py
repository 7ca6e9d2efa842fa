"""What could not be judged, said as such, with the way to the field that would tell it."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from app.dialogs.new_floor import NewFloorDialog
from app.panels.finding_card import BY_HAND
from app.panels.verdict import entries
from app.workplace import Workplace
from engine.plan.records import Exit, Fixture, Floor, JoistField, Plan


@pytest.fixture
def plan() -> Plan:
    """Joists whose species is not told, an exit and a lavatory that no drain joins."""
    return Plan(
        floor=Floor(outline=((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))),
        fields=(JoistField("j1", (0.0, 0.0), (120.0, 108.0)),),
        fixtures=(Fixture("f1", "lavatory", (60.0, 60.0)),),
        exits=(Exit("x1", (36.0, 20.0)),),
    )


@pytest.fixture
def studied(make_work, qtbot, plan: Plan) -> Workplace:
    work: Workplace = make_work(plan)
    work.window.activateWindow()
    qtbot.waitUntil(lambda: work.document.studied, timeout=20_000)
    return work


def test_it_is_no_accusation_and_leads_to_the_field(studied: Workplace, qtbot) -> None:
    entry = next(one for one in entries(studied.document.study) if one.rule == "joist-span-too-long")
    assert entry.title == "Not judged: joist span too long"
    assert entry.text == "Not told: the species of j1's lumber."
    studied.findings.go_to(entry)
    card = studied.findings.card
    assert card.ask.text() == "Go to Species of joists j1"
    qtbot.mouseClick(card.ask, Qt.MouseButton.LeftButton)
    species = studied.details.editors["species"]
    assert studied.document.selection == {"j1"}
    assert QApplication.focusWidget() is species.box
    seen = studied.details._scroll.viewport().rect()
    assert seen.contains(species.mapTo(studied.details._scroll.viewport(), species.rect().center()))


def test_a_finding_has_no_such_button(studied: Workplace) -> None:
    entry = next(one for one in entries(studied.document.study) if one.weight != "not judged")
    studied.findings.go_to(entry)
    assert studied.findings.card.ask.isHidden()


def test_what_no_button_mends_is_said_to_be_told_below(studied: Workplace, qtbot) -> None:
    entry = next(one for one in entries(studied.document.study) if one.mend.startswith("Draw a drain run"))
    studied.findings.go_to(entry)
    card = studied.findings.card
    qtbot.waitUntil(lambda: card.mends.remark == BY_HAND, timeout=20_000)
    assert "Mend" in card.told


def test_an_exit_without_a_drain_is_not_said_to_be_missing(studied: Workplace) -> None:
    assert studied.exit_window.verdict == "No drain reaches exit x1 yet, so no height can be told."


def test_a_new_floor_asks_for_the_species(qtbot) -> None:
    dialog = NewFloorDialog()
    qtbot.addWidget(dialog)
    assert dialog.plan is not None
    assert dialog.plan.fields[0].species is None
    dialog.show()
    dialog.species.setFocus()
    qtbot.keyClicks(dialog.species, "hem")
    assert dialog.plan.fields[0].species == "hem-fir"
