"""What a crossing cuts from its joist: bores, notches, and the wood between them.

Limits: IRC 2021 R502.8.1. Joists 2x10 (9-1/4 deep) or 2x8 (7-1/4), 105 long from y 1.5; pipe 1-1/2 in (1.900 outside,
bit 2-1/8).
"""

from collections.abc import Callable

import pytest

from engine.crossings.cuts import cut
from engine.crossings.find import find
from engine.crossings.records import JoistCut
from engine.framing.records import Framing
from engine.piping.records import Network, Pipe
from engine.plan.records import Amendment, Plan
from engine.rulebooks import load

BOOK = load("irc-2021")
Cut = Callable[..., tuple[JoistCut, ...]]


@pytest.fixture
def cut_at(
    run: Callable[..., list[Pipe]],
    net: Callable[..., Network],
    plan_of: Callable[..., Plan],
    floor: Callable[..., Framing],
) -> Cut:
    """The cuts of runs square through joist F.3 (x 48), each given as (y, axis height, size, passing)."""

    def made(
        *runs: tuple[float, float | None, float, str], book: object = BOOK, **given: object
    ) -> tuple[JoistCut, ...]:
        pipes = [run(f"d{n}", [(56.0, y), (43.0, y)], size, passing) for n, (y, _, size, passing) in enumerate(runs)]
        framing = floor(**given)
        found = find(net(*pipes), plan_of(), framing, book)  # type: ignore[arg-type]
        heights = {c.id: z for c, (_, z, _, _) in zip(found, runs, strict=True) if z is not None}
        return cut(found, framing, heights, book)  # type: ignore[arg-type]

    return made


def test_a_bore_is_measured_from_edges_that_a_tape_can_hook(cut_at: Cut) -> None:
    # the eighth bend's branch at its first joist, worked by hand: axis 6.0021 down
    (found,) = cut_at((69.0, -6.0021, 1.5, "through"))
    assert (found.kind, found.diameter, found.bit, found.edge) == ("bore", 2.125, "2-1/8", None)
    assert (found.from_start, found.from_end) == (67.5, 37.5)
    assert found.down_from_top == pytest.approx(6.0021)
    assert found.up_from_bottom == pytest.approx(3.2479)
    assert found.wood_above == pytest.approx(4.9396)
    assert found.wood_below == pytest.approx(2.1854)
    assert found.limit == pytest.approx(9.25 / 3)
    assert (found.legal, found.faults, found.unjudged) == (True, (), ())


@pytest.mark.parametrize(
    ("z", "faults"),
    [
        (-6.1875, ()),  # exactly 2 in below
        (-6.1875 - 1 / 16, ("bore-near-edge",)),
        (-3.0625, ()),  # exactly 2 in above
        (-3.0625 + 1 / 16, ("bore-near-edge",)),
        (-9.0, ("bore-near-edge",)),  # breaks out of the bottom edge
        (0.5, ("bore-near-edge",)),  # and of the top
    ],
)
def test_wood_above_and_below_a_bore(cut_at: Cut, z: float, faults: tuple[str, ...]) -> None:
    (found,) = cut_at((69.0, z, 1.5, "through"))
    assert found.faults == faults
    assert found.legal is not bool(faults)


def test_size_alone_clears_no_bore(cut_at: Cut) -> None:
    # a 2-9/16 in bore in a 2x10, its top 3/4 in from the joist's: 2.5625 <= 3.0833, but 0.75 < 2
    (found,) = cut_at((69.0, -0.75 - 2.5625 / 2, 2.0, "through"))
    assert found.wood_above == pytest.approx(0.75)
    assert found.faults == ("bore-near-edge",)


def test_a_bore_that_is_too_wide_is_not_judged_by_its_height_as_well(cut_at: Cut) -> None:
    (found,) = cut_at((69.0, -8.0, 3.0, "through"))
    assert (found.diameter, found.faults, found.legal) == (3.625, ("bore-too-large",), False)


def test_a_joist_too_shallow_for_any_bore_takes_none(cut_at: Cut) -> None:
    # 2x4: 3.5 - 4 < 0
    (found,) = cut_at((69.0, -1.75, 1.5, "through"), lumber="2x4")
    assert (found.limit, found.faults) == (0.0, ("bore-too-large",))


