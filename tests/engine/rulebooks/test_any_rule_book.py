"""A rule book is only data: the books on the shelf are sound, and one made up here is as good as they."""

import re
from pathlib import Path

import pytest

from engine.plan.records import Amendment, FixtureKind
from engine.rulebooks import NoSuchValueError, RuleBook, RuleBookError, load, names
from engine.rulebooks.amending import amend
from engine.rulebooks.reading import UNITS, read
from engine.trade import fixtures, pipe

VILLAGE = """
title = "Plumbing bylaw of a village that does not exist"
short = "Village bylaw"
notice = "Made up for a test."

[[table]]
key = "slope.least"
unit = "in/ft"
section = "chapter 3"
standing = "read"
source = "the village board"
note = "every size alike"
[table.rows]
"1-1/2" = "3/8"
"3" = { is = 0.375, standing = "conflict", note = "the board's two pages differ" }

[[table]]
key = "trap_arm"
unit = "yes/no"
section = "common practice"
standing = "practice"
source = "common practice, no source"
[table.rows]
closet_limited = true

[[table]]
key = "trap_arm.length"
unit = "in"
section = "chapter 4"
standing = "memory"
source = "an old hand"
[table.rows]
closet = 72
"1-1/2" = { is = 42, section = "chapter 4 note" }

[[table]]
key = "fitting"
unit = "word"
choices = ["yes", "no"]
section = "chapter 5"
standing = "read"
source = "the village board"
[table.rows]
quarter_bend = { horizontal_to_vertical = "no", vertical_to_horizontal = { is = "yes", note = "odd, but so it stands" } }
"""


class TestOnTheShelf:
    """The books that ship."""

    @pytest.mark.parametrize("name", names())
    def test_every_value_has_section_standing_and_source(self, name: str) -> None:
        book = load(name)
        assert len(book) > 100
        section = r"(?:Table )?[PRMN]?\d{3,4}(?:\.\d+)*(?:\(\d\))?"
        for value in book:
            assert value.unit in UNITS
            assert value.section.strip()
            assert len(value.source) >= 8, value.key
            assert value.standing in ("read", "memory", "derived", "conflict", "practice")
            assert re.fullmatch(
                rf"{section}(?:(?:, | )(?:{section}|notes? ?[a-z]?|exception|definitions))*"
                r"|Chapter \d+, definitions|common practice",
                value.section,
            ), (value.key, value.section)

    @pytest.mark.parametrize("name", names())
    def test_a_conflict_says_what_differs_and_memory_says_so(self, name: str) -> None:
        for value in load(name):
            if value.standing == "conflict":
                assert len(value.note.split()) >= 6, value.key
            if value.standing == "memory":
                assert "memory" in value.source, value.key
            if value.standing == "practice":
                assert value.section == "common practice", value.key

    @pytest.mark.parametrize("name", names())
    def test_a_fraction_is_exact(self, name: str) -> None:
        for value in load(name):
            if isinstance(value.value, float) and re.fullmatch(r"\d+/\d+", value.written):
                above, below = value.written.split("/")
                assert value.value == int(above) / int(below)

    @pytest.mark.parametrize("name", names())
    def test_it_knows_every_size_of_drain_and_every_fixture_with_waste(self, name: str) -> None:
        book = load(name)
        for size in map(pipe.label, pipe.DRAIN_SIZES):
            for key in ("slope.least", "trap_arm.length", "load.branch", "load.stack"):
                assert book.has(f"{key}.{size}"), (key, size)
        for kind in fixtures.KINDS:
            spec = fixtures.fixture(kind)
            assert book.has(f"dfu.{kind}") == (spec.outlet != "none")
            assert book.has(f"trap.least.{kind}") == (spec.trap is not None)

    @pytest.mark.parametrize("kind", [kind for kind in fixtures.KINDS if fixtures.fixture(kind).trap])
    def test_no_usual_trap_is_smaller_than_the_code_s_least(self, kind: FixtureKind) -> None:
        usual = fixtures.fixture(kind).trap
        assert usual is not None
        for name in names():
            assert usual >= load(name).number(f"trap.least.{kind}")

    def test_a_file_is_named_for_what_a_plan_calls_it(self) -> None:
        assert "irc-2021" in names()
        assert load("irc-2021").name == "irc-2021"
        assert "no legal advice" in load("irc-2021").notice

    def test_a_book_that_is_not_there_is_named(self) -> None:
        with pytest.raises(RuleBookError, match=r"no rule book 'irc-1776'; there is .*irc-2021"):
            load("irc-1776")
        with pytest.raises(RuleBookError, match="no rule book"):
            load(str(Path("..") / "secret"))


