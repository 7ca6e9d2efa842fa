"""Where a floor lies on the paper, which way it is turned and which way its runs were drawn changes no answer.

Common sense, no source: nothing about the job changes. Joists are counted from the other side after a mirror or a
turn, so findings are compared by everything but the joists' numbers.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from engine.checks.records import Finding
from engine.plan import edits
from engine.plan.file import read
from engine.plan.records import Plan, Point
from engine.study import Study, study
from tests.engine.coarse_plans import bathrooms, plans

SAMPLES = sorted((Path(__file__).resolve().parents[2] / "samples").glob("*.jway"))
Place = tuple[float, float, float]
To = Callable[[float, float], tuple[float, float]]
slow = settings(
    deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)

MOVES: list[tuple[str, Callable[[Plan], Plan], To]] = [
    ("shifted", lambda plan: edits.shift(plan, 1024.0 + 3.0 / 1024.0, -777.25), lambda x, y: (x + 1024.0 + 3.0 / 1024.0, y - 777.25)),
    ("a quarter", lambda plan: edits.quarter_turned(plan, 1), lambda x, y: (-y, x)),
    ("half round", lambda plan: edits.quarter_turned(plan, 2), lambda x, y: (-x, -y)),
    ("three quarters", lambda plan: edits.quarter_turned(plan, 3), lambda x, y: (y, -x)),
    ("in a mirror", lambda plan: edits.mirrored(plan, 60.0), lambda x, y: (120.0 - x, y)),
]  # fmt: skip


def rounded(value: float | None, digits: int = 5) -> float | None:
    return None if value is None else round(value, digits) + 0.0


def place(at: Place, to: To) -> Place:
    x, y = to(at[0], at[1])
    return (round(x, 4) + 0.0, round(y, 4) + 0.0, round(at[2], 4) + 0.0)


def told(finding: Finding, drawn: set[str], to: To) -> tuple[object, ...]:
    """A finding by all that a move must not change, its place moved along."""
    return (
        finding.rule,
        finding.weight,
        rounded(finding.measured),
        rounded(finding.limit),
        finding.unit,
        finding.cites,
        tuple(element for element in finding.elements if element in drawn),
        place(finding.at, to),
    )


def stays(x: float, y: float) -> tuple[float, float]:
    return (x, y)


def answer(found: Study, to: To = stays) -> dict[str, object]:
    """What a study says, apart from where it all lies: places go through `to`."""
    kinds = ("walls", "fixtures", "drains", "vents", "risers", "supplies", "exits", "inlets", "fittings")
    drawn = {element.id for kind in kinds for element in getattr(found.plan, kind)}
    model = found.model
    return {
        "findings": sorted((told(finding, drawn, to) for finding in found.findings), key=repr),
        "looked at": found.looked_at,
        "not judged": sorted(
            ((rule, tuple(e for e in one.elements if e in drawn), place(one.at, to)) for rule, one in found.not_judged),
            key=repr,
        ),
        "heights": {
            (*place((node.x, node.y, 0.0), to)[:2], node.level): round(z, 6) for node, z in model.heights.items()
        },
        "windows": [(rounded(w.low), rounded(w.high), rounded(w.chosen)) for w in model.windows],
        "pieces": sorted((piece.size, round(piece.cut, 5), round(piece.axis, 5)) for piece in model.joinery.pieces),
        "parts": sorted((part.kind, part.size, part.elements) for part in model.joinery.parts),
        "cuts": sorted(
            (cut.kind, cut.element, round(cut.diameter, 6), round(cut.down_from_top, 5), str(cut.legal))
            for cut in model.cuts
        ),
    }


def compare(before: dict[str, object], after: dict[str, object]) -> None:
    for part, said in before.items():
        assert after[part] == said, part


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize(("name", "move", "to"), MOVES, ids=[name for name, _, _ in MOVES])
def test_a_sample_moved(path: Path, name: str, move: Callable[[Plan], Plan], to: To) -> None:
    plan = read(path)
    compare(answer(study(plan), to), answer(study(move(plan))))


@given(bathrooms(), st.sampled_from(MOVES))
@slow
def test_a_bathroom_moved(plan: Plan, way: tuple[str, Callable[[Plan], Plan], To]) -> None:
    _, move, to = way
    compare(answer(study(plan), to), answer(study(move(plan))))


@given(plans(), st.sampled_from(MOVES))
@slow
def test_any_plan_moved(plan: Plan, way: tuple[str, Callable[[Plan], Plan], To]) -> None:
    _, move, to = way
    try:
        moved = move(plan)
    except edits.EditError:
        # a field whose joists can't be laid out from the other side
        assume(False)
        return
    compare(answer(study(plan), to), answer(study(moved)))


def drawn_backward(plan: Plan) -> Plan:
    return replace(
        plan,
        drains=tuple(replace(run, points=run.points[::-1]) for run in plan.drains),
        vents=tuple(replace(run, points=run.points[::-1]) for run in plan.vents),
        supplies=tuple(replace(run, points=run.points[::-1]) for run in plan.supplies),
    )


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_sample_drawn_backward(path: Path) -> None:
    plan = read(path)
    compare(answer(study(plan)), answer(study(drawn_backward(plan))))


@given(bathrooms())
@slow
def test_a_bathroom_drawn_backward(plan: Plan) -> None:
    compare(answer(study(plan)), answer(study(drawn_backward(plan))))


@given(bathrooms(), st.data())
@slow
def test_one_run_drawn_backward(plan: Plan, data: st.DataObject) -> None:
    turned = data.draw(st.sets(st.sampled_from([run.id for run in plan.drains])))
    drains = tuple(replace(run, points=run.points[::-1]) if run.id in turned else run for run in plan.drains)
    compare(answer(study(plan)), answer(study(replace(plan, drains=drains))))


@given(bathrooms())
@slow
def test_a_point_on_a_straight_stretch_changes_nothing_but_the_count(plan: Plan) -> None:
    """A run with a point put in half-way along each stretch is the same pipe."""
    finer = replace(plan, drains=tuple(replace(run, points=halved(run.points)) for run in plan.drains))
    before, after = answer(study(plan)), answer(study(finer))
    for part in ("pieces", "parts", "windows"):
        assert after[part] == before[part]
    rules = [{told[0] for told in said["findings"]} for said in (before, after)]  # type: ignore[attr-defined]
    assert rules[0] == rules[1]


def halved(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """The same line with a point in the middle of each stretch."""
    made = [points[0]]
    for (x0, y0), (x1, y1) in pairwise(points):
        made += [((x0 + x1) / 2.0, (y0 + y1) / 2.0), (x1, y1)]
    return tuple(made)
