"""Which sticks of pipe to buy, and which piece to saw from which stick.

Ways to cut a stick are found one by one, by what they are worth to the solver's relaxed answer, which no choice
of sticks can beat. An answer that meets this bound is proven; else an exact search looks through everything
between the bound and the best answer found. Where that is too much for the time allowed, the solver's best use
of the ways found so far stands, and says that it is not proven.
"""

from __future__ import annotations

import math
import time
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from engine.lengths import inches
from engine.takeoff.covering import Column, Covering
from engine.takeoff.firstfit import FAVOUR_LONG, fill, first_fit
from engine.takeoff.knapsack import Knapsack
from engine.takeoff.mixing import Room, least_sticks, mixes, usable
from engine.takeoff.records import Cutting, Stick, SticksPlan, StockLength
from engine.takeoff.search import Search, TooMuch

MARKS = 16
"""Lengths are counted in sixteenths, the marks of a tape: what a cut takes is rounded up, a stick down."""

_MOST_PATTERNS = 3000
_MOST_STEPS = 40_000
_MOST_MIXES = 60
_FEW_MIXES = 6
_MOST_STAKE = 200_000
_MOST_TO_SOLVE = 700
_WAYS = ((1, FAVOUR_LONG), (-1, FAVOUR_LONG), (1, -FAVOUR_LONG))
"""Ways to fill a mix: long sticks or short ones first, and which of equally full ways is taken."""

_AT_FIRST = 0.25
"""Share of the time that quick ways get before the relaxed answer is worked out."""

_CENTS = 100
_SLACK = 1e-6
_WORTH = 1e-7


def sticks(
    pieces: Iterable[Cutting],
    stock: Iterable[StockLength],
    kerf: float,
    damaged_end: float,
    seconds: float = 1.2,
) -> SticksPlan:
    """The cheapest sticks that yield every piece: by price where every length has one, else by total length.

    Of equally cheap answers, one with the fewest sticks. `kerf` is what one saw cut takes, `damaged_end` what
    is cut off every stick before measuring, inches. Pieces too long for any stick are reported, not bought.
    """
    lengths = sorted({entry.length: entry for entry in stock}.values(), key=lambda entry: entry.length)
    if not lengths:
        raise ValueError("no stock length is given to cut from")
    saw = math.ceil(kerf * MARKS - _SLACK)
    of_capacity = {math.floor((entry.length - damaged_end) * MARKS + _SLACK) + saw: entry for entry in lengths}
    of_capacity = {capacity: entry for capacity, entry in of_capacity.items() if capacity > saw}
    longest = max(of_capacity, default=0)
    taken = [(math.ceil(piece.length * MARKS - _SLACK) + saw, piece) for piece in pieces]
    too_long = tuple(piece for weight, piece in taken if weight > longest)
    taken = [(weight, piece) for weight, piece in taken if weight <= longest]
    priced = all(entry.price is not None for entry in lengths)
    counts = Counter(weight for weight, _ in taken)
    weights = sorted(counts, reverse=True)
    wanted = [counts[weight] for weight in weights]
    laid: list[Column] = []
    proven = True
    if weights:
        laid, proven = _cheapest(weights, wanted, _stakes(of_capacity, priced), time.perf_counter() + seconds)
    return _written(laid, proven, weights, taken, of_capacity, (kerf, damaged_end), too_long)


