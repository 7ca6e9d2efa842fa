"""One sitting in a real window on a display: the program draws, saves, prints, and opens again what it saved."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from app.commands import main
from engine.plan.file import read

DRIVER = Path(__file__).with_name("real_window_driver.py")


def sit(sitting: str, plan: Path, screen: str) -> None:
    """One sitting of the program; fails with what it said if it did not end well."""
    environment = os.environ | {
        "DISPLAY": screen,
        "QT_QPA_PLATFORM": "xcb",
        "JOISTWAY_HOME": str(plan.parent / "home"),
        "HOME": str(plan.parent),
        "LANG": "C.UTF-8",
    }
    done = subprocess.run(
        [sys.executable, str(DRIVER), sitting, str(plan)],
        env={key: value for key, value in environment.items() if key != "WAYLAND_DISPLAY"},
        capture_output=True,
        text=True,
        stdin=subprocess.DEVNULL,
        timeout=100,
    )
    assert done.returncode == 0, f"{sitting}: exit {done.returncode}\n{done.stdout}\n{done.stderr}"


def test_a_real_window_draws_saves_prints_and_reopens(
    screen: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "work"
    folder.mkdir()
    plan = folder / "cabin.jway"
    assert main(["new", "--width", "10ft", "--length", "20ft", str(plan)]) == 0
    sit("draw_save_print", plan, screen)
    (drain,) = read(plan).drains
    assert len(drain.points) == 3
    assert {path.suffix for path in (folder / "sheets").iterdir()} >= {".pdf", ".csv"}
    before = plan.read_bytes()
    sit("reopen", plan, screen)
    assert plan.read_bytes() == before
