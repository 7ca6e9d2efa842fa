"""Questions about traps, arms and vents, with the answers that the trade agreed on."""

from __future__ import annotations

import pytest

from engine.plan.records import Fixture, PinnedFitting, Plan, Riser, Vent
from engine.study import Study
from tests.engine.asked.asked_plans import ask, floor, joists, leaving, run, said


def method(answer: Study, fixture: str) -> str | None:
    return next(trap.method for trap in answer.model.network.traps if trap.fixture == fixture)


class TestTubTwelveFeetAway:
    """A tub whose drain is enlarged to 3 in to earn the 12 ft row: the limit goes by the trap (Table P3105.1)."""

    def plan(self, trap: str) -> Plan:
        return floor(
            fixtures=(Fixture("bt", "bathtub", (144.0, 40.0), trap_at=(144.0, 40.0), trap=trap),),  # type: ignore[arg-type]
            drains=(run((144.0, 40.0), (0.0, 40.0), (0.0, 20.0), size="3"),),
            risers=(Riser("r1", (0.0, 40.0)),),
            exits=leaving((0.0, 20.0), 8.0),
        )

    @pytest.mark.parametrize(("trap", "limit"), [("1-1/2", 72.0), ("2", 96.0)])
    def test_the_trap_rules(self, trap: str, limit: float) -> None:
        (found,) = said(ask(self.plan(trap)), "trap-too-far-from-vent")
        assert found.limit == limit
        assert "trap" in found.text

    def test_a_three_inch_trap_passes(self) -> None:
        """Fall at 1/4 in per ft is one diameter at most over 12 ft, which is the limit and not past it."""
        answer = ask(self.plan("3"))
        assert said(answer, "trap-too-far-from-vent") == []
        assert said(answer, "arm-falls-too-far") == []


class TestTrapPushedSideways:
    """A tub's trap 12 in beside its outlet and 10 in below: 30 and 24 in are allowed (P3201.6)."""

    def test_passes(self) -> None:
        plan = floor(
            joists(4.0, 52.0, 100.0),
            fixtures=(Fixture("bt", "bathtub", (24.0, 30.0), trap_at=(26.0, 42.0)),),
            drains=(run((26.0, 42.0), (26.0, 60.0), (26.0, 90.0), size="1-1/2"),),
            risers=(Riser("r1", (26.0, 60.0)),),
            exits=leaving((26.0, 90.0)),
        )
        answer = ask(plan)
        assert said(answer, "trap-too-far-aside") == said(answer, "weir-too-low") == []
        assert answer.looked_at["trap-too-far-aside"]["holds"] == 1


class TestLongTurnOnAnArm:
    """A trap arm 30 in long into an upright drain: a sanitary tee, and no wye with an eighth bend."""

    def plan(self, fitting: str) -> Plan:
        at = (200.0, 100.0)
        return floor(
            fixtures=(Fixture("ks", "kitchen_sink", at, turn=0.0, arm=30.0),),
            risers=(Riser("r1", at),),
            drains=(run(at, (160.0, 100.0), size="2"),),
            exits=leaving((160.0, 100.0)),
            fittings=(PinnedFitting("p1", at, fitting, level="wall"),),  # type: ignore[arg-type]
        )

    def test_a_tee_passes(self) -> None:
        assert said(ask(self.plan("sanitary_tee")), "arm-falls-too-far") == []

    def test_a_combination_drops_the_arm(self) -> None:
        (found,) = said(ask(self.plan("combo_wye_eighth_bend")), "arm-falls-too-far")
        # 30 in at 1/4 in per ft is 0.625, and the fitting's own drop comes on top
        assert (found.measured or 0.0) > 1.5 == found.limit
        assert "sanitary tee" in found.mend


def two_baths(book: str, foreign: bool = False) -> Study:
    """Two baths on one wet vent: pair of lavatories, closet, tub, closet, shower along one main going west."""
    main = run((110.0, 0.0), (90.0, 0.0), (60.0, 0.0), (45.0, 0.0), (20.0, 0.0), (0.0, 0.0), id="m", size="4")
    fixtures = [
        Fixture("l1", "lavatory", (110.0, 0.0), turn=90.0),
        Fixture("wc1", "water_closet", (104.0, 14.0)),
        Fixture("bt", "bathtub", (74.0, 14.0), trap_at=(74.0, 14.0)),
        Fixture("wc2", "water_closet", (59.0, 14.0)),
        Fixture("sh", "shower", (48.0, 28.0)),
    ]
    drains = [
        main,
        run((104.0, 14.0), (90.0, 0.0), id="a", size="3"),
        run((74.0, 14.0), (60.0, 0.0), id="b", size="2"),
        run((59.0, 14.0), (45.0, 0.0), id="c", size="3"),
        run((48.0, 28.0), (20.0, 0.0), id="d", size="2"),
    ]
    if foreign:
        fixtures.append(Fixture("ks", "kitchen_sink", (110.0, 40.0), turn=0.0))
        drains.append(run((110.0, 40.0), (110.0, 0.0), id="k", size="2"))
    risers = [Riser("r1", (110.0, 0.0))] + ([Riser("r2", (110.0, 40.0))] if foreign else [])
    plan = floor(fixtures=tuple(fixtures), drains=tuple(drains), risers=tuple(risers), exits=leaving((0.0, 0.0)))
    return ask(plan, book)


