"""The fullest way to cut one stick: a bounded knapsack over sixteenths of an inch."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

Pattern = tuple[int, ...]
"""How many of each distinct length one stick yields."""

_NOTHING = 1e-12


class Knapsack:
    """The most worth that sticks up to some capacity can yield, for any worth of each length.

    `weights` are what each length takes of the stick, `limits` how many of it are wanted at most.
    """

    __slots__ = ("_bundles", "_capacity", "_kinds")

    def __init__(self, weights: Sequence[int], limits: Sequence[int], capacity: int) -> None:
        self._capacity = capacity
        self._kinds = len(weights)
        self._bundles: list[tuple[int, int, int]] = []
        for kind, (weight, limit) in enumerate(zip(weights, limits, strict=True)):
            left, bundle = min(limit, capacity // weight), 1
            while left > 0:
                taken = min(bundle, left)
                self._bundles.append((kind, taken, taken * weight))
                left -= taken
                bundle *= 2

    def best(self, worth: Sequence[float], capacities: Sequence[int]) -> list[tuple[float, Pattern]]:
        """For each capacity, the greatest total worth and a pattern that reaches it."""
        best = np.zeros(self._capacity + 1)
        taken: list[np.ndarray | None] = []
        for kind, count, weight in self._bundles:
            value = worth[kind] * count
            if value <= _NOTHING:
                taken.append(None)
                continue
            with_it = best[: self._capacity + 1 - weight] + value
            better = with_it > best[weight:] + _NOTHING
            best[weight:] = np.where(better, with_it, best[weight:])
            taken.append(better)
        return [(float(best[capacity]), self._traced(taken, capacity)) for capacity in capacities]

    def _traced(self, taken: list[np.ndarray | None], capacity: int) -> Pattern:
        pattern = [0] * self._kinds
        left = capacity
        for (kind, count, weight), better in zip(reversed(self._bundles), reversed(taken), strict=True):
            if better is not None and left >= weight and better[left - weight]:
                pattern[kind] += count
                left -= weight
        return tuple(pattern)


def patterns_worth(
    least: float, worth: Sequence[float], weights: Sequence[int], limits: Sequence[int], capacity: int, most: int
) -> list[Pattern] | None:
    """Every full pattern of one stick that is worth `least` or more; None when there are over `most`.

    Full: nothing more fits. A table of what the later lengths can still add prunes every dead end.
    """
    ahead = _best_ahead(worth, weights, limits, capacity)
    found: list[Pattern] = []
    pattern = [0] * len(weights)

    def choose(kind: int, left: int, value: float) -> bool:
        if value + ahead[kind][left] < least:
            return True
        if kind == len(weights):
            if all(n == limit or weight > left for n, limit, weight in zip(pattern, limits, weights, strict=True)):
                found.append(tuple(pattern))
            return len(found) <= most
        for count in range(min(limits[kind], left // weights[kind]) + 1):
            pattern[kind] = count
            if not choose(kind + 1, left - count * weights[kind], value + count * worth[kind]):
                return False
        pattern[kind] = 0
        return True

    return found if choose(0, capacity, 0.0) else None


def _best_ahead(
    worth: Sequence[float], weights: Sequence[int], limits: Sequence[int], capacity: int
) -> list[list[float]]:
    """For each length and room left, the most that this length and those after it can still add."""
    best = np.zeros(capacity + 1)
    ahead = [best.tolist()]
    for value, weight, limit in zip(reversed(worth), reversed(weights), reversed(limits), strict=True):
        left, bundle = min(limit, capacity // weight), 1
        while left > 0:
            count = min(bundle, left)
            taken = count * weight
            with_it = best[: capacity + 1 - taken] + count * value
            best[taken:] = np.maximum(best[taken:], with_it)
            left -= count
            bundle *= 2
        ahead.append(best.tolist())
    return ahead[::-1]
