"""Any valid plan is studied to the end: rings, doubles, loose ends, odd angles, two exits, everything at one point."""

from __future__ import annotations

import json
import math
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, example, given, settings
from msgspec.structs import replace

from engine.checks import ALL_RULES
from engine.plan.file import dumps, loads
from engine.plan.records import Drain, Exit, Fixture, Floor, JoistField, PinnedFitting, Plan, Riser, Supply, Vent
from engine.study import Study, study
from engine.takeoff.answers import check_answer, parts_answer
from tests.engine.coarse_plans import bathrooms, plans

BOOKS = ("irc-2021", "upc-2021")
OUTCOMES = {"holds", "broken", "not_judged", "does_not_apply"}
RULES = {rule.id: rule for rule in ALL_RULES}
slow = settings(deadline=None, max_examples=80, suppress_health_check=[HealthCheck.too_slow])
SQUARE = Floor(((0.0, 0.0), (120.0, 0.0), (120.0, 120.0), (0.0, 120.0)))
HERE = (60.0, 60.0)

JUNK = {
    "nothing at all": Plan(floor=SQUARE),
    "joists alone": Plan(floor=SQUARE, fields=(JoistField("f1", (0.0, 0.0), (120.0, 120.0)),)),
    "a field too narrow for a joist": Plan(floor=SQUARE, fields=(JoistField("f1", (0.0, 0.0), (12.0, 12.0), spacing=48.0),)),
    "everything at one point": Plan(
        floor=SQUARE,
        fixtures=tuple(
            Fixture(f"a{n}", kind, HERE, trap_at=HERE, arm=0.0)  # type: ignore[arg-type]
            for n, kind in enumerate(("water_closet", "lavatory", "shower", "bathtub", "kitchen_sink", "washer_standpipe"))
        ),
        risers=(Riser("r1", HERE), Riser("r2", HERE)),
        exits=(Exit("x1", HERE), Exit("x2", HERE)),
    ),
    "a ring with two exits": Plan(
        floor=SQUARE,
        drains=(Drain("d1", ((12.0, 12.0), (60.0, 12.0), (60.0, 60.0), (12.0, 60.0), (12.0, 12.0))),),
        exits=(Exit("x1", (12.0, 12.0)), Exit("x2", (60.0, 60.0))),
    ),
    "a run there and back": Plan(
        floor=SQUARE,
        drains=(Drain("d1", ((12.0, 12.0), (60.0, 12.0), (12.0, 12.0)), join="drop"),),
        exits=(Exit("x1", (60.0, 12.0)),),
    ),
    "a drop at both ends": Plan(
        floor=SQUARE,
        drains=(
            Drain("d1", ((12.0, 12.0), (60.0, 12.0), (108.0, 12.0))),
            Drain("d2", ((12.0, 12.0), (60.0, 60.0), (108.0, 12.0)), join="drop"),
        ),
        exits=(Exit("x1", (60.0, 12.0)),),
    ),
    "a star of eight": Plan(
        floor=SQUARE,
        drains=tuple(
            Drain(f"d{n}", (HERE, (60.0 + 48.0 * dx, 60.0 + 48.0 * dy)))
            for n, (dx, dy) in enumerate(((1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1)))
        ),
        exits=(Exit("x1", (108.0, 60.0)),),
    ),
    "vents that meet in a knot": Plan(
        floor=SQUARE,
        vents=tuple(
            Vent(f"v{n}", (HERE, (60.0 + 40.0 * dx, 60.0 + 40.0 * dy)), above_floor=height)
            for n, (dx, dy, height) in enumerate(((1, 0, 42.0), (0, 1, 42.0), (1, 1, 42.0), (-1, 0, None), (0, -1, None)))
        ),
        risers=(Riser("r1", HERE), Riser("r2", (100.0, 60.0), top="valve")),
    ),
    "every pattern in the wrong place": Plan(
        floor=SQUARE,
        fixtures=(Fixture("a1", "lavatory", (12.0, 60.0), turn=0.0),),
        risers=(Riser("r1", (12.0, 60.0)),),
        drains=(Drain("d1", ((12.0, 60.0), HERE, (60.0, 12.0))), Drain("d2", ((100.0, 60.0), HERE))),
        exits=(Exit("x1", (60.0, 12.0)),),
        fittings=tuple(
            PinnedFitting(f"p{n}", at, pattern, level=level)  # type: ignore[arg-type]
            for n, (at, pattern, level) in enumerate(
                (at, pattern, level)
                for at, level in ((HERE, "under"), ((12.0, 60.0), "under"), ((12.0, 60.0), "wall"), ((60.0, 12.0), "under"))
                for pattern in ("quarter_bend", "closet_bend", "sanitary_tee", "wye", "combo_wye_eighth_bend", "sixth_bend")
            )
        ),
    ),
    "a supply that goes round": Plan(
        floor=SQUARE,
        supplies=(Supply("s1", "hot", ((12.0, 12.0), (60.0, 12.0), (60.0, 60.0), (12.0, 60.0), (12.0, 12.0))),),
        fixtures=(Fixture("a1", "water_heater", (12.0, 12.0)),),
    ),
}  # fmt: skip


