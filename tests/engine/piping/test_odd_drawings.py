"""Drawings that are odd but may be drawn: each once made the graph say something that was not so."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from engine import rulebooks
from engine.piping import network
from engine.piping.records import UNDER, Network, Node
from engine.plan.records import Drain, Exit, Fixture, Floor, Plan, Point, Riser, Vent
from engine.study import work_out

SQUARE = Floor(((0.0, 0.0), (240.0, 0.0), (240.0, 240.0), (0.0, 240.0)))


def built(plan: Plan) -> Network:
    return network.build(plan, rulebooks.load(plan.rulebook))


def drained(*drains: Drain, at: Point = (20.0, 100.0), **given: object) -> Plan:
    return replace(Plan(floor=SQUARE, drains=drains, exits=(Exit("x1", at),)), **given)


@pytest.mark.parametrize("join", ["drop", "rolled"])
def test_a_run_that_ends_at_an_exit_has_no_main_to_drop_onto(join: str) -> None:
    run = Drain("d1", ((100.0, 100.0), (20.0, 100.0)), join=join, rise=6.0)  # type: ignore[arg-type]
    found = built(drained(run))
    assert [pipe.id for pipe in found.pipes] == ["d1.0"]
    assert found.rise[Node(100.0, 100.0, UNDER)] == pytest.approx(80.0 / 48.0)


def test_a_roll_by_nothing_is_a_flat_join() -> None:
    main = Drain("d1", ((100.0, 100.0), (60.0, 100.0), (20.0, 100.0)))
    found = built(drained(main, Drain("d2", ((60.0, 160.0), (60.0, 100.0)), join="rolled", roll=0.0, rise=9.0)))
    assert {pipe.shape for pipe in found.pipes} == {"level"}
    assert found.rise[Node(60.0, 160.0, UNDER)] == pytest.approx(100.0 / 48.0)


def test_a_run_that_drops_at_both_ends_has_two_drops() -> None:
    """Drawn from one main to another, its middle joined by a third run: both ends fall, each by its own pipe."""
    main = Drain("d1", ((120.0, 100.0), (80.0, 100.0), (40.0, 100.0), (20.0, 100.0)))
    bridge = Drain("d2", ((80.0, 100.0), (60.0, 140.0), (40.0, 100.0)), join="drop", rise=9.0)
    found = built(drained(main, bridge))
    ids = [pipe.id for pipe in found.pipes]
    assert len(ids) == len(set(ids)) == len(found.by_id)
    assert {"d2.drop", "d2.drop1"} <= set(ids)


def test_a_vent_that_leads_nowhere_under_the_floor_still_has_a_height() -> None:
    """Its far end lies lower by its fall, since a vent drains back to the pipe that it stands on."""
    main = Drain("d1", ((100.0, 100.0), (60.0, 100.0), (20.0, 100.0)))
    plan = drained(main, vents=(Vent("v1", ((60.0, 148.0), (60.0, 100.0))),), risers=(Riser("r1", (60.0, 100.0)),))
    found = built(plan)
    assert found.rise[Node(60.0, 148.0, UNDER)] == pytest.approx(40.0 / 48.0 - 1.0)


def test_a_closet_keeps_its_size_beside_a_sink_without_an_arm() -> None:
    """Both outlets at one height over one point: the sink's trap is no measure for the closet's drain."""
    at = (60.0, 60.0)
    plan = Plan(
        floor=SQUARE,
        fixtures=(
            Fixture("lv1", "lavatory", at, arm=0.0, outlet_above_floor=0.0),
            Fixture("wc1", "water_closet", at),
        ),
        exits=(Exit("x1", at),),
    )
    assert built(plan).by_id["wc1.drop"].size >= 3.0


def test_the_least_climb_of_a_drop_goes_by_the_main() -> None:
    """A combination on a 3 in main reaches further up than one on the branch's own 1-1/2 in."""

    def upper(size: str) -> float:
        main = Drain("d1", ((100.0, 100.0), (60.0, 100.0), (20.0, 100.0)), size=size)  # type: ignore[arg-type]
        return (
            built(drained(main, Drain("d2", ((60.0, 160.0), (60.0, 100.0)), size="1-1/2", join="drop")))
            .reaches[1]
            .least_rise
        )

    # wye's branch: 0.7071 x 1.9 + 0.95 and 0.7071 x 3.5 + 0.95, each up to a sixteenth: 2.3125 and 3.4375; times 0.7071
    assert upper("3") - upper("1-1/2") == pytest.approx((3.4375 - 2.3125) * 0.5**0.5)


def test_a_riser_over_a_drop_is_not_taken_for_the_main() -> None:
    """Three joints deep: a run that drops onto a riser's point, the riser going on up through the roof."""
    main = Drain("d1", ((100.0, 100.0), (60.0, 100.0), (20.0, 100.0)), size="3")
    branch = Drain("d2", ((60.0, 160.0), (60.0, 100.0)), size="2", join="drop")
    model = work_out(drained(main, branch, risers=(Riser("r1", (60.0, 100.0)),)))
    exit_window, drop = model.windows
    assert exit_window.exit == "x1"
    assert drop.low == pytest.approx(exit_window.chosen + 40.0 / 48.0 + model.network.reaches[1].least_rise)
