"""Take-offs: what is known, what stands in for it, and what the user measured."""

import itertools

import pytest

from engine.plan.records import MeasuredTakeOff
from engine.trade import fittings, pipe
from engine.trade.catalogue import listed, rows, sizes
from engine.trade.facts import table
from engine.trade.fittings import KINDS, FittingError, takeoff

EVERY_LEG = [(row.kind, row.size, leg) for row in rows() for leg in KINDS[row.kind].legs]


@pytest.mark.parametrize(
    ("kind", "size", "leg", "length", "standing"),
    [
        # ASTM D3311 laying lengths, from memory
        ("quarter_bend", (1.5, 1.5), "run_in", 1.75, "memory"),
        ("quarter_bend", (2.0, 2.0), "run_out", 2.3125, "memory"),
        ("quarter_bend", (3.0, 3.0), "run_in", 3.0625, "memory"),
        ("quarter_bend", (4.0, 4.0), "run_in", 3.875, "memory"),
        ("eighth_bend", (1.5, 1.5), "run_in", 1.125, "memory"),
        ("sixteenth_bend", (3.0, 3.0), "run_out", 0.875, "memory"),
        ("long_sweep_quarter_bend", (1.5, 1.5), "run_in", 2.25, "memory"),
        ("long_sweep_quarter_bend", (3.0, 3.0), "run_in", 4.0625, "memory"),
        ("sanitary_tee", (1.5, 1.5, 1.5), "run_in", 1.0625, "memory"),
        ("sanitary_tee", (1.5, 1.5, 1.5), "branch", 1.75, "memory"),
        ("coupling", (1.5, 1.5), "run_in", 0.0625, "memory"),
        # Hub leg + socket depth: 3-1/16 + 1-1/2 = 4-9/16
        ("street_quarter_bend", (3.0, 3.0), "run_in", 3.0625, "estimate"),
        ("street_quarter_bend", (3.0, 3.0), "run_out", 4.5625, "estimate"),
        # Branch of the 2 in tee + (3.500 - 2.375) / 2 = 2.3125 + 0.5625
        ("sanitary_tee", (3.0, 3.0, 2.0), "branch", 2.875, "estimate"),
        # Socket depth of the larger less the smaller: 1-1/2 - 3/4, 1-1/2 - 11/16, 1-3/4 - 3/4
        ("flush_bushing_addon", (2.0, 3.0), "run_in", 0.75, "derived"),
        ("flush_bushing_addon", (1.5, 3.0), "run_in", 0.8125, "derived"),
        ("flush_bushing_addon", (2.0, 4.0), "run_in", 1.0, "derived"),
        ("flush_bushing_addon", (1.25, 1.5), "run_in", 0.0, "derived"),
        ("test_cap", (3.0,), "run_in", 0.0, "derived"),
    ],
)
def test_known_take_offs(
    kind: str, size: tuple[float, ...], leg: fittings.LegName, length: float, standing: str
) -> None:
    found = takeoff(kind, size, leg)
    assert (found.length, found.standing) == (length, standing)


