"""The rule books that ship with the program."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache, lru_cache
from pathlib import Path

from engine.plan.records import Amendment
from engine.rulebooks.amending import amend
from engine.rulebooks.book import RuleBook
from engine.rulebooks.reading import RuleBookError, read

_SHELF = Path(__file__).parent


def names() -> tuple[str, ...]:
    """Names of the rule books, as a plan's `rulebook` gives them."""
    return tuple(sorted(path.stem for path in _SHELF.glob("*.toml")))


def load(name: str, amendments: Sequence[Amendment] = ()) -> RuleBook:
    """The rule book called `name` with local amendments applied.

    Read once and kept. RuleBookError when there is no such book or its file is at fault, AmendmentError when
    an amendment names no value of the book or gives it the wrong kind of value.
    """
    if not amendments:
        return _plain(name)
    return _amended(name, tuple(amendments), tuple(type(amendment.becomes) for amendment in amendments))


KEPT = 16
"""Rule books with their amendments that are remembered, the last ones asked for."""


@cache
def _plain(name: str) -> RuleBook:
    path = _SHELF / f"{name}.toml"
    if name not in names():
        raise RuleBookError(f"there is no rule book {name!r}; there is {', '.join(names())}")
    return read(name, path.read_text(encoding="utf-8"), _plain)


@lru_cache(maxsize=KEPT)
def _amended(name: str, amendments: tuple[Amendment, ...], kinds: tuple[type, ...]) -> RuleBook:
    """Kept by the amendments and by `kinds`, since 0.0 and False are equal but not alike."""
    return amend(_plain(name), amendments)