def _stakes(of_capacity: Mapping[int, StockLength], priced: bool) -> dict[int, int]:
    """What each stick costs as a whole number, cents or sixteenths, with what all have in common divided out."""
    if priced:
        whole = {c: max(1, round((entry.price or 0.0) * _CENTS)) for c, entry in of_capacity.items()}
    else:
        whole = {c: max(1, round(entry.length * MARKS)) for c, entry in of_capacity.items()}
    shared = math.gcd(*whole.values())
    return {capacity: stake // shared for capacity, stake in whole.items()}


def _cheapest(
    weights: list[int], wanted: list[int], stakes: dict[int, int], deadline: float
) -> tuple[list[Column], bool]:
    """The best sticks found by the deadline, and whether nothing cheaper and nothing as cheap with fewer exists."""
    best = first_fit(weights, wanted, stakes)
    if _total(best, stakes) > _MOST_STAKE:
        return best, False
    need = sum(weight * count for weight, count in zip(weights, wanted, strict=True))
    room = Room(need, usable(weights, wanted, sorted(stakes)))
    fewest = least_sticks(_total(best, stakes), stakes, room, sum(wanted))
    least = _first(fewest, 0)
    now = time.perf_counter()
    best = _filled(best, weights, wanted, stakes, room, fewest, least, now + (deadline - now) * _AT_FIRST, _FEW_MIXES)
    if _total(best, stakes) == least and len(best) == fewest[least]:
        return best, True
    model = Covering(wanted)
    priced = _priced_out(model, weights, wanted, stakes, deadline)
    if priced is None:
        return best, False
    bound, worth = priced
    least = max(least, _first(fewest, math.ceil(bound - _SLACK)))
    half_way = (time.perf_counter() + deadline) / 2
    for tries in (_FEW_MIXES, _MOST_MIXES):
        best = _filled(best, weights, wanted, stakes, room, fewest, least, half_way, tries)
    if _total(best, stakes) == least and len(best) == fewest[least]:
        return best, True
    try:
        search = Search(weights, wanted, stakes, worth)
        return _searched(search, best, stakes, bound, fewest, half_way), True
    except TooMuch:
        return _solved(model, best, stakes, least, fewest, deadline)


def _searched(
    search: Search,
    best: list[Column],
    stakes: dict[int, int],
    bound: float,
    fewest: list[int | None],
    deadline: float,
) -> list[Column]:
    """The first stake from the bound upward that holds everything, then its fewest sticks: proven.

    Raises TooMuch when the proof takes too long.
    """
    total = _total(best, stakes)
    for stake in range(math.ceil(bound - _SLACK), total + 1):
        at_least = fewest[stake]
        if at_least is None:
            continue
        gap = stake - bound
        if stake < total:
            laid = search.within(gap, len(fewest), _MOST_PATTERNS, _MOST_STEPS, deadline)
            if laid is None:
                continue
            best = laid
        for count in range(at_least, len(best)):
            laid = search.within(gap, count, _MOST_PATTERNS, _MOST_STEPS, deadline)
            if laid is not None:
                return laid
        return best
    return best


def _solved(
    model: Covering,
    best: list[Column],
    stakes: dict[int, int],
    least: int,
    fewest: list[int | None],
    deadline: float,
) -> tuple[list[Column], bool]:
    """The best use of the patterns found so far, by stake and then by count; proven only where it meets the bounds."""
    costs = [float(stakes[capacity]) for capacity, _ in model.columns]
    total = _total(best, stakes)
    if len(costs) > _MOST_TO_SOLVE:
        return best, False
    if total > least:
        model.bind(costs, float(least), float(total))
        uses = model.whole(costs, deadline - time.perf_counter())
        if uses is not None and _total(_used(model, uses), stakes) < total:
            best = _used(model, uses)
            total = _total(best, stakes)
    at_least = fewest[total] or 0
    if len(best) > at_least:
        ones = [1.0] * len(costs)
        model.bind(costs, float(least), float(total))
        model.bind(ones, float(at_least), float(len(best)))
        uses = model.whole(ones, deadline - time.perf_counter())
        if uses is not None and sum(uses) < len(best):
            best = _used(model, uses)
    return best, total == least and len(best) == at_least


def _priced_out(
    model: Covering, weights: list[int], wanted: list[int], stakes: dict[int, int], deadline: float
) -> tuple[float, list[float]] | None:
    """Offer patterns until none is worth more than its stick: the bound on every answer, and each length's worth."""
    capacities = sorted(stakes)
    knapsack = Knapsack(weights, wanted, capacities[-1])
    for kind, weight in enumerate(weights):
        for capacity in capacities:
            if weight <= capacity:
                alone = [0] * len(weights)
                alone[kind] = min(wanted[kind], capacity // weight)
                model.add(capacity, tuple(alone), float(stakes[capacity]))
    while time.perf_counter() < deadline:
        bound, worth = model.relaxed()
        news = False
        for capacity, (value, pattern) in zip(capacities, knapsack.best(worth, capacities), strict=True):
            if value > stakes[capacity] + _WORTH:
                news |= model.add(capacity, pattern, float(stakes[capacity]))
        if not news:
            return bound, worth
    return None


def _first(fewest: list[int | None], least: int) -> int:
    """The first stake from `least` on that buys sticks enough."""
    return next(stake for stake in range(least, len(fewest)) if fewest[stake] is not None)


def _filled(
    best: list[Column],
    weights: list[int],
    wanted: list[int],
    stakes: dict[int, int],
    room: Room,
    fewest: list[int | None],
    least: int,
    deadline: float,
    tries: int,
) -> list[Column]:
    """Try so many mixes of each stake from the bound upward, each stick as full as it goes, until one holds all."""
    total = _total(best, stakes)
    for stake in range(least, total + 1):
        if fewest[stake] is None:
            continue
        for mix in mixes(stake, stakes, room, tries):
            for order, favour in _WAYS:
                if time.perf_counter() > deadline or (stake == total and len(mix) >= len(best)):
                    return best
                laid = fill(weights, wanted, mix[::order], favour)
                if laid is not None:
                    return laid
    return best


def _used(model: Covering, uses: Sequence[int]) -> list[Column]:
    return [column for column, count in zip(model.columns, uses, strict=True) for _ in range(count)]


def _total(laid: Sequence[Column], stakes: Mapping[int, int]) -> int:
    return sum(stakes[capacity] for capacity, _ in laid)


def _written(
    laid: Sequence[Column],
    proven: bool,
    weights: Sequence[int],
    taken: Sequence[tuple[int, Cutting]],
    of_capacity: Mapping[int, StockLength],
    losses: tuple[float, float],
    too_long: tuple[Cutting, ...],
) -> SticksPlan:
    """The answer with each piece's mark in its stick: long sticks first, in each the long cuts first."""
    kerf, damaged_end = losses
    waiting: dict[int, list[Cutting]] = {}
    for weight, piece in taken:
        waiting.setdefault(weight, []).append(piece)
    bought: list[Stick] = []
    for capacity, pattern in sorted(laid, key=lambda column: (-of_capacity[column[0]].length, column[1])):
        cuts: list[Cutting] = []
        for weight, count in zip(weights, pattern, strict=True):
            queue = waiting[weight]
            cuts.extend(queue[:count])
            del queue[:count]
        length = of_capacity[capacity].length
        left = length - damaged_end - sum(cut.length + kerf for cut in cuts)
        bought.append(Stick(length, tuple(cuts), max(left, 0.0)))
    counts = Counter(stick.length for stick in bought)
    prices = [entry.price for entry in of_capacity.values()]
    priced = all(price is not None for price in prices)
    price_of = {entry.length: entry.price or 0.0 for entry in of_capacity.values()}
    total = sum(stick.length for stick in bought)
    return SticksPlan(
        sticks=tuple(bought),
        counts=tuple(sorted(counts.items(), reverse=True)),
        total_length=total,
        waste=total - sum(piece.length for _, piece in taken),
        price=sum(price_of[stick.length] for stick in bought) if priced else None,
        judged_by="price" if priced else "length",
        cheapest_proven=proven,
        too_long=too_long,
        note=_note(proven, priced, too_long),
    )


def _note(proven: bool, priced: bool, too_long: tuple[Cutting, ...]) -> str:
    stake = "price" if priced else "total length"
    words = (
        f"No other choice of sticks has a lower {stake}, nor fewer sticks at that {stake}."
        if proven
        else f"A good choice by {stake}; that none is better was not proven in the time allowed."
    )
    if too_long:
        marks = ", ".join(f"{piece.mark} ({inches(piece.length)} in)" for piece in too_long)
        words += f" Longer than any stick sold, so not bought: {marks}."
    return words
