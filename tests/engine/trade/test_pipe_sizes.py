"""Pipe, tube, bits and lumber against published tables."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.trade import bits, lumber, pipe


@pytest.mark.parametrize(
    ("name", "outside", "wall", "bore", "pounds"),
    # PVC Pipe Data (schedule 40); outside and wall also in the ASTM D1785 table
    [
        ("1-1/4", 1.660, 0.140, 1.364, 0.426),
        ("1-1/2", 1.900, 0.145, 1.592, 0.509),
        ("2", 2.375, 0.154, 2.049, 0.682),
        ("3", 3.500, 0.216, 3.042, 1.409),
        ("4", 4.500, 0.237, 3.998, 2.006),
    ],
)
def test_drain_pipe(name: str, outside: float, wall: float, bore: float, pounds: float) -> None:
    stock = pipe.drain(pipe.nominal(name))
    assert (stock.od, stock.wall, stock.bore, stock.weight("PVC")) == (outside, wall, bore, pounds)
    assert stock.bore < stock.od - 2 * stock.wall
    assert stock.weight("ABS") < stock.weight("PVC")
    assert stock.standing == "read"


@pytest.mark.parametrize(
    ("size", "depth", "standing"),
    # Modern Plumbing, DWV installation chapter, for 2 and 3 in; the rest from memory
    [(1.25, 0.6875, "memory"), (1.5, 0.6875, "memory"), (2.0, 0.75, "read"), (3.0, 1.5, "read"), (4.0, 1.75, "memory")],
)
def test_socket_depth(size: float, depth: float, standing: str) -> None:
    assert (pipe.drain(size).socket, pipe.drain(size).socket_standing) == (depth, standing)


@pytest.mark.parametrize(
    ("size", "outside", "bore", "bend"),
    # SDR-9 design manual; bend radius 8 outside diameters, Modern Plumbing chapter 20
    [(0.375, 0.5, 0.350, 4), (0.5, 0.625, 0.475, 5), (0.75, 0.875, 0.671, 7), (1.0, 1.125, 0.863, 9)],
)
def test_tube(size: float, outside: float, bore: float, bend: float) -> None:
    tube = pipe.tube(size)
    assert (tube.od, tube.bore, tube.bend) == (outside, bore, bend)


def test_labels_and_numbers() -> None:
    assert pipe.DRAIN_SIZES == (1.25, 1.5, 2.0, 3.0, 4.0)
    assert pipe.SUPPLY_SIZES == (0.375, 0.5, 0.75, 1.0)
    assert [pipe.label(size) for size in pipe.DRAIN_SIZES] == ["1-1/4", "1-1/2", "2", "3", "4"]


@given(st.integers(1, 12 * 16))
def test_label_and_nominal_are_inverse(sixteenths: int) -> None:
    assert pipe.nominal(pipe.label(sixteenths / 16)) == sixteenths / 16


@pytest.mark.parametrize("text", ["", "two", "0", "99", "-2", "1/0"])
def test_no_pipe_size(text: str) -> None:
    with pytest.raises(pipe.PipeSizeError, match="is no pipe size"):
        pipe.nominal(text)


def test_a_size_that_is_not_sold_is_named() -> None:
    with pytest.raises(pipe.PipeSizeError, match=r"no drain pipe of 6 in; sizes are 1-1/4"):
        pipe.drain(6.0)
    with pytest.raises(pipe.PipeSizeError, match=r"no water tube of 2 in"):
        pipe.tube(2.0)
    with pytest.raises(pipe.PipeSizeError, match="copper"):
        pipe.drain(2.0).weight("copper")


def test_the_listed_bits() -> None:
    labels = ["7/8", "1-1/8", "1-3/8", "1-7/8", "2-1/8", "2-9/16", "3-5/8", "4-5/8"]
    assert [bit.label for bit in bits.listed()] == labels
    assert [pipe.label(bit.diameter) for bit in bits.listed()] == labels
    # Self-feed bits of 3-5/8 and 4-5/8 rest on memory; 2-1/8: Drilling Holes for PVC Pipe Fittings
    assert {bit.label for bit in bits.listed() if bit.standing == "memory"} == {"3-5/8", "4-5/8"}


@pytest.mark.parametrize(
    ("size", "label"),
    [(1.25, "1-7/8"), (1.5, "2-1/8"), (2.0, "2-9/16"), (3.0, "3-5/8"), (4.0, "4-5/8")],
)
def test_the_bit_for_a_drain(size: float, label: str) -> None:
    found = bits.bit_for(pipe.drain(size).od)
    assert found is not None
    assert found.label == label


@pytest.mark.parametrize(("size", "label"), [(0.5, "7/8"), (0.75, "1-1/8"), (1.0, "1-3/8")])
def test_the_bit_for_a_tube(size: float, label: str) -> None:
    """Pipe Hole Saw Size Chart: 7/8, 1-1/8 and 1-3/8 for 1/2, 3/4 and 1 in tube."""
    found = bits.bit_for(pipe.tube(size).od)
    assert found is not None
    assert found.label == label


def test_a_sixteenth_of_play_is_just_enough() -> None:
    assert bits.bit_for(1.8125) == next(bit for bit in bits.listed() if bit.label == "1-7/8")
    past = bits.bit_for(1.8126)
    assert past is not None
    assert past.label == "2-1/8"
    assert bits.bit_for(4.5626) is None


@given(st.floats(0.01, 6.0))
def test_no_smaller_bit_would_do(width: float) -> None:
    found = bits.bit_for(width)
    for bit in bits.listed():
        if found is None or bit.diameter < found.diameter:
            assert bit.diameter - width < 1 / 16


@pytest.mark.parametrize(
    ("name", "depth"), [("2x4", 3.5), ("2x6", 5.5), ("2x8", 7.25), ("2x10", 9.25), ("2x12", 11.25)]
)
def test_lumber(name: str, depth: float) -> None:
    """Type of Lumber - nominal and actual size table."""
    assert (lumber.actual(name).thickness, lumber.actual(name).depth) == (1.5, depth)


def test_lumber_that_is_not_listed_is_named() -> None:
    with pytest.raises(KeyError, match="3x7"):
        lumber.actual("3x7")