@pytest.mark.parametrize("passing", ["through", "notched", "under"])
@pytest.mark.parametrize("z", [-9.25 - 0.95, -14.0, 0.95, 3.0])
def test_pipe_clear_of_the_joist_cuts_nothing(cut_at: Cut, passing: str, z: float) -> None:
    assert cut_at((69.0, z, 1.5, passing)) == ()


def test_a_run_that_passes_under_cuts_nothing_even_where_it_is_in_the_way(cut_at: Cut) -> None:
    assert cut_at((69.0, -9.0, 1.5, "under")) == ()


def test_a_crossing_of_unknown_height_has_no_cut(cut_at: Cut) -> None:
    assert cut_at((69.0, None, 1.5, "through")) == ()


def test_a_notch_runs_from_the_nearer_edge_to_the_pipes_far_side(cut_at: Cut) -> None:
    top, bottom = cut_at((20.0, -0.25, 1.5, "notched"), (90.0, -8.8, 1.5, "notched"))
    # 0.25 + 0.95 down from the top
    assert (top.edge, top.depth) == ("top", pytest.approx(1.2))
    assert (top.wood_above, top.wood_below) == (0.0, pytest.approx(8.05))
    # 9.25 - 8.8 + 0.95 up from the bottom
    assert (bottom.edge, bottom.depth) == ("bottom", pytest.approx(1.4))
    assert (bottom.wood_above, bottom.wood_below) == (pytest.approx(7.85), 0.0)
    assert (top.length, top.diameter, top.bit) == (pytest.approx(1.9), 1.9, None)


def test_a_notch_is_no_deeper_than_the_joist(cut_at: Cut) -> None:
    (found,) = cut_at((20.0, -1.6, 3.0, "notched"), lumber="2x4")
    assert found.depth == pytest.approx(3.35)
    (found,) = cut_at((20.0, -1.7, 4.0, "notched"), lumber="2x4")
    assert found.depth == 3.5


@pytest.mark.parametrize(
    ("lumber", "depth", "length", "end"),
    [
        ("2x6", 0.9167, 1.8333, 1.375),
        ("2x8", 1.2083, 2.4167, 1.8125),
        ("2x10", 1.5417, 3.0833, 2.3125),
        ("2x12", 1.875, 3.75, 2.8125),
    ],
)
def test_what_a_notch_may_take(cut_at: Cut, lumber: str, depth: float, length: float, end: float) -> None:
    # IRC 2021 R502.8.1: d/6 deep, d/3 long, d/4 over the bearing at the end
    from engine.crossings.limits import allowance
    from engine.trade.lumber import actual

    most = allowance(actual(lumber).depth, BOOK)
    assert most.notch_depth == pytest.approx(depth, abs=5e-5)
    assert most.notch_length == pytest.approx(length, abs=5e-5)
    assert most.end_notch == pytest.approx(end, abs=5e-5)
    (found,) = cut_at((20.0, 0.0, 1.5, "notched"), lumber=lumber)
    assert found.limit == pytest.approx(depth, abs=5e-5)


def z_for_notch(depth: float) -> float:
    """Axis height at which 1-1/2 in pipe asks for a top notch so deep."""
    return 0.95 - depth


@pytest.mark.parametrize(("depth", "faults"), [(9.25 / 6, ()), (9.25 / 6 + 1 / 16, ("notch-too-deep",)), (1.0, ())])
def test_depth_of_a_notch_away_from_the_end(cut_at: Cut, depth: float, faults: tuple[str, ...]) -> None:
    (found,) = cut_at((20.0, z_for_notch(depth), 1.5, "notched"))
    assert found.faults == faults


@pytest.mark.parametrize(
    ("depth", "faults"), [(9.25 / 4, ()), (9.25 / 4 + 1 / 16, ("end-notch-too-deep",)), (9.25 / 6 + 1 / 16, ())]
)
def test_depth_of_a_notch_over_the_end_bearing(cut_at: Cut, depth: float, faults: tuple[str, ...]) -> None:
    # bearing 5-1/2 in from outside: 4 on the joist, y 1.5 to 5.5; the notch y 2.05 to 3.95
    (found,) = cut_at((3.0, z_for_notch(depth), 1.5, "notched"), end_bearing=5.5)
    assert (found.over_bearing, found.faults) == (True, faults)
    assert found.limit == pytest.approx(9.25 / 4)


def test_a_notch_that_reaches_past_the_bearing_is_no_end_notch(cut_at: Cut) -> None:
    (found,) = cut_at((5.0, z_for_notch(2.0), 1.5, "notched"), end_bearing=5.5)
    assert (found.over_bearing, found.faults) == (False, ("notch-too-deep",))


