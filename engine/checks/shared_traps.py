"""One trap to a fixture, but for what may share: bowls and like fixtures side by side, a hose, a laundry tub's drain."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from engine.checks.model import Model, once_a_model
from engine.checks.outcomes import COMMON, fixtures, name, place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import over
from engine.lengths import inches
from engine.piping.records import Trap
from engine.plan.outline import listed
from engine.plan.records import Fixture
from engine.trade import fixtures as trade

COUNT, APART, MIDDLE = "trap.shared.outlets_most", "trap.shared.outlets_apart_most", "trap.shared.middle_of_three"

Group = tuple[Trap, tuple[Fixture, ...]]
"""A trap, and the fixtures with tailpieces that drain into it: its own first."""


@once_a_model
def _groups(model: Model) -> list[Group]:
    """Every trap of a fixture that has a tailpiece, with the like fixtures that drain through it."""
    guests: dict[str, list[Fixture]] = {}
    for fixture in model.plan.fixtures:
        if fixture.through is not None and trade.fixture(fixture.kind).comes_by == "tailpiece":
            guests.setdefault(fixture.through, []).append(fixture)
    return [
        (trap, (fixtures(model)[trap.fixture], *guests.get(trap.fixture, ())))
        for trap in model.network.traps
        if trade.fixture(fixtures(model)[trap.fixture].kind).comes_by == "tailpiece"
    ]


def _words(model: Model, group: tuple[Fixture, ...]) -> str:
    return listed(name(model, fixture.id) for fixture in group)


def _finding(
    model: Model, rule: str, group: Group, measured: float | None, limit: float | None, unit: str, said: tuple[str, ...]
) -> Finding:
    trap, fixtures = group
    text, key, mend = said
    ids = tuple(fixture.id for fixture in fixtures)
    return Finding(rule, "stop", place(model, trap.node), ids, measured, limit, unit, text, model.book.cite(key), mend)


def shared(model: Model) -> Iterator[Outcome]:
    """How many bowls, or like fixtures side by side, may share one trap, and how far apart their outlets.

    Holds: two bowls 16 in apart; three lavatories, the outer two 30 in apart. Broken: four bowls; two whose outlets are
    30 1/16 in apart. Between fixtures it is measured in plan from drain to drain. Source: IRC P3201.6 (from memory); UPC
    1001.2.
    """
    most, wide = model.book.number(COUNT), model.book.number(APART)
    for group in _groups(model):
        trap, fixtures = group
        bowls, words = sum(fixture.bowls for fixture in fixtures), _words(model, fixtures)
        if bowls == 1:
            yield DoesNotApply(trap.fixture)
            continue
        if over(bowls, most):
            said = (
                f"{bowls} bowls of {words} share one trap; {most:g} may.",
                COUNT,
                "Give one bowl a trap of its own.",
            )
            yield _finding(model, "trap-shared-by-too-many", group, float(bowls), most, "bowls", said)
            continue
        apart = _apart(fixtures)
        if apart is None:
            missing = f"{words}: how far the outlets of its bowls are apart is not given"
            yield NotJudged(place(model, trap.node), tuple(fixture.id for fixture in fixtures), missing)
        elif over(apart, wide):
            said = (
                f"The outlets of {words} are {inches(apart)} in apart; {wide:g} in is the most on one trap.",
                APART,
                "Give the far bowl a trap of its own.",
            )
            yield _finding(model, "trap-shared-by-too-many", group, apart, wide, "in", said)
        else:
            yield Holds(trap.fixture)


def _apart(fixtures: tuple[Fixture, ...]) -> float | None:
    """The widest way between two outlets, inches; None where that between a fixture's own bowls is not given."""
    if any(fixture.bowls > 1 and fixture.bowls_apart is None for fixture in fixtures):
        return None
    own = {fixture.id: (fixture.bowls_apart or 0.0) if fixture.bowls > 1 else 0.0 for fixture in fixtures}
    between = [math.dist(a.at, b.at) + (own[a.id] + own[b.id]) / 2.0 for a, b in combinations(fixtures, 2)]
    return max(*own.values(), *between, 0.0)


