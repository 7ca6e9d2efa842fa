"""Each rule declares the values that it reads, so that the list of rules is honest: heard while it judges many plans."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from msgspec.structs import replace

from engine.checks import ALL_RULES
from engine.checks.model import Model
from engine.plan import file
from engine.plan.records import Plan
from engine.rulebooks import HeardBook, load, names
from engine.rulebooks.book import stems
from engine.study import work_out
from tests.engine.checks.vented_plans import column, island_sink, level_branch
from tests.engine.coarse_plans import bathrooms, plans

SAMPLES = Path(__file__).resolve().parents[3] / "samples"
many = settings(
    max_examples=40,
    deadline=None,
    derandomize=True,
    database=None,
    phases=(Phase.generate,),
    suppress_health_check=list(HealthCheck),
)


def undeclared(plan: Plan) -> dict[str, set[str]]:
    """By rule, the keys that it asked for under either book and that it declares neither alone nor by a group."""
    found: dict[str, set[str]] = {}
    for name in names():
        model = work_out(replace(plan, rulebook=name, amendments=()))
        for rule, heard in heard_by_rule(model):
            declared = {*reads_of(rule)}
            beside = {key for key in heard if key and declared.isdisjoint(stems(key))}
            if beside:
                found.setdefault(rule, set()).update(beside)
    return found


def reads_of(rule: str) -> tuple[str, ...]:
    one = next(one for one in ALL_RULES if one.id == rule)
    return (*one.reads, *one.may_read)


def heard_by_rule(model: Model) -> Iterator[tuple[str, frozenset[str]]]:
    """What each rule asks of the book, nothing of it worked out before by another rule."""
    book = HeardBook(model.book)
    model.book = book
    for rule in ALL_RULES:
        if all(book.speaks_of(key) for key in rule.reads):
            model.memo = {}
            book.heard.clear()
            list(rule.judge(model))
            yield rule.id, frozenset(book.heard)


@pytest.mark.parametrize("name", sorted(path.stem for path in SAMPLES.glob("*.jway")))
def test_on_the_samples(name: str) -> None:
    assert undeclared(file.read(SAMPLES / f"{name}.jway")) == {}


@pytest.mark.parametrize(
    "plan",
    [
        column(("lavatory", 32.0), ("kitchen_sink", 18.0), ("lavatory", 6.0)),
        column(("washer_standpipe", 30.0), ("laundry_tub", 18.0)),
        level_branch("shower", "bathtub", "water_closet", "lavatory"),
        level_branch("floor_drain", "floor_drain", "floor_drain", "shower"),
        level_branch("water_closet", "water_closet", top="valve"),
        island_sink(),
        island_sink("laundry_tub", slope=0.75),
    ],
)
def test_on_each_way_of_venting(plan: Plan) -> None:
    assert undeclared(plan) == {}


@many
@given(plans())
def test_on_any_plan(plan: Plan) -> None:
    assert undeclared(plan) == {}


@many
@given(bathrooms())
def test_on_any_bath(plan: Plan) -> None:
    assert undeclared(plan) == {}


def test_a_rule_that_reads_beside_its_words_is_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    mute = {"reads": (), "may_read": ()}
    rules = [replace(rule, **mute) if rule.id == "trap-too-far-from-vent" else rule for rule in ALL_RULES]
    monkeypatch.setitem(globals(), "ALL_RULES", rules)
    found = undeclared(file.read(SAMPLES / "one-bath-cottage.jway"))
    assert "trap_arm.length.2" in found["trap-too-far-from-vent"]


def test_every_value_that_a_rule_declares_is_in_a_book() -> None:
    books = [load(name) for name in names()]
    lost = [key for rule in ALL_RULES for key in reads_of(rule.id) if not any(book.speaks_of(key) for book in books)]
    assert lost == []
