"""What the benchmarks share: figures go to the terminal, passed or not."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))


@pytest.fixture
def say(capsys: pytest.CaptureFixture[str]) -> Callable[[str], None]:
    """Print a figure past the capture."""

    def speak(figure: str) -> None:
        with capsys.disabled():
            print(f"\n    {figure}", flush=True)

    return speak
