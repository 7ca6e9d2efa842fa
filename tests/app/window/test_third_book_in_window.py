"""A third rule book, dropped onto the shelf, is offered wherever the window offers books."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from app.commands.program import main
from app.dialogs.plan_settings import PlanSettingsDialog
from app.dialogs.print_set import PrintSetDialog
from app.workplace import Workplace
from engine.plan.file import read
from tests.engine.rulebooks.three_books import TOWN, third_book

SAMPLE = Path(__file__).resolve().parents[3] / "samples" / "one-bath-cottage.jway"


@pytest.fixture(autouse=True)
def on_the_shelf(tmp_path: Path) -> Iterator[None]:
    folder = tmp_path / "shelf"
    folder.mkdir()
    with third_book(folder):
        yield


@pytest.fixture
def work(make_work) -> Workplace:
    made: Workplace = make_work(read(SAMPLE))
    return made


def test_the_settings_list_it_and_take_it(work: Workplace, qtbot) -> None:
    work.commands["plan_settings"].trigger()
    dialog = work.window.findChildren(PlanSettingsDialog)[-1]
    box = dialog.editors["Plan", "rulebook"].box
    words = [box.itemText(row) for row in range(box.count())]
    assert "Town 2040: Drainage rules of a town that does not exist, 2040" in words
    row = next(row for row, text in enumerate(words) if text.startswith("Town 2040"))
    box.setCurrentIndex(row)
    box.activated.emit(row)
    dialog.amending.finder.words.setText("trap vent 2")
    assert dialog.amending.finder.list.topLevelItem(0).text(1) == "39.375 in"
    dialog.accept()
    assert work.document.plan.rulebook == TOWN
    qtbot.waitUntil(
        lambda: work.document.study is not None and work.document.study.plan.rulebook == TOWN, timeout=10_000
    )
    study = work.document.study
    assert study is not None and study.model.book.short == "Town 2040"
    assert any(case.missing.startswith("the book gives no ") for _, case in study.not_judged)


def test_it_is_offered_beside_and_for_the_sheets(work: Workplace, qtbot) -> None:
    work.commands["other_book"].trigger()
    beside = work.joblists.beside
    assert beside is not None
    qtbot.waitUntil(lambda: beside.idle and beside.comparison is not None, timeout=10_000)
    assert [beside.book.itemData(row) for row in range(beside.book.count())] == [TOWN, "upc-2021"]
    work.commands["print_set"].trigger()
    dialog = work.window.findChildren(PrintSetDialog)[-1]
    assert TOWN in [dialog.beside.itemData(row) for row in range(dialog.beside.count())]
    dialog.reject()


def test_the_command_line_knows_it(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["rules", "--book", TOWN]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "Town 2040 article 6: farthest from a trap's weir to its vent" in said
    assert "this code has no such rule: the town asks for cleanouts at turns alone" in said
    assert "this book has no longest stub of drain that is no dead end" in said
    assert main(["check", str(SAMPLE), "--beside", TOWN]) == 0
    assert "39.375 in by Town 2040 article 6" in " ".join(capsys.readouterr().out.split())
