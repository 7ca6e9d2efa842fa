"""For every trap what vents it, how far that is, how far it may be, and by which section."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace

from engine.plan.file import read
from engine.plan.records import Riser, Vent
from engine.study import study
from engine.takeoff.vent_rows import VentRow, vent_row, vent_rows
from tests.engine.checks.judged_plans import armed

SAMPLES = Path(__file__).resolve().parents[3] / "samples"


def rows(name: str, book: str = "irc-2021") -> dict[str, VentRow]:
    plan = replace(read(SAMPLES / f"{name}.jway"), rulebook=book)
    return {row.fixture: row for row in vent_rows(study(plan).model)}


def test_the_two_books_answer_beside_each_other() -> None:
    """A washer's 2 in trap: IRC 2021 Table P3105.1 8 ft, UPC 2021 Table 1002.2 5 ft."""
    for book, limit, section in (
        ("irc-2021", 96.0, "IRC 2021 Table P3105.1"),
        ("upc-2021", 60.0, "UPC 2021 Table 1002.2"),
    ):
        washer = rows("cottage-with-kitchen", book)["wm1"]
        assert (washer.state, washer.distance, washer.limit) == ("vented", 8.0, limit)
        assert washer.limit_section == section


def test_what_is_wrong_is_said_in_a_sentence() -> None:
    found = rows("cottage-with-mistakes")
    assert found["sh1"].state == "not vented"
    assert found["sh1"].how == "No air reaches the place where its drain meets another pipe."
    assert (found["bt1"].state, found["bt1"].limit) == ("too far", 72.0)


def test_a_closet_by_the_residential_code_may_be_any_way_off() -> None:
    """IRC 2021 P3105.1 exception."""
    closet = rows("cottage-with-kitchen")["wc1"]
    assert closet.limit is None
    assert closet.limit_section.startswith("IRC 2021 P3105.1")


def test_the_air_is_followed_to_where_it_goes_out() -> None:
    plan = armed("kitchen_sink", 12.0)
    capped = replace(
        plan,
        risers=(replace(plan.risers[0], top="none"), Riser("r2", (300.0, 240.0))),
        vents=(Vent("v1", ((240.0, 240.0), (300.0, 240.0)), above_floor=48.0),),
    )
    row = vent_row(study(capped).model, "f1")
    assert row is not None
    assert row.air == "by r2 out through the roof"
    valve = replace(plan, risers=(replace(plan.risers[0], top="valve"),))
    row = vent_row(study(valve).model, "f1")
    assert row is not None and row.air == "to an air admittance valve"


@pytest.mark.parametrize("fixture", ["r1", "w1", "nothing"])
def test_what_has_no_trap_has_no_row(fixture: str) -> None:
    assert vent_row(study(read(SAMPLES / "one-bath-cottage.jway")).model, fixture) is None
