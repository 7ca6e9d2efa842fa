"""How long the lists of a job take: parts and cuts while one looks, sticks while one waits."""

from __future__ import annotations

import random

import pytest
from timing import best_ms

from app.commands.demo import SAMPLE, samples
from engine.plan.file import read
from engine.plan.records import Plan
from engine.study import work_out
from engine.takeoff.cutlist import cut_list
from engine.takeoff.gauge import gauge
from engine.takeoff.records import Cutting, StockLength
from engine.takeoff.schedules import taken_off
from engine.takeoff.shopping import shopping
from engine.takeoff.sticks import sticks
from engine.takeoff.supports import supports

PARTS_MS = 30.0
STICKS_MS = 2000.0
PIECES = 120


@pytest.fixture(scope="module")
def plan() -> Plan:
    return read(samples() / SAMPLE)


def test_parts_and_cuts_of_the_fuller_sample(plan: Plan, say) -> None:
    def both() -> None:
        model = work_out(plan)
        cut_list(model)
        shopping(model, supports(model))

    spent = best_ms(both, 40)
    say(f"model, parts and cuts of the fuller sample: {spent:.2f} ms (at most {PARTS_MS})")
    assert spent <= PARTS_MS


def test_the_gauge_sheet_and_the_whole_trip(plan: Plan, say) -> None:
    model = work_out(plan)
    say(
        f"gauge {best_ms(lambda: gauge(model), 40):.2f} ms, trip with its sticks {best_ms(lambda: taken_off(model), 10):.1f} ms"
    )


@pytest.mark.parametrize("priced", [False, True])
def test_sticks_for_many_pieces_are_proven(priced: bool, say) -> None:
    draw = random.Random(7)
    cuts = [Cutting(f"D{n}", draw.randint(3 * 16, 60 * 16) / 16.0) for n in range(PIECES)]
    prices = (31.0, 18.5, 11.0, 6.0) if priced else (None,) * 4
    stock = [StockLength(length, price) for length, price in zip((240.0, 120.0, 60.0, 24.0), prices, strict=True)]
    assert sticks(cuts, stock, 0.125, 0.0).cheapest_proven
    spent = best_ms(lambda: sticks(cuts, stock, 0.125, 0.0), 3)
    say(f"sticks for {PIECES} pieces, proven{' by price' if priced else ''}: {spent:.0f} ms (at most {STICKS_MS:.0f})")
    assert spent <= STICKS_MS
