"""Quick ways to lay cuts into sticks: first fit by falling length, and each stick in turn as full as it goes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from engine.takeoff.covering import Column
from engine.takeoff.knapsack import Knapsack

_FAVOUR_LONG = 1e-7
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


def fill(weights: Sequence[int], wanted: Sequence[int], sticks: Sequence[int]) -> list[Column] | None:
    """Cut the sticks given, each as full as it goes; None when something is left over."""
    left = list(wanted)
    laid: list[Column] = []
    worth = [weight + weight * weight * _FAVOUR_LONG for weight in weights]
    for capacity in sticks:
        ((_, pattern),) = Knapsack(weights, left, capacity).best(worth, [capacity])
        if any(pattern):
            laid.append((capacity, pattern))
            left = [have - used for have, used in zip(left, pattern, strict=True)]
    return None if any(left) else laid


def mixes(total: int, stakes: Mapping[int, int], most: int) -> Iterator[tuple[int, ...]]:
    """Sticks whose stakes add up to `total`, fewest sticks first, at most `most` of them; capacities falling."""
    coins = sorted(stakes.items(), key=lambda item: -item[1])
    found: list[tuple[int, ...]] = []

    def choose(n: int, left: int, chosen: tuple[int, ...]) -> bool:
        if left == 0:
            found.append(chosen)
            return len(found) < most
        if n == len(coins):
            return True
        capacity, stake = coins[n]
        return all(
            choose(n + 1, left - count * stake, chosen + (capacity,) * count) for count in range(left // stake, -1, -1)
        )

    choose(0, total, ())
    yield from sorted(found, key=len)


def least_sticks(total: int, stakes: Mapping[int, int]) -> list[int | None]:
    """For each total up to `total`, the fewest sticks whose stakes add up to it; None where none do."""
    fewest: list[int | None] = [0] + [None] * total
    for reached in range(1, total + 1):
        ways = [fewest[reached - stake] for stake in stakes.values() if stake <= reached]
        fewest[reached] = min((1 + way for way in ways if way is not None), default=None)
    return fewest