def test_a_notch_over_a_bearing_in_between_is_no_end_notch(cut_at: Cut) -> None:
    (found,) = cut_at((54.0, z_for_notch(2.0), 1.5, "notched"), bearings=(54.0,))
    assert (found.over_bearing, found.faults) == (False, ("notch-too-deep",))


@pytest.mark.parametrize(("depth", "broken", "open_"), [(1.5, False, False), (2.0, False, True), (2.4, True, False)])
def test_without_bearings_a_notch_is_judged_as_far_as_it_can_be(
    cut_at: Cut, depth: float, broken: bool, open_: bool
) -> None:
    (found,) = cut_at((20.0, z_for_notch(depth), 1.5, "notched"), end_bearing=0.0)
    assert ("notch-too-deep" in found.faults) is broken
    assert ("notch-too-deep" in found.unjudged) is open_
    # where along the span cannot be told either
    assert "notch-in-middle-third" in found.unjudged
    assert found.legal is (False if broken else None)


@pytest.mark.parametrize(
    ("size", "lumber", "faults"),
    [
        (1.5, "2x6", ("notch-too-long",)),
        (1.5, "2x8", ()),
        (2.0, "2x8", ()),
        (3.0, "2x10", ("notch-too-long",)),
        (3.0, "2x12", ()),
    ],
)
def test_length_of_a_notch(cut_at: Cut, size: float, lumber: str, faults: tuple[str, ...]) -> None:
    # 1.900 > 1.8333; 1.900, 2.375 <= 2.4167; 3.5 > 3.0833; 3.5 <= 3.75
    (found,) = cut_at((20.0, 0.9, size, "notched"), lumber=lumber)
    assert found.faults == faults


# clear span of the 2x10 with 3-1/2 in end bearings: joist 105, bearings 2 at each end, so y 3.5 to 104.5, 101 long;
# a third is 33.6667, so the middle third is y 37.1667 to 70.8333
@pytest.mark.parametrize(
    ("y", "inside"),
    [
        (37.1667 - 0.95 - 0.001, False),
        (37.1667 - 0.95 + 1 / 16, True),
        (54.0, True),
        (70.8333 + 0.95 - 1 / 16, True),
        (70.8333 + 0.95 + 0.001, False),
        (4.0, False),
    ],
)
def test_middle_third_is_of_the_clear_span(cut_at: Cut, y: float, inside: bool) -> None:
    (found,) = cut_at((y, 0.0, 1.5, "notched"))
    assert ("notch-in-middle-third" in found.faults) is inside


def test_a_bearing_in_between_makes_two_spans(cut_at: Cut) -> None:
    # at midspan of the whole stick, but over the bearing; then in the middle of the southern span
    over, within = cut_at((54.0, 0.0, 1.5, "notched"), (27.0, 0.0, 1.5, "notched"), bearings=(54.0,))
    assert over.faults == ()
    assert within.faults == ("notch-in-middle-third",)


def test_past_the_last_bearing_a_notch_is_not_judged(cut_at: Cut) -> None:
    (found,) = cut_at((90.0, 0.0, 1.5, "notched"), end_bearing=0.0, bearings=(10.0, 70.0))
    assert found.unjudged == ("notch-in-middle-third",)


def test_bores_may_lie_in_the_middle_third_unless_the_official_refuses(cut_at: Cut) -> None:
    (found,) = cut_at((54.0, -4.6, 1.5, "through"))
    assert found.legal is True
    strict = load("irc-2021", (Amendment("joist.bore.middle_allowed", False, "the county", "2026"),))
    (found,) = cut_at((54.0, -4.6, 1.5, "through"), book=strict)
    assert found.faults == ("bore-in-middle-third",)


# two 2-1/8 bores at one height: centres 4-1/8 apart leave 2 in
@pytest.mark.parametrize(("apart", "close"), [(4.125, False), (4.125 - 1 / 16, True), (1.0, True), (40.0, False)])
def test_wood_between_two_bores(cut_at: Cut, apart: float, close: bool) -> None:
    one, two = cut_at((20.0, -4.6, 1.5, "through"), (20.0 + apart, -4.6, 1.5, "through"))
    assert (one.faults == two.faults == ("bores-close-together",)) is close
    if close:
        assert one.gap == pytest.approx(apart - 2.125)
        assert (one.beside, two.beside) == (two.crossing, one.crossing)


