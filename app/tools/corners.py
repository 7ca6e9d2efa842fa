"""Where waste and vent pipes turn or meet: the fitting that stands there, and those that could be chosen instead.

All of it is asked of the engine: a fitting can stand where the joinery of the plan with it has no objection. Pure;
no window is touched.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from msgspec.structs import replace

from engine.joinery.choose import straight
from engine.joinery.legs import legs_by_node
from engine.joinery.records import Part
from engine.piping.flow import is_under
from engine.piping.records import Node
from engine.plan.outline import PATTERNS
from engine.plan.records import Level, Pattern, PinnedFitting, Plan, Point
from engine.study import Study, work_out
from engine.trade.fittings import KINDS
from engine.trade.fixtures import fixture as spec_of

MISFIT = "fitting-does-not-fit"
"""The rule under which the engine objects to a chosen fitting."""

TRIAL = "trial"
"""What a fitting is called while it is tried: it never gets into a plan that anyone sees."""


class Corner(NamedTuple):
    """A place where waste or vent pipes turn or meet, under the floor or in the wall."""

    at: Point
    level: Level


def corners(study: Study) -> tuple[Corner, ...]:
    """Every place where a fitting turns or joins pipes, or would if one could stand there."""
    network = study.model.network
    trapped = {trap.node for trap in network.traps if trap.weir}
    found = [_corner(Node(*part.node)) for part in study.model.joinery.parts if _turns(part)]
    for node, legs in legs_by_node(network).items():
        if node not in trapped and (len(legs) > 2 or (len(legs) == 2 and not straight(*legs))):
            found.append(_corner(node))
    return tuple(dict.fromkeys(found))


def standing(study: Study, corner: Corner) -> str:
    """What turns or joins the pipes there now, in words; in the wall it may be several, empty where none fits."""
    parts = (part for part in study.model.joinery.parts if _turns(part) and _corner(Node(*part.node)) == corner)
    return ", ".join(dict.fromkeys(KINDS[part.kind].words for part in parts))


def chosen(plan: Plan, corner: Corner) -> PinnedFitting | None:
    """The fitting that was chosen by hand there, if one was."""
    return next((pin for pin in plan.fittings if (pin.at, pin.level) == corner), None)


def offers(study: Study, corner: Corner) -> tuple[Pattern, ...]:
    """The fittings that can stand there, each tried in the studied plan; a closet bend under a closet only.

    Whether the rule book allows them is not asked: the findings tell that once one is chosen.
    """
    under_closet = corner in _closets(study)
    patterns = (pattern for pattern in PATTERNS if under_closet or pattern != "closet_bend")
    return tuple(pattern for pattern in patterns if _can_stand(study.plan, corner, pattern))


def _can_stand(plan: Plan, corner: Corner, pattern: Pattern) -> bool:
    others = tuple(pin for pin in plan.fittings if (pin.at, pin.level) != corner)
    trial = PinnedFitting(TRIAL, corner.at, pattern, corner.level)
    joinery = work_out(replace(plan, fittings=(trial, *others))).joinery
    if any(fault.rule == MISFIT and TRIAL in fault.elements for fault in joinery.faults):
        return False
    return any(part.pinned and _corner(Node(*part.node)) == corner for part in joinery.parts)


def _turns(part: Part) -> bool:
    return part.turn > 0.0 and part.system in ("waste", "vent")


def _closets(study: Study) -> Iterator[Corner]:
    """The places under closets."""
    for fixture in study.plan.fixtures:
        node = study.model.network.outlets.get(fixture.id)
        if node is not None and spec_of(fixture.kind).outlet == "closet":
            yield Corner((node.x, node.y), "under")


def _corner(node: Node) -> Corner:
    return Corner((node.x, node.y), "under" if is_under(node) else "wall")
