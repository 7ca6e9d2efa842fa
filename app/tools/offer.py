"""A small choice offered at a place of the sheet: data, shown by the canvas as a menu."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from typing import NamedTuple


class Line(NamedTuple):
    """One thing to choose: what is told when it is taken, its words, and whether it holds now."""

    key: Hashable
    words: str
    holds: bool = False


class Section(NamedTuple):
    """Lines under a heading that says what they are about."""

    heading: str
    lines: tuple[Line, ...]


Taken = Callable[[Hashable], None]
"""Told the key of the line that the person took; never told when they take none."""

Sections = Sequence[Section]
