"""Where outlets stand from the finished wall, against what closets that are sold want, and under their fixtures."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.clearances import standing
from engine.checks.model import Model
from engine.checks.outcomes import COMMON, name
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import over
from engine.drafting.finished import outlet_up
from engine.drafting.room import behind
from engine.lengths import inches
from engine.trade.fixtures import fixture as spec_of
from engine.trade.fixtures import tailpiece_end_of
from engine.trade.habits import CLOSET_GIVE, CLOSET_OUTLETS


def off_its_bowl(model: Model) -> Iterator[Outcome]:
    """A closet's outlet at the distance from the finished wall behind it that some bowl wants: 10, 12 or 14 in.

    Holds: 12 in, 12 1/2 in. To look at: 11 in, between two bowls; 16 in. Measured to the board's face; the finding tells it
    from the stud's face too. Source: common practice, no source; makers' sheets (Plumbing Rough-In Dimensions).
    """
    about = standing(model)
    for fixture in model.plan.fixtures:
        if fixture.kind != "water_closet":
            yield DoesNotApply(fixture.id)
            continue
        found = behind(fixture, about.bodies[fixture.id], about.walls_near(fixture.at))
        words = name(model, fixture.id)
        if found is None:
            yield (
                DoesNotApply(fixture.id)
                if not model.plan.walls
                else NotJudged((*fixture.at, 0.0), (fixture.id,), f"{words}: no wall is drawn behind it")
            )
            continue
        away, finish = found
        nearest = min(CLOSET_OUTLETS, key=lambda wants: abs(wants - away))
        if not over(abs(away - nearest), CLOSET_GIVE):
            yield Holds(fixture.id)
            continue
        sold = ", ".join(f"{wants:g}" for wants in CLOSET_OUTLETS[:-1]) + f" or {CLOSET_OUTLETS[-1]:g}"
        yield Finding(
            "closet-off-its-bowl",
            "look",
            (*fixture.at, 0.0),
            (fixture.id,),
            away,
            nearest,
            "in",
            f"{words} has its outlet {inches(away)} in from the finished wall, {inches(away + finish)} in from the studs; "
            f"bowls are made for {sold} in.",
            COMMON,
            f"Set it {nearest:g} in from the finished wall, {inches(nearest + finish)} in from the studs, or go by the "
            "sheet of the bowl in hand.",
        )


def over_its_tailpiece(model: Model) -> Iterator[Outcome]:
    """A drain in the wall no higher than the end of its fixture's tailpiece, or it can't run off.

    Holds: a lavatory's drain at 18 in under a bowl whose outlet is 25 in up. Broken: 25 1/16 in. How high the outlet is rests
    on the rim where that is given, else on the trade's data. Source: common practice, no source.
    """
    for fixture in model.plan.fixtures:
        spec, end, outlet = spec_of(fixture.kind), tailpiece_end_of(fixture), outlet_up(model.plan, fixture)
        if spec.outlet != "wall" or end is None or outlet is None or fixture.through is not None:
            yield DoesNotApply(fixture.id)
            continue
        if not over(outlet, end):
            yield Holds(fixture.id)
            continue
        yield Finding(
            "outlet-over-its-tailpiece",
            "stop",
            (*fixture.at, 0.0),
            (fixture.id,),
            outlet,
            end,
            "in",
            f"The drain of {name(model, fixture.id)} stands {inches(outlet)} in above the floor, over the {inches(end)} in of "
            "its own outlet: water can't run off.",
            COMMON,
            f"Set the drain lower in the wall: {inches(spec.outlet_above_floor or outlet)} in is usual.",
        )


RULES = (
    Rule("closet-off-its-bowl", "A closet's outlet that no bowl fits", "rough-in", "look", (), off_its_bowl),
    Rule("outlet-over-its-tailpiece", "A drain over its fixture's outlet", "rough-in", "stop", (), over_its_tailpiece),
)
