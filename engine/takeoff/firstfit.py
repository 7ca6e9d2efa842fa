"""Quick ways to lay cuts into sticks: first fit by falling length, and each stick in turn as full as it goes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from engine.takeoff.covering import Column
from engine.takeoff.knapsack import Knapsack

FAVOUR_LONG = 1e-7
"""Tie-break between equally full sticks: use up the long pieces, which are harder to place later."""


def first_fit(weights: Sequence[int], wanted: Sequence[int], stakes: Mapping[int, int]) -> list[Column]:
    """Longest cut first, each into the first stick with room; then each stick is the cheapest that holds it."""
    longest = max(stakes)
    sticks: list[tuple[int, list[int]]] = []
    order = sorted(range(len(weights)), key=lambda kind: -weights[kind])
    for kind in order:
        for _ in range(wanted[kind]):
            place = next((n for n, (left, _) in enumerate(sticks) if left >= weights[kind]), None)
            if place is None:
                sticks.append((longest, [0] * len(weights)))
                place = len(sticks) - 1
            left, pattern = sticks[place]
            pattern[kind] += 1
            sticks[place] = (left - weights[kind], pattern)
    laid: list[Column] = []
    for left, pattern in sticks:
        used = longest - left
        holds = min((capacity for capacity in stakes if capacity >= used), key=lambda c: (stakes[c], c))
        laid.append((holds, tuple(pattern)))
    return laid


def fill(
    weights: Sequence[int], wanted: Sequence[int], sticks: Sequence[int], favour: float = FAVOUR_LONG
) -> list[Column] | None:
    """Cut the sticks given, each as full as it goes; None when something is left over.

    Of equally full ways the one with longer pieces is taken, or with `favour` below 0 the one with shorter ones.
    """
    left = list(wanted)
    laid: list[Column] = []
    worth = [weight + weight * weight * favour for weight in weights]
    for capacity in sticks:
        ((_, pattern),) = Knapsack(weights, left, capacity).best(worth, [capacity])
        if any(pattern):
            laid.append((capacity, pattern))
            left = [have - used for have, used in zip(left, pattern, strict=True)]
    return None if any(left) else laid
