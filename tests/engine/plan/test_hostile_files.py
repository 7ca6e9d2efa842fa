"""Files that are broken, foreign or meant ill: one sentence with the place, nothing else."""

from __future__ import annotations

import os
import time
from pathlib import Path
from typing import Any

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.plan.explain import faults
from engine.plan.file import PlanFileError, dumps, loads, read
from engine.plan.limits import MOST_BYTES
from engine.plan.records import Plan
from engine.plan.schema import plan_schema

SAMPLE = (Path(__file__).parent / "versions" / "v1.jway").read_text(encoding="utf-8")
FLOOR = '"floor": {"outline": [[0, 0], [96, 0], [96, 108]]}'


def envelope(plan: str) -> bytes:
    return f'{{"format": "joistway-plan", "version": 1, "plan": {{{plan}}}}}'.encode()


def swapped(old: str, new: str) -> bytes:
    assert old in SAMPLE
    return SAMPLE.replace(old, new, 1).encode()


def floor_with(more: str) -> bytes:
    return envelope(f"{FLOOR}, {more}")


HOSTILE: dict[str, tuple[bytes, str, str]] = {
    "empty": (b"", "", "empty"),
    "spaces": (b" \n\t ", "", "empty"),
    "nothing but a byte order mark": (b"\xef\xbb\xbf", "", "empty"),
    "cut short": (SAMPLE[:700].encode(), "line 19", "cut short"),
    "cut short by a letter": (SAMPLE.rstrip()[:-1].encode(), "line", "cut short"),
    "no UTF-8": (b'{"format": "joistway-plan\xff"}', "", "UTF-8"),
    "another encoding": (SAMPLE.encode("utf-16"), "", "UTF-8"),
    "a picture": (b"\x89PNG\r\n\x1a\n" + bytes(100), "", "UTF-8"),
    "plain words": (b"dear diary", "line 1, column 1", "expected a value"),
    "a list": (b"[1, 2]", "", "no Joistway plan"),
    "a number": (b"7", "", "no Joistway plan"),
    "null": (b"null", "", "no Joistway plan"),
    "foreign": (b'{"type": "FeatureCollection", "features": []}', "format", "no Joistway plan"),
    "format of another kind": (b'{"format": ["joistway-plan"], "version": 1}', "format", "a list of 1"),
    "newer": (swapped('"version": 1', '"version": 2'), "version", "newer program"),
    "far newer": (swapped('"version": 1', f'"version": 1{"0" * 30}'), "version", "newer program"),
    "newer and of another shape": (b'{"format": "joistway-plan", "version": 9, "sheets": []}', "version", "newer"),
    "version missing": (b'{"format": "joistway-plan", "plan": {}}', "version", "missing"),
    "version zero": (swapped('"version": 1', '"version": 0'), "version", "whole number from 1"),
    "version true": (swapped('"version": 1', '"version": true'), "version", "found true"),
    "version as text": (swapped('"version": 1', '"version": "1"'), "version", 'found "1"'),
    "version a fraction": (swapped('"version": 1', '"version": 1.5'), "version", "found 1.5"),
    "plan missing": (b'{"format": "joistway-plan", "version": 1}', "plan", "missing"),
    "plan a list": (b'{"format": "joistway-plan", "version": 1, "plan": []}', "plan", "an empty list"),
    "a field beside the plan": (swapped('"plan":', '"extra": 1, "plan":'), "", 'no field "extra"'),
    "written by a number": (swapped('"written_by": "0.1.0"', '"written_by": 3'), "written_by", "text"),
    "floor missing": (envelope('"name": "x"'), "", 'field "floor", which is missing'),
    "not a number": (swapped("[36, 20]", "[36, NaN]"), "drains[0].points[2]", "found NaN"),
    "infinite": (swapped("[36, 20]", "[36, -Infinity]"), "drains[0].points[2]", "-Infinity"),
    "infinite by its exponent": (swapped("[36, 20]", "[36, 1e999]"), "drains[0].points[2]", "1e999"),
    "infinite by its digits": (swapped("[36, 20]", "[36, " + "9" * 5000 + "]"), "drains[0].points[2]", "finite"),
    "not a number in an amendment": (swapped('"becomes": false', '"becomes": NaN'), "amendments[0].becomes", "NaN"),
    "far away": (swapped("[36, 20]", "[36, 1e300]"), "drains[0].points[2]", "y to be a number from -12000 to 12000"),
    "far by a whole number": (swapped("[36, 20]", "[36, 99999999999999999999]"), "drains[0].points[2]", "12000"),
    "text for a number": (swapped("[36, 20]", '[36, "20"]'), "drains[0].points[2]", "y to be a number from -12000"),
    "true for a number": (swapped("[36, 20]", "[true, 20]"), "drains[0].points[2]", "found true"),
    "null for a point": (swapped("[36, 20]", "null"), "drains[0].points[2]", "[x, y], found null"),
    "a point of three": (swapped("[36, 20]", "[36, 20, 0]"), "drains[0].points[2]", "[x, y], found a list of 3"),
    "a point as an object": (swapped("[36, 20]", '{"x": 36}'), "drains[0].points[2]", "found an object"),
    "a run of one point": (floor_with('"drains": [{"id": "d1", "points": [[1, 2]]}]'), "drains[0].points", "2 to 400"),
    "a field size": (swapped('[96.5, 108], "lumber"', '[96.5, 1], "lumber"'), "fields[0].size", "length to be"),
    "a collection as an object": (floor_with('"drains": {}'), "drains", "expected a list, found an object"),
    "a drain as text": (floor_with('"drains": ["d1"]'), "drains[0]", "expected an object"),
    "a size that is none": (swapped('"size": "3"', '"size": "5"'), "drains[0].size", 'found "5"'),
    "a size as a number": (swapped('"size": "3"', '"size": 3'), "drains[0].size", "found 3"),
    "an unknown kind": (swapped('"lavatory"', '"fountain"'), "fixtures[1].kind", "one of"),
    "a misspelt field": (swapped('"passing"', '"passng"'), "drains[1]", 'did you mean "passing"'),
    "an unknown field": (swapped('"passing"', '"colour"'), "drains[1]", "it has id, points, size"),
    "a whole number that is none": (swapped('"number": 2', '"number": 2.5'), "fields[0].shifts[0].number", "whole"),
    "a joist number below nothing": (swapped('"number": 2', '"number": -1'), "fields[0].shifts[0].number", "0 to 2000"),
    "an id of nothing": (swapped('"id": "d1"', '"id": ""'), "drains[0].id", "an id of 1 to 40"),
    "an id with a space": (swapped('"id": "d1"', '"id": "d 1"'), "drains[0].id", "letters, digits"),
    "an id with a line break": (swapped('"id": "d1"', '"id": "d1\\n"'), "drains[0].id", "letters, digits"),
    "an id of 41 letters": (swapped('"id": "d1"', f'"id": "{"d" * 41}"'), "drains[0].id", "1 to 40"),
    "a text too long": (swapped("Elm hollow", "x" * 2001), "place", "at most 2000 letters"),
    "one id twice": (swapped('"id": "r1"', '"id": "d1"'), "risers[0].id", 'found "d1", which drains[0] has'),
    "a wall that isn't there": (swapped('"wall": "w1"', '"wall": "w9"'), "risers[0].wall", 'found "w9"'),
    "a wall that is a drain": (swapped('"wall": "w1"', '"wall": "d1"'), "risers[0].wall", 'found "d1"'),
    "a point twice running": (swapped("[36, 62], [36, 20]", "[36, 20], [36, 20]"), "drains[0].points[2]", "another"),
    "twice once rounded": (swapped("[36, 62], [36, 20]", "[36, 20.0001], [36, 20]"), "drains[0].points[2]", "another"),
    "a wall of no length": (swapped("[96.5, 106.25]", "[0, 106.25]"), "walls[0].end", "another point"),
    "a flat floor": (envelope('"floor": {"outline": [[0, 0], [50, 0], [90, 0]]}'), "floor.outline", "square foot"),
    "a crossed floor": (
        envelope('"floor": {"outline": [[0, 0], [90, 90], [90, 0], [0, 60]]}'),
        "floor.outline[2]",
        "sides that don't meet",
    ),
    "a closed outline": (
        envelope('"floor": {"outline": [[0, 0], [90, 0], [90, 90], [0, 0]]}'),
        "floor.outline[3]",
        "without repeating",
    ),
    "a key twice": (swapped('"size": "3"', '"size": "3", "size": "4"'), "drains[0]", 'found "size" twice'),
    "a key twice in the envelope": (swapped('"plan":', '"written_by": "", "plan":'), "", '"written_by" twice'),
    "a key twice in the plan": (floor_with('"name": "a", "name": "b"'), "plan", '"name" twice'),
    "one amendment twice": (
        floor_with('"amendments": [{"value": "a", "becomes": 1}, {"value": "a", "becomes": 2}]'),
        "amendments[1].value",
        "found a again",
    ),
    "one stick twice": (
        floor_with('"sticks": [{"size": "3", "length": 120}, {"size": "3", "length": 120.0, "price": 9}]'),
        "sticks[1].length",
        "found 3 in stick of 120 in again",
    ),
    "one thing on hand twice": (
        floor_with('"on_hand": [{"part": "cement"}, {"part": "wye", "size": "2"}, {"part": "cement", "count": 2}]'),
        "on_hand[2].part",
        "found cement again",
    ),
    "a cleanout at no point": (floor_with('"cleanouts": [{"id": "k1"}]'), "cleanouts[0]", 'field "at", which is'),
    "a cleanout of another's id": (
        floor_with('"exits": [{"id": "a", "at": [1, 2]}], "cleanouts": [{"id": "a", "at": [1, 2]}]'),
        "cleanouts[0].id",
        "which exits[0] has",
    ),
    "a stick of no pipe's length": (
        floor_with('"sticks": [{"size": "3", "length": 0}]'),
        "sticks[0].length",
        "from 6 to 480",
    ),
    "a price below nothing": (
        floor_with('"sticks": [{"size": "3", "length": 120, "price": -1}]'),
        "sticks[0].price",
        "from 0 to 100000",
    ),
    "half a thing on hand": (floor_with('"on_hand": [{"part": "wye", "count": 0.5}]'), "on_hand[0].count", "whole"),
    "spares past all measure": (floor_with('"spares": 10'), "spares", "from 0 to 2"),
    "half a letter": (swapped("Elm hollow", "Elm \\ud800"), "place", "half of a letter"),
    "half a letter as a field": (floor_with('"\\udfff": 1'), "plan", "surrogate"),
    "a raw line break": (swapped("Elm hollow", "Elm\nhollow"), "line", "control characters"),
    "a comma too many": (swapped('"size": "3"}', '"size": "3",}'), "line", "expected"),
    "words after the end": ((SAMPLE + "x").encode(), "line", "nothing more"),
    "a comment": (swapped('"plan":', '// mine\n"plan":'), "line", "double quotes"),
    "nested deeply": (b"[" * 1_000_000, "", "no Joistway plan"),
    "nested deeply inside": (floor_with('"drains": ' + "[" * 100_000 + "]" * 100_000), "", "nested"),
    "nested objects": (b'{"a":' * 200_000, "", "nested"),
    "nested somewhat": (floor_with('"drains": ' + "[" * 200 + "]" * 200), "drains[0]", "expected an object"),
    "too big": (b" " * (MOST_BYTES + 1), "", "at most 20 MB"),
    "a million points": (
        floor_with('"drains": [{"id": "d1", "points": [' + "[1, 2], " * 999_999 + "[3, 4]]}]"),
        "drains[0].points",
        "found 1000000",
    ),
    "a hundred thousand points and more": (
        floor_with(
            '"drains": ['
            + ", ".join(
                f'{{"id": "d{n}", "points": [{", ".join(f"[{k}, {n}]" for k in range(400))}]}}' for n in range(251)
            )
            + "]"
        ),
        "",
        "at most 100000 points",
    ),
    "sixty thousand exits": (
        floor_with('"exits": [' + ", ".join(f'{{"id": "x{n}", "at": [1, 2]}}' for n in range(60_000)) + "]"),
        "",
        "at most 50000 drawn things",
    ),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_each_is_refused_in_one_sentence(name: str) -> None:
    raw, where, what = HOSTILE[name]
    began = time.monotonic()
    with pytest.raises(PlanFileError) as caught:
        loads(raw)
    assert time.monotonic() - began < 20
    assert caught.value.where.startswith(where)
    assert bool(caught.value.where) == bool(where)
    assert what in caught.value.what
    assert "\n" not in str(caught.value)
    assert len(str(caught.value)) < 400
    assert str(caught.value) == (f"{caught.value.where}: {caught.value.what}" if where else caught.value.what)


def test_the_sample_itself_is_sound() -> None:
    assert dumps(loads(SAMPLE.encode())).decode() == SAMPLE


def test_reading_touches_nothing(tmp_path: Path) -> None:
    for number, (raw, _, _) in enumerate(HOSTILE.values()):
        if len(raw) > 100_000:
            continue
        path = tmp_path / f"{number}.jway"
        path.write_bytes(raw)
        before = path.stat()
        with pytest.raises(PlanFileError):
            read(path)
        after = path.stat()
        assert (after.st_mtime_ns, after.st_size, after.st_mode) == (before.st_mtime_ns, before.st_size, before.st_mode)
        assert path.read_bytes() == raw
    assert not [entry for entry in tmp_path.iterdir() if entry.suffix != ".jway"]


def test_what_is_no_file(tmp_path: Path) -> None:
    for path, what in ((tmp_path, "ordinary file"), (tmp_path / "none.jway", "no such file"), ("a\0b", "path")):
        with pytest.raises(PlanFileError, match=what):
            read(path)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes on this system")
def test_a_named_pipe_does_not_hang(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.jway")
    with pytest.raises(PlanFileError, match="ordinary file"):
        read(tmp_path / "pipe.jway")


@given(st.binary(max_size=200))
@settings(deadline=None)
def test_any_bytes_are_a_plan_or_refused(raw: bytes) -> None:
    with pytest.raises(PlanFileError):
        loads(raw)


@given(st.integers(0, len(SAMPLE) - 1), st.sampled_from(["", "]", "}", '"', "-", "9", "\\", "null", ",", "e9"]))
@settings(deadline=None, max_examples=400)
def test_a_plan_with_one_letter_changed_is_read_or_refused(at: int, letter: str) -> None:
    try:
        plan = loads((SAMPLE[:at] + letter + SAMPLE[at + 1 :]).encode())
    except PlanFileError as fault:
        assert fault.what
    else:
        assert loads(dumps(plan)) == plan


JSON = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-99, 99999)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=4), inner, max_size=3),
    max_leaves=6,
)


@given(st.data())
@settings(deadline=None, max_examples=400)
def test_the_explanation_finds_a_fault_where_the_records_do(data: st.DataObject) -> None:
    plan = msgspec.json.decode(SAMPLE)["plan"]
    holder, key = plan, "name"
    for _ in range(data.draw(st.integers(1, 4))):
        keys: list[Any] = list(holder) if isinstance(holder, dict) else list(range(len(holder)))
        key = data.draw(st.sampled_from(keys))
        if not isinstance(holder[key], (dict, list)) or not holder[key]:
            break
        inner = holder[key]
        if data.draw(st.booleans()):
            break
        holder = inner
        key = data.draw(st.sampled_from(list(holder) if isinstance(holder, dict) else list(range(len(holder)))))
    holder[key] = data.draw(JSON)
    found = list(faults(plan, plan_schema()))
    try:
        msgspec.convert(plan, Plan)
    except msgspec.ValidationError:
        assert found
        with pytest.raises(PlanFileError) as caught:
            loads(msgspec.json.encode({"format": "joistway-plan", "version": 1, "plan": plan}))
        assert caught.value.what.startswith("expected")
    else:
        assert not found