@pytest.mark.parametrize(
    ("kind", "size", "leg", "length"),
    [
        # run/2 + 0.7071 branch by outsides, up to 1/16: 1.75 + 0.7071 x 2.375 = 3.4294
        ("wye", (3.0, 3.0, 2.0), "run_in", 3.4375),
        ("wye", (3.0, 3.0, 2.0), "run_out", 0.25),
        # 0.7071 run + branch/2: 2.4749 + 1.1875 = 3.6624
        ("wye", (3.0, 3.0, 2.0), "branch", 3.6875),
        # 1.75 + 0.7071 x 1.9 = 3.0935; 2.4749 + 0.95 = 3.4249
        ("wye", (3.0, 3.0, 1.5), "run_in", 3.125),
        ("wye", (3.0, 3.0, 1.5), "run_out", 0.25),
        ("wye", (3.0, 3.0, 1.5), "branch", 3.4375),
        # 0.7071 x 3.5 - 1.75 = 0.7249
        ("wye", (3.0, 3.0, 3.0), "run_out", 0.75),
        # Midway between half the outside, 0.95, and the short bend's 1.75: 1.35
        ("vent_quarter_bend", (1.5, 1.5), "run_in", 1.375),
        # 1.75 x 1.660 / 1.900 = 1.5289
        ("quarter_bend", (1.25, 1.25), "run_in", 1.5625),
        # That and the socket's 11/16
        ("street_quarter_bend", (1.25, 1.25), "run_out", 2.25),
        # 4.0625 + 1.5
        ("street_long_sweep_quarter_bend", (3.0, 3.0), "run_out", 5.5625),
        # 1.125 + 0.625 x (tan 30 - tan 22.5) / (1 - tan 22.5) = 1.2990
        ("sixth_bend", (1.5, 1.5), "run_in", 1.3125),
        ("closet_flange_4x3", (4.0, 3.0), "run_out", 0.5),
        ("sanitary_tee", (1.5, 2.0, 2.0), "run_out", 2.3125),
        ("reducer_coupling", (3.0, 2.0), "run_in", 0.375),
    ],
)
def test_assumed_take_offs(kind: str, size: tuple[float, ...], leg: fittings.LegName, length: float) -> None:
    """Worked by hand, the sum beside each."""
    found = takeoff(kind, size, leg)
    assert (found.length, found.standing) == (length, "assumed")
    assert found.tolerance >= 0.25


def test_a_combination_is_a_wye_and_a_street_bend() -> None:
    """Worked by hand, 3x3x2: b = 3.6875, s = 2.25, h = 1.5; 0.7071 x (b + s) = 4.1984.

    run_in 3.4375 - 4.1984 = -0.7609; run_out 0.25 + 4.1984 = 4.4484; branch 4.1984 + 1.5 = 5.6984.
    """
    legs = {leg: takeoff("combo_wye_eighth_bend", (3.0, 3.0, 2.0), leg).length for leg in KINDS["wye"].legs}
    assert legs == pytest.approx({"run_in": -0.7609, "run_out": 4.4484, "branch": 5.6984}, abs=5e-5)


@pytest.mark.parametrize("size", sizes("combo_wye_eighth_bend"), ids=fittings.size_label)
def test_a_combination_is_as_long_as_its_wye(size: tuple[float, ...]) -> None:
    whole = [
        takeoff(kind, size, leg).length for kind in ("combo_wye_eighth_bend", "wye") for leg in ("run_in", "run_out")
    ]
    assert whole[0] + whole[1] == pytest.approx(whole[2] + whole[3])
    assert whole[0] + whole[1] > 0


@pytest.mark.parametrize(("kind", "size", "leg"), EVERY_LEG, ids=lambda part: str(part))
def test_every_leg_that_is_sold_has_a_length_with_standing_and_room_for_error(
    kind: str, size: tuple[float, ...], leg: fittings.LegName
) -> None:
    found = takeoff(kind, size, leg)
    assert found.source
    assert found.tolerance > 0 or kind in ("test_cap", "vent_flashing")
    floor = fittings.floor_of(kind, size, leg)
    assert floor is None or found.length >= floor - 1e-9
    if found.length == 0.0:
        assert found.standing in ("derived", "memory"), "nothing is zero by default"


def test_between_two_known_patterns_the_tolerance_covers_both() -> None:
    """Long sweeps: 4-1/16 from memory, 4-1/2 by a maker's rule of 1.5 nominal sizes: 7/16 apart."""
    found = takeoff("long_sweep_quarter_bend", (3.0, 3.0), "run_in")
    assert found.tolerance == 0.4375
    assert [row.preferred for row in listed("long_sweep_quarter_bend", (3.0, 3.0))] == [True, False]


@pytest.mark.parametrize("size", [1.5, 2.0, 3.0, 4.0])
def test_what_lies_between_two_bends_says_how_far_off_it_may_be(size: float) -> None:
    eighth, quarter = (takeoff(kind, (size, size), "run_in").length for kind in ("eighth_bend", "quarter_bend"))
    sixth = takeoff("sixth_bend", (size, size), "run_in")
    assert eighth < sixth.length < quarter
    assert sixth.length + sixth.tolerance >= quarter
    assert sixth.length - sixth.tolerance <= eighth


