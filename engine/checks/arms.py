"""Trap arms: how far they fall on the way to the vent, and how near to the trap it may be."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import name, place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.checks.venting import airless, unknown_vent
from engine.crossings.limits import over, short
from engine.joinery.records import Part
from engine.piping.records import Pipe, Trap
from engine.trade.fittings import KINDS, takeoff


def arm_falls_too_far(model: Model) -> Iterator[Outcome]:
    """A trap arm's total fall is no more than one (nominal) diameter of it, or the vent's mouth lies below the weir.

    Counted is the fall of its pipes, of a rolled fitting on the way, and inside a combination that takes the arm
    down into a plumb pipe. Holds: 2 in, 8 ft at 1/4: 2.00; any short arm into a sanitary tee. Broken: 2 in, 8 ft
    at 3/8: 3.00; an arm into an upright combination. A closet may drop.
    Source: IRC P3105.2.
    """
    branches = {
        port.pipe: part for part in model.joinery.parts for port in part.ports if port.role.startswith("branch")
    }
    for trap in model.network.traps:
        if not trap.arm or trap.ends is None or trap.kind == "water_closet" or airless(trap):
            yield DoesNotApply(trap.fixture)
            continue
        if not trap.recognised:
            yield unknown_vent(model, trap)
            continue
        pipes = tuple(model.network.by_id[pipe] for pipe in (*trap.arm, *trap.beyond))
        fall = _fall(model, trap, pipes)
        inside = _inside(model, branches.get(trap.arm[-1]))
        if fall is None:
            words = f"{name(model, trap.fixture)}: the height of its drain is not known"
            yield NotJudged(place(model, trap.ends), (trap.fixture,), words)
            continue
        most = pipes[-1].size * model.book.number("trap_arm.fall_diameters")
        if over(fall + inside, most):
            yield _falls(model, trap, fall, inside, most)
        else:
            yield Holds(trap.fixture)


def _fall(model: Model, trap: Trap, pipes: tuple[Pipe, ...]) -> float | None:
    """How far an arm falls from the weir on, inches; None where a height that it needs is not known."""
    total = -pipes[0].slope * trap.weir / 12.0 if pipes[0].shape == "level" else 0.0
    for pipe in pipes:
        if pipe.shape == "level":
            total += pipe.slope * pipe.run / 12.0
            continue
        top, foot = model.heights.get(pipe.start), model.heights.get(pipe.end)
        if top is None or foot is None:
            return None
        total += top - foot
    return total


def _inside(model: Model, part: Part | None) -> float:
    """How far water falls inside the fitting that an arm enters before it is in the run, inches.

    A combination is a wye whose branch is brought square by an eighth bend: on a plumb run its wye, where the
    air is, lies below the arm by as much as the combination's lower leg is longer than the wye's.
    """
    if part is None or part.kind != "combo_wye_eighth_bend":
        return 0.0
    if not any(port.role == "run_out" and port.toward[2] < 0.0 for port in part.ports):
        return 0.0
    measured = model.plan.takeoffs
    lower, of_wye = (takeoff(kind, part.size, "run_out", measured).length for kind in (part.kind, "wye"))
    return max(0.0, lower - of_wye)


def _falls(model: Model, trap: Trap, fall: float, inside: float, most: float) -> Finding:
    words = name(model, trap.fixture)
    if inside:
        text = (
            f"{words}: its arm falls {fall:.2f} in and {inside:.2f} in more inside the "
            f"{KINDS['combo_wye_eighth_bend'].words}; one diameter, {most:g} in, is the most on the way to the vent."
        )
        mend = "Use a sanitary tee there."
    else:
        text = f"{words}: its arm falls {fall:.2f} in on the way to the vent; one diameter, {most:g} in, is the most."
        mend = "Bring the vent nearer, or let the arm fall less."
    return Finding(
        "arm-falls-too-far",
        "stop",
        place(model, trap.ends or trap.node),
        (trap.fixture,),
        fall + inside,
        most,
        "in",
        text,
        model.book.cite("trap_arm.fall_diameters"),
        mend,
    )


def s_trap(model: Model) -> Iterator[Outcome]:
    """An arm that turns down before air reaches it pulls its trap's water along: an S-trap.

    Holds: an arm level to its vent. Broken: a sink's drain that drops through the floor to an unvented pipe. A closet
    siphons itself; combination waste and vent has its own rules for the drop. Source: IRC P3105.2, P3201.5; UPC 1004.1.
    """
    for trap in model.network.traps:
        if not trap.arm or trap.kind == "water_closet" or trap.method == "combination waste and vent":
            yield DoesNotApply(trap.fixture)
        elif trap.recognised and not (trap.drops and not model.book.flag("trap_arm.drop_allowed")):
            yield Holds(trap.fixture)
        elif not trap.recognised:
            yield unknown_vent(model, trap)
        else:
            yield Finding(
                "s-trap",
                "stop",
                place(model, trap.node),
                (trap.fixture,),
                None,
                None,
                "",
                f"{name(model, trap.fixture)}: its drain turns down before air reaches it, so that the water running off "
                "pulls the trap empty: an S-trap.",
                model.book.cite("trap_arm.drop_allowed"),
                "Bring a vent to the arm before it turns down: a tee in the wall with the vent going on up.",
            )


def crown_vent(model: Model) -> Iterator[Outcome]:
    """A vent is at least two pipe diameters from the trap's weir, or it is fouled and crown-vents the trap.

    Holds: 4 in on a 2 in arm. Broken: 3 in. Source: IRC P3105.3.
    """
    for trap in model.network.traps:
        if not trap.arm or trap.length is None or trap.kind == "water_closet" or airless(trap):
            yield DoesNotApply(trap.fixture)
            continue
        if not trap.recognised:
            yield unknown_vent(model, trap)
            continue
        size = model.network.by_id[trap.arm[0]].size
        least = size * model.book.number("trap_arm.crown_diameters")
        if not short(trap.length, least):
            yield Holds(trap.fixture)
            continue
        yield Finding(
            "vent-at-the-crown",
            "stop",
            place(model, trap.ends or trap.node),
            (trap.fixture,),
            trap.length,
            least,
            "in",
            f"{name(model, trap.fixture)}: the vent is {trap.length:.2f} in from the trap's weir; it must be at least {least:g} in away.",
            model.book.cite("trap_arm.crown_diameters"),
            "Move the vent further down the arm.",
        )


RULES = (
    Rule(
        "arm-falls-too-far",
        "A trap arm that falls too far",
        "venting",
        "stop",
        ("trap_arm.fall_diameters",),
        arm_falls_too_far,
    ),
    Rule("s-trap", "A drain that turns down before its vent", "venting", "stop", ("trap_arm.drop_allowed",), s_trap),
    Rule("vent-at-the-crown", "A vent too near its trap", "venting", "stop", ("trap_arm.crown_diameters",), crown_vent),
)