def test_wood_between_bores_one_over_the_other_is_what_stands_between_them(cut_at: Cut) -> None:
    # 2x12, 11-1/4 deep: bores of 2-1/8 whose axes are 4-1/8 apart in height, right over one another
    one, two = cut_at((20.0, -3.1, 1.5, "through"), (20.0, -3.1 - 4.125, 1.5, "through"), lumber="2x12")
    assert one.faults == two.faults == ()
    one, two = cut_at((20.0, -3.1, 1.5, "through"), (20.0, -3.1 - 4.0, 1.5, "through"), lumber="2x12")
    assert one.gap == pytest.approx(1.875)
    assert "bores-close-together" in one.faults


def test_bores_aslant_of_each_other_are_measured_between_their_centres(cut_at: Cut) -> None:
    # 3 along and 4 up: centres 5 apart, 5 - 2.125 = 2.875
    one, _ = cut_at((20.0, -3.1, 1.5, "through"), (23.0, -7.1, 1.5, "through"), lumber="2x12")
    assert (one.gap, one.faults) == (None, ())
    # 3 along and 2-1/2 up: 3.9051 - 2.125 = 1.7801
    one, _ = cut_at((20.0, -3.1, 1.5, "through"), (23.0, -5.6, 1.5, "through"), lumber="2x12")
    assert one.gap == pytest.approx(1.7801, abs=5e-5)


def test_the_nearest_of_several_bores_counts(cut_at: Cut) -> None:
    found = cut_at(*((y, -4.6, 1.5, "through") for y in (20.0, 23.5, 26.5, 60.0)))
    assert [cut.beside and cut.beside[:2] for cut in found] == ["d1", "d2", "d1", ""]
    assert [cut.faults for cut in found] == [("bores-close-together",)] * 3 + [()]


@pytest.mark.parametrize(("apart", "close"), [(0.95 + 1.0625 + 2.0, False), (0.95 + 1.0625 + 2.0 - 1 / 16, True)])
def test_wood_between_a_bore_and_a_notch_is_looked_at_from_both(cut_at: Cut, apart: float, close: bool) -> None:
    # the notch reaches down past the bore's centre, so the wood between them lies level
    notch, bore = cut_at((20.0, -2.0, 3.0, "notched"), (20.0 + apart + 0.8, -3.3, 1.5, "through"))
    assert ("bore-close-to-notch" in notch.faults) is close
    assert ("bore-close-to-notch" in bore.faults) is close
    if close:
        assert bore.notch_gap == pytest.approx(2.0 - 1 / 16)
        assert (bore.beside_notch, notch.beside_notch) == (notch.crossing, bore.crossing)


def test_two_notches_have_no_rule_between_them(cut_at: Cut) -> None:
    one, two = cut_at((20.0, 0.2, 1.5, "notched"), (22.5, 0.2, 1.5, "notched"))
    assert one.faults == two.faults == ()
    assert one.gap is None


def test_engineered_members_and_rims_have_no_number(cut_at: Cut) -> None:
    (found,) = cut_at((69.0, -4.6, 1.5, "through"), member="engineered")
    assert (found.legal, found.faults, found.limit) == (False, ("engineered-member-cut",), 0.0)
    allowed = load("irc-2021", (Amendment("joist.engineered.cuts_allowed", True, "the county", "2026"),))
    (found,) = cut_at((69.0, -4.6, 1.5, "through"), member="engineered", book=allowed)
    assert (found.legal, found.unjudged) == (None, ("engineered-member-cut",))


def test_a_bored_rim_is_not_judged(
    run: Callable[..., list[Pipe]],
    net: Callable[..., Network],
    plan_of: Callable[..., Plan],
    floor: Callable[..., Framing],
) -> None:
    found = find(net(run("d", [(40.0, 20.0), (40.0, 0.0)])), plan_of(), floor(), BOOK)
    (made,) = cut(found, floor(), {found[0].id: -5.0}, BOOK)
    assert (made.joist, made.legal, made.faults) == ("F.rim-south", None, ())


def test_an_amended_limit_is_the_limit(cut_at: Cut) -> None:
    wider = load("irc-2021", (Amendment("joist.bore.edge", 1.5, "the county", "2026"),))
    (found,) = cut_at((69.0, -6.1875 - 0.5, 1.5, "through"), book=wider)
    assert found.legal is True