def test_a_size_that_is_not_sold_is_said_to_be_assumed() -> None:
    assert not fittings.sold("wye", (4.0, 4.0, 1.25))
    found = takeoff("wye", (4.0, 4.0, 1.25), "branch")
    assert found.standing == "assumed"
    assert found.source.startswith("not in the catalogue")
    assert takeoff("flush_bushing_addon", (1.25, 4.0), "run_in").length == 1.0625


@pytest.mark.parametrize("kind", KINDS)
def test_any_sizes_that_pipe_has_give_a_length(kind: str) -> None:
    stock = pipe.SUPPLY_SIZES if "insert" in KINDS[kind].ends else pipe.DRAIN_SIZES
    for size in itertools.product(stock, repeat=len(KINDS[kind].ends)):
        for leg in KINDS[kind].legs:
            assert -6 < takeoff(kind, size, leg).length < 15


def test_what_is_no_fitting_is_named() -> None:
    with pytest.raises(FittingError, match="no fitting called 'elbow'"):
        takeoff("elbow", (2.0, 2.0), "run_in")
    with pytest.raises(FittingError, match="quarter bend has no 'branch'"):
        takeoff("quarter_bend", (2.0, 2.0), "branch")
    with pytest.raises(FittingError, match="wye has 3 sizes, not 2"):
        takeoff("wye", (2.0, 2.0), "branch")
    with pytest.raises(FittingError, match=r"no wye has a leg of 5 in"):
        takeoff("wye", (5.0, 5.0, 2.0), "branch")


class TestMeasured:
    """What the builder measured wins, and is looked at first."""

    def test_it_wins_over_the_catalogue_and_over_geometry(self) -> None:
        own = (
            MeasuredTakeOff("quarter_bend", "3x3", "run_in", 3.125),
            MeasuredTakeOff("wye", "3x3x2", "branch", 4.0),
        )
        found = takeoff("quarter_bend", (3.0, 3.0), "run_in", own)
        assert (found.length, found.standing, found.tolerance) == (3.125, "measured", 0.0625)
        assert takeoff("wye", (3.0, 3.0, 2.0), "branch", own).length == 4.0
        assert takeoff("quarter_bend", (3.0, 3.0), "run_out", own).standing == "memory"
        assert fittings.doubts(own) == ()

    def test_the_last_of_two_rows_holds(self) -> None:
        own = [MeasuredTakeOff("quarter_bend", "3", "run_in", length) for length in (3.0, 3.25)]
        assert takeoff("quarter_bend", (3.0, 3.0), "run_in", own).length == 3.25

    @pytest.mark.parametrize("text", ["3x3x1-1/2", "3 x 3 x 1-1/2", "3X1-1/2", "3×1-1/2"])
    def test_sizes_are_read_as_they_are_spoken(self, text: str) -> None:
        assert fittings.read_size("wye", text) == (3.0, 3.0, 1.5)

    @pytest.mark.parametrize(("kind", "size"), [(row.kind, row.size) for row in rows()])
    def test_every_size_label_reads_back(self, kind: str, size: tuple[float, ...]) -> None:
        assert fittings.read_size(kind, fittings.size_label(size)) == size

    def test_the_floors_of_a_wye(self) -> None:
        """Worked by hand with bores: 3.042/2 + 0.7071 x 2.049 = 2.97; 0.7071 x 3.042 + 2.049/2 = 3.18; equal: 1.207."""
        assert fittings.floor_of("wye", (3.0, 3.0, 2.0), "run_in") == pytest.approx(2.97, abs=0.005)
        assert fittings.floor_of("wye", (3.0, 3.0, 2.0), "branch") == pytest.approx(3.18, abs=0.005)
        assert fittings.floor_of("wye", (4.0, 4.0, 4.0), "branch") == pytest.approx(1.2071 * 3.998, abs=0.005)

    def test_the_floor_of_a_bend_is_the_corner_of_its_pipe(self) -> None:
        assert fittings.floor_of("quarter_bend", (1.5, 1.5), "run_in") == pytest.approx(0.95)
        assert fittings.floor_of("vent_quarter_bend", (3.0, 3.0), "run_in") == pytest.approx(1.75)
        assert fittings.floor_of("street_quarter_bend", (3.0, 3.0), "run_out") == pytest.approx(1.75 + 1.5)

    def test_too_short_to_be_true_is_doubted(self) -> None:
        at, under = (MeasuredTakeOff("wye", "3x3x2", "branch", length) for length in (3.1875, 3.125))
        assert fittings.doubts([at]) == ()
        (doubt,) = fittings.doubts([under])
        assert doubt.measured == under
        assert "3.18 in" in doubt.why

    @pytest.mark.parametrize(
        ("row", "why"),
        [
            (MeasuredTakeOff("elbow", "3", "run_in", 3.0), "no fitting called"),
            (MeasuredTakeOff("wye", "3xbig", "run_in", 3.0), "is no pipe size"),
            (MeasuredTakeOff("wye", "3x3x3x3", "run_in", 3.0), "has 3 sizes, not 4"),
            (MeasuredTakeOff("wye", "7", "run_in", 3.0), "leg of 7 in"),
            (MeasuredTakeOff("quarter_bend", "3", "branch", 3.0), "has no branch"),
        ],
    )
    def test_what_cannot_be_used_is_told_and_changes_nothing(self, row: MeasuredTakeOff, why: str) -> None:
        (doubt,) = fittings.doubts([row])
        assert why in doubt.why
        assert takeoff("wye", (3.0, 3.0, 3.0), "run_in", [row]).standing == "assumed"


