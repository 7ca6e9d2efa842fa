"""One plan under two books: where the residential and the uniform code part, and what that does to the samples."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from msgspec.structs import replace

from engine.checks import judge
from engine.checks.records import Finding
from engine.plan import file
from engine.plan.records import Amendment, Drain, Fixture, PinnedFitting, Plan, Riser
from engine.rulebooks import RuleBook
from engine.study import Study, study, work_out
from engine.takeoff.answers import check_answer, parts_answer

HandFloor = Callable[..., Plan]
SAMPLES = Path(__file__).resolve().parents[2] / "samples"
SAID = {"said_by": "the county's official", "on": "2026-03-01"}


def by_irc(plan: Plan) -> Study:
    return study(replace(plan, rulebook="irc-2021"))


def by_upc(plan: Plan, **amendments: float | bool | str) -> Study:
    said = tuple(Amendment(key.replace("__", "."), becomes, **SAID) for key, becomes in amendments.items())
    return study(replace(plan, rulebook="upc-2021", amendments=said))


def of(found: Study, rule: str) -> list[Finding]:
    return [finding for finding in found.findings if finding.rule == rule]


def sizes(found: Study) -> dict[str, float]:
    return {pipe.id: pipe.size for pipe in found.model.network.pipes}


def vented(found: Study) -> dict[str, str | None]:
    return {trap.fixture: trap.method for trap in found.model.network.traps}


def with_main(plan: Plan, *points: tuple[float, float]) -> Plan:
    """The hand floor's main through these points as well, so that something may join it there."""
    first, *rest = plan.drains
    through = tuple(sorted({*first.points, *points}, key=lambda point: -point[1]))
    return replace(plan, drains=(replace(first, points=through), *rest))


def with_shower(plan: Plan) -> Plan:
    plan = with_main(plan, (36.0, 29.0))
    drain = Drain(id="d3", points=((45.0, 48.0), (45.0, 38.0), (36.0, 29.0)), size="2")
    shower = Fixture(id="sh1", kind="shower", at=(45.0, 48.0))
    return replace(plan, drains=(*plan.drains, drain), fixtures=(*plan.fixtures, shower))


class TestSlope:
    """UPC 708.1 against IRC P3005.3."""

    # a public question: 2-1/2 in of fall over 40 ft of 3 in drain is 1/16 in per ft
    def test_a_sixteenth_per_foot_is_too_little_in_both(self, hand_floor: HandFloor) -> None:
        plan = replace(hand_floor(lavatory=False), slope=2.5 / 40)
        assert [(f.measured, f.limit) for f in of(by_irc(plan), "slope-too-small")] == [(0.0625, 0.125)]
        assert [(f.measured, f.limit) for f in of(by_upc(plan), "slope-too-small")] == [(0.0625, 0.25)]

    def test_an_eighth_will_do_for_three_inches_in_one(self, hand_floor: HandFloor) -> None:
        plan = replace(hand_floor(lavatory=False), slope=0.125)
        assert of(by_irc(plan), "slope-too-small") == []
        assert [f.cites for f in of(by_upc(plan), "slope-too-small")] == ["UPC 2021 708.1"]

    def test_an_eighth_with_leave(self, hand_floor: HandFloor) -> None:
        plan = hand_floor(lavatory=False)
        plan = replace(plan, slope=0.125, drains=(replace(plan.drains[0], size="4"),))
        assert [f.limit for f in of(by_upc(plan), "slope-too-small")] == [0.25]
        assert of(by_upc(plan, slope__least__4="1/8"), "slope-too-small") == []


