"""The program's own faults: logged, the work kept, told once, and the window goes on."""

from __future__ import annotations

import logging
import sys
import threading
from pathlib import Path

import pytest

from app.errors import LOG_BYTES, LOG_NAME, FaultDesk, log_into
from app.filing import first_floor
from app.workplace import Workplace
from engine.plan.edits import set_plan
from engine.plan.records import Amendment, Plan


class Calls:
    def __init__(self) -> None:
        self.kept = 0
        self.told: list[str] = []

    def keep(self) -> None:
        self.kept += 1

    def tell(self, fault: str, log_path: Path) -> None:
        self.told.append(fault)


@pytest.fixture
def calls() -> Calls:
    return Calls()


@pytest.fixture
def desk(qapp, calls: Calls, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> FaultDesk:
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(threading, "excepthook", threading.excepthook)
    made = FaultDesk(tmp_path / LOG_NAME, calls.keep, calls.tell)
    made.install()
    return made


@pytest.mark.logs_warnings
def test_every_fault_keeps_the_work_and_the_first_is_told(desk: FaultDesk, calls: Calls, caplog) -> None:
    for number in range(3):
        fault = ValueError(f"fault {number}")
        sys.excepthook(ValueError, fault, None)
    assert calls.kept == 3
    assert calls.told == ["ValueError: fault 0"]
    assert [record.levelname for record in caplog.records] == ["CRITICAL"] * 3


def test_the_hooks_are_given_back(desk: FaultDesk) -> None:
    assert sys.excepthook == desk.take
    desk.uninstall()
    assert sys.excepthook is sys.__excepthook__
    assert threading.excepthook is threading.__excepthook__


@pytest.mark.logs_warnings
def test_a_fault_in_a_thread_reaches_the_window(desk: FaultDesk, calls: Calls, qtbot, caplog) -> None:
    worker = threading.Thread(target=lambda: 1 // 0)
    worker.start()
    worker.join()
    qtbot.waitUntil(lambda: len(calls.told) == 1)
    assert calls.told[0].startswith("ZeroDivisionError")


@pytest.mark.logs_warnings
def test_telling_goes_on_when_the_copy_can_not_be_written(qapp, calls: Calls, tmp_path: Path, caplog) -> None:
    def refuse() -> None:
        raise OSError("disk full")

    FaultDesk(tmp_path / LOG_NAME, refuse, calls.tell).report(KeyError("d1"))
    assert calls.told == ["KeyError: 'd1'"]


@pytest.mark.logs_warnings
def test_the_log_says_where_it_happened(tmp_path: Path) -> None:
    path = log_into(tmp_path / "state")
    handler = logging.getLogger().handlers[-1]
    try:
        logging.getLogger("app.errors").critical("a fault", exc_info=ValueError("told"))
    finally:
        logging.getLogger().removeHandler(handler)
        handler.close()
    assert "ValueError: told" in path.read_text(encoding="utf-8")


def test_a_long_log_is_begun_anew(tmp_path: Path) -> None:
    (tmp_path / LOG_NAME).write_bytes(b"x" * (LOG_BYTES + 1))
    log_into(tmp_path)
    handler = logging.getLogger().handlers[-1]
    logging.getLogger().removeHandler(handler)
    handler.close()
    assert (tmp_path / f"{LOG_NAME}.old").stat().st_size == LOG_BYTES + 1


def test_a_study_that_breaks_is_owned_up_to(make_work, qtbot) -> None:
    work: Workplace = make_work()
    faults: list[Exception] = []
    work.faulted.connect(faults.append)
    broken = RuntimeError("the study broke")
    work.document.study_failed.emit(broken)
    assert faults == [broken]


def test_an_amendment_that_fits_no_value_is_the_plans_affair(make_work, qtbot) -> None:
    import msgspec

    plan: Plan = msgspec.structs.replace(first_floor(), amendments=(Amendment("no.such.value", 1.0),))
    work: Workplace = make_work(plan)
    faults: list[Exception] = []
    work.faulted.connect(faults.append)
    qtbot.waitUntil(lambda: "no.such.value" in work.findings.said, timeout=10_000)
    assert faults == []
    work.document.commit(msgspec.structs.replace(plan, amendments=()), "take it away")
    qtbot.waitUntil(lambda: work.document.studied, timeout=10_000)
    assert "no.such.value" not in work.findings.said


@pytest.mark.logs_warnings
def test_the_person_may_close_after_a_fault(work: Workplace, answers, home: Path, monkeypatch) -> None:
    from app.safety import Safety
    from app.settings import state_folder

    answers.close_after_fault = True
    answers.unsaved = "discard"
    safety = Safety(work, state_folder())
    safety.begin(hooks=False)
    work.document.commit(set_plan(work.document.settled, name="Cabin"), "rename")
    work.faulted.emit(RuntimeError("broken"))
    assert answers.faults == ["RuntimeError: broken"]
    assert not work.window.isVisible()
