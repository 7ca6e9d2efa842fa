"""Vent distance: whether air reaches each trap's arm, how far that is, and how far the arm falls on the way."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import name, place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import over, short
from engine.piping.records import Trap
from engine.trade.pipe import label


def limit_of(model: Model, trap: Trap) -> tuple[float | None, str | None]:
    """The most that this trap's arm may run to its vent, inches, and the book key; None where none is set.

    Goes by the trap's size, whatever the arm's pipe. A closet has no limit unless the book sets one.
    """
    if trap.kind == "water_closet":
        limited = bool(model.book.value("trap_arm.closet_limited").value)
        if not limited:
            return None, "trap_arm.closet_limited"
    key = f"trap_arm.length.{label(trap.size)}"
    return (model.book.number(key), key) if model.book.has(key) else (None, None)


def cite_of(model: Model, trap: Trap) -> str:
    """The section that the trap's vent rests on."""
    key = {"horizontal wet vent": "wet_vent.groups_most", "individual vent": "individual_vent.traps_most"}.get(
        trap.method or ""
    )
    if key is not None and model.book.has(key):
        return model.book.cite(key)
    _, limit_key = limit_of(model, trap)
    return model.book.cite(limit_key or "trap.vented")


def _airless(trap: Trap) -> bool:
    """Whether nothing vents the trap, so that there is no vent to measure to: another rule says so."""
    return trap.recognised and trap.method is None


def trap_without_vent(model: Model) -> Iterator[Outcome]:
    """Every trap is vented by a method of the book.

    Individual vents and horizontal wet vents are recognised; an arrangement that may stand by another method is
    not judged, and says which. Holds: a lavatory's tee with a vent above it. Broken: a shower whose drain meets
    the main where no air comes. Source: IRC P3101.2.1.
    """
    for trap in model.network.traps:
        at = place(model, trap.ends or trap.node)
        words = name(model, trap.fixture)
        if not trap.arm:
            yield DoesNotApply(trap.fixture)
        elif trap.node not in model.network.exit_of:
            yield NotJudged(at, (trap.fixture,), f"{words}: its drain reaches no exit")
        elif not trap.recognised:
            yield NotJudged(at, (trap.fixture,), f"{words}: {trap.why}")
        elif trap.method is None:
            yield Finding(
                "trap-without-vent",
                "stop",
                at,
                (trap.fixture,),
                None,
                None,
                "",
                f"No vent serves {words}: {trap.why}.",
                model.book.cite("trap.vented"),
                "Take a vent off its drain within reach of the trap, or join its drain to one that is vented.",
            )
        else:
            yield Holds(trap.fixture)


def trap_too_far(model: Model) -> Iterator[Outcome]:
    """The developed length from a trap's weir to its vent, by the trap's size.

    Holds: a 1-1/2 in trap 72 in from its vent. Broken: 72 1/16 in. A closet's trap siphons itself and has no
    limit. Enlarging the arm's pipe does not lengthen it. Source: IRC Table P3105.1.
    """
    for trap in model.network.traps:
        limit, key = limit_of(model, trap)
        if not trap.arm or trap.ends is None or (limit is None and key is not None) or _airless(trap):
            yield DoesNotApply(trap.fixture)
            continue
        at = place(model, trap.ends)
        if trap.length is None or limit is None or key is None:
            yield NotJudged(at, (trap.fixture,), f"the book gives no arm for a {label(trap.size)} in trap")
        elif not trap.recognised:
            yield NotJudged(at, (trap.fixture,), f"{name(model, trap.fixture)}: what vents it is not known")
        elif not over(trap.length, limit):
            yield Holds(trap.fixture)
        else:
            yield Finding(
                "trap-too-far-from-vent",
                "stop",
                at,
                (trap.fixture,),
                trap.length,
                limit,
                "in",
                f"{name(model, trap.fixture)}: {trap.length:.2f} in from the trap's weir to the vent; a {label(trap.size)} in trap may "
                f"have {limit:g} in.",
                model.book.cite(key),
                "Bring the vent nearer to the trap.",
            )