class TestWetVents:
    """UPC 908.2 against IRC P3108."""

    # a public question: a lavatory's drain as the closet's vent, 2 in shared, and the same at 1-1/2
    @pytest.mark.parametrize(("size", "broken"), [("2", []), ("1-1/2", [(1.5, 2.0, "UPC 2021 908.2.2")])])
    def test_two_inches_is_the_least(self, hand_floor: HandFloor, size: str, broken: list[object]) -> None:
        plan = hand_floor()
        plan = replace(plan, drains=(plan.drains[0], replace(plan.drains[1], size=size)))
        assert of(by_irc(plan), "wet-vent-too-small") == []
        found = by_upc(plan)
        assert vented(found)["wc1"] == "horizontal wet vent"
        assert [(f.measured, f.limit, f.cites) for f in of(found, "wet-vent-too-small")] == broken

    def test_a_shower_below_the_closet_has_air_in_one_book_only(self, hand_floor: HandFloor) -> None:
        plan = with_shower(hand_floor())
        assert vented(by_irc(plan))["sh1"] == "horizontal wet vent"
        found = by_upc(plan)
        assert vented(found) == {"wc1": "horizontal wet vent", "lav1": "individual vent", "sh1": None}
        (finding,) = of(found, "trap-without-vent")
        assert (finding.elements, finding.cites) == (("sh1",), "UPC 2021 908.2")
        assert "wc1 drains through the pipe" in finding.text

    def test_a_local_word_on_the_closet_s_place_is_heard(self, hand_floor: HandFloor) -> None:
        plan = with_shower(hand_floor())
        assert of(by_upc(plan, wet_vent__closet_last=False), "trap-without-vent") == []

    def test_a_shower_with_a_vent_of_its_own_may_join_below_the_closet(self, hand_floor: HandFloor) -> None:
        plan = with_shower(hand_floor())
        plan = replace(plan, risers=(*plan.risers, Riser(id="r3", at=(45.0, 38.0))))
        assert vented(by_upc(plan))["sh1"] == "individual vent"

    def test_a_second_closet_is_a_second_group(self, hand_floor: HandFloor) -> None:
        plan = with_main(hand_floor(), (36.0, 31.0))
        drain = Drain(id="d4", points=((45.0, 40.0), (36.0, 31.0)), size="3")
        second = Fixture(id="wc2", kind="water_closet", at=(45.0, 40.0))
        plan = replace(plan, drains=(*plan.drains, drain), fixtures=(*plan.fixtures, second))
        assert vented(by_irc(plan))["wc2"] == "horizontal wet vent", "the IRC lets two groups share"
        (finding,) = of(by_upc(plan), "trap-without-vent")
        assert finding.elements == ("wc2",)
        assert "wc1, wc2 share one wet vent, which serves 1" in finding.text

    # lavatory 1 and tub 2 through the wet part: 3 units, 2 in; a shower's 2 more: 5 units, 3 in (from memory)
    def test_a_wet_vent_is_sized_by_what_flows_through_it(self, hand_floor: HandFloor) -> None:
        plan = hand_floor()
        branch = Drain(id="d2", points=((70.25, 69.0), (60.0, 69.0), (52.0, 69.0), (43.0, 69.0), (36.0, 62.0)))
        tub = Drain(id="d5", points=((60.0, 84.0), (60.0, 69.0)))
        shower = Drain(id="d6", points=((52.0, 84.0), (52.0, 69.0)))
        plan = replace(
            plan,
            drains=(plan.drains[0], branch, tub, shower),
            fixtures=(
                *plan.fixtures,
                Fixture(id="bt1", kind="bathtub", at=(60.0, 90.0), trap_at=(60.0, 84.0)),
                Fixture(id="sh1", kind="shower", at=(52.0, 84.0)),
            ),
        )
        found = by_upc(plan)
        assert [sizes(found)[f"d2.{n}"] for n in range(4)] == [2.0, 2.0, 3.0, 3.0]
        assert set(vented(found).values()) == {"horizontal wet vent", "individual vent"}
        assert of(found, "wet-vent-too-small") == []
        # the tub's arm keeps its trap's size (1003.3), though past it 2 units want 2 in level (Table 703.2)
        assert sizes(found)["d5.0"] == 1.5


