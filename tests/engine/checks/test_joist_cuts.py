"""All rules on joist cuts together, engineered members (R502.8.2), rims, and pipe below the joists.

Limits: IRC 2021 R502.8.1. Runs cross joist F.3 (x 48) of a floor 120 x 108 square, at a given height, unless told
otherwise. Pipe outsides 1.900, 2.375, 3.500 and bits 2-1/8, 2-9/16, 3-5/8 in.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import msgspec
import pytest

from engine.checks.joist_cuts import RULES
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome
from engine.crossings.cuts import cut
from engine.crossings.windows import crossing_heights
from engine.plan.records import Point
from tests.engine.checks.joist_model import Run, amended, broken, kind, model_of, only, outcomes


class TestMembers:
    def test_an_engineered_member_is_stopped_without_a_number(self) -> None:
        found = broken("engineered-member-cut", Run(), member="engineered")
        assert (found.weight, found.measured, found.limit, found.cites) == ("stop", None, None, "IRC 2021 R502.8.2")
        assert "maker's hole guide or an engineer" in found.mend

    @pytest.mark.parametrize("run", [Run(z=-20.0), Run(passing="under", z=-20.0)])
    def test_pipe_clear_of_an_engineered_member_holds(self, run: Run) -> None:
        assert kind(only("engineered-member-cut", run, member="engineered")) is Holds

    def test_where_cuts_are_allowed_the_makers_guide_is_missing(self) -> None:
        found = only(
            "engineered-member-cut", Run(), member="engineered", amend=amended("joist.engineered.cuts_allowed", True)
        )
        assert isinstance(found, NotJudged)
        assert "maker's hole guide" in found.missing

    def test_sawn_joists_do_not_apply(self) -> None:
        assert kind(only("engineered-member-cut", Run())) is DoesNotApply
        assert kind(only("rim-cut", Run())) is DoesNotApply

    def test_no_rule_covers_a_bored_rim(self) -> None:
        through_rim = Run(points=((40.0, 20.0), (40.0, 0.0)))
        found = broken("rim-cut", through_rim)
        assert (found.weight, found.elements, found.cites) == ("look", ("d0", "F.rim-south"), "common practice")
        assert kind(only("rim-cut", Run(z=-20.0, points=through_rim.points))) is Holds

    @pytest.mark.parametrize(
        ("points", "expected"),
        [
            (((56.0, 20.0), (43.0, 20.0)), Holds),
            (((40.0, 40.0), (56.0, 56.0)), Holds),
            (((56.0, 20.0), (48.0, 20.0), (43.0, 20.0)), Holds),
            (((56.0, 20.0), (48.0, 20.0)), Finding),
            (((56.0, 20.0), (48.0, 20.0), (40.0, 28.0)), Finding),
            (((48.0, 20.0), (48.0, 60.0)), Finding),
        ],
    )
    def test_pipe_that_no_straight_bore_takes(self, points: tuple[Point, ...], expected: type[Outcome]) -> None:
        found = only("no-straight-bore", Run(points=points))
        assert kind(found) is expected
        assert kind(only("no-straight-bore", Run(points=points, z=None))) is expected
        if isinstance(found, Finding):
            assert found.weight == "stop"
            assert ("lengthwise" in found.text or "along" in found.text) is (points[0][0] == 48.0)

    def test_no_straight_bore_does_not_apply_to_pipe_clear_of_the_wood(self) -> None:
        assert kind(only("no-straight-bore", Run(points=((56.0, 20.0), (48.0, 20.0)), z=-20.0))) is DoesNotApply

    # 1-1/2 in pipe: top at z + 0.95; joist bottom -9.25
    @pytest.mark.parametrize(("z", "expected"), [(-10.2, Finding), (-10.2 + 1 / 16, Holds), (-4.6, Holds)])
    def test_pipe_below_the_joists_is_noted(self, z: float, expected: type[Outcome]) -> None:
        found = only("pipe-below-joists", Run(z=z))
        assert kind(found) is expected
        if isinstance(found, Finding):
            assert found.weight == "note"
            assert "neither bored nor notched" in found.text
            assert model_of(Run(z=z)).cuts == ()

    def test_pipe_below_is_not_noted_where_it_is_meant_to_be(self) -> None:
        assert kind(only("pipe-below-joists", Run(z=-12.0, passing="under"))) is DoesNotApply
        assert kind(only("pipe-below-joists", Run(z=None))) is NotJudged

    @pytest.mark.parametrize(("z", "expected"), [(-10.2, Holds), (-10.2 + 1 / 16, Finding), (-4.6, Finding)])
    def test_pipe_that_is_to_pass_under_must_be_clear(self, z: float, expected: type[Outcome]) -> None:
        found = only("pipe-not-clear-below", Run(z=z, passing="under"))
        assert kind(found) is expected
        if z == -4.6 and isinstance(found, Finding):
            # -4.6 + 0.95 + 9.25
            assert found.measured == pytest.approx(5.6)
            assert found.mend.startswith("Lower it 5 5/8 in there")

    def test_pipe_not_clear_below_lacks_a_height_or_does_not_apply(self) -> None:
        assert kind(only("pipe-not-clear-below", Run(z=None, passing="under"))) is NotJudged
        assert kind(only("pipe-not-clear-below", Run())) is DoesNotApply


MIXED = (
    Run(y=20.0),
    Run(y=22.0, z=-7.0),
    Run(y=40.0, size=3.0),
    Run(y=54.0, z=-1.4, passing="notched"),
    Run(y=56.0, z=-3.0, size=2.0),
    Run(y=70.0, z=None),
    Run(y=75.0, z=-12.0),
    Run(y=80.0, z=-9.0, passing="under"),
    Run(y=3.0, z=-1.5, passing="notched"),
    Run(points=((40.0, 20.0), (40.0, 0.0))),
    Run(points=((60.0, 85.0), (48.0, 85.0))),
)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_every_crossing_has_one_outcome_for_each_rule(rule: Any) -> None:
    model = model_of(*MIXED)
    assert len(list(rule.judge(model))) == len(model.crossings)


def test_what_a_cut_is_said_to_break_is_what_is_found() -> None:
    model = model_of(*MIXED, end_bearing=5.5)
    found: dict[tuple[str, str], set[str]] = {}
    for rule in RULES:
        for one in rule.judge(model):
            if isinstance(one, Finding) and one.weight == "stop":
                for element in one.elements[:-1]:
                    found.setdefault((element, one.elements[-1]), set()).add(rule.id)
    for made in model.cuts:
        assert set(made.faults) == found.get((made.element, made.joist), set())
        assert (made.legal is False) is bool(made.faults)


def test_seven_joists_bored_for_a_kitchen_sink_across_the_room() -> None:
    """1-1/2 in drain at 1/4 in per ft over 100 in of 2x10s: 3.2 down at x 116, 5.28 at x 16. All seven hold."""
    slope = 0.25
    model = model_of(Run(points=((116.0, 40.0), (0.5, 40.0)), z=-3.2), size=(130.0, 108.0))
    pipe = model.network.by_id["d0.0"]
    pipe = msgspec.structs.replace(pipe, slope=slope)
    model.network.pipes, model.network.by_id = (pipe,), {pipe.id: pipe}
    axis = crossing_heights(model.plan, model.network, model.heights, model.crossings, model.framing)
    model.cuts = cut(model.crossings, model.framing, axis, model.book)
    commons = [cut for cut in model.cuts if model.joists[cut.joist].kind == "common"]
    assert [cut.at[0] for cut in commons] == [112.0, 96.0, 80.0, 64.0, 48.0, 32.0, 16.0]
    # 3.2 + (116 - x) / 48
    assert [cut.down_from_top for cut in commons] == [
        pytest.approx(3.2 + (116.0 - x) / 48) for x in (112, 96, 80, 64, 48, 32, 16)
    ]
    assert commons[-1].down_from_top == pytest.approx(5.2833, abs=5e-5)
    assert all(cut.legal for cut in commons)


def test_five_joists_under_a_three_inch_drain() -> None:
    """3 in pipe square through 2x10s at x 8, 24, 40, 56, 72: five stops, 0.4167 over, wherever it crosses."""
    for y in (24.0, 51.0):
        model = model_of(Run(points=((78.0, y), (2.0, y)), size=3.0, z=-4.2), first=8.0, size=(90.0, 105.0))
        found = [one for one in outcomes("bore-too-large", model) if isinstance(one, Finding)]
        assert [one.at[0] for one in found] == [72.0, 56.0, 40.0, 24.0, 8.0]
        assert {round((one.measured or 0.0) - (one.limit or 0.0), 4) for one in found} == {0.4167}


MOVES: dict[str, tuple[Callable[[float, float], Point], str]] = {
    "shifted": (lambda x, y: (x + 40.0, y - 7.5), "north-south"),
    "mirrored east to west": (lambda x, y: (120.0 - x, y), "north-south"),
    "mirrored south to north": (lambda x, y: (x, 108.0 - y), "north-south"),
    "turned a quarter": (lambda x, y: (-y, x), "east-west"),
    "turned two quarters": (lambda x, y: (120.0 - x, 108.0 - y), "north-south"),
}


@pytest.mark.parametrize("how", MOVES)
def test_moving_the_whole_floor_changes_no_finding(how: str) -> None:
    def found(move: Callable[[float, float], Point], direction: str) -> list[tuple[Any, ...]]:
        a, b = move(0.0, 0.0), move(120.0, 108.0)
        model = model_of(
            *(
                run._replace(points=tuple(move(*p) for p in run.points or ((50.0, run.y), (38.0, run.y - run.y / 16))))
                for run in MIXED
            ),
            corner=(min(a[0], b[0]), min(a[1], b[1])),
            size=(120.0, 108.0) if direction == "north-south" else (108.0, 120.0),
            direction=direction,
            first=12.0,
        )
        told = [one for rule in RULES for one in rule.judge(model)]
        # a pair of cuts too close is told from whichever comes first, so the elements are not compared in order
        return sorted(
            (type(one).__name__, one.rule, one.weight, round(one.measured or 0.0, 6), round(one.limit or 0.0, 6))
            if isinstance(one, Finding)
            else (type(one).__name__, "", "", 0.0, 0.0)
            for one in told
        )

    still = found(lambda x, y: (x, y), "north-south")
    assert any(name == "Finding" for name, *_ in still)
    assert found(*MOVES[how]) == still
