"""Which sticks to buy: against every way to cut, on small sets; quick and honest on big ones."""

from __future__ import annotations

import random
import time
from collections.abc import Iterator
from typing import ClassVar

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.takeoff.mixing import Room, least_sticks, mixes, usable
from engine.takeoff.records import Cutting, StockLength
from engine.takeoff.sticks import sticks

USUAL = tuple(StockLength(12.0 * feet) for feet in (2, 5, 10, 20))
KERF = 0.125


def pieces(*lengths: float) -> list[Cutting]:
    return [Cutting(f"D{number}", length) for number, length in enumerate(lengths, 1)]


def groupings(items: tuple[int, ...]) -> Iterator[list[list[int]]]:
    """Every way to part items into groups."""
    if not items:
        yield []
        return
    first, rest = items[0], items[1:]
    for grouping in groupings(rest):
        yield [[first], *grouping]
        for n, group in enumerate(grouping):
            yield [*grouping[:n], [first, *group], *grouping[n + 1 :]]


def cheapest_by_trying_all(sixteenths: tuple[int, ...], stock: tuple[int, ...], kerf: int) -> tuple[int, int] | None:
    """Least total length and, at that, the fewest sticks, by trying every grouping: the judge of the solver."""
    best: tuple[int, int] | None = None
    for grouping in groupings(sixteenths):
        total = 0
        for group in grouping:
            need = sum(group) + kerf * (len(group) - 1)
            holds = [length for length in stock if length >= need]
            if not holds:
                break
            total += min(holds)
        else:
            answer = (total, len(grouping))
            best = answer if best is None else min(best, answer)
    return best


@given(
    lengths=st.lists(st.integers(16, 900), min_size=1, max_size=7),
    stock=st.lists(st.sampled_from([192, 384, 640, 960, 1000, 1920]), min_size=1, max_size=4, unique=True),
    kerf=st.integers(0, 4),
)
@settings(max_examples=120, deadline=None)
def test_no_choice_of_sticks_is_cheaper(lengths: list[int], stock: list[int], kerf: int) -> None:
    fits = tuple(length for length in lengths if length <= max(stock))
    plan = sticks(
        pieces(*(length / 16 for length in lengths)), [StockLength(length / 16) for length in stock], kerf / 16, 0.0
    )
    assert [cut.length * 16 for cut in plan.too_long] == [length for length in lengths if length > max(stock)]
    best = cheapest_by_trying_all(fits, tuple(stock), kerf) if fits else (0, 0)
    assert (round(plan.total_length * 16), len(plan.sticks)) == best
    assert plan.cheapest_proven


@given(
    lengths=st.lists(st.integers(16, 3000).map(lambda n: n / 16), min_size=1, max_size=14),
    kerf=st.sampled_from([0.0, 0.0625, 0.125]),
    damaged=st.sampled_from([0.0, 1.0]),
)
@settings(max_examples=60, deadline=None)
def test_every_piece_is_cut_once_and_each_stick_holds_its_cuts(
    lengths: list[float], kerf: float, damaged: float
) -> None:
    wanted = pieces(*lengths)
    plan = sticks(wanted, USUAL, kerf, damaged)
    cut = [piece for stick in plan.sticks for piece in stick.cuts]
    assert sorted([*cut, *plan.too_long], key=lambda piece: piece.mark) == sorted(wanted, key=lambda piece: piece.mark)
    for stick in plan.sticks:
        used = sum(piece.length for piece in stick.cuts) + kerf * (len(stick.cuts) - 1)
        assert used <= stick.length - damaged + 1e-6
    assert plan.total_length == sum(length * count for length, count in plan.counts)
    assert plan.waste == pytest.approx(plan.total_length - sum(piece.length for piece in cut))


def test_the_closet_and_lavatory_floor_by_hand() -> None:
    # 3 in: 65.8906 fits neither 24 nor 60, so 120; beside it 120 - 65.8906 - 2 x 1/8 leave room for 13.75 + 3.125
    plan = sticks(pieces(65.8906, 13.75, 3.125), USUAL, KERF, 0.0)
    assert plan.counts == ((120.0, 1),)
    assert plan.cheapest_proven


def test_a_full_stick_needs_no_cut() -> None:
    plan = sticks(pieces(120.0), USUAL, KERF, 0.0)
    assert plan.counts == ((120.0, 1),)
    assert plan.waste == 0.0


def test_a_damaged_end_is_not_used() -> None:
    plan = sticks(pieces(120.0), USUAL, KERF, 1.0)
    assert plan.counts == ((240.0, 1),)


def test_of_equal_lengths_the_fewest_sticks() -> None:
    # five pieces of 23 in: five 2 ft sticks or one 10 ft stick, 120 in either way
    plan = sticks(pieces(23, 23, 23, 23, 23), USUAL, KERF, 0.0)
    assert plan.counts == ((120.0, 1),)


