"""A washer's standpipe: IRC 2021 P2706.1.2 and P2706.1.2.1; UPC 2021 804.1 and its training page's extremes."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine.plan.records import Fixture, Plan
from engine.study import study
from tests.engine.checks.judged_plans import amended, armed, broken, counts, findings
from tests.engine.checks.vented_plans import by, column


def washer(weir: float, top: float, book: str = "irc-2021") -> Plan:
    plan = column(("washer_standpipe", weir))
    return by(book, replace(plan, fixtures=tuple(replace(one, rim_above_floor=top) for one in plan.fixtures)))


class TestHeight:
    rule = "standpipe-too-short"

    @pytest.mark.parametrize(
        ("weir", "top", "book", "found"),
        [
            (12.0, 30.0, "irc-2021", None),
            (12.0, 29.9375, "irc-2021", (17.9375, 18.0)),
            (12.0, 54.0, "irc-2021", None),
            (12.0, 54.0625, "irc-2021", (42.0625, 42.0)),
            # the extremes of UPC 804.1: 6 + 18 = 24 and 18 + 30 = 48 in above the floor
            (6.0, 24.0, "upc-2021", None),
            (18.0, 48.0, "upc-2021", None),
            (18.0, 48.0625, "upc-2021", (30.0625, 30.0)),
            # a question about a machine under a counter: 22 in over the floor, the trap at 6
            (6.0, 22.0, "upc-2021", (16.0, 18.0)),
            (3.0, 22.0, "irc-2021", None),
        ],
    )
    def test_both_books(self, weir: float, top: float, book: str, found: tuple[float, float] | None) -> None:
        got = findings(self.rule, washer(weir, top, book))
        assert [(one.measured, one.limit) for one in got] == ([] if found is None else [found])

    def test_its_mend_says_how_high_and_to_ask_the_machine(self) -> None:
        assert "24 in above the floor" in broken(self.rule, washer(6.0, 22.0, "upc-2021")).mend
        assert "machine's own" in broken(self.rule, washer(6.0, 22.0, "upc-2021")).mend

    def test_more_where_a_tub_drains_into_it(self) -> None:
        """IRC 2021 P2706.1.2.1: 30 in."""
        plan = washer(12.0, 36.0)
        tub = Fixture("lt", "laundry_tub", (250.0, 240.0), through="f1")
        fed = replace(plan, fixtures=(*plan.fixtures, tub))
        found = broken(self.rule, fed)
        assert (found.measured, found.limit, found.cites) == (24.0, 30.0, "IRC 2021 P2706.1.2.1")

    def test_others_do_not_apply(self) -> None:
        assert counts(self.rule, armed("kitchen_sink", 12.0)) == (0, 0, 0, 1)

    @pytest.mark.parametrize(
        ("top", "book", "limit"),
        [
            (34.0, "irc-2021", None),
            (33.9375, "irc-2021", 18.0),
            (58.0, "irc-2021", None),
            (58.0625, "irc-2021", 42.0),
            (30.0, "upc-2021", None),
        ],
    )
    def test_a_dishwasher_alone_by_the_residential_code(self, top: float, book: str, limit: float | None) -> None:
        """Its trap stands at 16 in: 16 + 18 = 34 and 16 + 42 = 58. UPC 804.1 is for clothes washers."""
        got = findings(self.rule, by(book, armed("dishwasher", 12.0, rim_above_floor=top)))
        assert [one.limit for one in got] == ([] if limit is None else [limit])

    def test_as_it_is_set_down_it_holds(self) -> None:
        assert counts(self.rule, armed("dishwasher", 12.0)) == (1, 0, 0, 0)
        assert counts(self.rule, by("upc-2021", armed("dishwasher", 12.0))) == (0, 0, 0, 1)

    def test_a_place_that_takes_less(self) -> None:
        assert findings(self.rule, amended(washer(6.0, 22.0, "upc-2021"), "standpipe.above_weir_least", 16)) == []


class TestTrapHeight:
    rule = "standpipe-trap-height"

    @pytest.mark.parametrize(("weir", "limit"), [(6.0, None), (5.9375, 6.0), (18.0, None), (18.0625, 18.0)])
    def test_by_the_uniform_code(self, weir: float, limit: float | None) -> None:
        found = findings(self.rule, washer(weir, weir + 24.0, "upc-2021"))
        assert [one.limit for one in found] == ([] if limit is None else [limit])

    def test_the_residential_code_sets_none(self) -> None:
        counted = study(washer(2.0, 24.0)).looked_at[self.rule]
        assert counted == {"holds": 0, "broken": 0, "not_judged": 0, "does_not_apply": 1}

    def test_a_place_that_asks_for_more(self) -> None:
        plan = amended(washer(6.0, 30.0, "upc-2021"), "standpipe.trap_above_floor_least", 8)
        assert broken(self.rule, plan).limit == 8.0


class TestTubAside:
    """IRC 2021 P2706.1.2.1: a laundry tub within 30 in of the standpipe."""

    rule = "laundry-tub-too-far"

    @pytest.mark.parametrize(("aside", "limit"), [(30.0, None), (30.0625, 30.0)])
    def test_thirty(self, aside: float, limit: float | None) -> None:
        plan = washer(12.0, 54.0)
        tub = Fixture("lt", "laundry_tub", (240.0 + aside, 240.0), through="f1")
        found = findings(self.rule, replace(plan, fixtures=(*plan.fixtures, tub)))
        assert [one.limit for one in found] == ([] if limit is None else [limit])

    def test_others_do_not_apply(self) -> None:
        assert counts(self.rule, armed("kitchen_sink", 12.0)) == (0, 0, 0, 1)


class TestUnderTheTub:
    """IRC 2021 P2706.1.2.1, from memory: over the rim of the tub that drains into it; a tub's rim is usually 34 in up."""

    rule = "standpipe-under-the-tub"

    def fed(self, top: float, book: str = "irc-2021", **given: object) -> Plan:
        plan = washer(3.0, top, book)
        tub = Fixture("lt", "laundry_tub", (250.0, 240.0), through="f1", **given)  # type: ignore[arg-type]
        return replace(plan, fixtures=(*plan.fixtures, tub))

    def test_at_the_rim_and_over_it(self) -> None:
        assert counts(self.rule, self.fed(34.0625)) == (1, 0, 0, 1)
        found = broken(self.rule, self.fed(34.0))
        assert (found.measured, found.limit, found.elements) == (34.0, 34.0, ("lt", "f1"))
        assert findings(self.rule, self.fed(34.0, rim_above_floor=33.0)) == []

    def test_the_uniform_code_has_no_such_pair(self) -> None:
        counted = study(self.fed(34.0, "upc-2021")).looked_at[self.rule]
        assert counted == {"holds": 0, "broken": 0, "not_judged": 0, "does_not_apply": 1}

    def test_a_place_that_does_not_ask(self) -> None:
        assert findings(self.rule, amended(self.fed(34.0), "standpipe.over_tub_rim", False)) == []

    def test_others_do_not_apply(self) -> None:
        assert counts(self.rule, armed("laundry_tub", 12.0)) == (0, 0, 0, 1)
