"""The exact search: does any set of sticks within a budget yield every piece?"""

from __future__ import annotations

import time
from collections.abc import Mapping, Sequence

from engine.takeoff.covering import Column
from engine.takeoff.knapsack import Pattern, patterns_worth

_SLACK = 1e-6


class TooMuch(Exception):
    """The search was given up before its end: it has neither an answer nor the proof that there is none."""


class Search:
    """Looks through every set of patterns whose cost over their worth stays within a gap.

    With the relaxed answer's worths, all that any set of sticks costs over the bound is the sum of what each of
    its patterns costs over its worth; so a set as cheap as some stake holds only patterns within that stake's
    gap, and branches that overspend it are cut off. `most` bounds the patterns, `steps` the branches.
    """

    def __init__(
        self, weights: Sequence[int], wanted: Sequence[int], stakes: Mapping[int, int], worth: Sequence[float]
    ) -> None:
        self._weights, self._wanted, self._stakes, self._worth = weights, wanted, stakes, worth

    def within(self, gap: float, sticks: int, most: int, steps: int, deadline: float) -> list[Column] | None:
        """Columns that yield everything with at most `sticks` sticks, or None when there are none: proven.

        Raises TooMuch when there are more patterns, branches or seconds than allowed.
        """
        by_kind = self._matter(gap, most)
        longest = max(self._stakes)
        failed: dict[tuple[Pattern, int], float] = {}
        taken = 0

        def go(left: Pattern, spare: float, may: int) -> list[Column] | None:
            nonlocal taken
            kind = next((k for k, count in enumerate(left) if count), None)
            if kind is None:
                return []
            room = sum(weight * count for weight, count in zip(self._weights, left, strict=True))
            if room > may * longest or failed.get((left, may), -1.0) >= spare - _SLACK:
                return None
            taken += 1
            if taken > steps or (taken % 256 == 0 and time.perf_counter() > deadline):
                raise TooMuch
            for over, capacity, pattern in by_kind[kind]:
                if over > spare + _SLACK:
                    break
                unused = sum(
                    worth * (count - have)
                    for worth, count, have in zip(self._worth, pattern, left, strict=True)
                    if count > have
                )
                if over + unused > spare + _SLACK:
                    continue
                after = tuple(max(0, have - count) for have, count in zip(left, pattern, strict=True))
                rest = go(after, spare - over - unused, may - 1)
                if rest is not None:
                    return [(capacity, pattern), *rest]
            failed[left, may] = max(spare, failed.get((left, may), -1.0))
            return None

        return go(tuple(self._wanted), gap, sticks)

    def _matter(self, gap: float, most: int) -> list[list[tuple[float, int, Pattern]]]:
        """For each length, the patterns within the gap that yield it, the least wasteful first."""
        columns: list[tuple[float, int, Pattern]] = []
        for capacity, stake in self._stakes.items():
            least = stake - gap - _SLACK
            room = most - len(columns)
            patterns = patterns_worth(least, self._worth, self._weights, self._wanted, capacity, room)
            if patterns is None:
                raise TooMuch
            for pattern in patterns:
                value = sum(count * worth for count, worth in zip(pattern, self._worth, strict=True))
                columns.append((stake - value, capacity, pattern))
        columns.sort()
        return [[column for column in columns if column[2][kind]] for kind in range(len(self._weights))]
