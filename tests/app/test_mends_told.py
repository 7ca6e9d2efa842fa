"""Mends on the command line: tried only where asked for, save for an empty exit window, of which they are the point."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from app.commands import demo, main

FAULTY = demo.samples() / "cottage-with-mistakes.jway"
SOUND = demo.samples() / "one-bath-cottage.jway"


@pytest.fixture
def shut() -> Path:
    """A small cottage by the UPC, whose exit window is empty by 0.625 in (worked by hand)."""
    return Path(__file__).resolve().parents[1] / "engine" / "mending" / "shut" / "small-cottage.jway"


def asked(capsys: pytest.CaptureFixture[str], *words: str) -> dict:
    capsys.readouterr()
    assert main(["check", "--json", *words]) in (0, 1)
    return json.loads(capsys.readouterr().out)


def test_without_being_asked_nothing_is_tried(capsys: pytest.CaptureFixture[str]) -> None:
    assert not any("mends" in one for one in asked(capsys, str(SOUND))["findings"])


def test_asked_for_every_finding_has_its_list(capsys: pytest.CaptureFixture[str]) -> None:
    found = asked(capsys, "--mends", str(FAULTY))["findings"]
    assert all(isinstance(one["mends"], list) and len(one["mends"]) <= 3 for one in found)
    assert "Join r3 to d4" in next(one["mends"] for one in found if one["rule"] == "end-not-joined")
    assert next(one["mends"] for one in found if one["rule"] == "trap-below-joists") == []


def test_an_empty_window_is_told_with_what_would_open_it(capsys: pytest.CaptureFixture[str], shut: Path) -> None:
    found = asked(capsys, str(shut))["findings"]
    (no_height,) = (one for one in found if one["rule"] == "no-height-fits")
    assert no_height["mends"]
    assert all("window opens to" in words or "one height serves" in words for words in no_height["mends"])
    assert no_height["mend"] == f"{no_height['mends'][0]}."
    assert not any("mends" in one for one in found if one is not no_height)


def test_in_words_too(capsys: pytest.CaptureFixture[str], shut: Path) -> None:
    capsys.readouterr()
    assert main(["check", str(shut)]) == 1
    plain = capsys.readouterr().out
    assert "What would open it:" in plain
    assert plain.count("Tried and found to mend it:") == 1
    assert main(["check", "--mends", str(FAULTY)]) == 1
    everything = capsys.readouterr().out
    assert everything.count("Tried and found to mend it:") > 10
    assert "- Join r3 to d4." in everything
