"""Traps in the bay: how far below the outlet they hang, how far beside it, and whether they clear the joists."""

from __future__ import annotations

import math
from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import COMMON, fixtures, name
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import over, short
from engine.drafting.finished import outlet_up
from engine.lengths import inches, up
from engine.piping.flow import is_under
from engine.piping.records import Trap
from engine.plan.records import Fixture
from engine.trade import fixtures as trade
from engine.trade.pipe import drain
from engine.trade.traps import trap as shape_of

FREEZES = "trap.freezes_at"


def _arm_axis(model: Model, trap: Trap) -> float | None:
    """Height of the arm's axis at the trap's outlet stop, inches; None when it is not known."""
    z = model.heights.get(trap.node)
    if z is None or not trap.arm:
        return None
    return z - model.network.by_id[trap.arm[0]].slope * trap.weir / 12.0


def _in_bay(trap: Trap) -> bool:
    return trap.weir > 0.0 and is_under(trap.node)


def weir_too_low(model: Model) -> Iterator[Outcome]:
    """The drop from a fixture's outlet to its trap's weir.

    Reads ``outlet_to_weir.most``. The weir is taken as the arm's invert at the trap's outlet stop. Holds: a
    shower drain 9 in above its weir; a sink whose outlet is 24 in over its drain in the wall. Broken: 24 1/16 in.
    Closets have their trap inside, and a standpipe has a rule on its height. Source: IRC P3201.6; UPC 1001.2.
    """
    most = model.book.number("outlet_to_weir.most")
    for trap in model.network.traps:
        if not _in_bay(trap):
            yield _wall_drop(model, trap, fixtures(model)[trap.fixture], most)
            continue
        axis = _arm_axis(model, trap)
        at = (trap.node.x, trap.node.y, axis or 0.0)
        if axis is None:
            yield NotJudged(at, (trap.fixture,), f"{name(model, trap.fixture)}: the height of its drain is not known")
            continue
        drop = model.network.outlets[trap.fixture].level - (axis - drain(trap.size).bore / 2.0)
        if not over(drop, most):
            yield Holds(trap.fixture)
            continue
        yield Finding(
            "weir-too-low",
            "stop",
            at,
            (trap.fixture,),
            drop,
            most,
            "in",
            f"{name(model, trap.fixture)}: {inches(drop)} in from its outlet down to the trap's weir; {most:g} in is the most.",
            model.book.cite("outlet_to_weir.most"),
            "Raise the drain, or hang the trap nearer to the outlet and let its run drop after the vent.",
        )


def _wall_drop(model: Model, trap: Trap, fixture: Fixture, most: float) -> Outcome:
    """The same for a trap that hangs before the wall, its weir as high as the drain in the wall."""
    end, weir = trade.tailpiece_end_of(fixture), outlet_up(model.plan, fixture)
    if trade.fixture(fixture.kind).comes_by != "tailpiece" or end is None or weir is None:
        return DoesNotApply(trap.fixture)
    if not over(end - weir, most):
        return Holds(trap.fixture)
    return Finding(
        "weir-too-low",
        "stop",
        (trap.node.x, trap.node.y, trap.node.level),
        (trap.fixture,),
        end - weir,
        most,
        "in",
        f"{name(model, trap.fixture)}: {inches(end - weir)} in from its outlet, {inches(end)} in above the floor, down to its "
        f"trap's weir; {most:g} in is the most.",
        model.book.cite("outlet_to_weir.most"),
        f"Set its drain in the wall {inches(up(end - most))} in above the floor or higher; let the pipe drop past the vent.",
    )


def trap_too_far_aside(model: Model) -> Iterator[Outcome]:
    """The way sideways from a tub's outlet to its trap.

    Reads ``outlet_to_trap.sideways_most``. Holds: a trap 12 in beside the outlet. Broken: 30 1/16 in. Source:
    IRC P3201.6; some places hold to less.
    """
    most = model.book.number("outlet_to_trap.sideways_most")
    for fixture in model.plan.fixtures:
        if fixture.trap_at is None or trade.fixture(fixture.kind).outlet != "tub":
            yield DoesNotApply(fixture.id)
            continue
        aside = math.dist(fixture.at, fixture.trap_at)
        if not over(aside, most):
            yield Holds(fixture.id)
            continue
        yield Finding(
            "trap-too-far-aside",
            "stop",
            (*fixture.trap_at, 0.0),
            (fixture.id,),
            aside,
            most,
            "in",
            f"{name(model, fixture.id)}: the trap hangs {inches(aside)} in beside the outlet; {most:g} in is the most.",
            model.book.cite("outlet_to_trap.sideways_most"),
            "Hang the trap nearer to the outlet.",
        )


def trap_below_joists(model: Model) -> Iterator[Outcome]:
    """A trap whose belly hangs below the joists: it wants room, a box and protection from frost.

    Holds: the lowest outside point lies within the joists' depth. To look at: it lies below; where the winter's design
    temperature is one at which water freezes, the code's protection from frost is cited too. Never a reason to steepen the
    arm. Common practice, no source; frost by IRC P3201.3, UPC 312.6. The trap's shape is assumed until it is measured.
    """
    reach, cites, cure = _reached_by(model)
    depth = max((joist.depth for joist in model.framing.joists), default=None)
    for trap in model.network.traps:
        if not _in_bay(trap):
            yield DoesNotApply(trap.fixture)
            continue
        axis = _arm_axis(model, trap)
        at = (trap.node.x, trap.node.y, axis or 0.0)
        if axis is None or depth is None:
            missing = "the height of its drain is not known" if axis is None else "no joists are drawn"
            yield NotJudged(at, (trap.fixture,), f"{name(model, trap.fixture)}: {missing}")
            continue
        lowest = axis - shape_of(trap.size, model.plan.takeoffs).lowest_below_arm
        if not short(lowest, -depth):
            yield Holds(trap.fixture)
            continue
        yield Finding(
            "trap-below-joists",
            "look",
            at,
            (trap.fixture,),
            -lowest,
            depth,
            "in",
            f"The trap of {name(model, trap.fixture)} hangs {inches(-lowest - depth)} in below the joists, where {reach}.",
            cites,
            f"Leave room for it below, and {cure}.",
        )


def _reached_by(model: Model) -> tuple[str, str, str]:
    """What reaches a trap below the joists in this winter, what a finding cites for it, and what helps."""
    winter = model.plan.floor.design_temp
    if winter is None:
        return "knocks reach it, and frost in a cold winter", COMMON, "box it; insulate it where winters freeze"
    if not model.book.has(FREEZES) or over(winter, model.book.number(FREEZES)):
        return "knocks reach it", COMMON, "box it"
    return (
        f"knocks reach it, and frost in a winter of {winter:g} deg F",
        model.book.cite(FREEZES),
        "box and insulate it",
    )


RULES = (
    Rule("weir-too-low", "A trap too far below its outlet", "venting", "stop", ("outlet_to_weir.most",), weir_too_low),
    Rule(
        "trap-too-far-aside",
        "A trap too far beside its outlet",
        "venting",
        "stop",
        ("outlet_to_trap.sideways_most",),
        trap_too_far_aside,
    ),
    Rule(
        "trap-below-joists",
        "A trap that hangs below the joists",
        "venting",
        "look",
        (),
        trap_below_joists,
        (FREEZES,),
    ),
)