def test_prices_decide_where_they_are_given() -> None:
    dear_long = (StockLength(24.0, 3.0), StockLength(120.0, 30.0))
    plan = sticks(pieces(23, 23), dear_long, KERF, 0.0)
    assert (plan.counts, plan.price, plan.judged_by) == (((24.0, 2),), 6.0, "price")
    cheap_long = (StockLength(24.0, 3.0), StockLength(120.0, 5.0))
    plan = sticks(pieces(23, 23), cheap_long, KERF, 0.0)
    assert (plan.counts, plan.price) == (((120.0, 1),), 5.0)


def test_a_piece_that_no_stick_yields_is_reported() -> None:
    plan = sticks(pieces(30.0, 241.0), USUAL, KERF, 0.0)
    assert [cut.mark for cut in plan.too_long] == ["D2"]
    assert "D2 (241 in)" in plan.note
    assert plan.counts == ((60.0, 1),)


def test_nothing_to_cut_buys_nothing() -> None:
    plan = sticks([], USUAL, KERF, 0.0)
    assert (plan.sticks, plan.waste, plan.cheapest_proven) == ((), 0.0, True)


def test_without_stock_there_is_nothing_to_cut_from() -> None:
    with pytest.raises(ValueError, match="no stock length"):
        sticks(pieces(10.0), [], KERF, 0.0)


@pytest.mark.parametrize("seed", [1, 2])
def test_a_hundred_and_twenty_pieces_within_two_seconds(seed: int) -> None:
    chance = random.Random(seed)
    wanted = pieces(*(chance.randint(3 * 16, 60 * 16) / 16 for _ in range(120)))
    begun = time.perf_counter()
    plan = sticks(wanted, USUAL, KERF, 0.0)
    assert time.perf_counter() - begun < 2.0
    assert sum(len(stick.cuts) for stick in plan.sticks) == 120
    assert plan.total_length < 1.03 * sum(piece.length + KERF for piece in wanted)


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("prices", [(6.0, 11.0, 18.5, 31.0), (5.37, 9.98, 15.48, 28.97)])
def test_a_hundred_and_twenty_pieces_by_price_are_proven_within_two_seconds(
    seed: int, prices: tuple[float, ...]
) -> None:
    chance = random.Random(seed)
    wanted = pieces(*(chance.randint(3 * 16, 60 * 16) / 16 for _ in range(120)))
    priced = [StockLength(stock.length, price) for stock, price in zip(USUAL, prices, strict=True)]
    begun = time.perf_counter()
    plan = sticks(wanted, priced, KERF, 0.0)
    assert time.perf_counter() - begun < 2.0
    assert plan.cheapest_proven
    assert plan.price == pytest.approx(sum(prices[USUAL.index(StockLength(stick.length))] for stick in plan.sticks))


class TestMixes:
    """Which sticks a stake buys: against every mix."""

    stakes: ClassVar[dict[int, int]] = {386: 2, 962: 5, 1922: 10}

    def every(self, total: int) -> list[tuple[int, ...]]:
        return [
            (1922,) * a + (962,) * b + (386,) * c
            for a in range(total // 10 + 1)
            for b in range(total // 5 + 1)
            for c in range(total // 2 + 1)
            if 10 * a + 5 * b + 2 * c == total
        ]

    @pytest.mark.parametrize("need", [0, 400, 2000, 3500, 5000])
    @pytest.mark.parametrize("total", [0, 1, 7, 12, 20, 23])
    def test_only_those_that_have_the_room(self, need: int, total: int) -> None:
        room = Room(need, {capacity: capacity for capacity in self.stakes})
        wanted = [mix for mix in self.every(total) if sum(mix) >= need]
        assert sorted(mixes(total, self.stakes, room, 1000)) == sorted(wanted)
        fewest = least_sticks(total, self.stakes, room, 40)[total]
        assert fewest == min((len(mix) for mix in wanted), default=None)

    def test_what_pieces_can_fill_of_a_stick(self) -> None:
        """Pieces of 14-1/2 in with their kerf, 234 sixteenths: one in 24 in, four in 60 in of 962 with 26 over."""
        assert usable([234], [9], [386, 962]) == {386: 234, 962: 936}


def test_the_same_pieces_give_the_same_sticks() -> None:
    chance = random.Random(7)
    wanted = pieces(*(chance.randint(48, 960) / 16 for _ in range(12)))
    assert sticks(wanted, USUAL, KERF, 0.0) == sticks(wanted, USUAL, KERF, 0.0)


def test_out_of_time_says_that_nothing_is_proven() -> None:
    chance = random.Random(3)
    wanted = pieces(*(chance.randint(48, 960) / 16 for _ in range(40)))
    plan = sticks(wanted, USUAL, KERF, 0.0, seconds=0.0)
    assert not plan.cheapest_proven
    assert "not proven" in plan.note
    assert sum(len(stick.cuts) for stick in plan.sticks) == 40


def test_the_solver_prints_nothing(capfd: pytest.CaptureFixture[str]) -> None:
    sticks(pieces(30.0, 50.0, 70.0), USUAL, KERF, 0.0)
    assert capfd.readouterr().out == ""
