"""Vents over the roof: IRC 2021 P3103.1.1, P3103.1.2, P3103.2, P3103.5; UPC 2021 906.1 to 906.3, 906.7."""

from __future__ import annotations

import math
from typing import Any

import pytest
from msgspec.structs import replace

from engine.plan.records import AirOpening, DrainSize, Plan, Riser
from tests.engine.checks.judged_plans import amended, armed, broken, counts, findings, model_of, not_judged

SIXTEENTH = 1.0 / 16.0
UPC = "upc-2021"
RISER = (240.0, 240.0)


def house(book: str = "irc-2021", vent: DrainSize | None = None, own_roof: float | None = None, **floor: Any) -> Plan:
    """A sink whose vent goes through a roof 126 in above the floor: the program ends it 6 in over that."""
    plan = armed("kitchen_sink", 12.0)
    riser = Riser("r1", RISER, vent=vent, above_floor=own_roof)
    return replace(plan, rulebook=book, risers=(riser,), floor=replace(plan.floor, **floor))


def window(aside: float, top: float, **given: Any) -> Plan:
    """The house with a window that far east of the riser, its top so far above the floor. The vent ends at 132."""
    x = RISER[0] + aside
    return replace(house(**given), air_openings=(AirOpening("a1", (x, 220.0), (x, 260.0), top, "the window"),))


class TestHeight:
    rule = "roof-end-too-low"

    @pytest.mark.parametrize("book", ["irc-2021", UPC])
    def test_six_inches_over_the_roof_or_the_snow(self, book: str) -> None:
        assert counts(self.rule, house(book)) == (1, 0, 0, 0)
        assert counts(self.rule, house(book, snow=20.0)) == (1, 0, 0, 0)

    def test_a_place_that_asks_for_more_gets_it(self) -> None:
        """The riser is drawn to the amended height."""
        plan = amended(house(), "vent.roof_above", 12)
        assert counts(self.rule, plan) == (1, 0, 0, 0)
        assert max(node.level for node in model_of(plan).network.graph) == 1.0 + 126.0 + 12.0

    @pytest.mark.parametrize(("book", "cites"), [("irc-2021", "IRC 2021 P3103.1.2"), (UPC, "UPC 2021 906.3")])
    def test_seven_feet_over_a_roof_that_people_use(self, book: str, cites: str) -> None:
        found = broken(self.rule, house(book, roof_deck=True))
        assert (found.measured, found.limit, found.unit, found.cites) == (6.0, 84.0, "in", cites)
        assert "17'-0\"" in found.mend  # 126 + 84 - 6 = 204

    def test_exactly_seven_feet_and_a_sixteenth_less(self) -> None:
        assert counts(self.rule, house(roof_deck=True, own_roof=204.0)) == (1, 0, 0, 0)
        assert broken(self.rule, house(roof_deck=True, own_roof=204.0 - SIXTEENTH)).measured == 84.0 - SIXTEENTH
        # with 10 in of snow on it the riser is drawn that much longer already
        assert counts(self.rule, house(roof_deck=True, snow=10.0, own_roof=194.0)) == (1, 0, 0, 0)

    def test_a_low_eave_is_its_own_roof(self) -> None:
        assert counts(self.rule, house(own_roof=100.0)) == (1, 0, 0, 0)
        assert broken(self.rule, house(own_roof=100.0, roof_deck=True)).measured == 6.0

    def test_ten_inches_in_frost_by_the_uniform_code(self) -> None:
        """UPC 906.7: 10 in over the roof below 0 deg F; the IRC asks for no more height."""
        found = broken(self.rule, house(UPC, design_temp=-1.0))
        assert (found.measured, found.limit, found.cites) == (6.0, 10.0, "UPC 2021 906.7")
        assert counts(self.rule, house(UPC, design_temp=-1.0, own_roof=130.0)) == (1, 0, 0, 0)
        assert counts(self.rule, house(UPC, design_temp=0.0)) == (1, 0, 0, 0)
        assert counts(self.rule, house(design_temp=-30.0)) == (1, 0, 0, 0)

    def test_without_an_end_over_the_roof_it_does_not_apply(self) -> None:
        plan = house()
        assert counts(self.rule, replace(plan, risers=(replace(plan.risers[0], top="valve"),))) == (0, 0, 0, 1)


