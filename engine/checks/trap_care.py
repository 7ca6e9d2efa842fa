"""What keeps a trap in order once the floor is closed: water in a floor drain, a way to a tub's slip joints."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import name, place
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.crossings.limits import short
from engine.lengths import inches
from engine.trade import fixtures as trade

PRIMED, ACCESS = "trap.floor_drain_primed", "clearance.slip_joint.access"


def floor_drain_dries(model: Model) -> Iterator[Outcome]:
    """A floor drain's trap dries out in use: it wants a primer, a deep seal or a listed device.

    To look at: every floor drain, since no such thing is drawn. Source: IRC P3201.2.1; UPC 1007.
    """
    for trap in model.network.traps:
        if trap.kind != "floor_drain" or not model.book.says(PRIMED):
            yield DoesNotApply(trap.fixture)
            continue
        yield Finding(
            "floor-drain-dries",
            "look",
            place(model, trap.node),
            (trap.fixture,),
            None,
            None,
            "",
            f"The trap of {name(model, trap.fixture)} gets no water in daily use and dries out.",
            model.book.cite(PRIMED),
            "Plan a trap primer, a deep-seal trap or a listed seal for it.",
        )


def slip_joints(model: Model) -> Iterator[Outcome]:
    """A way to the slip joints of a tub's waste, which the floor and the wall would close in.

    Holds: a tub over a space with a way in that is 12 in wide. To know: a tub on a floor without one. Those of sinks stand
    in the open under them. Source: IRC P2704.1; UPC 402.10 (from memory).
    """
    least = model.book.number(ACCESS)
    reached = any(not short(hatch.clear, least) for hatch in model.plan.hatches)
    for fixture in model.plan.fixtures:
        if trade.fixture(fixture.kind).outlet != "tub":
            yield DoesNotApply(fixture.id)
        elif reached:
            yield Holds(fixture.id)
        else:
            yield Finding(
                "slip-joint-closed-in",
                "note",
                (*(fixture.trap_at or fixture.at), 0.0),
                (fixture.id,),
                None,
                least,
                "in",
                f"The waste and overflow of {name(model, fixture.id)} go into its trap by slip joints, which must stay within "
                f"reach: no way in of {inches(least)} in or more is drawn.",
                model.book.cite(ACCESS),
                f"Leave an opening of {inches(least)} in or more in the wall at its drain end, or draw the way in under the floor.",
            )


RULES = (
    Rule("floor-drain-dries", "A floor drain that dries out", "traps", "look", (PRIMED,), floor_drain_dries),
    Rule("slip-joint-closed-in", "Slip joints that are closed in", "traps", "note", (ACCESS,), slip_joints),
)