class TestSizes:
    """UPC Tables 702.1 and 703.2 and 904.1."""

    def test_a_closet_s_vent_is_two_inches_though_a_lavatory_s_riser_carries_it(self, hand_floor: HandFloor) -> None:
        assert sizes(by_irc(hand_floor()))["r1.1"] == 1.5
        assert sizes(by_upc(hand_floor()))["r1.1"] == 2.0
        # it is the only vent, and a closet's sewer is 3 in: that is told (904.1)
        (found,) = of(by_upc(hand_floor()), "vents-too-small-together")
        assert (round(found.measured or 0.0, 2), round(found.limit or 0.0, 2)) == (3.14, 7.07)

    def test_without_the_closet_the_lavatory_s_vent_stays_small(self, hand_floor: HandFloor) -> None:
        plan = hand_floor()
        lavatory = replace(plan, fixtures=plan.fixtures[1:], drains=plan.drains)
        assert sizes(by_upc(lavatory))["r1.1"] == 1.5

    def test_a_kitchen_sink_drains_through_two_inches_after_its_arm(self, hand_floor: HandFloor) -> None:
        plan = hand_floor()
        sink = replace(plan.fixtures[1], kind="kitchen_sink")
        plan = replace(
            plan, fixtures=(plan.fixtures[0], sink), drains=(plan.drains[0], replace(plan.drains[1], size=None))
        )
        irc, upc = sizes(by_irc(plan)), sizes(by_upc(plan))
        assert (irc["lav1.arm"], irc["r1.0"], irc["d2.0"]) == (1.5, 1.5, 1.5)
        assert (upc["lav1.arm"], upc["r1.0"], upc["d2.0"]) == (1.5, 2.0, 2.0)

    # a public question: a kitchen sink moved ten feet from its stack, 1-1/2 in
    def test_a_kitchen_sink_ten_feet_from_its_vent(self, hand_floor: HandFloor) -> None:
        plan = hand_floor()
        sink = replace(plan.fixtures[1], kind="kitchen_sink", arm=120.0)
        plan = replace(plan, fixtures=(plan.fixtures[0], sink))
        assert [(f.measured, f.limit) for f in of(by_irc(plan), "trap-too-far-from-vent")] == [(120.0, 72.0)]
        assert [(f.measured, f.limit) for f in of(by_upc(plan), "trap-too-far-from-vent")] == [(120.0, 42.0)]

    # a public question: a shower on an old 1-1/2 in drain; Table 702.1 asks for 2, Table P3201.7 takes 1-1/2 for one head
    def test_a_shower_s_trap_and_drain(self, hand_floor: HandFloor) -> None:
        plan = with_shower(hand_floor())
        plan = replace(plan, drains=(*plan.drains[:2], replace(plan.drains[2], size=None)))
        found = by_upc(plan)
        assert [trap.size for trap in found.model.network.traps if trap.fixture == "sh1"] == [2.0]
        assert sizes(found)["d3.0"] == 2.0

    def test_a_vent_that_another_joins_serves_both(self, hand_floor: HandFloor) -> None:
        """A closet's vent joins the lavatory's riser overhead: from there on the riser vents a closet."""
        from engine.plan.records import Vent

        plan = with_main(hand_floor(), (36.0, 80.0))
        plan = replace(
            plan,
            risers=(plan.risers[0], Riser(id="r2", at=(36.0, 80.0), top="none")),
            vents=(Vent(id="v1", points=((36.0, 80.0), (70.25, 69.0)), above_floor=48.0),),
        )
        found = sizes(by_upc(plan, vent__area_covers_sewer=False))
        assert (found["r2.0"], found["v1.0"]) == (2.0, 2.0)
        assert (found["r1.1"], found["r1.2"]) == (1.5, 2.0)


