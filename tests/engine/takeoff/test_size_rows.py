"""Loads and sizes as rows: IRC 2021 Tables P3004.1, P3005.4.1, P3005.4.2 (a kitchen group 2, from an exam page); UPC 2021
Tables 702.1 and 703.2."""

from __future__ import annotations

from pathlib import Path

from msgspec.structs import replace

from engine.plan.file import read
from engine.plan.records import Fixture, Plan
from engine.study import study
from engine.takeoff.schedules import schedules, taken_off
from engine.takeoff.size_rows import SizeRow, drain_rows, unit_rows, vent_size_rows
from tests.engine.checks.judged_plans import model_of
from tests.engine.checks.sized_plans import branch, by, in_wall, single

SAMPLES = Path(__file__).resolve().parents[3] / "samples"


def row(plan: Plan, element: str) -> SizeRow:
    return drain_rows(model_of(plan), element)[-1]


def test_a_fixture_s_units_with_what_counts_in_them() -> None:
    plan = in_wall("kitchen_sink")
    dish = Fixture("dw", "dishwasher", (200.0, 300.0), through="f1", name="dishwasher")
    plan = replace(plan, fixtures=(*plan.fixtures, dish, Fixture("wh", "water_heater", (10.0, 10.0))))
    sink, dishwasher = unit_rows(model_of(plan))
    assert (sink.units, sink.section, sink.known, sink.note) == (
        2,
        "IRC 2021 Table P3004.1",
        "read",
        "takes dishwasher",
    )
    assert (dishwasher.units, dishwasher.trap) == (2, "through kitchen sink f1")
    heads, closet = unit_rows(
        model_of(
            replace(
                plan,
                fixtures=(
                    Fixture("sh", "shower", (100.0, 100.0), heads=3),
                    Fixture("wc", "water_closet", (300.0, 100.0), gallons=3.5),
                ),
            )
        )
    )
    assert (heads.units, heads.note) == (6, "3 heads")
    assert (closet.units, closet.note) == (4, "3.5 gal a flush")


def test_a_dishwasher_through_the_sink_loads_its_drain_as_a_group() -> None:
    plan = in_wall("kitchen_sink")
    dish = Fixture("dw", "dishwasher", (200.0, 300.0), through="f1", name="dishwasher")
    plan = replace(plan, fixtures=(*plan.fixtures, dish))
    assert (row(plan, "d").load, row(plan, "d").told) == (2, "kitchen group 2, in place of 2 + 2 = 4")
    upc = row(by("upc-2021", plan), "d")
    assert (upc.load, upc.told) == (2, "2 + 0 = 2")


def test_both_tables_are_told_of_a_branch_of_the_building_drain() -> None:
    found = row(branch(7, size="3"), "m")
    assert (found.kind, found.most, found.section) == ("branch of the building drain", 42, "IRC 2021 Table P3005.4.2")
    assert found.others == "counted as a branch it may carry 20 by IRC 2021 Table P3005.4.1"
    assert found.least == "3"
    assert found.why == (
        "7 fixture units ask for 3 in where officials count it as a branch "
        "(2-1/2 in would do by the book, and is hard to buy)"
    )


def test_what_sets_the_least_size() -> None:
    assert row(single("shower"), "d").why == "the trap of shower f1 is 2 in"
    assert row(single("water_closet"), "d").why == "a closet drains through it, which asks for 3 in"
    wide = single("bathtub")
    wide = replace(wide, drains=(replace(wide.drains[0], size="3"), wide.drains[1]))
    assert (row(wide, "d").size, row(wide, "d").why) == ("3", "no smaller than a, which flows into it")
    assert row(in_wall("lavatory", trap="1-1/4"), "d").why == "stores stock none smaller than 1-1/2 in"
    sink = by("upc-2021", in_wall("kitchen_sink"))
    assert row(sink, "d").why == "2 fixture units ask for 2 in; past its trap arm kitchen sink f1 asks for 2 in"
    assert drain_rows(model_of(sink), "f1")[0].why == "as large as the trap of kitchen sink f1"


def test_a_drawn_size_is_told_beside_the_least() -> None:
    found = row(single("shower", size="4"), "d")
    assert (found.drawn, found.size, found.least, found.most) == (True, "4", "2", 160)


def test_vents() -> None:
    (vent,) = vent_size_rows(model_of(single("water_closet")), "r1")
    assert (vent.size, vent.why) == ("1-1/2", "1/2 of the drain that it serves, 3 in by the book")
    (vent,) = vent_size_rows(model_of(by("upc-2021", single("water_closet"))), "r1")
    assert (vent.size, vent.most) == ("2", 24)


def test_every_drain_and_vent_of_the_samples_has_a_reason() -> None:
    for path in sorted(SAMPLES.glob("*.jway")):
        for book in ("irc-2021", "upc-2021"):
            model = model_of(by(book, read(path)))
            rows = [*drain_rows(model), *vent_size_rows(model)]
            pipes = {pipe.element for pipe in model.network.pipes}
            assert {one.element for one in rows} == pipes
            assert all(one.why and one.least for one in rows)


def test_the_tables_for_a_spreadsheet() -> None:
    found = study(read(SAMPLES / "cottage-with-kitchen.jway"))
    by_name = {table.name: table for table in schedules(found, taken_off(found.model))}
    assert len(by_name["fixture-units"].rows) == 5
    assert {row[0] for row in by_name["pipe-sizes"].rows} >= {"d1", "d4", "r1", "wc1"}
