"""What a rule book borrows from another code, and what it says its own code leaves open."""

import pytest

from engine.plan.records import Amendment
from engine.rulebooks import RuleBook, RuleBookError, load, names
from engine.rulebooks.amending import amend
from engine.rulebooks.reading import read

HAMLET = """
title = "Plumbing bylaw of a hamlet that does not exist"
short = "Hamlet bylaw"
notice = "Made up for a test."

[[borrowed]]
book = "irc-2021"
keys = ["joist.bore", "stud"]
why = "the hamlet speaks of pipe alone"

[unruled]
"valve" = "nobody here has seen one"
"slope.least.4" = "no pipe is so large here"

[[table]]
key = "slope.least"
unit = "in/ft"
section = "chapter 3"
standing = "read"
source = "the hamlet's elders"
[table.rows]
"2" = "3/8"
"""


@pytest.fixture
def hamlet() -> RuleBook:
    return read("hamlet", HAMLET, load)


def test_a_borrowed_value_cites_the_code_that_it_stands_in(hamlet: RuleBook) -> None:
    lender = load("irc-2021")
    assert hamlet.number("joist.bore.edge") == lender.number("joist.bore.edge")
    assert hamlet.cite("joist.bore.edge") == lender.cite("joist.bore.edge") == "IRC 2021 R502.8.1"
    assert hamlet.cite("slope.least.2") == "Hamlet bylaw chapter 3"
    assert hamlet.keys("joist") == lender.keys("joist.bore")
    assert hamlet.value("stud.bearing.notch").note == "the hamlet speaks of pipe alone"


def test_a_borrowed_value_is_amended_like_any_other(hamlet: RuleBook) -> None:
    changed = amend(hamlet, (Amendment("joist.bore.edge", 3.0),))
    assert changed.number("joist.bore.edge") == 3.0
    assert changed.cite("joist.bore.edge") == "IRC 2021 R502.8.1, amended"


def test_silence_is_said_for_a_key_a_group_and_all_under_it(hamlet: RuleBook) -> None:
    assert hamlet.silence("valve") == hamlet.silence("valve.allowed") == "nobody here has seen one"
    assert hamlet.silence("slope.least.4") == "no pipe is so large here"


def test_a_key_that_is_there_or_was_never_looked_up_is_not_silence(hamlet: RuleBook) -> None:
    assert hamlet.silence("slope.least.2") is None
    assert hamlet.silence("slope.least") is None
    assert hamlet.silence("slope.least.3") is None
    assert hamlet.silence("valves") is None


def test_silence_outlives_an_amendment(hamlet: RuleBook) -> None:
    assert amend(hamlet, (Amendment("slope.least.2", 0.5),)).silence("valve.allowed") == "nobody here has seen one"


def test_a_missing_yes_is_no(hamlet: RuleBook) -> None:
    assert not hamlet.says("joist.bore.everywhere")
    assert hamlet.says("joist.bore.middle_allowed")
    with pytest.raises(TypeError, match="not yes or no"):
        hamlet.says("joist.bore.edge")


@pytest.mark.parametrize("name", names())
def test_the_shelf_s_books_are_silent_only_where_they_have_nothing(name: str) -> None:
    book = load(name)
    for key, why in book.unruled.items():
        assert book.silence(key) == why


@pytest.mark.parametrize(
    ("old", "new", "why"),
    [
        ('book = "irc-2021"', 'book = "hamlet"', "borrowed 1: 'hamlet' cannot be borrowed from"),
        ('book = "irc-2021"', 'book = "irc-1776"', "no rule book 'irc-1776'"),
        ('keys = ["joist.bore", "stud"]', "keys = []", "borrowed 1: keys must be a list"),
        ('keys = ["joist.bore", "stud"]', 'keys = ["rafter"]', "irc-2021 has nothing under 'rafter'"),
        ('keys = ["joist.bore", "stud"]', 'keys = ["slope"]', "'slope.least.2' is borrowed, and is the book's own"),
        ('why = "the hamlet speaks of pipe alone"', "", "borrowed 1: it takes book, keys and why"),
        ('"valve" = "nobody here has seen one"', '"valve" = ""', "unruled 'valve' must be words"),
        ('"valve" = ', '"stud" = ', "'stud' is said to be unruled, and the book has it"),
        ('"valve" = ', '"slope.least.2" = ', "'slope.least.2' is said to be unruled, and the book has it"),
    ],
)
def test_a_fault_names_its_place(old: str, new: str, why: str) -> None:
    assert HAMLET.count(old) == 1
    with pytest.raises(RuleBookError, match=why):
        read("hamlet", HAMLET.replace(old, new), load)


def test_nothing_is_borrowed_where_nobody_lends() -> None:
    with pytest.raises(RuleBookError, match="'irc-2021' cannot be borrowed from"):
        read("hamlet", HAMLET)
