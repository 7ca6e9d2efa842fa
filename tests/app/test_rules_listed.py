"""`joistway rules`: every rule, in every book, with what it reads there."""

from __future__ import annotations

import json

import pytest

from app.commands.program import main
from engine.checks import ALL_RULES
from engine.checks.listing import in_book, listed
from engine.rulebooks import RuleBook, load, names

RULES = {rule.id: rule for rule in ALL_RULES}


def said(words: list[str], capsys: pytest.CaptureFixture[str]) -> str:
    assert main(["rules", *words]) == 0
    return capsys.readouterr().out


def flat(text: str) -> str:
    return " ".join(text.split())


def test_both_books_stand_by_each_rule(capsys: pytest.CaptureFixture[str]) -> None:
    text = said([], capsys)
    for rule in ALL_RULES:
        assert f"  {rule.id}  ({rule.weight})" in text
    assert text.count("\n    IRC 2021") == text.count("\n    UPC 2021") == len(ALL_RULES)
    assert "this book has no" not in text


def test_the_numbers_stand_beside_their_sections(capsys: pytest.CaptureFixture[str]) -> None:
    """IRC 2021 Table P3105.1 and UPC 2021 Table 1002.2, as printed."""
    text = flat(said([], capsys))
    irc = "farthest from a trap's weir to its vent (1-1/4 in - 60 in, 1-1/2 in - 72 in, 2 in - 96 in, 3 in - 144 in, 4 in - 192 in)"
    upc = "farthest from a trap's weir to its vent (1-1/4 in - 30 in, 1-1/2 in - 42 in, 2 in - 60 in, 3 in - 72 in, 4 in - 120 in)"
    assert f"IRC 2021 Table P3105.1: {irc}" in text
    assert f"UPC 2021 Table 1002.2: {upc}" in text
    assert "UPC 2021 908.2.2 (from memory): least size of a wet vent: 2 in" in text


def test_a_code_without_the_rule_says_why(capsys: pytest.CaptureFixture[str]) -> None:
    text = flat(said([], capsys))
    assert "IRC 2021: this code has no such rule: one vent to the open air is asked for, of no area" in text
    assert "UPC 2021: this code has no such rule: no distance is named: the sewer has a cleanout" in text


def test_one_book_alone(capsys: pytest.CaptureFixture[str]) -> None:
    text = said(["--book", "irc-2021"], capsys)
    assert "UPC 2021" not in text
    assert "IRC 2021 Table P3105.1" in text


def test_for_a_program(capsys: pytest.CaptureFixture[str]) -> None:
    answer = json.loads(said(["--json"], capsys))
    assert [book["name"] for book in answer["books"]] == list(names())
    assert sorted(rule["id"] for rule in answer["rules"]) == sorted(RULES)
    for rule in answer["rules"]:
        assert [inside["book"] for inside in rule["books"]] == list(names())
        for inside in rule["books"]:
            assert inside["judges"] or inside["silent"] or inside["lacking"]
            assert inside["judges"] == bool(inside["sections"])
            for value in inside["values"]:
                assert {"key", "means", "value", "said", "unit", "section", "standing", "needed", "amended"} == set(
                    value
                )
    far = next(rule for rule in answer["rules"] if rule["id"] == "trap-too-far-from-vent")
    two = {inside["book"]: v for inside in far["books"] for v in inside["values"] if v["key"] == "trap_arm.length.2"}
    assert (two["irc-2021"]["value"], two["upc-2021"]["value"]) == (96.0, 60.0)
    assert two["upc-2021"] == {
        "key": "trap_arm.length.2",
        "means": "farthest from a trap's weir to its vent (2 in)",
        "value": 60.0,
        "said": "60 in",
        "unit": "in",
        "section": "UPC 2021 Table 1002.2",
        "standing": "read",
        "needed": True,
        "amended": False,
    }


@pytest.mark.parametrize("rule", ALL_RULES, ids=lambda rule: rule.id)
def test_every_rule_has_a_section_or_a_reason_in_every_book(rule: object) -> None:
    for name in names():
        inside = in_book(rule, load(name))  # type: ignore[arg-type]
        assert (inside.judges and all(section.strip() for section in inside.sections)) or inside.silent


def test_a_book_that_nobody_has_filled_says_what_it_lacks() -> None:
    bare = RuleBook("bare", "A bare book", "Bare", "", {})
    far = next(rule for rule in listed([bare]) if rule.id == "trap-too-far-from-vent")
    (inside,) = far.books
    assert (inside.judges, inside.silent, inside.lacking) == (False, "", "farthest from a trap's weir to its vent")