class TestTwoBathsOnOneWetVent:
    """IRC 2021 P3108.1 takes two bathroom groups in any order; UPC 2021 908.2 has the closet last and one group."""

    def test_one_book_takes_it(self) -> None:
        answer = two_baths("irc-2021")
        assert said(answer, "trap-without-vent") == []
        assert {method(answer, name) for name in ("wc1", "bt", "wc2", "sh")} == {"horizontal wet vent"}
        # the shower's arm is 28 in along each axis, less its trap's own 6.94
        (trap,) = [trap for trap in answer.model.network.traps if trap.fixture == "sh"]
        assert trap.length == pytest.approx(28.0 * 2**0.5 - 6.9375)

    def test_the_other_stops_at_what_joins_below_the_closet(self) -> None:
        answer = two_baths("upc-2021")
        stopped = {found.elements[0] for found in said(answer, "trap-without-vent")}
        assert {"bt", "sh"} <= stopped

    @pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
    def test_a_kitchen_upstream_fails_both(self, book: str) -> None:
        answer = two_baths(book, foreign=True)
        assert {"wc1", "bt", "wc2", "sh"} <= {found.elements[0] for found in said(answer, "trap-without-vent")}


def shared_with_a_closet(size: str, book: str) -> Study:
    """A closet whose vent is the lavatory's drain: 3 in going east, the shared part comes in by a wye at x 24."""
    plan = floor(
        fixtures=(
            Fixture("wc", "water_closet", (0.0, 20.0)),
            Fixture("lav", "lavatory", (24.0, 50.0), turn=90.0),
        ),
        drains=(
            run((0.0, 20.0), (34.0, 20.0), (80.0, 20.0), id="m", size="3"),
            run((24.0, 50.0), (24.0, 30.0), (34.0, 20.0), id="w", size=size),
        ),
        risers=(Riser("r1", (24.0, 50.0)),),
        exits=leaving((80.0, 20.0)),
    )
    return ask(plan, book)


class TestLavatoryAsTheClosetsVent:
    @pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
    def test_two_inches_pass_everywhere(self, book: str) -> None:
        answer = shared_with_a_closet("2", book)
        assert method(answer, "wc") == "horizontal wet vent"
        assert said(answer, "wet-vent-too-small") == said(answer, "trap-without-vent") == []

    def test_an_inch_and_a_half_by_the_residential_code(self) -> None:
        """1-1/2 in carries the lavatory's one unit (Table P3108.3, from memory)."""
        assert said(shared_with_a_closet("1-1/2", "irc-2021"), "wet-vent-too-small") == []

    def test_not_by_the_uniform_one(self) -> None:
        found = said(shared_with_a_closet("1-1/2", "upc-2021"), "wet-vent-too-small")
        assert {(one.measured, one.limit) for one in found} == {(1.5, 2.0)}


class TestLaundryTubIntoABigLine:
    """ "If a small arm enters a larger pipe no vent is needed": the size is no vent, and a line from above is none."""

    def plan(self, **given: object) -> Plan:
        return floor(
            fixtures=(
                Fixture("wc", "water_closet", (120.0, 20.0)),
                Fixture("lt", "laundry_tub", (100.0, 60.0), turn=0.0, trap="1-1/2"),
            ),
            drains=(
                run((120.0, 20.0), (60.0, 20.0), (20.0, 20.0), id="m", size="3"),
                run((100.0, 60.0), (60.0, 20.0), id="t", size="1-1/2"),
            ),
            exits=leaving((20.0, 20.0), 14.0),
            **given,
        )

    @pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
    def test_no_vent_and_an_s_trap(self, book: str) -> None:
        answer = ask(self.plan(), book)
        assert "lt" in {found.elements[0] for found in said(answer, "trap-without-vent")}
        assert [found.elements for found in said(answer, "s-trap")] == [("lt",)]

    @pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
    def test_nor_where_the_line_itself_is_vented(self, book: str) -> None:
        answer = ask(self.plan(risers=(Riser("r1", (120.0, 20.0)),)), book)
        assert "lt" in {found.elements[0] for found in said(answer, "trap-without-vent")}

    def test_a_valve_at_the_tub_is_the_easy_cure_where_it_is_taken(self) -> None:
        answer = ask(self.plan(risers=(Riser("r2", (100.0, 60.0), top="valve"),)), "irc-2021")
        assert method(answer, "lt") == "individual vent"
        assert said(answer, "s-trap") == []


class TestVentThatTravelsToAWall:
    """A closet's vent has 12 in to go to a wall from a pipe 4 in under the floor: it may go no more than it rises."""

    def test_flat(self) -> None:
        plan = floor(
            fixtures=(Fixture("wc", "water_closet", (40.0, 40.0)),),
            drains=(run((40.0, 40.0), (40.0, 20.0), (40.0, -10.0), size="3"),),
            vents=(Vent("v1", ((40.0, 20.0), (52.0, 20.0))),),
            risers=(Riser("r1", (52.0, 20.0)),),
            exits=leaving((40.0, -10.0), 4.6),
        )
        answer = ask(plan)
        assert [found.rule for found in answer.findings if found.rule.startswith("vent-")] != []