def arm_falls_too_far(model: Model) -> Iterator[Outcome]:
    """A trap arm's total fall is no more than one (nominal) diameter of it, or the vent's mouth lies below the weir.

    Holds: 2 in, 8 ft at 1/4: 2.00. Broken: 2 in, 8 ft at 3/8: 3.00. A closet may drop. Source: IRC P3105.2.
    """
    for trap in model.network.traps:
        if not trap.arm or trap.ends is None or trap.fall is None or trap.kind == "water_closet" or _airless(trap):
            yield DoesNotApply(trap.fixture)
            continue
        at = place(model, trap.ends)
        if not trap.recognised:
            yield NotJudged(at, (trap.fixture,), f"{name(model, trap.fixture)}: what vents it is not known")
            continue
        size = model.network.by_id[trap.arm[-1]].size
        most = size * model.book.number("trap_arm.fall_diameters")
        cites = model.book.cite("trap_arm.fall_diameters")
        if trap.drops:
            yield Finding(
                "arm-falls-too-far",
                "stop",
                at,
                (trap.fixture,),
                None,
                most,
                "in",
                f"{name(model, trap.fixture)}: its arm turns down before it reaches the vent, which makes an S-trap.",
                cites,
                "Take the vent off before the pipe turns down.",
            )
        elif not over(trap.fall, most):
            yield Holds(trap.fixture)
        else:
            yield Finding(
                "arm-falls-too-far",
                "stop",
                at,
                (trap.fixture,),
                trap.fall,
                most,
                "in",
                f"{name(model, trap.fixture)}: its arm falls {trap.fall:.2f} in on the way to the vent; one diameter, {most:g} in, is the most.",
                cites,
                "Bring the vent nearer, or let the arm fall less.",
            )


def crown_vent(model: Model) -> Iterator[Outcome]:
    """A vent is at least two pipe diameters from the trap's weir, or it is fouled and crown-vents the trap.

    Holds: 4 in on a 2 in arm. Broken: 3 in. Source: IRC P3105.3.
    """
    for trap in model.network.traps:
        if not trap.arm or trap.length is None or trap.method is None or trap.kind == "water_closet":
            yield DoesNotApply(trap.fixture)
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


def wet_vent_too_small(model: Model) -> Iterator[Outcome]:
    """A wet vent's size by the fixture units that flow into it.

    Counted is what the pipe that brings the air carries, not the fixture it vents. Holds: a lavatory through
    1-1/2 in. Broken: lavatory and shower through 1-1/2 in. Source: IRC Table P3108.3 (memory but for 2 in).
    """
    for trap in model.network.traps:
        if trap.method != "horizontal wet vent" or trap.ends is None:
            yield DoesNotApply(trap.fixture)
            continue
        for before in model.network.graph.predecessors(trap.ends):
            pipe = model.network.graph.edges[before, trap.ends]["pipe"]
            if pipe.system != "waste" or pipe.id == trap.arm[-1]:
                continue
            key = f"wet_vent.load.{label(pipe.size)}"
            at = place(model, trap.ends)
            if not model.book.has(key):
                yield NotJudged(at, (pipe.element,), f"the book gives no load for a {label(pipe.size)} in wet vent")
                continue
            most = model.book.number(key)
            if not over(pipe.load, most):
                yield Holds(pipe.element)
                continue
            yield Finding(
                "wet-vent-too-small",
                "stop",
                at,
                (pipe.element, trap.fixture),
                pipe.load,
                most,
                "fixture units",
                f"{pipe.element} wet-vents {name(model, trap.fixture)} and carries {pipe.load:g} fixture units; a {label(pipe.size)} in wet vent "
                f"may carry {most:g}.",
                model.book.cite(key),
                "Make it a size larger.",
            )


RULES = (
    Rule("trap-without-vent", "A trap that no vent serves", "venting", "stop", ("trap.vented",), trap_without_vent),
    Rule(
        "trap-too-far-from-vent", "A trap too far from its vent", "venting", "stop", ("trap_arm.length",), trap_too_far
    ),
    Rule(
        "arm-falls-too-far",
        "A trap arm that falls too far",
        "venting",
        "stop",
        ("trap_arm.fall_diameters",),
        arm_falls_too_far,
    ),
    Rule("vent-at-the-crown", "A vent too near its trap", "venting", "stop", ("trap_arm.crown_diameters",), crown_vent),
    Rule(
        "wet-vent-too-small",
        "A wet vent that carries too much",
        "venting",
        "stop",
        ("wet_vent.load",),
        wet_vent_too_small,
    ),
)
