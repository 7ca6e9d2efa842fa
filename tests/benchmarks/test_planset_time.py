"""How long the plan set takes in a process that has printed nothing yet."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from app.commands.demo import SAMPLE, samples

HOUSE = Path(__file__).resolve().parents[2]
MOST_S = 1.5
RUNS = 5
TIMED = """
import sys, time
from pathlib import Path
from engine.plan.file import read
from engine.study import study
answer = study(read(Path(sys.argv[1])))
begun = time.perf_counter()
from engine.planset import write
write(answer, Path(sys.argv[2]), "letter")
print(time.perf_counter() - begun)
"""


def test_the_plan_set_is_there_before_one_looks_up(tmp_path: Path, say) -> None:
    """The first plan set of a process, so with the PDF library's loading; the best of a few processes."""
    times = []
    for run in range(RUNS):
        done = subprocess.run(
            [sys.executable, "-c", TIMED, str(samples() / SAMPLE), str(tmp_path / str(run))],
            cwd=HOUSE,
            capture_output=True,
            text=True,
            check=True,
        )
        times.append(float(done.stdout.split()[-1]))
    say(f"plan set of the fuller sample: {min(times):.2f} s (at most {MOST_S})")
    assert min(times) <= MOST_S
