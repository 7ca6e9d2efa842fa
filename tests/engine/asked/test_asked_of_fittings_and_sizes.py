"""Questions about fittings, sizes, standpipes and places, with the answers that the trade agreed on."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.plan.records import Exit, Fixture, PinnedFitting, Plan, Riser, Wall
from engine.takeoff.answers import parts_answer
from tests.engine.asked.asked_plans import ask, floor, joists, leaving, run, said
from tests.engine.checks.vented_plans import column


class TestTeeOnItsBack:
    """2 in dropping into a level 3 in: no book gives a mark for a sanitary tee there, whatever the fixture."""

    plan = floor(
        fixtures=(Fixture("lav", "lavatory", (30.0, 0.0), turn=90.0),),
        drains=(run((0.0, 0.0), (30.0, 0.0), (80.0, 0.0), size="3"),),
        risers=(Riser("r1", (30.0, 0.0), size="2"),),
        exits=leaving((80.0, 0.0)),
        fittings=(PinnedFitting("p1", (30.0, 0.0), "sanitary_tee"),),
    )

    @pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
    def test_both_books(self, book: str) -> None:
        (found,) = said(ask(self.plan, book), "turn-in-wrong-fitting")
        assert "tee" in found.text

    @pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
    def test_a_combination_is_the_cure(self, book: str) -> None:
        cured = replace(self.plan, fittings=(replace(self.plan.fittings[0], pattern="combo_wye_eighth_bend"),))
        assert said(ask(cured, book), "turn-in-wrong-fitting") == []


class TestQuarterBendLevelToLevel:
    """3 in from (0, 0) to (60, 0), then north: a long sweep or two eighths, and no quarter bend."""

    def plan(self, bend: str) -> Plan:
        return floor(
            fixtures=(Fixture("wc", "water_closet", (0.0, 0.0)),),
            drains=(run((0.0, 0.0), (60.0, 0.0), (60.0, 40.0), size="3"),),
            exits=leaving((60.0, 40.0)),
            fittings=(PinnedFitting("p1", (60.0, 0.0), bend),),  # type: ignore[arg-type]
        )

    @pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
    def test_both_books(self, book: str) -> None:
        assert len(said(ask(self.plan("quarter_bend"), book), "turn-in-wrong-fitting")) == 1
        assert said(ask(self.plan("long_sweep_quarter_bend"), book), "turn-in-wrong-fitting") == []

    def test_a_two_inch_fixture_drain_may(self) -> None:
        """IRC 2021 Table P3005.1 note a; the UPC has no such leave."""
        plan = floor(
            fixtures=(Fixture("sh", "shower", (0.0, 0.0)),),
            drains=(run((0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (40.0, 80.0), size="2"),),
            risers=(Riser("r1", (40.0, 40.0)),),
            exits=leaving((40.0, 80.0)),
            fittings=(PinnedFitting("p1", (40.0, 0.0), "quarter_bend"),),
        )
        assert said(ask(plan), "turn-in-wrong-fitting") == []
        assert len(said(ask(plan, "upc-2021"), "turn-in-wrong-fitting")) == 1


class TestDoubleVanity:
    """Two lavatories back to back on one upright drain, arms 30 in: a common vent, and the books part on the fitting."""

    plan = column(("lavatory", 18.0), ("lavatory", 18.0))

    def armed(self, trap: str) -> Plan:
        fixtures = tuple(replace(one, arm=30.0, trap=trap) for one in self.plan.fixtures)
        return replace(self.plan, fixtures=fixtures)

    @pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
    def test_the_arms_pass(self, book: str) -> None:
        """UPC 2021 Table 1002.2: 30 in for a 1-1/4 in trap, exactly."""
        answer = ask(self.armed("1-1/4"), book)
        assert said(answer, "trap-too-far-from-vent") == []
        assert {trap.method for trap in answer.model.network.traps} == {"common vent at one level"}

    def test_two_units_level(self) -> None:
        """1-1/2 in takes 3 units level by the IRC, 1 by the UPC, which wants 2 in for two lavatories."""
        sized = replace(self.plan, drains=(replace(self.plan.drains[0], size=None),))
        for book, size in (("irc-2021", 1.5), ("upc-2021", 2.0)):
            network = ask(sized, book).model.network
            assert next(pipe for pipe in network.pipes if pipe.element == "d1").size == size


class TestShowerOnAnOldDrain:
    """A shower in place of a tub on 1-1/2 in: 2 in by the UPC, 1-1/2 in for one head by the IRC; never smaller below."""

    def plan(self, trap: str, pipe: str) -> Plan:
        return floor(
            fixtures=(Fixture("sh", "shower", (30.0, 30.0), trap=trap),),  # type: ignore[arg-type]
            drains=(run((30.0, 30.0), (60.0, 30.0), (80.0, 30.0), size=pipe),),
            risers=(Riser("r1", (60.0, 30.0)),),
            exits=leaving((80.0, 30.0)),
        )

    def test_the_trap(self) -> None:
        rules = {f.rule for f in ask(self.plan("1-1/2", "1-1/2"), "upc-2021").findings if "sh" in f.elements}
        assert any("trap" in rule and "small" in rule for rule in rules)
        rules = {f.rule for f in ask(self.plan("1-1/2", "1-1/2")).findings if f.weight == "stop"}
        assert not any("trap" in rule and "small" in rule for rule in rules)

    def test_never_smaller_below(self) -> None:
        plan = self.plan("2", "2")
        cut = replace(
            plan,
            drains=(
                run((30.0, 30.0), (60.0, 30.0), id="d1", size="2"),
                run((60.0, 30.0), (80.0, 30.0), id="d2", size="1-1/2"),
            ),
        )
        for book in ("irc-2021", "upc-2021"):
            found = [f for f in ask(cut, book).findings if f.weight == "stop" and "d2" in f.elements]
            assert found != []


class TestUnderCounterWasher:
    """The standpipe can rise only to 22 in; the UPC wants the trap 6 in up and 18 in of pipe over it: 24."""

    def plan(self, weir: float) -> Plan:
        return column(("washer_standpipe", weir))

    def washer(self, weir: float) -> Plan:
        plan = self.plan(weir)
        return replace(plan, fixtures=tuple(replace(one, rim_above_floor=22.0) for one in plan.fixtures))

    def test_two_inches_short(self) -> None:
        found = [f for f in ask(self.washer(6.0), "upc-2021").findings if "standpipe" in f.rule]
        assert [(one.measured, one.limit) for one in found] == [(16.0, 18.0)]

    def test_the_other_book_has_no_height_for_the_trap(self) -> None:
        """IRC 2021 P2706: 18 to 42 in over the weir; a weir 3 in up gives 19."""
        assert [f for f in ask(self.washer(3.0)).findings if "standpipe" in f.rule] == []


class TestClosetNearTheWall:
    """A closet 12-1/2 in from the finished side wall because a joist lies where its flange should be: 15 is asked."""

    def plan(self, x: float) -> Plan:
        # finished face at x 0: half the stud and the board lie behind it
        return floor(
            joists(15.0, 47.0, 120.0),
            walls=(Wall("w", (-2.25, -10.0), (-2.25, 130.0)), Wall("back", (-10.0, -2.25), (120.0, -2.25))),
            fixtures=(Fixture("wc", "water_closet", (x, 12.0), turn=90.0),),
        )

    def test_short_by_two_and_a_half(self) -> None:
        found = [f for f in ask(self.plan(12.5)).findings if f.measured is not None and abs(f.measured - 12.5) < 1e-6]
        assert [(round(one.measured or 0.0, 3), one.limit) for one in found] == [(12.5, 15.0)]

    def test_at_fifteen_it_lands_on_the_joist(self) -> None:
        answer = ask(self.plan(15.0))
        assert [f for f in answer.findings if f.limit == 15.0] == []
        assert any("wc" in f.elements for f in said(answer, "lands-on-wood"))

    def test_further_over_both_hold(self) -> None:
        answer = ask(self.plan(23.0))
        assert [f for f in answer.findings if f.limit == 15.0] == []
        assert not any("wc" in f.elements for f in said(answer, "lands-on-wood"))


class TestHalfBathPartsByBothBooks:
    """A closet and a lavatory: the UPC's 2 in closet vent changes the bushing and the tee (a plumbers' guide)."""

    def test_a_closet_vent_is_larger_by_one_book(self) -> None:
        plan = floor(
            fixtures=(Fixture("wc", "water_closet", (15.0, 52.0)),),
            drains=(run((15.0, 52.0), (15.0, 30.0), (15.0, 0.0), size="3"),),
            risers=(Riser("r1", (15.0, 30.0)),),
            exits=(Exit("x1", (15.0, 0.0)),),
        )
        for book, vent in (("irc-2021", 1.5), ("upc-2021", 2.0)):
            answer = ask(plan, book)
            assert min(p.size for p in answer.model.network.pipes if p.system == "vent") >= vent
            assert parts_answer(answer)["parts"]
