"""Every turn against IRC 2021 Table P3005.1 with its footnotes (read in the International Residential Code 2012,
section P3005).

Footnotes: a, only a fixture drain of 2 in or less; b, 3 in and larger; c, allowed, double patterns by P3005.1.1.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from msgspec.structs import replace

from engine.joinery.choose import allowed
from engine.plan.records import Exit, Fixture, PinnedFitting, Plan, Riser
from engine.rulebooks import load
from tests.engine.checks.drawn_turns import corner, in_wall, onto_main, riser_foot, turning
from tests.engine.checks.judged_plans import amended, bare, broken, counts, drain, findings, model_of, not_judged

Floor = Callable[..., Plan]
DOWN, UP, FLAT = "horizontal_to_vertical", "vertical_to_horizontal", "horizontal_to_horizontal"
TABLE = {
    # pattern: level to plumb, plumb to level, level to level
    "sixteenth_bend": ("yes", "yes", "yes"),
    "eighth_bend": ("yes", "yes", "yes"),
    "sixth_bend": ("yes", "yes", "yes"),
    "quarter_bend": ("yes", "a", "a"),
    "short_sweep": ("yes", "ab", "a"),
    "long_sweep_quarter_bend": ("yes", "yes", "yes"),
    "sanitary_tee": ("c", "no", "no"),
    "wye": ("yes", "yes", "yes"),
    "combo_wye_eighth_bend": ("yes", "yes", "yes"),
}
"""IRC 2021 Table P3005.1."""
SIZES = (1.25, 1.5, 2.0, 3.0, 4.0)


def said(mark: str, size: float, fixture_drain: bool) -> bool:
    """What a mark of the table allows, by its footnotes."""
    small = fixture_drain and size <= 2.0
    return {"yes": True, "c": True, "no": False, "a": small, "ab": small or size >= 3.0}[mark]


@pytest.mark.parametrize("pattern", TABLE)
@pytest.mark.parametrize(("column", "change"), [(0, DOWN), (1, UP), (2, FLAT)])
def test_the_whole_table(pattern: str, column: int, change: str) -> None:
    book, mark = load("irc-2021"), TABLE[pattern][column]
    for size in SIZES:
        for fixture_drain in (True, False):
            assert allowed(book, pattern, change, size, fixture_drain) == said(mark, size, fixture_drain)


@pytest.mark.parametrize(
    ("pattern", "change", "size", "fixture_drain", "holds"),
    [
        # a: up to and with 2 in, and one fixture's drain only
        ("quarter_bend", FLAT, 2.0, True, True),
        ("quarter_bend", FLAT, 3.0, True, False),
        ("quarter_bend", FLAT, 2.0, False, False),
        ("quarter_bend", UP, 2.0, True, True),
        ("quarter_bend", UP, 3.0, True, False),
        # b: from 3 in on, whatever drains through it
        ("short_sweep", UP, 3.0, False, True),
        ("short_sweep", UP, 2.0, False, False),
        ("short_sweep", UP, 2.0, True, True),
        ("short_sweep", FLAT, 3.0, True, False),
    ],
)
def test_the_footnotes_sizes(pattern: str, change: str, size: float, fixture_drain: bool, holds: bool) -> None:
    assert allowed(load("irc-2021"), pattern, change, size, fixture_drain) == holds


DRAWN = [
    # level to level: one fixture's 2 in drain, one fixture's 3 in, two fixtures' 2 in
    (corner(22.5, "3", "sixteenth_bend"), "sixteenth_bend", FLAT, True),
    (corner(45.0, "3", "eighth_bend"), "eighth_bend", FLAT, True),
    (corner(60.0, "3", "sixth_bend"), "sixth_bend", FLAT, True),
    (corner(90.0, "2", "quarter_bend"), "quarter_bend", FLAT, True),
    (corner(90.0, "3", "quarter_bend"), "quarter_bend", FLAT, False),
    (corner(90.0, "2", "quarter_bend", fixtures=2), "quarter_bend", FLAT, False),
    (corner(90.0, "3", "long_sweep_quarter_bend"), "long_sweep_quarter_bend", FLAT, True),
    (onto_main("sanitary_tee"), "sanitary_tee", FLAT, False),
    (onto_main("wye", turn=45.0), "wye", FLAT, True),
    (onto_main("combo_wye_eighth_bend"), "combo_wye_eighth_bend", FLAT, True),
    # plumb to level
    (riser_foot("quarter_bend"), "quarter_bend", UP, True),
    (riser_foot("quarter_bend", "3"), "quarter_bend", UP, False),
    (riser_foot("quarter_bend", fixtures=2), "quarter_bend", UP, False),
    (riser_foot("long_sweep_quarter_bend", "3"), "long_sweep_quarter_bend", UP, True),
    (onto_main("sanitary_tee", join="drop", rise=12.0), "sanitary_tee", UP, False),
    (onto_main("combo_wye_eighth_bend", join="drop", rise=12.0), "combo_wye_eighth_bend", UP, True),
    (onto_main("wye", turn=0.0, join="rolled", roll=45.0, rise=12.0), "wye", UP, True),
    # level to plumb, or to a pipe that leans 45 degrees or more
    (onto_main(None, join="rolled", roll=45.0, rise=12.0), "eighth_bend", DOWN, True),
    (onto_main(None, join="rolled", roll=60.0, rise=12.0), "sixth_bend", DOWN, True),
    (onto_main(None, join="drop", rise=12.0), "quarter_bend", DOWN, True),
    (in_wall("sanitary_tee"), "sanitary_tee", DOWN, True),
    (in_wall("combo_wye_eighth_bend"), "combo_wye_eighth_bend", DOWN, True),
    (in_wall(None, both=True), "double_fixture_fitting", DOWN, True),
    (in_wall("sanitary_tee", both=True), "double_sanitary_tee", DOWN, True),
]


@pytest.mark.parametrize(("plan", "kind", "change", "holds"), DRAWN, ids=lambda value: str(value)[:24])
def test_drawn_turns(plan: Plan, kind: str, change: str, holds: bool) -> None:
    part = turning(plan, kind)
    assert part.change == change
    wrong = findings("turn-in-wrong-fitting", plan)
    if holds:
        assert wrong == []
        return
    (found,) = wrong
    assert (found.weight, found.elements, found.unit) == ("stop", part.elements, "degrees")
    assert (found.measured, found.limit) == (part.turn, None)
    assert found.measured == pytest.approx(90.0)
    assert found.at == part.centre
    assert found.cites == "IRC 2021 Table P3005.1"
    assert found.mend


class TestTable:
    rule = "turn-in-wrong-fitting"

    def test_a_tee_on_its_back_says_so_and_what_to_take(self) -> None:
        """2 in that drops into 3 in level, or 3 in into 3: no exception for any fixture (Table P3005.1)."""
        for size in ("2", "3"):
            found = broken(self.rule, onto_main("sanitary_tee", size, join="drop", rise=12.0))
            assert "on its back" in found.text
            assert f"{size} in sanitary tee" in found.text
            assert "combination" in found.mend and "wye" in found.mend

    def test_a_level_tee_lies_on_its_side(self) -> None:
        found = broken(self.rule, onto_main("sanitary_tee", "2"))
        assert "from level to level: a tee on its side" in found.text

    def test_a_city_that_takes_it(self) -> None:
        plan = onto_main("sanitary_tee", join="drop", rise=12.0)
        city = amended(plan, "fitting.sanitary_tee.vertical_to_horizontal", "yes")
        assert findings(self.rule, city) == []

    def test_unasked_no_turn_is_in_the_wrong_fitting(self) -> None:
        for plan in (
            corner(90.0, "3", None),
            corner(90.0, "2", None, 2),
            riser_foot(None, "3"),
            onto_main(None),
            onto_main(None, join="drop", rise=12.0),
            onto_main(None, join="rolled", roll=45.0, rise=12.0),
            in_wall(None),
        ):
            assert findings(self.rule, plan) == []

    def test_three_inch_quarter_bends(self) -> None:
        """Level to level over 2 in: a long sweep, two eighth bends or a wye with one; 3 in quarter bends are not."""
        found = broken(self.rule, corner(90.0, "3", "quarter_bend"))
        assert "long sweep" in found.mend and "eighth" in found.mend
        assert "from level to level" in found.text

    def test_a_county_that_reads_the_footnote_to_three_inches(self) -> None:
        plan = corner(90.0, "3", "quarter_bend")
        assert findings(self.rule, amended(plan, "fitting.note_a.largest_fixture_drain", 3)) == []

    def test_a_dry_vent_turns_no_waste(self, hand_floor: Floor) -> None:
        """A vent taken off a level drain by a tee: the table is for drainage."""
        plan = hand_floor(lavatory=False)
        main = replace(plan.drains[0], points=((36.0, 92.0), (36.0, 80.0), (36.0, 20.0)))
        vented = replace(
            plan,
            drains=(main,),
            risers=(Riser("r9", (36.0, 80.0)),),
            fittings=(PinnedFitting("p1", (36.0, 80.0), "sanitary_tee"),),
        )
        assert turning(vented, "sanitary_tee").change == "none"
        assert findings(self.rule, vented) == []

    def test_parts_that_turn_nothing_do_not_apply(self, hand_floor: Floor) -> None:
        held, broken_, unjudged, beside = counts(self.rule, hand_floor())
        # two quarter bends, the wye, the eighth bend, the long sweep, the tee
        assert (held, broken_, unjudged) == (6, 0, 0)
        assert beside == len(model_of(hand_floor()).joinery.parts) - 6

    def test_not_judged_for_a_pattern_without_a_row(self) -> None:
        plan = corner(60.0, "3", "sixth_bend")
        (found,) = not_judged(self.rule, plan, lacking="fitting.sixth_bend.horizontal_to_horizontal")
        assert "sixth bend" in found.missing
        assert "d1" in found.elements

    def test_two_lavatories_back_to_back(self) -> None:
        """The IRC allows a double tee for opposite, equal drains of like fixtures (P3005.1.1)."""
        tee = turning(in_wall("sanitary_tee", both=True), "double_sanitary_tee")
        assert tee.size == (1.5, 1.5, 1.5)


class TestUnderACloset:
    """P3005.1.4 (from memory): a 3 in quarter bend stands under a closet where a 4x3 flange receives its horn."""

    rule = "turn-in-wrong-fitting"

    def closet(self, size: str, pattern: str | None = None) -> Plan:
        pins = (PinnedFitting("p1", (200.0, 100.0), pattern),) if pattern else ()  # type: ignore[arg-type]
        return bare(
            fixtures=(Fixture("wc1", "water_closet", (200.0, 100.0)),),
            drains=(drain((200.0, 100.0), (200.0, 40.0), size=size),),
            exits=(Exit("x1", (200.0, 40.0), how="through-rim"),),
            fittings=pins,
        )

    def test_three_inch_holds_by_the_exception(self) -> None:
        assert turning(self.closet("3"), "quarter_bend").change == UP
        assert findings(self.rule, self.closet("3")) == []

    def test_where_the_exception_does_not_hold(self) -> None:
        plan = amended(self.closet("3", "quarter_bend"), "closet.quarter_bend_under_flange", False)
        found = broken(self.rule, plan)
        assert "under a closet" in found.text
        assert found.cites == "IRC 2021 Table P3005.1"
        unpinned = amended(self.closet("3"), "closet.quarter_bend_under_flange", False)
        assert turning(unpinned, "long_sweep_quarter_bend").change == UP
        assert findings(self.rule, unpinned) == []

    def test_four_inch_is_not_in_the_exception(self) -> None:
        assert turning(self.closet("4"), "long_sweep_quarter_bend").change == UP
        assert "4 in quarter bend" in broken(self.rule, self.closet("4", "quarter_bend")).text

    def test_a_closet_bend_goes_by_the_long_sweeps_row(self) -> None:
        assert turning(self.closet("3", "closet_bend"), "closet_bend").change == UP
        assert findings(self.rule, self.closet("3", "closet_bend")) == []

    def test_how_near_the_bend_stands_and_which_way_it_points_does_not_matter(self) -> None:
        """A bend straight under its flange, an arm 10 in west to an upright drop onto a main that runs east."""
        plan = bare(
            fixtures=(Fixture("wc1", "water_closet", (240.0, 100.0)),),
            drains=(
                drain((240.0, 100.0), (230.0, 100.0), size="3", join="drop", rise=20.0),
                drain((200.0, 100.0), (230.0, 100.0), (300.0, 100.0), id="d2", size="3"),
            ),
            exits=(Exit("x1", (300.0, 100.0), how="through-rim"),),
        )
        for rule in (self.rule, "runs-uphill", "slope-too-small", "no-fitting-turns-so"):
            assert findings(rule, plan) == []
