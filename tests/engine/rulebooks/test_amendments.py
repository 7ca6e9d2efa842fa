"""Local amendments to a rule book."""

import pytest

from engine.plan.records import Amendment
from engine.rulebooks import AmendmentError, load

COUNTY = {"said_by": "the county", "on": "2026-03-02"}


def amended(key: str, becomes: float | bool | str) -> tuple[Amendment, ...]:
    return (Amendment(key, becomes, **COUNTY),)


def test_a_number_becomes_another_and_says_who_said_so() -> None:
    book = load("irc-2021", amended("trap_arm.length.2", 60.0))
    value = book.value("trap_arm.length.2")
    assert (value.value, value.was, value.written) == (60.0, 96.0, "60")
    assert value.amended_by is not None
    assert (value.amended_by.said_by, value.amended_by.on) == ("the county", "2026-03-02")
    assert book.cite("trap_arm.length.2") == "IRC 2021 Table P3105.1, amended"
    assert [value.key for value in book.amended()] == ["trap_arm.length.2"]


@pytest.mark.parametrize(
    ("key", "becomes", "value"),
    [
        ("trap_arm.length.2", "5 ft", 60.0),
        ("trap_arm.length.2", "7' 6\"", 90.0),
        ("joist.bore.fraction", "1/4", 0.25),
        ("slope.least.3", "1/4", 0.25),
        ("slope.least.3", 0.25, 0.25),
        ("valve.allowed", False, False),
        ("fitting.sixth_bend.vertical_to_horizontal", "no", "no"),
        ("dfu.washer_standpipe", 3, 3.0),
    ],
)
def test_what_is_typed_is_read_in_the_value_s_unit(key: str, becomes: float | bool | str, value: object) -> None:
    assert load("irc-2021", amended(key, becomes)).value(key).value == value


@pytest.mark.parametrize(
    ("key", "becomes", "why"),
    [
        ("trap_arm.length.5", 60.0, "IRC 2021 has no value of that name"),
        ("trap_arm", 60.0, "no value of that name"),
        ("trap_arm.length.2", "long", "takes a length in inches"),
        ("trap_arm.length.2", True, "True is not a number; it takes a length in inches"),
        ("trap_arm.length.2", -1.0, "from 0 up"),
        ("trap_arm.length.2", float("nan"), "from 0 up"),
        ("trap_arm.length.2", float("inf"), "from 0 up"),
        ("joist.bore.fraction", "a third", "takes a number"),
        ("valve.allowed", 0.0, "takes true or false"),
        ("valve.allowed", "no", "takes true or false"),
        ("fitting.wye.horizontal_to_vertical", "sometimes", "not one of yes, no, a, ab, c"),
        ("fitting.wye.horizontal_to_vertical", 1.0, "takes a word"),
    ],
)
def test_an_amendment_that_cannot_be_is_named(key: str, becomes: float | bool | str, why: str) -> None:
    (amendment,) = amended(key, becomes)
    with pytest.raises(AmendmentError) as caught:
        load("irc-2021", (amendment,))
    assert repr(key) in str(caught.value)
    assert why in str(caught.value)
    assert caught.value.amendment == amendment


def test_the_last_word_holds_and_the_book_s_own_value_is_kept() -> None:
    book = load("irc-2021", (*amended("clearance.front", 24.0), *amended("clearance.front", 30.0)))
    assert (book.value("clearance.front").value, book.value("clearance.front").was) == (30.0, 21.0)


def test_amending_leaves_the_book_on_the_shelf_alone() -> None:
    load("irc-2021", amended("clearance.front", 24.0))
    assert load("irc-2021").number("clearance.front") == 21.0
    assert load("irc-2021").amended() == ()


def test_books_are_read_once() -> None:
    assert load("irc-2021") is load("irc-2021")
    assert load("irc-2021", list(amended("clearance.front", 24.0))) is load(
        "irc-2021", amended("clearance.front", 24.0)
    )
