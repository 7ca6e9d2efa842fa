"""The examples in the docstrings of lengths and trade are true."""

import doctest
import importlib
import pkgutil
from types import ModuleType

import pytest

import engine.lengths
import engine.trade


def modules_of(package: ModuleType) -> list[str]:
    return [f"{package.__name__}.{found.name}" for found in pkgutil.iter_modules(package.__path__)]


@pytest.mark.parametrize("name", [*modules_of(engine.lengths), *modules_of(engine.trade)])
def test_examples(name: str) -> None:
    assert doctest.testmod(importlib.import_module(name)).failed == 0


def test_there_are_examples() -> None:
    tried = [doctest.testmod(importlib.import_module(name)).attempted for name in modules_of(engine.lengths)]
    assert sum(tried) >= 5
