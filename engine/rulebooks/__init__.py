"""The numbers of a plumbing code as data: one file a rule book, and local amendments to it."""

from engine.rulebooks.amending import AmendmentError
from engine.rulebooks.book import NoSuchValueError, RuleBook, Value
from engine.rulebooks.heard import HeardBook
from engine.rulebooks.meaning import means
from engine.rulebooks.reading import RuleBookError
from engine.rulebooks.shelf import load, names

__all__ = [
    "AmendmentError",
    "HeardBook",
    "NoSuchValueError",
    "RuleBook",
    "RuleBookError",
    "Value",
    "load",
    "means",
    "names",
]
