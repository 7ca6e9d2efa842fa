"""A place may refuse a whole way of venting: the book's word decides, not the program's."""

from __future__ import annotations

import pytest

from engine import rulebooks
from engine.piping import network
from engine.piping.records import Trap
from engine.plan.records import Amendment, Plan
from tests.engine.checks.vented_plans import by, column, island_sink, level_branch

TWO = column(("lavatory", 18.0), ("lavatory", 18.0))
THREE = column(("lavatory", 32.0), ("lavatory", 18.0), ("lavatory", 6.0))
SHOWERS = level_branch("shower", "water_closet")
DRAINS = level_branch("floor_drain", "floor_drain", "floor_drain", "shower")

CASES: tuple[tuple[str, Plan, str, str, str], ...] = (
    ("irc-2021", TWO, "f1", "common vent at one level", "common_vent.allowed"),
    ("upc-2021", TWO, "f1", "common vent at one level", "common_vent.allowed"),
    ("irc-2021", THREE, "f3", "vertical wet vent", "vertical_wet_vent.allowed"),
    ("upc-2021", THREE, "f3", "vertical wet vent", "vertical_wet_vent.allowed"),
    ("irc-2021", SHOWERS, "f2", "horizontal wet vent", "wet_vent.allowed"),
    ("upc-2021", SHOWERS, "f2", "horizontal wet vent", "wet_vent.allowed"),
    ("irc-2021", DRAINS, "f4", "circuit vent", "circuit_vent.allowed"),
    ("upc-2021", DRAINS, "f4", "circuit vent", "circuit_vent.allowed"),
    ("irc-2021", island_sink(), "sink", "combination waste and vent", "combination.allowed"),
    ("upc-2021", island_sink(), "sink", "combination waste and vent", "combination.allowed"),
)
"""Book, plan, fixture, its method (IRC 2021 P3107 to P3111; UPC 2021 905.6, 908, 910, 911), and what refuses that."""


def trap(book: str, plan: Plan, fixture: str, *said: Amendment) -> Trap:
    found = network.build(by(book, plan), rulebooks.load(book, said)).traps
    return next(one for one in found if one.fixture == fixture)


@pytest.mark.parametrize(("book", "plan", "fixture", "method", "key"), CASES)
def test_the_code_itself_takes_it(book: str, plan: Plan, fixture: str, method: str, key: str) -> None:
    assert rulebooks.load(book).flag(key)
    assert trap(book, plan, fixture).method == method


@pytest.mark.parametrize(("book", "plan", "fixture", "method", "key"), CASES)
def test_a_place_that_refuses_it(book: str, plan: Plan, fixture: str, method: str, key: str) -> None:
    found = trap(book, plan, fixture, Amendment(key, False, "the county", "2026-03-01"))
    assert found.method != method
    if found.method is None:
        assert found.breaks == key
        assert found.why == f"it would be vented as {method}, which is not accepted"


def test_who_belongs_to_a_bathroom_group_is_the_book_s_to_say() -> None:
    """A bathtub belongs to both codes' groups (IRC 2021 P3108.1): a place that leaves it out lets it share no wet vent."""
    plan = level_branch("shower", "bathtub", "water_closet")
    assert trap("irc-2021", plan, "f2").method == "horizontal wet vent"
    none = Amendment("wet_vent.members.bathtub", 0.0, "the county", "2026-03-01")
    # what remains is the plainer branch of separate fixtures (P3110)
    assert trap("irc-2021", plan, "f2", none).method == "circuit vent"
    no_circuit = Amendment("circuit_vent.allowed", False, "the county", "2026-03-01")
    assert trap("irc-2021", plan, "f2", none, no_circuit).method is None
