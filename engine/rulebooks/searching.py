"""Finding a value of a rule book by the words that a person has for it."""

from __future__ import annotations

import re
from functools import lru_cache

from engine.rulebooks.book import RuleBook, Value
from engine.rulebooks.meaning import means

_ALSO = {
    "aav": "admittance valve",
    "basin": "lavatory",
    "clean-out": "cleanout",
    "dfu": "fixture units",
    "distance": "farthest least",
    "fall": "slope",
    "grade": "slope",
    "hanger": "supports",
    "hole": "bore hole",
    "loft": "attic",
    "manhole": "cleanout",
    "maximum": "most farthest longest",
    "minimum": "least",
    "nailplate": "shield",
    "pitch": "slope",
    "room": "clear room",
    "size": "least size",
    "strap": "supports",
    "toilet": "closet",
    "tub": "bathtub",
    "washbasin": "lavatory",
    "wc": "closet",
    "window": "window opening",
}
"""What people say for what the books are told in: either finds it."""


def search(book: RuleBook, words: str) -> tuple[Value, ...]:
    """The values that hold every one of the words, in any form that begins so; those told by them come first.

    All values where there are no words. A size is a word: ``trap arm 2 in`` finds that size's row before others.
    """
    asked = [
        word for word in re.findall(r"[\w/.-]+", words.lower()) if word not in ("in", "the", "a", "of", "to", "is")
    ]
    found = []
    for number, value in enumerate(book):
        told, beside = _words_of(value.key, value.section, value.note)
        ranks = [_rank(word, told, beside) for word in asked]
        if None not in ranks:
            spoken = words.strip().lower() in means(value.key).lower()
            found.append((sum(rank for rank in ranks if rank is not None) - spoken, number, value))
    return tuple(value for _, _, value in sorted(found, key=lambda one: one[:2]))


def _rank(word: str, told: frozenset[str], beside: frozenset[str]) -> int | None:
    """0 where the value is told by the word, 1 by what else people say, 2 where only its note has it; None nowhere."""
    if _in(word, told):
        return 0
    if any(_in(other, told) for other in _ALSO.get(word, "").split()):
        return 1
    return 2 if _in(word, beside) else None


def _in(word: str, words: frozenset[str]) -> bool:
    if word in words:
        return True
    return not word[0].isdigit() and any(one.startswith(word) for one in words)


@lru_cache(maxsize=4096)
def _words_of(key: str, section: str, note: str) -> tuple[frozenset[str], frozenset[str]]:
    told = _split(means(key)) | _split(key.replace(".", " ").replace("_", " "))
    return told, told | _split(section) | _split(note)


def _split(text: str) -> frozenset[str]:
    found = re.findall(r"[\w/.-]+", text.lower())
    return frozenset(found) | {word.removesuffix("'s").strip(".") for word in found}
