"""A tiled bath on a thinner floor, against sums worked by hand: 3/4 in subfloor, 1/4 in finish, 5/8 in of tile in the bath.

The floor, its take-offs and their sources are those of `test_worked_by_hand`; tile lies 5/8 - 1/4 = 3/8 in higher.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from engine.checks.records import Finding
from engine.plan import edits
from engine.plan.outline import tell
from engine.plan.records import Cleanout, Fixture, Floor, FlooringArea, FloorLayer, Plan, Riser, Supply, Vent
from engine.study import Study, study
from engine.takeoff.assembly import assembly
from engine.takeoff.buying import rises
from engine.takeoff.long_section import long_section
from engine.takeoff.section_floor import finished_over
from tests.engine.coarse_plans import bathrooms, plans
from tests.engine.test_invariance import MOVES, To, answer, compare

HandFloor = Callable[..., Plan]
TILE = (FloorLayer(0.25, "backer board"), FloorLayer(0.375, "tile"))
BATH = FlooringArea("c1", (0.0, 65.0), (68.0, 108.0), 0.625, TILE, "tiled bath")
"""Round the closet at (36, 92) and before the lavatory at (70.25, 69), which looks west out of its wall."""
HIGHER = 0.375


def tiled(plan: Plan, *areas: FlooringArea) -> Plan:
    return replace(plan, flooring_areas=areas or (BATH,))


def cut(found: Study, pipe: str) -> float:
    (length,) = [piece.cut for piece in found.model.joinery.pieces if piece.pipes == (pipe,)]
    return length


def test_the_flange_lies_on_the_tile(hand_floor: HandFloor) -> None:
    found = study(tiled(hand_floor(lavatory=False)))
    (flange,) = [part for part in found.model.joinery.parts if part.kind == "closet_flange_4x3"]
    assert flange.centre == (36.0, 92.0, 1.375)
    # stop 1.375 - 0.5 = 0.875; bend axis -5.6875; 0.875 + 5.6875 - 3.0625 = 3.5
    assert cut(found, "wc1.drop") == pytest.approx(3.5, abs=1e-9)


def test_the_exits_window_moves_by_the_difference(hand_floor: HandFloor) -> None:
    (window,) = study(tiled(hand_floor(lavatory=False))).model.windows
    # 0.875 - (1.5 + 1.5) - 3.0625 = -5.1875, less the fall of 1.5
    assert window.high == pytest.approx(-6.6875, abs=1e-9)
    # street: 0.875 - 4.5625 - 1.5
    assert [z for z, _ in window.others] == [pytest.approx(-5.1875, abs=1e-9)]


def test_an_area_elsewhere_moves_nothing(hand_floor: HandFloor) -> None:
    plan = hand_floor(lavatory=False)
    away = FlooringArea("c1", (80.0, 0.0), (120.0, 50.0), 2.0)
    compare(answer(study(plan)), {**answer(study(tiled(plan, away))), "looked at": answer(study(plan))["looked at"]})


def test_a_wall_outlet_counts_from_the_floor_before_its_wall(hand_floor: HandFloor) -> None:
    plan = hand_floor()
    before, after = study(plan), study(tiled(plan))
    low, high = (one.model.network.outlets["lav1"].level for one in (before, after))
    # 18 in over 1 in of subfloor and finish
    assert (low, high) == (19.0, 19.375)


def test_supplies_come_up_from_the_fixtures_own_floor(hand_floor: HandFloor) -> None:
    plan = replace(hand_floor(), supplies=(Supply("s1", "cold", ((20.0, 20.0), (70.25, 69.0)), down=4.0),))
    ((name, low),) = rises(study(plan).model, plan.supplies[0])
    ((same, high),) = rises(study(tiled(plan)).model, plan.supplies[0])
    assert (name, same, high - low) == ("lav1", "lav1", HIGHER)


def test_back_to_back_lavatories_stay_at_one_height(hand_floor: HandFloor) -> None:
    plan = hand_floor()
    other = Fixture("lav2", "lavatory", (70.25, 69.0), turn=0.0)
    found = study(tiled(replace(plan, fixtures=(*plan.fixtures, other))))
    assert found.model.network.outlets["lav1"].level == found.model.network.outlets["lav2"].level == 19.375
    assert any(part.kind.startswith("double") for part in found.model.joinery.parts)


@pytest.mark.parametrize(("top", "up"), [("valve", 48.0), ("capped", 48.0)])
def test_a_risers_own_height_counts_from_the_floor_of_what_it_serves(
    hand_floor: HandFloor, top: str, up: float
) -> None:
    plan = replace(hand_floor(), risers=(Riser("r1", (70.25, 69.0), top=top, above_floor=up),))  # type: ignore[arg-type]
    ends = [
        max(max(p.start.level, p.end.level) for p in study(one).model.network.pipes if p.element == "r1")
        for one in (plan, tiled(plan))
    ]
    assert ends == [up + 1.0, up + 1.375]


def test_roofs_and_overhead_vents_count_from_the_floors_own_finish(hand_floor: HandFloor) -> None:
    plan = hand_floor()
    vent = Vent("v1", ((70.25, 69.0), (70.25, 20.0)), above_floor=48.0)
    plan = replace(plan, vents=(vent,), risers=(*plan.risers, Riser("r2", (70.25, 20.0))))
    levels = [
        {z for p in study(one).model.network.pipes if p.element in ("v1", "r1") for z in (p.start.level, p.end.level)}
        for one in (plan, tiled(plan))
    ]
    assert 49.0 in levels[0]
    assert 49.0 in levels[1]
    assert max(levels[0]) == max(levels[1])


def test_a_risers_cleanout_counts_with_its_riser(hand_floor: HandFloor) -> None:
    plan = replace(hand_floor(), cleanouts=(Cleanout("k1", (70.25, 69.0), above_floor=6.0, turn=180.0),))
    heights = []
    for one in (plan, tiled(plan)):
        (tee,) = [part for part in study(one).model.joinery.parts if part.kind == "test_tee" and "k1" in part.elements]
        heights.append(tee.centre[2])
    assert heights == [7.0, 7.375]


def test_the_long_section_tells_the_floor_stretch_by_stretch(hand_floor: HandFloor) -> None:
    plan = tiled(hand_floor())
    found = long_section(study(plan).model, plan.fixtures[0])
    assert found is not None
    # from the exit at y 20 the main runs north 72 in to y 92; the bath begins 45 in up it, at y 65
    assert [(one.begins, one.ends, one.z) for one in found.floors] == [(0.0, 45.0, 1.0), (45.0, 72.0, 1.375)]
    assert found.finished == 1.375
    assert [thing.z for thing in found.things if thing.kind == "closet_flange_4x3"] == [1.375]


def test_over_a_line_that_only_stands_plumb_one_floor_lies(hand_floor: HandFloor) -> None:
    plan = tiled(hand_floor())
    (one,) = finished_over(plan, [((36.0, 92.0), (36.0, 92.0), 3.0, 3.0)])
    assert (one.begins, one.ends, one.z) == (3.0, 3.0, 1.375)


def test_the_assembly_names_the_finish_at_the_closet(hand_floor: HandFloor) -> None:
    said = [step.text for step in assembly(study(tiled(hand_floor())).model) if step.kind == "finish"]
    assert any("a finish of 5/8 in (1/4 in backer board and 3/8 in tile) is allowed for" in text for text in said)


def test_an_area_in_words() -> None:
    plan = Plan(floor=Floor(((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))), flooring_areas=(BATH,))
    assert tell(plan, BATH) == "Tiled bath c1: 5'-8\" by 3'-7\", 5/8 in thick, 1/4 in backer board, 3/8 in tile"


class TestFindings:
    """Common practice, no source."""

    def found(self, rule: str, *areas: FlooringArea) -> list[Finding]:
        outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 60.0), (60.0, 60.0), (60.0, 108.0), (0.0, 108.0))
        answered = study(Plan(floor=Floor(outline), flooring_areas=areas))
        return [one for one in answered.findings if one.rule == rule]

    def area(self, name: str, *corners: float) -> FlooringArea:
        return FlooringArea(name, corners[:2], corners[2:], 0.5)  # type: ignore[arg-type]

    def test_one_off_the_floor_covers_nothing(self) -> None:
        (one,) = self.found("flooring-covers-nothing", self.area("c1", 70.0, 70.0, 110.0, 100.0))
        assert (one.weight, one.elements) == ("look", ("c1",))
        assert "lies off the floor" in one.text
        assert self.found("flooring-past-the-floor", self.area("c1", 70.0, 70.0, 110.0, 100.0)) == []

    def test_one_under_later_ones_covers_nothing(self) -> None:
        under = self.area("c1", 10.0, 10.0, 50.0, 50.0)
        halves = (self.area("c2", 0.0, 0.0, 30.0, 60.0), self.area("c3", 30.0, 10.0, 55.0, 50.0))
        (one,) = self.found("flooring-covers-nothing", under, *halves)
        assert one.elements == ("c1",)
        assert "under others drawn after it" in one.text
        assert self.found("flooring-covers-nothing", *halves, under) == []
        assert self.found("flooring-covers-nothing", under, halves[0], self.area("c3", 30.0625, 10.0, 55.0, 50.0)) == []

    def test_one_past_the_edge_is_told_by_how_much(self) -> None:
        assert self.found("flooring-past-the-floor", self.area("c1", 0.0, 60.0, 60.0, 108.0)) == []
        (one,) = self.found("flooring-past-the-floor", self.area("c1", 0.0, 60.0, 60.0625, 108.0))
        assert one.measured == pytest.approx(0.0625)
        assert "past the floor by 1/16 in" in one.text

    def test_one_over_an_inner_corner_reaches_past_it(self) -> None:
        (one,) = self.found("flooring-past-the-floor", self.area("c1", 50.0, 50.0, 70.0, 70.0))
        assert "at a corner" in one.text


areas = st.lists(
    st.tuples(
        *[st.integers(-2, 12).map(lambda n: n * 12.0) for _ in range(4)], st.sampled_from((0.0, 0.25, 0.625, 1.5))
    ),
    min_size=1,
    max_size=3,
)
slow = settings(
    deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)


def with_areas(plan: Plan, drawn: list[tuple[float, ...]]) -> Plan:
    for x0, y0, x1, y1, finish in drawn:
        if x0 != x1 and y0 != y1:
            plan = edits.add_new(plan, FlooringArea, start=(x0, y0), end=(x1, y1), finish=finish)
    return plan


@given(plans() | bathrooms(), areas)
@slow
def test_areas_with_the_floors_own_finish_change_nothing(plan: Plan, drawn: list[tuple[float, ...]]) -> None:
    """No length, height, cut or finding but the areas' own."""
    same = with_areas(plan, [(*one[:4], plan.floor.finish) for one in drawn])
    before, after = answer(study(plan)), answer(study(same))
    about = ("flooring-covers-nothing", "flooring-past-the-floor")
    for said in (before, after):
        said["findings"] = [one for one in said["findings"] if one[0] not in about]  # type: ignore[attr-defined]
        said["looked at"] = {rule: counts for rule, counts in said["looked at"].items() if rule not in about}  # type: ignore[attr-defined]
    compare(before, after)