class TestOpenings:
    rule = "vent-near-opening"

    @pytest.mark.parametrize(("book", "cites"), [("irc-2021", "IRC 2021 P3103.5"), (UPC, "UPC 2021 906.2")])
    def test_ten_feet_aside_or_three_feet_above(self, book: str, cites: str) -> None:
        beside = int(book == UPC)  # walls over the roof and the lot line, told once
        assert counts(self.rule, window(120.0, 132.0, book=book)) == (1, 0, beside, 0)
        assert counts(self.rule, window(50.0, 96.0, book=book)) == (1, 0, beside, 0)
        found = broken(self.rule, window(120.0 - SIXTEENTH, 96.0 + SIXTEENTH, book=book))
        assert (found.measured, found.limit, found.unit, found.cites) == (36.0 - SIXTEENTH, 36.0, "in", cites)
        assert found.elements == ("r1", "a1")
        assert found.at == (*RISER, 133.0)

    def test_the_nearest_place_of_the_opening_counts(self) -> None:
        """The opening's ends lie 60 and 140 in off; from its corner at (312, 336) it is 72, 96: 120 in."""
        plan = replace(house(), air_openings=(AirOpening("a1", (312.0, 336.0), (400.0, 336.0), 130.0),))
        assert counts(self.rule, plan) == (1, 0, 0, 0)
        nearer = replace(plan, air_openings=(AirOpening("a1", (311.0, 336.0), (400.0, 336.0), 130.0),))
        assert f"{math.hypot(71.0, 96.0):.3f}" == "119.403"
        assert "9'-11 3/8\"" in broken(self.rule, nearer).text

    def test_beneath_an_opening_is_too_low_as_well(self) -> None:
        found = broken(self.rule, window(10.0, 240.0))
        assert found.measured == 132.0 - 240.0
        assert "9'-0\" under" in found.text or "108 in under" in found.text

    def test_where_sources_differ_the_finding_says_so(self) -> None:
        """IRC: 3 ft by one page, 2 ft by an old checklist; the UPC's sources agree."""
        assert "24" in broken(self.rule, window(50.0, 100.0)).text
        assert "Sources differ" not in broken(self.rule, window(50.0, 100.0, book=UPC)).text

    def test_each_opening_is_told(self) -> None:
        plan = window(50.0, 120.0)
        two = replace(plan, air_openings=(*plan.air_openings, AirOpening("a2", (200.0, 200.0), (210.0, 200.0), 130.0)))
        assert len(findings(self.rule, two)) == 2

    def test_no_opening_drawn_is_told_once(self) -> None:
        plan = house()
        two = replace(plan, risers=(*plan.risers, Riser("r2", (200.0, 240.0))))
        (found,) = not_judged(self.rule, two)
        assert "no window, door or air intake is drawn" in found.missing

    def test_what_cannot_be_drawn_is_told_by_the_book_that_asks_for_it(self) -> None:
        (found,) = not_judged(self.rule, window(130.0, 80.0, book=UPC))
        assert "12 in from walls over the roof and 36 in from the lot line" in found.missing

    def test_a_place_that_asks_for_less(self) -> None:
        plan = window(50.0, 108.0)
        assert broken(self.rule, plan).measured == 24.0
        assert findings(self.rule, amended(plan, "vent.opening_above", 24)) == []

    def test_without_an_end_over_the_roof_it_does_not_apply(self) -> None:
        plan = window(50.0, 120.0)
        assert counts(self.rule, replace(plan, risers=(replace(plan.risers[0], top="valve"),))) == (0, 0, 0, 1)


class TestFrost:
    """IRC P3103.2: 3 in where it is 0 deg F or colder (read); UPC 906.7: 2 in where it is below (from memory)."""

    rule = "roof-end-may-freeze"

    @pytest.mark.parametrize(
        ("book", "cold", "size", "holds"),
        [
            ("irc-2021", 0.0, "3", True),
            ("irc-2021", 0.0, "2", False),
            ("irc-2021", -25.0, "2", False),
            (UPC, -1.0, "2", True),
            (UPC, -1.0, "1-1/2", False),
        ],
    )
    def test_the_size_at_the_roof(self, book: str, cold: float, size: DrainSize, holds: bool) -> None:
        plan = house(book, vent=size, design_temp=cold)
        assert counts(self.rule, plan) == ((1, 0, 0, 0) if holds else (0, 1, 0, 0))

    def test_what_the_finding_says(self) -> None:
        found = broken(self.rule, house(vent="2", design_temp=-10.0))
        assert (found.measured, found.limit, found.unit, found.cites) == (2.0, 3.0, "in", "IRC 2021 P3103.2")
        assert "12 in inside" in found.mend
        assert broken(self.rule, house(UPC, vent="1-1/2", design_temp=-10.0)).cites == "UPC 2021 906.7"

    def test_the_two_books_part_at_zero_itself(self) -> None:
        assert counts(self.rule, house(vent="1-1/2", design_temp=0.0)) == (0, 1, 0, 0)
        assert counts(self.rule, house(UPC, vent="1-1/2", design_temp=0.0)) == (0, 0, 0, 1)

    def test_milder_winters_do_not_apply(self) -> None:
        assert counts(self.rule, house(vent="1-1/2", design_temp=1.0)) == (0, 0, 0, 1)

    def test_an_unknown_winter_is_told_once(self) -> None:
        plan = house()
        (found,) = not_judged(self.rule, replace(plan, risers=(*plan.risers, Riser("r2", (200.0, 240.0)))))
        assert "design temperature" in found.missing

    def test_a_place_with_its_own_numbers(self) -> None:
        plan = house(vent="2", design_temp=5.0)
        assert broken(self.rule, amended(plan, "vent.frost_at", 10)).limit == 3.0
        assert findings(self.rule, amended(amended(plan, "vent.frost_at", 10), "vent.frost_least", 2)) == []
