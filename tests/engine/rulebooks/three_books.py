"""A shelf with a third rule book on it, made up for the tests: one more data file, and nothing else."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from engine.rulebooks import shelf

TOWN = "town-2040"
"""The third book's name on that shelf."""

_MADE_UP = Path(__file__).with_name("made_up_town.toml")


@contextmanager
def third_book(folder: Path) -> Iterator[str]:
    """Put the shipped books and the made-up one onto a shelf in a folder, for as long as it lasts."""
    for book in shelf._SHELF.glob("*.toml"):
        shutil.copy(book, folder)
    shutil.copy(_MADE_UP, folder / f"{TOWN}.toml")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(shelf, "_SHELF", folder)
        _forget()
        yield TOWN
    _forget()


def _forget() -> None:
    shelf._plain.cache_clear()
    shelf._amended.cache_clear()
