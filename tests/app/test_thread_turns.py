"""Threads take short turns while a window is open, and Python's own afterwards."""

from __future__ import annotations

import sys

import pytest

from app.thread_turns import TURN, short_turns


def test_turns_are_short_inside_and_as_before_after_an_error() -> None:
    before = sys.getswitchinterval()
    assert before > TURN
    with pytest.raises(ValueError, match="meant"), short_turns():
        assert sys.getswitchinterval() == pytest.approx(TURN)
        raise ValueError("meant")
    assert sys.getswitchinterval() == before
