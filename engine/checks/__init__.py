"""The checks: every rule in one place, and one pass over all of them."""

from __future__ import annotations

from functools import lru_cache

from engine.checks import (
    arms,
    bearing_partitions,
    branch_slopes,
    clashes,
    cleanout_openings,
    cleanout_reach,
    cleanout_turns,
    cleanouts,
    clearances,
    combinations,
    dead_ends,
    double_fittings,
    drain_sizes,
    drawing,
    drawn_floors,
    drawn_walls,
    dry_vents,
    fixture_traps,
    floor_bracing,
    floor_framing,
    floor_openings,
    flooring,
    flush_beams,
    holding,
    hubs,
    in_bays,
    island_fittings,
    island_vents,
    joist_cuts,
    joist_lengths,
    landing,
    main_vents,
    open_floor,
    plate_cuts,
    plates,
    reductions,
    rough_in,
    shared_traps,
    slope,
    stacks_and_circuits,
    standpipes,
    stud_notches,
    studs,
    takeoffs,
    terminals,
    trap_care,
    traps,
    turns,
    valves,
    vent_methods,
    vent_runs,
    vent_sizes,
    venting,
    wall_frost,
    wall_room,
    way_down,
)
from engine.checks.model import Model
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.rulebooks import NoSuchValueError, RuleBook
from engine.rulebooks.shelf import KEPT

ALL_RULES: tuple[Rule, ...] = (
    *drawing.RULES,
    *clashes.RULES,
    *slope.RULES,
    *branch_slopes.RULES,
    *drain_sizes.RULES,
    *reductions.RULES,
    *venting.RULES,
    *vent_methods.RULES,
    *stacks_and_circuits.RULES,
    *combinations.RULES,
    *island_vents.RULES,
    *island_fittings.RULES,
    *arms.RULES,
    *dry_vents.RULES,
    *main_vents.RULES,
    *vent_sizes.RULES,
    *vent_runs.RULES,
    *terminals.RULES,
    *valves.RULES,
    *traps.RULES,
    *fixture_traps.RULES,
    *shared_traps.RULES,
    *trap_care.RULES,
    *standpipes.RULES,
    *cleanouts.RULES,
    *cleanout_turns.RULES,
    *cleanout_openings.RULES,
    *cleanout_reach.RULES,
    *dead_ends.RULES,
    *turns.RULES,
    *double_fittings.RULES,
    *takeoffs.RULES,
    *joist_cuts.RULES,
    *hubs.RULES,
    *landing.RULES,
    *in_bays.RULES,
    *studs.RULES,
    *drawn_walls.RULES,
    *stud_notches.RULES,
    *wall_room.RULES,
    *plate_cuts.RULES,
    *plates.RULES,
    *wall_frost.RULES,
    *drawn_floors.RULES,
    *floor_framing.RULES,
    *bearing_partitions.RULES,
    *joist_lengths.RULES,
    *floor_bracing.RULES,
    *floor_openings.RULES,
    *open_floor.RULES,
    *flush_beams.RULES,
    *flooring.RULES,
    *clearances.RULES,
    *rough_in.RULES,
    *holding.RULES,
    *way_down.RULES,
)
"""Every rule, in the order in which the trade would ask."""

_WEIGHTS = {"stop": 0, "look": 1, "note": 2}


def judge(
    model: Model,
) -> tuple[tuple[Finding, ...], tuple[tuple[str, NotJudged], ...], dict[str, dict[str, int]]]:
    """Run every rule. Returns the findings by weight, what could not be judged, and the four counts by rule.

    A rule that reads what the book does not give is not run: it does not apply where the code has no such rule,
    and is not judged where that is not known.
    """
    findings: list[Finding] = []
    not_judged: list[tuple[str, NotJudged]] = []
    looked_at: dict[str, dict[str, int]] = {}
    for rule, settled in _by_the_book(model.book):
        holds = broken = unjudged = beside = 0
        try:
            for outcome in settled or rule.judge(model):
                kind = type(outcome)
                if kind is Holds:
                    holds += 1
                elif kind is DoesNotApply:
                    beside += 1
                elif isinstance(outcome, Finding):
                    broken += 1
                    findings.append(outcome)
                elif isinstance(outcome, NotJudged):
                    unjudged += 1
                    not_judged.append((rule.id, outcome))
        except NoSuchValueError as lacking:
            unjudged += 1
            not_judged.append((rule.id, _lacking(lacking.key)))
        looked_at[rule.id] = {"holds": holds, "broken": broken, "not_judged": unjudged, "does_not_apply": beside}
    findings.sort(key=lambda found: _WEIGHTS[found.weight])
    return tuple(findings), tuple(not_judged), looked_at


def _lacking(key: str) -> NotJudged:
    """What is left of a rule where a row of the book's is wanting on the way."""
    return NotJudged((0.0, 0.0, 0.0), (), f"the book gives no {key}")


@lru_cache(maxsize=KEPT)
def _by_the_book(book: RuleBook) -> tuple[tuple[Rule, tuple[Outcome, ...]], ...]:
    """Every rule with its one outcome where it reads what the book does not give; none where the book gives everything."""
    return tuple((rule, _without_the_book(book, rule)) for rule in ALL_RULES)


def _without_the_book(book: RuleBook, rule: Rule) -> tuple[Outcome, ...]:
    missing = book.first_missing(rule.reads)
    if missing is None:
        return ()
    if book.silence(missing) is not None:
        return (DoesNotApply(),)
    return (_lacking(missing),)
