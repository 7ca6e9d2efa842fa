"""The personal file of measured fittings: kept whole, refused in one sentence when it is broken or meant ill."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.plan.own_fittings import MOST_BYTES, OwnFittings, OwnFittingsError, dumps, loads, with_measured
from engine.plan.records import MeasuredTakeOff

BEND = MeasuredTakeOff("quarter_bend", "3", "run_in", 3.0)
WYE = MeasuredTakeOff("wye", "3x3x2", "branch", 3.75)


def text(**fields: Any) -> bytes:
    whole = {"format": "joistway-fittings", "version": 1, "maker": "", "takeoffs": []} | fields
    return json.dumps({name: value for name, value in whole.items() if value is not ...}).encode()


def row(**fields: Any) -> dict[str, Any]:
    return {"kind": "wye", "size": "3", "leg": "branch", "length": 3.75} | fields


def test_what_is_kept_is_read_again() -> None:
    own = OwnFittings("the blue boxes from the yard", (BEND, WYE))
    assert loads(dumps(own)) == own
    assert dumps(loads(dumps(own))) == dumps(own)
    assert loads(b"\xef\xbb\xbf" + dumps(own)) == own


def test_nothing_measured_yet() -> None:
    assert loads(dumps(OwnFittings())) == OwnFittings()
    assert loads(text(maker=..., takeoffs=...)) == OwnFittings()


def test_a_new_measure_replaces_the_old_one_of_its_leg() -> None:
    own = OwnFittings("one maker", (BEND, WYE))
    again = with_measured(own, (MeasuredTakeOff("quarter_bend", "3", "run_in", 3.0625),), "another maker")
    assert again.maker == "another maker"
    assert [entry.length for entry in again.takeoffs] == [3.0625, 3.75]


HOSTILE: dict[str, tuple[bytes, str, str]] = {
    "empty": (b"", "", "whole and sound"),
    "cut short": (text(takeoffs=[row()])[:-9], "", "whole and sound"),
    "no UTF-8": (b'{"format": "\xff"}', "", "UTF-8"),
    "a list": (b"[]", "", "expected an object"),
    "null": (b"null", "", "expected an object"),
    "nested deep": (b"[" * 90_000, "", "whole and sound"),
    "too big": (b" " * (MOST_BYTES + 1), "", "at most 200 kB"),
    "foreign": (b'{"name": "x"}', "format", "no measured fittings"),
    "a plan": (b'{"format": "joistway-plan", "version": 1}', "format", "no measured fittings"),
    "newer": (text(version=2), "version", "another program"),
    "version true": (text(version=True), "version", "another program"),
    "a field beside": (text(run="rm"), "", "no field 'run'"),
    "a field twice": (b'{"format": "joistway-fittings", "format": "x"}', "", "whole and sound"),
    "maker a number": (text(maker=3), "maker", "Expected str"),
    "maker a book": (text(maker="x" * 121), "maker", "length"),
    "take-offs an object": (text(takeoffs={}), "takeoffs", "Expected array"),
    "too many": (text(takeoffs=[row(size=str(n)) for n in range(401)]), "takeoffs", "length"),
    "a leg that is none": (text(takeoffs=[row(leg="side")]), "takeoffs[0].leg", "Invalid enum"),
    "a length as text": (text(takeoffs=[row(length="3")]), "takeoffs[0].length", "Expected float"),
    "a length too long": (text(takeoffs=[row(length=400)]), "takeoffs[0].length", "Expected float"),
    "not a number": (text(takeoffs=[row(length=float("nan"))]), "takeoffs[0].length", "whole and sound"),
    "endless": (text(takeoffs=[row(length=float("inf"))]), "takeoffs[0].length", "whole and sound"),
    "an unknown field": (text(takeoffs=[row(note="x")]), "takeoffs[0]", "unknown field"),
    "a leg twice": (text(takeoffs=[row(), row(length=4)]), "takeoffs[1]", "once"),
    "half a letter": (b'{"format": "joistway-fittings", "version": 1, "maker": "\\ud800"}', "maker", "whole and sound"),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_file_is_refused_with_its_place(name: str) -> None:
    raw, where, what = HOSTILE[name]
    with pytest.raises(OwnFittingsError) as refused:
        loads(raw)
    assert what in refused.value.what
    assert refused.value.where.startswith(where)
    assert len(str(refused.value)) < 200


def test_marks_that_turn_or_control_are_dropped_from_the_makers_name() -> None:
    own = loads(text(maker="blue\u202e boxes\x1b[31m\n <b>of</b> the yard "))
    assert own.maker == "blue boxes [31m <b>of</b> the yard"


@given(st.binary(max_size=300))
def test_any_bytes_are_read_or_refused(raw: bytes) -> None:
    try:
        loads(raw)
    except OwnFittingsError as fault:
        assert fault.what


@given(st.text(max_size=200))
def test_any_name_is_kept_or_refused(maker: str) -> None:
    try:
        raw = dumps(OwnFittings(maker))
    except (OwnFittingsError, UnicodeEncodeError) as fault:
        assert len(maker) > 120 or any("\ud800" <= letter <= "\udfff" for letter in maker), fault
        return
    assert loads(raw).maker.split() == OwnFittings(loads(raw).maker).maker.split()
