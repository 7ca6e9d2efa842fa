"""Times the study, so that the window can say how long the latest one took."""

from __future__ import annotations

from time import perf_counter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from engine.plan.records import Plan
    from engine.study import Study


class Stopwatch:
    """Studies a plan like `engine.study.study` and remembers the time.

    The engine is loaded with the first plan, and loads more on first use; so the first plan is studied once
    before the watch is started.
    """

    def __init__(self) -> None:
        self.seconds: float | None = None

    def __call__(self, plan: Plan) -> Study:
        """The plan's whole answer."""
        from engine.study import study

        if self.seconds is None:
            study(plan)
        begun = perf_counter()
        answer = study(plan)
        self.seconds = perf_counter() - begun
        return answer