def test_bushings_in_the_fewest_steps() -> None:
    assert fittings.bushings(2.0, 3.0) == ((2.0, 3.0),)
    assert fittings.bushings(1.25, 3.0) == ((1.25, 1.5), (1.5, 3.0))
    with pytest.raises(FittingError, match="bring 1-1/4 down to 4"):
        fittings.bushings(4.0, 1.25)


def test_a_chain_of_bushings_adds_up_to_the_difference_of_the_sockets() -> None:
    for small, large in itertools.combinations(pipe.DRAIN_SIZES, 2):
        chain = sum(takeoff("flush_bushing_addon", step, "run_in").length for step in fittings.bushings(small, large))
        assert chain == pipe.drain(large).socket - pipe.drain(small).socket


class TestCatalogue:
    """The data behind it."""

    def test_every_line_has_a_source_and_a_standing(self) -> None:
        for row in rows():
            assert len(row.source) > 8, row
            assert (row.standing == "assumed") == all(length is None for length in row.lengths), row
            assert row.tolerance > 0 or row.standing == "assumed" or row.kind in ("test_cap", "vent_flashing"), row

    def test_one_line_of_each_size_is_preferred(self) -> None:
        for kind in KINDS:
            for size in sizes(kind):
                assert [row.preferred for row in listed(kind, size)].count(True) == 1

    def test_every_kind_is_sold_and_has_an_assumption_that_is_used(self) -> None:
        assert set(KINDS) == {row.kind for row in rows()}
        assert set(table("assumptions").subjects()) == {"measured", *KINDS}
        assert [kind for kind in KINDS if not table("assumptions").has(kind, "tolerance")] == []

    def test_kinds_speak_in_trade_words(self) -> None:
        assert KINDS["combo_wye_eighth_bend"].words == "combination wye and eighth bend"
        assert KINDS["street_quarter_bend"].end("run_out") == "spigot"
        assert KINDS["street_quarter_bend"].end("run_in") == "hub"
        assert {kind.turn for kind in KINDS.values()} == {0, 22.5, 45, 60, 90}
        assert len({kind.words for kind in KINDS.values()}) == len(KINDS)

    def test_the_core_of_a_cottage_is_sold(self) -> None:
        for size in (1.5, 2.0, 3.0):
            for kind in ("quarter_bend", "long_sweep_quarter_bend", "eighth_bend", "coupling", "street_quarter_bend"):
                assert fittings.sold(kind, (size, size))
            for kind in ("wye", "sanitary_tee", "combo_wye_eighth_bend"):
                assert fittings.sold(kind, (size, size, size))
        assert fittings.sold("wye", (3.0, 3.0, 1.5))
        assert not fittings.sold("wye", (3.0, 3.0, 4.0))
