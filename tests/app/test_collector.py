"""Dead cycles are collected on the window's thread, and on no other."""

from __future__ import annotations

import gc
import threading
import weakref

from PySide6.QtCore import QObject

from app.collector import Collector


class Ring:
    """Something in a cycle with itself, that tells the thread it is taken apart on."""

    def __init__(self, told: list[threading.Thread]) -> None:
        self.me = self
        self.told = told

    def __del__(self) -> None:
        self.told.append(threading.current_thread())


def test_a_worker_that_allocates_collects_nothing(qapp) -> None:
    owner = QObject()
    collector = Collector(owner)
    told: list[threading.Thread] = []
    Ring(told)
    worker = threading.Thread(target=lambda: [[] for _ in range(20_000)])
    worker.start()
    worker.join()
    assert told == []
    collector.let_go()
    assert gc.isenabled()


def test_what_is_due_is_collected_by_the_timer(qapp, qtbot) -> None:
    owner = QObject()
    collector = Collector(owner)
    told: list[threading.Thread] = []
    Ring(told)
    kept = [[] for _ in range(20_000)]
    qtbot.waitUntil(lambda: bool(told), timeout=5_000)
    assert told == [threading.main_thread()]
    assert kept
    collector.let_go()


def test_it_goes_with_its_owner(qapp) -> None:
    owner = QObject()
    collector = Collector(owner)
    collector.let_go()
    gone = weakref.ref(collector)
    del collector, owner
    gc.collect()
    assert gone() is None
