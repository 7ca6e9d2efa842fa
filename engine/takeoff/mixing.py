"""Mixes of sticks: which of them a stake buys, and whether they are long enough for everything together."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

import numpy as np

from engine.takeoff.knapsack import Knapsack

_NEVER = -1


class Room(NamedTuple):
    """What all pieces together take, and what each stick yields at best."""

    need: int
    yields: Mapping[int, int]


def usable(weights: Sequence[int], wanted: Sequence[int], capacities: Sequence[int]) -> dict[int, int]:
    """The most of each stick that any choice of the pieces fills: no stick yields more, however it is cut."""
    found = Knapsack(weights, wanted, max(capacities)).best([float(weight) for weight in weights], capacities)
    return {capacity: round(filled) for capacity, (filled, _) in zip(capacities, found, strict=True)}


def least_sticks(total: int, stakes: Mapping[int, int], room: Room, most: int) -> list[int | None]:
    """For each stake up to `total`, the fewest sticks that it buys and that have the room; None where none do.

    `most` bounds the sticks: one a piece is always enough.
    """
    need, yields = room
    fewest: list[int | None] = [None] * (total + 1)
    fewest[0] = 0 if need <= 0 else None
    reach = np.full(total + 1, _NEVER, dtype=np.int64)
    reach[0] = 0
    for count in range(1, most + 1):
        longer = np.full(total + 1, _NEVER, dtype=np.int64)
        for capacity, stake in stakes.items():
            if stake > total:
                continue
            before = reach[: total + 1 - stake]
            with_it = np.where(before >= 0, before + yields[capacity], _NEVER)
            np.maximum(longer[stake:], with_it, out=longer[stake:])
        reach = longer
        for stake in np.flatnonzero(reach >= need).tolist():
            if fewest[stake] is None:
                fewest[stake] = count
        if not (reach >= 0).any():
            break
    return fewest


def mixes(total: int, stakes: Mapping[int, int], room: Room, most: int) -> Iterator[tuple[int, ...]]:
    """Sticks whose stakes add up to `total` and that have the room, fewest sticks first; at most `most` mixes.

    Capacities fall within a mix.
    """
    need, yields = room
    coins = sorted(stakes.items(), key=lambda item: -item[1])
    ahead = [
        max((yields[capacity] / stake for capacity, stake in coins[n:]), default=0.0) for n in range(len(coins) + 1)
    ]
    found: list[tuple[int, ...]] = []

    def choose(n: int, left: int, yielded: int, chosen: tuple[int, ...]) -> bool:
        if yielded + left * ahead[n] < need:
            return True
        if left == 0:
            found.append(chosen)
            return len(found) < most
        if n == len(coins):
            return True
        capacity, stake = coins[n]
        return all(
            choose(n + 1, left - count * stake, yielded + count * yields[capacity], chosen + (capacity,) * count)
            for count in range(left // stake, -1, -1)
        )

    choose(0, total, 0, ())
    yield from sorted(found, key=len)
