"""Welds, directions and what the graph reports when they fail."""

from __future__ import annotations

from collections.abc import Callable

import msgspec

from engine import rulebooks
from engine.piping import network
from engine.piping.records import Network
from engine.plan.records import Drain, Exit, Plan, Riser, Vent

Floor = Callable[..., Plan]


def built(plan: Plan) -> Network:
    return network.build(plan, rulebooks.load(plan.rulebook))


def replace(plan: Plan, **changes: object) -> Plan:
    return msgspec.structs.replace(plan, **changes)


def test_the_direction_of_drawing_does_not_matter(hand_floor: Floor) -> None:
    plan = hand_floor()
    turned = replace(plan, drains=tuple(replace(d, points=d.points[::-1]) for d in plan.drains))  # type: ignore[type-var]
    there, back = built(plan), built(turned)
    assert {(p.start, p.end, p.size, p.load) for p in there.pipes} == {
        (p.start, p.end, p.size, p.load) for p in back.pipes
    }
    assert there.rise == back.rise


def test_waste_runs_to_the_exit_and_vents_to_the_air(hand_floor: Floor) -> None:
    found = built(hand_floor())
    assert {(p.start.x, p.start.y) for p in found.pipes if p.end == found.exits["x1"]} == {(36.0, 62.0)}
    vent = found.by_id["r1.1"]
    assert (vent.system, vent.start.level, vent.end.level) == ("vent", 19.0, 133.0)


def test_an_end_an_eighth_short_is_not_joined(hand_floor: Floor) -> None:
    plan = hand_floor()
    short = replace(plan.drains[1], points=((70.25, 69.0), (43.0, 69.0), (36.125, 62.125)))  # type: ignore[type-var]
    found = built(replace(plan, drains=(plan.drains[0], short)))
    faults = {fault.rule: fault for fault in found.faults}
    assert faults["end-not-joined"].elements == ("d2", "d1")
    assert faults["end-not-joined"].at == (36.125, 62.125)
    assert faults["drain-reaches-no-exit"].elements == ("d2",)


def test_an_end_on_a_main_without_a_point_there_is_not_joined(hand_floor: Floor) -> None:
    plan = hand_floor()
    main = replace(plan.drains[0], points=((36.0, 92.0), (36.0, 20.0)))  # type: ignore[type-var]
    found = built(replace(plan, drains=(main, plan.drains[1])))
    near = next(fault for fault in found.faults if fault.rule == "end-not-joined")
    assert (near.measured, near.limit) == (0.0, 0.0)


def test_a_ring_is_reported_and_the_graph_stays_acyclic(hand_floor: Floor) -> None:
    import networkx as nx

    plan = hand_floor()
    loop = Drain(id="d3", points=((36.0, 92.0), (20.0, 92.0), (20.0, 62.0), (36.0, 62.0)))
    found = built(replace(plan, drains=(*plan.drains, loop)))
    assert "waste-ring" in {fault.rule for fault in found.faults}
    assert nx.is_directed_acyclic_graph(found.graph)


def test_two_exits_on_one_drain_are_reported(hand_floor: Floor) -> None:
    plan = hand_floor()
    found = built(replace(plan, exits=(*plan.exits, Exit(id="x2", at=(36.0, 92.0)))))
    assert "waste-ring" in {fault.rule for fault in found.faults}


def test_each_exit_heads_its_own_tree(hand_floor: Floor) -> None:
    plan = hand_floor()
    other = Drain(id="d9", points=((100.0, 92.0), (100.0, 20.0)), size="2")
    found = built(replace(plan, drains=(*plan.drains, other), exits=(*plan.exits, Exit(id="x2", at=(100.0, 20.0)))))
    assert [(reach.exit, reach.parent) for reach in found.reaches] == [("x1", None), ("x2", None)]


def test_an_exit_without_a_drain_is_reported(hand_floor: Floor) -> None:
    plan = hand_floor()
    found = built(replace(plan, exits=(*plan.exits, Exit(id="x2", at=(90.0, 50.0)))))
    assert [f.elements for f in found.faults if f.rule == "exit-joins-nothing"] == [("x2",)]


def test_drawn_twice_is_reported_once(hand_floor: Floor) -> None:
    plan = hand_floor()
    again = Drain(id="d3", points=((36.0, 20.0), (36.0, 62.0)))
    found = built(replace(plan, drains=(*plan.drains, again)))
    assert [f.elements for f in found.faults if f.rule == "drawn-twice"] == [("d3", "d1")]


def test_overhead_vents_join_only_at_equal_heights(hand_floor: Floor) -> None:
    plan = hand_floor()
    risers = (plan.risers[0], Riser(id="r2", at=(70.25, 92.0), top="none"))
    level = Vent(id="v1", points=((70.25, 92.0), (70.25, 69.0)), above_floor=42.0)
    found = built(replace(plan, risers=risers, vents=(level,)))
    levels = sorted({node.level for node in found.graph if (node.x, node.y) == (70.25, 69.0)})
    # under the floor, the tee at 18 above the floor, the vent at 42, the roof's 126 and 6 above it
    assert levels[1:] == [19.0, 43.0, 133.0]


def test_a_capped_riser_gives_no_air(hand_floor: Floor) -> None:
    plan = hand_floor()
    capped = replace(plan.risers[0], top="capped", above_floor=60.0)  # type: ignore[type-var]
    found = built(replace(plan, risers=(capped,)))
    assert "vent-reaches-no-air" in {fault.rule for fault in found.faults}
    assert {trap.method for trap in found.traps} == {None}