@given(bathrooms(), areas, st.sampled_from(MOVES))
@slow
def test_a_floor_of_many_floorings_moved(
    plan: Plan, drawn: list[tuple[float, ...]], way: tuple[str, Callable[[Plan], Plan], To]
) -> None:
    _, move, to = way
    laid = with_areas(plan, drawn)
    compare(answer(study(laid), to), answer(study(move(laid))))


@given(bathrooms(), st.sampled_from((0.0, 0.5, 1.0, 3.0)))
@slow
def test_one_area_over_all_is_a_thicker_finish(plan: Plan, finish: float) -> None:
    """All but the roof and overhead vents, which count from the floor's own: here no riser goes through the roof."""
    low = replace(plan, risers=tuple(replace(riser, top="none") for riser in plan.risers))
    corners = (
        [min(c) for c in zip(*low.floor.outline, strict=True)],
        [max(c) for c in zip(*low.floor.outline, strict=True)],
    )
    start, end = ((x - side, y - side) for (x, y), side in zip(corners, (500.0, -500.0), strict=True))
    laid = edits.add_new(low, FlooringArea, start=start, end=end, finish=finish)
    thick = edits.set_floor(low, finish=finish)
    before, after = answer(study(thick)), answer(study(laid))
    for part in ("heights", "windows", "pieces", "parts", "cuts"):
        assert after[part] == before[part], part
