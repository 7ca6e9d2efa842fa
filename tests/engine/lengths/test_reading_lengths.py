"""Lengths that people type."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.lengths import LengthError, feet_inches, fraction, inches, nearest, parse


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("10ft", 120.0),
        ("10' 6 1/2\"", 126.5),
        ("10'-6 1/2\"", 126.5),
        ("10' - 6 1/2\"", 126.5),
        ("5 ft 6 in", 66.0),
        ("10 feet 3/4", 120.75),
        ("1.5'", 18.0),
        ("3-1/2", 3.5),
        ("3 1/2", 3.5),
        ("3½", 3.5),
        ("7 1/4 in", 7.25),
        ("7.25 inches", 7.25),
        ("120", 120.0),
        ("1/16", 0.0625),
        (".5", 0.5),
        ("  8  ", 8.0),
        ("-3 1/2", -3.5),
        ("−3 1/2", -3.5),
    ],
)
def test_feet_inches_and_fractions(text: str, expected: float) -> None:
    assert parse(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    # 1 in = 25.4 mm exactly: 2.5 m = 2500 / 25.4 in
    [
        ("2.5m", 2500 / 25.4),
        ("30cm", 300 / 25.4),
        ("254 mm", 10.0),
        ("1 metre", 1000 / 25.4),
        ("2 meters", 2000 / 25.4),
    ],
)
def test_metric(text: str, expected: float) -> None:
    assert parse(text) == pytest.approx(expected, abs=1e-12)


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "x",
        "10-6",
        "10 6",
        "5 6 ft",
        "ft",
        "'",
        "m",
        "nan",
        "inf",
        "1e3",
        "--1",
        "1/0",
        "1//2",
        "3 1/2 1/2",
        "1,5",
    ],
)
def test_what_is_no_length_is_named_and_shown_how(text: str) -> None:
    with pytest.raises(LengthError) as caught:
        parse(text)
    assert repr(text.strip()) in str(caught.value)


def test_too_long_or_too_large_is_refused() -> None:
    with pytest.raises(LengthError, match="too long"):
        parse("1" * 5000)
    with pytest.raises(LengthError, match="check the unit"):
        parse("99999999")


@given(st.text(max_size=80))
def test_any_text_gives_a_length_or_one_clear_error(text: str) -> None:
    try:
        value = parse(text)
    except LengthError as fault:
        assert str(fault)
    else:
        assert abs(value) <= 100_000


@given(st.floats(-90_000, 90_000), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_what_is_printed_reads_back_as_the_nearest_mark(x: float, denominator: int) -> None:
    mark = nearest(x, denominator)
    assert parse(feet_inches(x, denominator)) == mark
    assert parse(inches(x, denominator)) == mark
    assert abs(mark - x) <= 0.5 / denominator + 1e-6


@given(st.integers(0, 999), st.integers(0, 999), st.integers(1, 999))
def test_a_mixed_number_is_read_exactly(whole: int, above: int, below: int) -> None:
    assert fraction(f"{whole}-{above}/{below}") == whole + above / below
    assert fraction(f"{whole} {above} / {below}") == whole + above / below


def test_a_third_is_a_third() -> None:
    assert fraction("1/3") == 1 / 3
    assert fraction("1/3") * 9.25 == pytest.approx(9.25 / 3, abs=1e-15)