class TestMadeUp:
    """A third book, as data alone."""

    @pytest.fixture
    def village(self) -> RuleBook:
        return read("village", VILLAGE)

    def test_its_values_come_out_as_they_stand(self, village: RuleBook) -> None:
        assert (village.name, village.short, len(village)) == ("village", "Village bylaw", 7)
        assert village.number("slope.least.1-1/2") == 0.375
        assert village.text("slope.least.1-1/2") == "3/8"
        assert village.value("slope.least.3").standing == "conflict"
        assert village.value("slope.least.3").note == "the board's two pages differ"
        assert village.value("slope.least.1-1/2").note == "every size alike"
        assert village.flag("trap_arm.closet_limited") is True
        assert village.text("trap_arm.closet_limited") == "yes"
        assert village.text("fitting.quarter_bend.horizontal_to_vertical") == "no"
        assert village.value("fitting.quarter_bend.vertical_to_horizontal").note == "odd, but so it stands"

    def test_it_cites_its_own_sections(self, village: RuleBook) -> None:
        assert village.cite("trap_arm.length.closet") == "Village bylaw chapter 4"
        assert village.cite("trap_arm.length.1-1/2") == "Village bylaw chapter 4 note"
        assert village.cite("trap_arm.closet_limited") == "common practice"

    def test_keys_by_prefix(self, village: RuleBook) -> None:
        assert village.keys("trap_arm.length") == ("trap_arm.length.closet", "trap_arm.length.1-1/2")
        assert village.keys("trap_arm.len") == ()
        assert len(village.keys("trap_arm")) == 3
        assert len(village.keys()) == 7

    def test_it_is_amended_like_any_other(self, village: RuleBook) -> None:
        changed = amend(village, (Amendment("trap_arm.length.closet", "5ft"),))
        assert changed.number("trap_arm.length.closet") == 60
        assert village.number("trap_arm.length.closet") == 72

    def test_what_it_lacks_is_named(self, village: RuleBook) -> None:
        assert not village.has("dfu.lavatory")
        with pytest.raises(NoSuchValueError, match=r"^Village bylaw has no value called 'dfu.lavatory'$"):
            village.number("dfu.lavatory")

    def test_a_value_is_asked_for_as_what_it_is(self, village: RuleBook) -> None:
        with pytest.raises(TypeError, match="not a number"):
            village.number("trap_arm.closet_limited")
        with pytest.raises(TypeError, match="not a number"):
            village.number("fitting.quarter_bend.horizontal_to_vertical")
        with pytest.raises(TypeError, match="not yes or no"):
            village.flag("slope.least.3")


@pytest.mark.parametrize(
    ("old", "new", "why"),
    [
        ('title = "Pl', "title = Pl", "village: not readable as TOML: .*line 2"),
        ('short = "Village bylaw"', "short = 3", "village: short must be words"),
        ('notice = "Made up for a test."', 'notice = "x"\ncolour = "red"', "unknown field 'colour'"),
        ('unit = "in/ft"', 'unit = "furlong"', r"table 1 \(slope.least\): 'furlong' is no unit"),
        ('unit = "in/ft"\n', "", r"table 1 \(slope.least\): 'unit' is missing"),
        ('source = "an old hand"', 'source = ""', r"table 3 \(trap_arm.length\), row 'closet': source must be words"),
        ('standing = "memory"', 'standing = "hearsay"', "'hearsay' is no standing"),
        ('"1-1/2" = "3/8"', '"1-1/2" = "three"', r"row '1-1/2': 'three' is not a number"),
        ('"1-1/2" = "3/8"', '"1-1/2" = "3/0"', "divides by zero"),
        ('"1-1/2" = "3/8"', '"1-1/2" = -1', "is not a number from 0 up"),
        ('"1-1/2" = "3/8"', '"1-1/2" = nan', "is not a number from 0 up"),
        ('"1-1/2" = "3/8"', '"1-1/2" = true', "True is not a number"),
        ('"1-1/2" = "3/8"', '"1 1/2" = "3/8"', "is no key"),
        ("closet_limited = true", 'closet_limited = "yes"', "'yes' is neither true nor false"),
        ('horizontal_to_vertical = "no"', 'horizontal_to_vertical = "maybe"', "'maybe' is not one of yes, no"),
        ('horizontal_to_vertical = "no"', "horizontal_to_vertical = 3", "3 is not a word"),
        ('{ is = "yes", note', "{ note", r"row 'quarter_bend.vertical_to_horizontal': 'is' is missing"),
        ("{ is = 42, section", "{ is = 42, sectoin", "unknown field 'sectoin'"),
        ('choices = ["yes", "no"]', 'choices = "yes"', "choices must be a list of words"),
        ('note = "every size alike"', 'nota = "every size alike"', "unknown field 'nota'"),
        ("closet = 72", "closet_limited = 72", None),
        ('key = "trap_arm.length"', 'key = "slope.least"', "'slope.least.1-1/2' stands twice"),
        ("[table.rows]\ncloset_limited = true", "[table.rows]", r"table 2 \(trap_arm\): rows must hold"),
    ],
)
def test_a_fault_names_its_place(old: str, new: str, why: str | None) -> None:
    assert VILLAGE.count(old) >= 1
    text = VILLAGE.replace(old, new, 1)
    if why is None:
        assert read("village", text).number("trap_arm.length.closet_limited") == 72
        return
    with pytest.raises(RuleBookError, match=why) as caught:
        read("village", text)
    assert str(caught.value).startswith("village: ")


@pytest.mark.parametrize(
    "text", ['title = "a"\nshort = "b"\nnotice = "c"\n', 'title = "a"\nshort = "b"\nnotice = "c"\ntable = 3\n']
)
def test_an_empty_book_is_none(text: str) -> None:
    with pytest.raises(RuleBookError, match="needs at least one"):
        read("empty", text)
