"""Two drains opposite each other: IRC 2021 P3005.1.1 (by the 2012 page); UPC 2021 704.2 and 706.2."""

from __future__ import annotations

from typing import Any

import pytest
from msgspec.structs import replace

from engine.plan.records import Exit, Fixture, PinnedFitting, Plan, Riser
from engine.study import study
from tests.engine.checks.judged_plans import amended, armed, bare, broken, counts, drain, findings
from tests.engine.checks.vented_plans import COLUMN, by, column

RULES = ("double-fitting-unlike", "double-tee-takes-closets", "double-tee-takes-pumped", "double-tee-back-to-back")
LAVS = (("lavatory", 18.0), ("lavatory", 18.0))


def tee(plan: Plan, pattern: str = "sanitary_tee") -> Plan:
    """The same with a double sanitary tee chosen where the two arms meet."""
    return replace(plan, fittings=(PinnedFitting("p1", COLUMN, pattern, level="wall"),))  # type: ignore[arg-type]


def kinds(plan: Plan) -> list[str]:
    return [part.kind for part in study(plan).model.joinery.parts]


def dropping(
    kind: Any, west: float, east: float, pattern: str | None = None, sizes: tuple[str, str] = ("3", "3")
) -> Plan:
    """Two floor outlets, so far west and east of a place where both drop onto one main; a dry riser stands there."""
    at = (200.0, 200.0)
    ends = ((at[0] - west, at[1]), (at[0] + east, at[1]))
    traps: tuple[Any, ...] = sizes if kind == "shower" else (None, None)
    return bare(
        fixtures=tuple(
            Fixture(f"f{n}", kind, end, trap=trap) for n, (end, trap) in enumerate(zip(ends, traps, strict=True), 1)
        ),
        risers=(Riser("r1", at, vent="2"),),
        drains=(
            drain(ends[0], at, size=sizes[0], join="drop"),
            drain(ends[1], at, size=sizes[1], id="d2", join="drop"),
            drain((200.0, 260.0), at, (200.0, 100.0), id="m", size="3"),
        ),
        exits=(Exit("x1", (200.0, 100.0), how="through-rim"),),
        fittings=(PinnedFitting("p1", at, pattern),) if pattern else (),  # type: ignore[arg-type]
    )


@pytest.mark.parametrize("rule", RULES)
def test_without_a_double_fitting_there_is_nothing_to_judge(rule: str) -> None:
    assert counts(rule, armed("lavatory", 12.0)) == (0, 0, 0, 1)


class TestTheDoubleVanity:
    """Two lavatories at one fitting, arms 1-1/2: a double tee does by the IRC; the UPC wants two sizes over 1-1/2."""

    @pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
    def test_unasked_it_is_a_double_fixture_fitting(self, book: str) -> None:
        plan = by(book, column(*LAVS))
        assert kinds(plan).count("double_fixture_fitting") == 1
        wrong = {*RULES, "turn-in-wrong-fitting"}
        assert [one.text for one in study(plan).findings if one.rule in wrong] == []

    def test_a_double_tee_by_the_residential_code(self) -> None:
        found = study(tee(column(*LAVS)))
        assert [part.size for part in found.model.joinery.parts if part.kind == "double_sanitary_tee"] == [
            (1.5, 1.5, 1.5)
        ]
        assert [one.text for one in found.findings if one.rule in {*RULES, "turn-in-wrong-fitting"}] == []

    def test_by_the_uniform_code(self) -> None:
        found = broken("turn-in-wrong-fitting", by("upc-2021", tee(column(*LAVS, size="1-1/2", vent="1-1/2"))))
        assert (found.measured, found.limit, found.cites) == (1.5, 2.5, "UPC 2021 706.2")
        assert "double fixture fitting" in found.mend


class TestAlike:
    """P3005.1.1: directly opposite, of one size and from like fixtures."""

    rule = "double-fitting-unlike"

    def test_two_lavatories(self) -> None:
        assert counts(self.rule, column(*LAVS)) == (1, 0, 0, 0)

    def test_basins_are_alike_whatever_their_traps(self) -> None:
        """Tubular traps of 1-1/4 and 1-1/2 in stand in one size of hub, by their adapters."""
        assert counts(self.rule, column(("lavatory", 18.0), ("kitchen_sink", 18.0))) == (1, 0, 0, 0)

    def test_a_lavatory_and_a_washer(self) -> None:
        found = broken(self.rule, column(("lavatory", 18.0), ("washer_standpipe", 18.0)))
        assert found.cites == "IRC 2021 P3005.1.1"
        assert "not alike" in found.text

    def test_a_size_apart(self) -> None:
        """Showers that drop at one place, their glued arms 2 in and 1-1/2 in."""
        assert counts(self.rule, dropping("shower", 40.0, 40.0, sizes=("2", "2")))[:2] == (1, 0)
        found = broken(self.rule, dropping("shower", 40.0, 40.0, sizes=("2", "1-1/2")))
        assert (found.measured, found.limit, found.unit) == (1.5, 2.0, "in")

    def test_a_place_that_does_not_ask(self) -> None:
        plan = column(("lavatory", 18.0), ("washer_standpipe", 18.0))
        assert counts(self.rule, amended(plan, "fitting.note_c.opposing_alike", False)) == (0, 0, 0, 1)

    def test_the_other_book_has_no_such_rule(self) -> None:
        found = study(by("upc-2021", column(("lavatory", 18.0), ("washer_standpipe", 18.0))))
        assert found.looked_at[self.rule] == {"holds": 0, "broken": 0, "not_judged": 0, "does_not_apply": 1}