def check(found: Study) -> None:
    """Everything that must hold of any study."""
    assert set(found.looked_at) == set(RULES)
    for rule, counts in found.looked_at.items():
        assert set(counts) == OUTCOMES
        assert all(type(count) is int and count >= 0 for count in counts.values()), rule
        assert counts["broken"] == sum(one.rule == rule for one in found.findings)
        assert counts["not_judged"] == sum(name == rule for name, _ in found.not_judged)
    for one in found.findings:
        assert one.weight in ("stop", "look", "note")
        assert one.text.strip() and one.cites.strip()
        assert one.mend.strip(), f"{one.rule}: nothing is said of what would mend it"
        assert all(map(math.isfinite, one.at)) and len(one.at) == 3
        assert one.elements and len(set(one.elements)) == len(one.elements), one.rule
        for value in (one.measured, one.limit):
            assert value is None or math.isfinite(value)
        assert bool(one.unit) == (one.measured is not None or one.limit is not None), one.rule
    for _, case in found.not_judged:
        assert case.missing.strip() and all(map(math.isfinite, case.at))
    for window in found.model.windows:
        assert math.isfinite(window.chosen)
    for answer in (check_answer(found), parts_answer(found)):
        assert_plain(json.loads(json.dumps(answer, allow_nan=False)))


def assert_plain(value: Any) -> None:
    """Only what JSON has, with numbers that every reader takes."""
    if isinstance(value, dict):
        for name, inner in value.items():
            assert isinstance(name, str)
            assert_plain(inner)
    elif isinstance(value, list):
        for inner in value:
            assert_plain(inner)
    elif isinstance(value, float):
        assert math.isfinite(value)
    else:
        assert value is None or isinstance(value, str | int | bool)


@pytest.mark.parametrize("book", BOOKS)
@pytest.mark.parametrize("name", JUNK)
def test_junk(name: str, book: str) -> None:
    plan = replace(JUNK[name], rulebook=book)
    assert loads(dumps(plan)) == plan, "junk, but a plan that a file may hold"
    check(study(plan))


@given(plans())
@slow
def test_any_plan_is_studied_to_the_end(plan: Plan) -> None:
    check(study(plan))


@given(plans())
@settings(slow, max_examples=30)
def test_by_the_other_book_too(plan: Plan) -> None:
    check(study(replace(plan, rulebook="upc-2021", amendments=())))


@given(bathrooms())
@settings(slow, max_examples=30)
@example(JUNK["nothing at all"])
def test_any_bathroom_is_studied_to_the_end(plan: Plan) -> None:
    check(study(plan))


@given(plans())
@settings(slow, max_examples=20)
def test_a_study_says_the_same_twice_and_leaves_the_plan_alone(plan: Plan) -> None:
    before = dumps(plan)
    first, second = study(plan), study(plan)
    assert dumps(plan) == before
    assert first.findings == second.findings
    assert check_answer(first) == check_answer(second)
    assert first.model.joinery == second.model.joinery


def test_the_random_plans_meet_every_kind_of_trouble() -> None:
    """A strategy whose plans broke nothing, or could not be built, would prove nothing."""
    broken: set[str] = set()
    parts: set[str] = set()
    methods: set[str | None] = set()

    @given(plans())
    @settings(slow, max_examples=200, phases=[Phase.generate], derandomize=True, database=None)
    def gather(plan: Plan) -> None:
        found = study(plan)
        broken.update(one.rule for one in found.findings)
        parts.update(part.kind for part in found.model.joinery.parts)
        methods.update(trap.method for trap in found.model.network.traps)

    gather()
    wanted = {rule.id for rule in ALL_RULES if rule.subject in ("drawing", "slope", "turns")}
    assert wanted - broken <= {"holds-water", "cannot-be-threaded", "little-pipe-showing", "turn-in-wrong-fitting"}
    assert parts >= {"combo_wye_eighth_bend", "long_sweep_quarter_bend", "sanitary_tee", "p_trap", "coupling"}
    assert methods >= {None, "individual vent"}
