"""Where pieces begin and end: corners that nothing makes, couplings between hubs, valves, caps, fittings measured in hand."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from msgspec.structs import replace

from engine.joinery.records import Part, Piece
from engine.plan.records import Drain, Exit, Fixture, Floor, JoistField, MeasuredTakeOff, Plan, Riser
from engine.study import Study, study

HandFloor = Callable[..., Plan]
SQUARE = Floor(((0.0, 0.0), (240.0, 0.0), (240.0, 240.0), (0.0, 240.0)))
GRADE = (1.0 + 1.0 / 48.0**2) ** 0.5


def level(*points: tuple[float, float], **given: object) -> Study:
    """One 3 in run to an exit through the rim, and what else is given."""
    run = Drain("d1", points, size="3")
    exit_ = Exit("x1", points[-1], how="through-rim")
    return study(replace(Plan(floor=SQUARE, drains=(run,), exits=(exit_,)), **given))


def cut(found: Study, pipe: str) -> list[Piece]:
    return [piece for piece in found.model.joinery.pieces if pipe in piece.pipes]


def the(found: Study, kind: str) -> Part:
    (part,) = (part for part in found.model.joinery.parts if part.kind == kind)
    return part


def test_a_piece_ends_at_a_corner_that_nothing_makes() -> None:
    found = level((100.0, 100.0), (60.0, 100.0), (20.0, 123.0))
    assert [fault.rule for fault in found.model.joinery.faults] == ["no-fitting-turns-so"]
    first, second = cut(found, "d1.0"), cut(found, "d1.1")
    assert [piece.pipes for piece in (*first, *second)] == [("d1.0",), ("d1.1",)]
    assert first[0].cut == pytest.approx(40.0 * GRADE)


def test_a_piece_runs_on_through_a_point_of_a_straight_run() -> None:
    found = level((100.0, 100.0), (60.0, 100.0), (20.0, 100.0))
    assert [piece.pipes for piece in found.model.joinery.pieces] == [("d1.0", "d1.1")]


def test_a_run_along_a_rims_face_is_not_measured_by_the_joists_beside_it() -> None:
    """Joists are numbered, and so are rims: one has nothing to do with the other."""
    field = (JoistField("f1", (0.0, 0.0), (120.0, 120.0), spacing=12.0),)
    for points in (((0.0, 0.0), (12.0, 0.0)), ((0.0, 0.0), (0.0, 12.0))):
        found = level(*points, fields=field)
        assert [one.rule for one in found.findings if one.rule == "cannot-be-threaded"] == []


def test_a_coupling_keeps_clear_of_the_next_hub() -> None:
    """An eighth bend 3 in past the last bay: the coupling moves back until two sockets of pipe are between them."""
    plan = Plan(
        floor=SQUARE,
        fields=(JoistField("f1", (0.0, 0.0), (240.0, 240.0)),),
        fixtures=(Fixture("lv1", "lavatory", (90.0, 110.0), turn=90.0),),
        risers=(Riser("r1", (90.0, 110.0)),),
        drains=(
            Drain("d1", ((36.0, 200.0), (36.0, 99.0), (36.0, 20.0)), size="3"),
            Drain("d2", ((90.0, 110.0), (47.0, 110.0), (36.0, 99.0)), size="1-1/2"),
        ),
        exits=(Exit("x1", (36.0, 20.0), pinned_z=-6.5),),
    )
    pieces = cut(study(plan), "d2.0")
    assert len(pieces) > 1
    for piece in pieces:
        assert piece.cut >= 2 * 0.6875 - 1e-9
        if piece.cut - piece.least < 0.75:
            assert piece.note.startswith("only")


@pytest.mark.parametrize(("top", "kind"), [("valve", "aav_adapter"), ("capped", "end_cap")])
def test_what_closes_a_riser_is_glued_to_it(hand_floor: HandFloor, top: str, kind: str) -> None:
    plan = hand_floor()
    found = study(replace(plan, risers=(replace(plan.risers[0], top=top),)))
    (vent,) = cut(found, "r1.1")
    part = the(found, kind)
    assert vent.to_part == part.id
    assert [bond.other for bond in found.model.joinery.bonds if bond.part == part.id] == [vent.mark]
    # it stands 6 in over the tee at 19 (IRC 2021 P3104.4), the tee's upper leg 1.0625
    assert vent.cut == pytest.approx(6.0 - 1.0625)


def test_a_riser_that_ends_too_low_gets_nothing_on_top(hand_floor: HandFloor) -> None:
    plan = hand_floor()
    found = study(replace(plan, risers=(replace(plan.risers[0], top="valve", above_floor=10.0),)))
    kinds = {part.kind for part in found.model.joinery.parts}
    assert not kinds & {"aav_adapter", "admittance_valve", "end_cap", "vent_flashing"}


def test_a_street_bend_is_known_before_anything_is_cut(hand_floor: HandFloor) -> None:
    """Its hub measured 3.5 in hand, its plain cousin's stays 3.0625: the main goes by the bend that is there."""
    plan = hand_floor(lavatory=False, pinned=-5.5625)
    plan = replace(plan, takeoffs=(MeasuredTakeOff("street_quarter_bend", "3", "run_in", 3.5),))
    (main,) = cut(study(plan), "d1.0")
    assert main.cut == pytest.approx(72.0 * GRADE - 3.5 - 3.0625)


def test_a_sink_without_an_arm_is_reported() -> None:
    at = (100.0, 100.0)
    found = level(at, (20.0, 100.0), fixtures=(Fixture("lv1", "lavatory", at, arm=0.0),), risers=(Riser("r1", at),))
    (told,) = (one for one in found.findings if one.rule == "no-room")
    assert told.elements[0] == "lv1"
    assert "arm" in told.mend


def test_a_threaded_piece_can_be_laid_in_its_bay() -> None:
    """Joists 16 in apart leave 14-1/2 in; with a quarter of play no piece is longer than 14-1/4 (common practice)."""
    plan = Plan(
        floor=SQUARE,
        fields=(JoistField("f1", (0.0, 0.0), (240.0, 240.0)),),
        drains=(Drain("d1", ((120.0, 100.0), (24.0, 100.0)), size="2"),),
        exits=(Exit("x1", (24.0, 100.0)),),
    )
    pieces = cut(study(plan), "d1.0")
    assert len(pieces) > 5
    grade = math.hypot(1.0, 1.0 / 48.0)
    assert max(piece.cut for piece in pieces) == pytest.approx(14.25 * grade, abs=1e-3)