def not_in_the_middle(model: Model) -> Iterator[Outcome]:
    """Where three fixtures share a trap, it hangs under the middle one.

    Holds: three lavatories of which the outer two drain through the middle one. Broken: through an outer one. Source: IRC
    P3201.6 (from memory); UPC 1001.2.
    """
    for group in _groups(model):
        trap, fixtures = group
        if len(fixtures) != 3 or not model.book.says(MIDDLE):
            yield DoesNotApply(trap.fixture)
            continue
        own, one, other = fixtures
        across = math.dist(one.at, other.at)
        if not over(math.dist(own.at, one.at), across) and not over(math.dist(own.at, other.at), across):
            yield Holds(trap.fixture)
            continue
        said = (
            f"{_words(model, fixtures)} share the trap of {name(model, own.id)}, which is not the middle one.",
            MIDDLE,
            "Hang the trap under the middle one, and let the others drain through that.",
        )
        yield _finding(model, "trap-not-in-the-middle", group, None, None, "", said)


def takes_another(model: Model) -> Iterator[Outcome]:
    """What may drain through another fixture's trap: one trap each, but for what the books name.

    Holds: a dishwasher through the kitchen sink; a washer through the laundry tub beside it. Broken: a washer through
    the kitchen sink; a closet, which has its own trap, through any: two traps on one way. Source: IRC P3201.6 (the
    washer from memory); UPC 1001.2.
    """
    for fixture in model.plan.fixtures:
        if fixture.through is None:
            yield DoesNotApply(fixture.id)
            continue
        host = fixtures(model)[fixture.through]
        key = f"trap.takes.{host.kind}.{fixture.kind}"
        if model.book.says(key):
            yield Holds(fixture.id)
            continue
        cited = key if model.book.has(key) else model.book.keys("trap.takes")[0]
        twice = trade.fixture(fixture.kind).outlet == "closet"
        own = " It has a trap inside it: two traps on one way hold each other's water." if twice else ""
        yield Finding(
            "trap-takes-another",
            "stop",
            (*fixture.at, 0.0),
            (fixture.id, host.id),
            None,
            None,
            "",
            f"{name(model, fixture.id)} may not drain through the trap of {name(model, host.id)}.{own}",
            model.book.cite(cited),
            "Give it a drain and a trap of its own.",
        )


def hose(model: Model) -> Iterator[Outcome]:
    """Whether a machine's hose reaches the fixture that it drains through.

    Holds: a dishwasher 30 in from its sink, drain to drain in plan. To look at: one 48 1/16 in off. How far a hose reaches
    is common practice, no source: it rises to the rim first.
    """
    for fixture in model.plan.fixtures:
        reach, host = trade.fixture(fixture.kind).hose_reach, fixtures(model).get(fixture.through or "")
        if reach is None or host is None:
            yield DoesNotApply(fixture.id)
            continue
        far = math.dist(fixture.at, host.at)
        if not over(far, reach):
            yield Holds(fixture.id)
            continue
        text = (
            f"{name(model, fixture.id)} stands {inches(far)} in from {name(model, host.id)}; the hose that it drains by reaches "
            f"some {reach:g} in, since it rises to the rim first."
        )
        mend = "Set it nearer, give it a drain of its own, or measure the hose."
        at = (*fixture.at, 0.0)
        yield Finding("hose-too-short", "look", at, (fixture.id, host.id), far, reach, "in", text, COMMON, mend)


RULES = (
    Rule("trap-shared-by-too-many", "Too much on one trap", "traps", "stop", (COUNT, APART), shared),
    Rule(
        "trap-not-in-the-middle",
        "A trap of three not under the middle one",
        "traps",
        "stop",
        (MIDDLE,),
        not_in_the_middle,
    ),
    Rule(
        "trap-takes-another",
        "A fixture that drains through another's trap",
        "traps",
        "stop",
        ("trap.takes",),
        takes_another,
    ),
    Rule("hose-too-short", "A hose that does not reach its drain", "traps", "look", (), hose),
)