class TestTurns:
    """UPC 706 against IRC Table P3005.1."""

    @staticmethod
    def cornered(plan: Plan, pattern: str, size: str) -> Plan:
        corner = Drain(id="d1", points=((36.0, 92.0), (36.0, 30.0), (70.0, 30.0)), size=size)  # type: ignore[arg-type]
        chosen = PinnedFitting(id="f1", at=(36.0, 30.0), pattern=pattern)  # type: ignore[arg-type]
        exits = (replace(plan.exits[0], at=(70.0, 30.0)),)
        return replace(plan, drains=(corner,), fittings=(chosen,), exits=exits)

    # a public question: a 3 in quarter bend from level to level; neither book takes it
    def test_a_closet_s_drain_turns_by_no_quarter_bend(self, hand_floor: HandFloor) -> None:
        plan = self.cornered(hand_floor(lavatory=False), "quarter_bend", "3")
        assert [f.cites for f in of(by_irc(plan), "turn-in-wrong-fitting")] == ["IRC 2021 Table P3005.1"]
        assert [f.cites for f in of(by_upc(plan), "turn-in-wrong-fitting")] == ["UPC 2021 706.3"]

    # a fixture drain of 2 in may in the IRC (note a), and may not in the UPC
    def test_a_shower_s_drain_turns_by_a_quarter_bend_in_one_book(self, hand_floor: HandFloor) -> None:
        plan = self.cornered(hand_floor(lavatory=False), "quarter_bend", "2")
        plan = replace(plan, fixtures=(Fixture(id="sh1", kind="shower", at=(36.0, 92.0)),))
        assert of(by_irc(plan), "turn-in-wrong-fitting") == []
        (finding,) = of(by_upc(plan), "turn-in-wrong-fitting")
        assert "long sweep quarter bend" in finding.mend

    # a public question: two lavatories meet in one double tee; the barrel must be two sizes over 1-1/2
    def test_two_lavatories_in_a_double_tee(self, hand_floor: HandFloor) -> None:
        plan = hand_floor()
        twin = Fixture(id="lav2", kind="lavatory", at=(70.25, 69.0), turn=0.0, trap="1-1/2")
        first = replace(plan.fixtures[1], trap="1-1/2")
        pin = PinnedFitting("p1", (70.25, 69.0), "sanitary_tee", level="wall")
        plan = replace(plan, fixtures=(plan.fixtures[0], first, twin), fittings=(pin,))
        irc = by_irc(plan)
        assert "double_sanitary_tee" in {part.kind for part in irc.model.joinery.parts}
        assert of(irc, "turn-in-wrong-fitting") == []
        (finding,) = of(by_upc(plan), "turn-in-wrong-fitting")
        assert finding.limit == 2.5
        assert finding.cites == "UPC 2021 706.2"


class TestWhatNeedsTheOfficialsWord:
    """Admittance valves and combination waste and vent: no, until an amendment says yes."""

    def test_an_admittance_valve_is_no_air(self, hand_floor: HandFloor) -> None:
        plan = hand_floor()
        plan = replace(plan, risers=(replace(plan.risers[0], top="valve"),))
        assert of(by_irc(plan), "vent-reaches-no-air") == []
        found = by_upc(plan)
        (finding,) = of(found, "vent-reaches-no-air")
        assert "accepts no admittance valve" in finding.text
        assert vented(found) == {"wc1": None, "lav1": None}

    def test_an_admittance_valve_that_the_official_accepts(self, hand_floor: HandFloor) -> None:
        plan = hand_floor()
        plan = replace(plan, risers=(replace(plan.risers[0], top="valve"),))
        found = by_upc(plan, valve__allowed=True)
        assert of(found, "vent-reaches-no-air") == []
        assert vented(found)["lav1"] == "individual vent"

    def test_an_admittance_valve_that_a_county_refuses(self, hand_floor: HandFloor) -> None:
        plan = hand_floor()
        plan = replace(
            plan,
            risers=(replace(plan.risers[0], top="valve"),),
            amendments=(Amendment("valve.allowed", False, **SAID),),
        )
        assert len(of(study(plan), "vent-reaches-no-air")) == 1

    # a public question: an oversized drain instead of a vent
    def test_a_sink_without_a_vent_is_a_stop_until_it_is_approved(self, hand_floor: HandFloor) -> None:
        plan = with_main(hand_floor(), (36.0, 35.0))
        sink = Fixture(id="ks1", kind="kitchen_sink", at=(56.0, 44.0))
        drain = Drain(id="d5", points=((56.0, 44.0), (45.0, 44.0), (36.0, 35.0)), size="2")
        plan = replace(plan, drains=(*plan.drains, drain), fixtures=(*plan.fixtures, sink))
        assert [f.elements for f in of(by_irc(plan), "trap-without-vent")] == []
        assert vented(by_irc(plan))["ks1"] == vented(by_upc(plan))["ks1"] == "combination waste and vent"
        assert of(by_irc(plan), "combination-without-leave") == []
        assert [f.elements for f in of(by_upc(plan), "combination-without-leave")] == [("ks1",)]
        assert of(by_upc(plan, combination__needs_leave=False), "combination-without-leave") == []