class TestPumped:
    """P3005.1.1: no pumped discharge into a double sanitary tee."""

    rule = "double-tee-takes-pumped"
    WASHERS = (("washer_standpipe", 18.0), ("washer_standpipe", 18.0))

    def test_two_lavatories(self) -> None:
        assert counts(self.rule, tee(column(*LAVS))) == (1, 0, 0, 0)

    def test_two_washers(self) -> None:
        found = broken(self.rule, tee(column(*self.WASHERS, size="2")))
        assert found.cites == "IRC 2021 P3005.1.1"

    def test_in_a_double_fixture_fitting(self) -> None:
        assert counts(self.rule, column(*self.WASHERS, size="2")) == (0, 0, 0, 1)

    def test_a_dishwasher_through_a_sink(self) -> None:
        plan = tee(column(("kitchen_sink", 18.0), ("kitchen_sink", 18.0), size="2"))
        assert findings(self.rule, plan) == []
        washed = replace(plan, fixtures=(*plan.fixtures, Fixture("dw1", "dishwasher", (200.0, 200.0), through="f2")))
        assert broken(self.rule, washed).text.startswith("kitchen sink f2")

    def test_a_place_that_takes_it(self) -> None:
        plan = amended(tee(column(*self.WASHERS, size="2")), "fitting.note_c.double_takes_pumped", True)
        assert findings(self.rule, plan) == []


class TestClosets:
    """P3005.1.1 with its exception: 18 in of level run from each closet to the double tee."""

    rule = "double-tee-takes-closets"

    @pytest.mark.parametrize("run", [18.0, 40.0])
    def test_from_eighteen_inches_on(self, run: float) -> None:
        assert counts(self.rule, dropping("water_closet", run, 40.0, "sanitary_tee")) == (1, 0, 0, 0)

    def test_a_sixteenth_less(self) -> None:
        found = broken(self.rule, dropping("water_closet", 17.9375, 40.0, "sanitary_tee"))
        assert (found.measured, found.limit, found.cites) == (17.9375, 18.0, "IRC 2021 P3005.1.1 exception")

    def test_in_a_double_fixture_fitting(self) -> None:
        plan = dropping("water_closet", 12.0, 12.0)
        assert "double_fixture_fitting" in kinds(plan)
        assert counts(self.rule, plan) == (0, 0, 0, 1)

    def test_a_place_that_asks_for_more_or_for_nothing(self) -> None:
        plan = dropping("water_closet", 18.0, 40.0, "sanitary_tee")
        assert broken(self.rule, amended(plan, "fitting.double_sanitary_tee.closet_run_least", 24)).limit == 24.0
        short = dropping("water_closet", 12.0, 40.0, "sanitary_tee")
        assert findings(self.rule, amended(short, "fitting.note_c.double_takes_closets", True)) == []


class TestBackToBack:
    """UPC 704.2: two fixtures back to back take a double fixture fitting."""

    rule = "double-tee-back-to-back"

    def test_a_double_fixture_fitting(self) -> None:
        assert counts(self.rule, by("upc-2021", column(*LAVS))) == (1, 0, 0, 0)

    def test_a_double_tee_as_wide_as_it_may_be(self) -> None:
        """3x3x1-1/2: the barrel does by 706.2."""
        plan = by("upc-2021", tee(column(*LAVS, size="3")))
        assert findings("turn-in-wrong-fitting", plan) == []
        found = broken(self.rule, plan)
        assert (found.weight, found.cites) == ("look", "UPC 2021 704.2")

    def test_a_place_that_takes_it(self) -> None:
        plan = by("upc-2021", tee(column(*LAVS, size="3")))
        assert findings(self.rule, amended(plan, "fitting.double_sanitary_tee.back_to_back", True)) == []

    def test_the_other_book_has_no_such_rule(self) -> None:
        assert study(tee(column(*LAVS, size="3"))).looked_at[self.rule]["does_not_apply"] == 1
