"""What parts are called on lists: the fitting's or the sundry's name, and its size as a store writes it."""

from __future__ import annotations

from engine.trade.fittings import KINDS, size_label
from engine.trade.pipe import label
from engine.trade.sundries import sundry


def words(kind: str) -> str:
    """What a part is called: the fitting's or the sundry's name."""
    if kind in KINDS:
        return KINDS[kind].words
    try:
        return sundry(kind).words
    except KeyError:
        return kind.replace("_", " ")


def size_words(size: tuple[float, ...]) -> str:
    """A part's size as a store writes it: one number where all legs are alike."""
    if len(set(size)) == 1:
        return label(size[0])
    return size_label(size) if size else ""


def named(kind: str, size: str) -> str:
    """A part's name with its size in words, which a few names hold already."""
    name = words(kind)
    return f"{name} {size}".rstrip() if not size or not name.replace(" ", "").endswith(size) else name
