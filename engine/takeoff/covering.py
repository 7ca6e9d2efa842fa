"""The solver's part of buying sticks: a cheapest set of cutting patterns that covers every length wanted."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from engine.takeoff.knapsack import Pattern

Column = tuple[int, Pattern]
"""A stick's capacity and the pattern that it is cut to."""


class Covering:
    """Patterns in the solver: how many of each to cut so that every length is there and the stake is least.

    One thread, one seed and a cap on branches keep the answer the same from run to run.
    """

    __slots__ = ("_seen", "_solver", "columns")

    def __init__(self, wanted: Sequence[int]) -> None:
        import highspy

        self._solver = _quiet_solver()
        for option, value in _SETTINGS.items():
            self._solver.setOptionValue(option, value)
        self.columns: list[Column] = []
        self._seen: set[Column] = set()
        for count in wanted:
            self._solver.addRow(float(count), highspy.kHighsInf, 0, np.array([], dtype=np.int32), np.array([]))

    def add(self, capacity: int, pattern: Pattern, stake: float) -> bool:
        """Offer one more pattern; False when it is known already."""
        import highspy

        column = (capacity, pattern)
        if column in self._seen:
            return False
        self._seen.add(column)
        self.columns.append(column)
        rows = np.array([kind for kind, count in enumerate(pattern) if count], dtype=np.int32)
        counts = np.array([float(count) for count in pattern if count])
        self._solver.addCol(stake, 0.0, highspy.kHighsInf, len(rows), rows, counts)
        return True

    def relaxed(self) -> tuple[float, list[float]]:
        """The least stake when patterns may be used in part, and what one more of each length is worth."""
        self._solver.run()
        return float(self._solver.getInfo().objective_function_value), list(self._solver.getSolution().row_dual)

    def whole(self, stakes: Sequence[float], seconds: float) -> list[int] | None:
        """How often to use each pattern for the least total of `stakes`; None when nothing was found in time."""
        import highspy

        count = len(self.columns)
        every = np.arange(count, dtype=np.int32)
        solver = self._solver
        solver.changeColsCost(count, every, np.array(stakes, dtype=float))
        solver.changeColsIntegrality(count, every, np.array([highspy.HighsVarType.kInteger] * count))
        solver.setOptionValue("time_limit", solver.getRunTime() + max(seconds, 0.0))
        solver.run()
        if solver.getInfo().primal_solution_status != highspy.kSolutionStatusFeasible:
            return None
        return [round(value) for value in solver.getSolution().col_value]

    def bind(self, stakes: Sequence[float], least: float, most: float) -> None:
        """From now on the total of `stakes` must lie between `least` and `most`."""
        every = np.arange(len(self.columns), dtype=np.int32)
        self._solver.addRow(least, most, len(every), every, np.array(stakes, dtype=float))


def _quiet_solver() -> Any:
    """A solver that says nothing: as it comes, setting up its callbacks prints a banner into the program's output."""
    import highspy

    class Quiet(highspy.Highs):
        def enableCallbacks(self) -> None:
            self.silent()

    return Quiet()  # type: ignore[no-untyped-call]


_SETTINGS: dict[str, bool | int | float] = {
    "output_flag": False,
    "threads": 1,
    "random_seed": 0,
    "mip_rel_gap": 0.0,
    "mip_abs_gap": 0.5,
    "mip_max_nodes": 400,
}
