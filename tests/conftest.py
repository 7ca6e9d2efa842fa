"""What tests of the engine, the window and the timings share: how properties are tried, and a virtual display.

A property over random plans is tried on the same plans each time, so that a change is judged by what it changed and not
by the luck of the draw. `pytest --hypothesis-profile=search` draws new plans at each run, and more of them where a test
sets no number of its own; what it finds is mended and kept as a worked test. How long a plan takes is no reason to
fail: the machine may be busy.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, settings

busy = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("same each time", busy, derandomize=True)
settings.register_profile("search", busy, derandomize=False, max_examples=500)
settings.load_profile("same each time")

NEEDED = ("Xvfb", "xdotool")


@pytest.fixture
def screen() -> Iterator[str]:
    """A virtual display of its own, as DISPLAY names it. Skips, with the line that mends it, where there is none."""
    lacking = [program for program in NEEDED if shutil.which(program) is None]
    if lacking:
        told = f"a real window needs {' and '.join(lacking)}: sudo apt install xvfb xauth xdotool"
        if os.environ.get("CI") or not sys.platform.startswith("linux"):
            pytest.fail(told) if sys.platform.startswith("linux") else pytest.skip("real windows are tried on Linux")
        pytest.skip(told)
    read, write = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(write), "-screen", "0", "1600x1000x24", "-nolisten", "tcp"],
        pass_fds=(write,),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    os.close(write)
    with os.fdopen(read) as told_by_server:
        number = told_by_server.readline().strip()
    assert number, "the virtual display did not start"
    yield f":{number}"
    server.terminate()
    server.wait(10)