class TestSilence:
    """A rule whose value the book lacks."""

    def test_a_rule_that_the_code_does_not_have_does_not_apply(self, hand_floor: HandFloor) -> None:
        found = by_upc(hand_floor())
        counts = {"holds": 0, "broken": 0, "not_judged": 0, "does_not_apply": 1}
        assert found.looked_at["trap-too-far-aside"] == counts

    @pytest.mark.parametrize(
        ("stem", "rule"),
        [
            ("outlet_to_weir.most", "weir-too-low"),
            ("slope.least", "slope-too-small"),
            ("fitting", "turn-in-wrong-fitting"),
            ("joist.bore.edge", "bore-near-edge"),
            ("wet_vent.load", "wet-vent-too-small"),
        ],
    )
    def test_a_value_that_nobody_looked_up_is_said(self, hand_floor: HandFloor, stem: str, rule: str) -> None:
        model = work_out(replace(hand_floor(), rulebook="upc-2021"))
        kept = {value.key: value for value in model.book if value.key != stem and not value.key.startswith(f"{stem}.")}
        model.book = RuleBook("upc-2021", model.book.title, model.book.short, model.book.notice, kept)
        _, not_judged, looked_at = judge(model)
        assert looked_at[rule] == {"holds": 0, "broken": 0, "not_judged": 1, "does_not_apply": 0}
        assert (rule, f"the book gives no {stem}") in [(name, one.missing) for name, one in not_judged]


PARTING = {
    # sample: rules broken under the uniform code alone, rules broken under the residential code alone
    "one-bath-cottage": (
        {
            "no-height-fits",
            "trap-without-vent",
            "wet-vent-too-small",
            "no-room",
            "bore-near-edge",
            "pipe-leaves-bay",
            "vents-too-small-together",
        },
        {"little-pipe-showing"},
    ),
    "cottage-with-kitchen": (
        {
            "no-height-fits",
            "trap-without-vent",
            "wet-vent-too-small",
            "no-room",
            "bore-near-edge",
            "pipe-leaves-bay",
            "pipes-in-one-place",
            "upper-end-without-cleanout",
            "vents-too-small-together",
        },
        set[str](),
    ),
    "cottage-with-mistakes": (
        {
            "no-height-fits",
            "no-room",
            "arm-wider-than-trap",
            "upper-end-without-cleanout",
            "vents-too-small-together",
        },
        {"sharp-turn-without-cleanout", "too-little-room-beside"},
    ),
}
"""A sweep under the closet needs an inch more and takes the drain out of its bay, the shower joins below the closet, the wet vent is 1-1/2 in, the kitchen's
drain has no cleanout at its upper end, and the vents are together no wider than a part of the sewer."""


@pytest.mark.parametrize("name", PARTING)
def test_what_changes_in_a_sample_under_the_other_book(name: str) -> None:
    plan = file.read(SAMPLES / f"{name}.jway")
    irc, upc = by_irc(plan), by_upc(plan)
    ids = [{finding.rule for finding in found.findings} for found in (irc, upc)]
    assert (ids[1] - ids[0], ids[0] - ids[1]) == PARTING[name]
    assert sorted(irc.looked_at) == sorted(upc.looked_at)


WOOD = ("IRC 2021 R302", "IRC 2021 R502", "IRC 2021 R602")
"""Sections on wood, which the plumbing code leaves to the building code."""


@pytest.mark.parametrize("name", PARTING)
def test_every_answer_on_a_sample_is_given_under_the_uniform_code(name: str) -> None:
    found = by_upc(file.read(SAMPLES / f"{name}.jway"))
    answer = check_answer(found)
    assert answer["rulebook"] == "upc-2021"
    assert all(f["cites"].startswith(("UPC 2021", *WOOD, "common practice")) for f in answer["findings"])
    held = parts_answer(found)["supports"]
    assert {row["cites"] for row in held} <= {"UPC 2021 Table 313.3"}
