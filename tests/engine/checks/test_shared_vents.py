"""Vents that two or more traps share: IRC 2021 Tables P3107.3 and P3108.3, UPC 2021 908.1 and 908.2."""

from __future__ import annotations

import pytest

from tests.engine.checks.judged_plans import amended, armed, broken, counts, findings, not_judged
from tests.engine.checks.vented_plans import by, column


class TestCommonVent:
    """IRC 2021 Table P3107.3 (from memory): 1-1/2 in takes 1 unit from the upper fixture, 2 in takes 4."""

    rule = "common-vent-too-small"

    def test_a_lavatory_above(self) -> None:
        """The lavatory's 1 unit down 1-1/2 in is the most, exactly."""
        plan = column(("lavatory", 20.0), ("kitchen_sink", 16.0), size="1-1/2")
        assert counts(self.rule, plan) == (1, 0, 0, 0)

    def test_a_sink_above(self) -> None:
        found = broken(self.rule, column(("kitchen_sink", 20.0), ("lavatory", 16.0), size="1-1/2"))
        assert (found.measured, found.limit, found.unit, found.weight) == (2, 1, "fixture units", "stop")
        assert found.cites == "IRC 2021 Table P3107.3"
        assert findings(self.rule, column(("kitchen_sink", 20.0), ("lavatory", 16.0), size="2")) == []

    def test_smaller_than_the_table_begins(self) -> None:
        found = broken(self.rule, column(("lavatory", 20.0), ("lavatory", 16.0), size="1-1/4"))
        assert (found.measured, found.limit, found.unit) == (1.25, 1.5, "in")

    def test_one_level_and_single_vents_do_not_apply(self) -> None:
        assert counts(self.rule, column(("lavatory", 18.0), ("lavatory", 18.0))) == (0, 0, 0, 2)
        assert counts(self.rule, armed("lavatory", 12.0)) == (0, 0, 0, 1)

    def test_not_judged_without_its_row(self) -> None:
        plan = column(("lavatory", 20.0), ("lavatory", 16.0), size="2")
        assert [one.missing for one in not_judged(self.rule, plan, lacking="common_vent.load.2")] != []

    def test_a_place_that_allows_more(self) -> None:
        plan = column(("kitchen_sink", 20.0), ("lavatory", 16.0), size="1-1/2")
        assert findings(self.rule, amended(plan, "common_vent.load.1-1/2", 2)) == []

    def test_an_automatic_size_is_enough(self) -> None:
        assert findings(self.rule, column(("kitchen_sink", 20.0), ("lavatory", 16.0))) == []


class TestUprightWetVentSize:
    """UPC 2021 908.1 (read: a field guide): at least 2 in, and one size over the waste pipe that it needs to be."""

    rule = "wet-vent-too-small"
    levels = (("lavatory", 30.0), ("lavatory", 22.0), ("lavatory", 14.0))

    def test_by_the_uniform_code(self) -> None:
        """Three lavatories give 2 units above the lowest: 1-1/2 in upright (Table 703.2), a size up is 2 in."""
        plan = by("upc-2021", column(*self.levels, size="2"))
        assert findings(self.rule, plan) == []
        found = findings(self.rule, by("upc-2021", column(*self.levels, size="1-1/2")))
        assert {(one.measured, one.limit) for one in found} == {(1.5, 2.0)}

    def test_more_units_ask_for_more(self) -> None:
        """Two sinks over a lavatory give 4 units, for which 2 in is needed: a size up is 2-1/2 in."""
        levels = (("kitchen_sink", 30.0), ("kitchen_sink", 22.0), ("lavatory", 14.0))
        found = findings(self.rule, by("upc-2021", column(*levels, size="2")))
        assert {(one.measured, one.limit) for one in found} == {(2.0, 2.5)}

    def test_by_the_residential_code(self) -> None:
        """IRC 2021 Table P3108.3: 1-1/2 in takes 1 unit; the lower stretch carries 2."""
        found = findings(self.rule, column(*self.levels, size="1-1/2"))
        assert [(one.measured, one.limit) for one in found] == [(2, 1)]
        assert findings(self.rule, column(*self.levels, size="2")) == []


class TestUprightWetVentLength:
    rule = "vertical-wet-vent-too-long"

    @pytest.mark.parametrize(("height", "broken_by"), [(72.0, None), (72.0625, 72.0625)])
    def test_six_feet(self, height: float, broken_by: float | None) -> None:
        """UPC 2021 908.1 (read: a training page and a field guide): at most 6 ft."""
        plan = by("upc-2021", column(("lavatory", 10.0 + height), ("lavatory", 10.0), size="2"))
        if broken_by is None:
            assert counts(self.rule, plan) == (1, 0, 0, 0)
        else:
            found = broken(self.rule, plan)
            assert (found.measured, found.limit) == (pytest.approx(broken_by), 72.0)

    def test_it_does_not_apply_to_others(self) -> None:
        assert counts(self.rule, by("upc-2021", armed("lavatory", 12.0))) == (0, 0, 0, 1)

    def test_a_place_that_allows_more(self) -> None:
        plan = by("upc-2021", column(("lavatory", 90.0), ("lavatory", 10.0), size="2"))
        assert broken(self.rule, plan).measured == pytest.approx(80.0)
        assert findings(self.rule, amended(plan, "vertical_wet_vent.length_most", 96)) == []


class TestUprightWetVentCount:
    rule = "vertical-wet-vent-takes-too-many"

    def test_four_and_five(self) -> None:
        """UPC 2021 908.1: at most four fixtures."""
        heights = (50.0, 42.0, 34.0, 26.0, 18.0)
        four = by("upc-2021", column(*(("lavatory", z) for z in heights[:4]), size="2"))
        assert counts(self.rule, four) == (1, 0, 0, 0)
        found = broken(self.rule, by("upc-2021", column(*(("lavatory", z) for z in heights), size="3")))
        assert (found.measured, found.limit, found.unit) == (5, 4, "fixtures")

    def test_it_does_not_apply_to_others(self) -> None:
        assert counts(self.rule, by("upc-2021", armed("lavatory", 12.0))) == (0, 0, 0, 1)
