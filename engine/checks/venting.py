"""Vents: whether air reaches each trap's arm, by which of the codes' methods, and how far that is."""

from __future__ import annotations

import math
from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import name, place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import over
from engine.piping.records import Method, Trap
from engine.trade.pipe import label

PLUMB = 90.0
"""How far a plumb pipe climbs from level, degrees."""


def limit_of(model: Model, trap: Trap) -> tuple[float | None, str | None]:
    """The most that this trap's arm may run to its vent, inches, and the book key; None where none is set.

    Goes by the trap's size, whatever the arm's pipe. A closet has no limit unless the book sets one; it then goes
    by its drain, since its trap has no size, and by the closets' own lengths where the book has such.
    """
    tables = ["trap_arm.length"]
    if trap.kind == "water_closet":
        if not model.book.flag("trap_arm.closet_limited"):
            return None, "trap_arm.closet_limited"
        tables.insert(0, "trap_arm.closet_length")
    keys = (f"{table}.{label(trap_size(model, trap))}" for table in tables)
    key = next((key for key in keys if model.book.has(key)), None)
    return (None if key is None else model.book.number(key)), key


def distance_of(model: Model, trap: Trap) -> float | None:
    """The developed length from a trap to its vent, inches; None where there is no vent or no height to count.

    From the weir, which in a closet stands at its bend; from the closet's flange where the book has it so.
    """
    if trap.length is None or trap.kind != "water_closet" or not model.book.says("trap_arm.closet_from_flange"):
        return trap.length
    length = trap.length
    for pipe in (model.network.by_id[arm] for arm in trap.arm):
        if pipe.shape == "level":
            continue
        top, foot = model.heights.get(pipe.start), model.heights.get(pipe.end)
        if top is None or foot is None:
            return None
        length += (top - foot) / math.sin(math.radians(pipe.climb if pipe.shape == "inclined" else PLUMB))
    return length


def trap_size(model: Model, trap: Trap) -> float:
    """The nominal size that a trap is judged by: its own, a closet's by the drain under it."""
    if trap.kind == "water_closet" and trap.arm:
        return model.network.by_id[trap.arm[0]].size
    return trap.size


def airless(trap: Trap) -> bool:
    """Whether nothing vents the trap, so that there is no vent to measure to: another rule says so."""
    return trap.recognised and trap.method is None


def unknown_vent(model: Model, trap: Trap) -> NotJudged:
    """The outcome of a rule on a trap in an arrangement that is not recognised yet."""
    words = name(model, trap.fixture)
    return NotJudged(place(model, trap.ends or trap.node), (trap.fixture,), f"{words}: what vents it is not known")


SECTIONS: dict[Method, tuple[str, ...]] = {
    "individual vent": ("individual_vent",),
    "common vent at one level": ("common_vent",),
    "common vent at two levels": ("common_vent.two_levels",),
    "horizontal wet vent": ("wet_vent.groups_most",),
    "vertical wet vent": ("vertical_wet_vent.group_only", "vertical_wet_vent"),
    "waste stack vent": ("stack_vent",),
    "circuit vent": ("circuit_vent",),
    "combination waste and vent": ("combination.slope_most", "combination"),
    "island vent": ("island_vent",),
}
"""Where in a rule book each method's own section is cited, by keys or groups of keys, the first that it has."""


def cite_of(model: Model, trap: Trap) -> str:
    """The section of the method by which the trap is vented, else of the rule that every trap be vented."""
    for stem in SECTIONS[trap.method] if trap.method is not None else ():
        key = stem if model.book.has(stem) else next(iter(model.book.keys(stem)), None)
        if key is not None:
            return model.book.cite(key)
    return model.book.cite("trap.vented")


def limit_cite(model: Model, trap: Trap) -> str:
    """The section that sets how far the trap's vent may be, empty where none does."""
    _, key = limit_of(model, trap)
    return "" if key is None or not model.book.has(key) else model.book.cite(key)


def trap_without_vent(model: Model) -> Iterator[Outcome]:
    """Every trap is vented by a method of the book.

    Each of the codes' methods is tried on the drawn pipes; one that a rule book says nothing of is not judged. Holds:
    a lavatory's tee with a vent above it. Broken: a shower whose drain meets the main where no air comes, or below a
    closet where the book has the closet join a wet vent last. Source: IRC P3101.2.1; UPC 901.2, 908.2.
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
                model.book.cite(trap.breaks if model.book.has(trap.breaks) else "trap.vented"),
                "Take a vent off its drain within reach of the trap, or join its drain to one that is vented.",
            )
        else:
            yield Holds(trap.fixture)


def trap_too_far(model: Model) -> Iterator[Outcome]:
    """The developed length from a trap's weir to its vent, by the trap's size.

    Holds: a 1-1/2 in trap 72 in from its vent. Broken: 72 1/16 in. A closet's trap siphons itself: by the IRC it
    has no limit, by the UPC 72 in from its flange. Enlarging the arm's pipe does not lengthen it. Source: IRC Table
    P3105.1; UPC Table 1002.2.
    """
    for trap in model.network.traps:
        limit, key = limit_of(model, trap)
        if not trap.arm or trap.ends is None or (limit is None and key is not None) or airless(trap):
            yield DoesNotApply(trap.fixture)
            continue
        at, size = place(model, trap.ends), label(trap_size(model, trap))
        closet, distance = trap.kind == "water_closet", distance_of(model, trap)
        what = f"{size} in closet drain" if closet else f"{size} in trap"
        from_flange = closet and model.book.says("trap_arm.closet_from_flange")
        start = "its flange" if from_flange else "its bend" if closet else "the trap's weir"
        if limit is None or key is None:
            yield NotJudged(at, (trap.fixture,), f"the book gives no arm for a {what}")
        elif not trap.recognised:
            yield unknown_vent(model, trap)
        elif distance is None:
            words = f"{name(model, trap.fixture)}: the height of its drain is not known"
            yield NotJudged(at, (trap.fixture,), words)
        elif not over(distance, limit):
            yield Holds(trap.fixture)
        else:
            yield Finding(
                "trap-too-far-from-vent",
                "stop",
                at,
                (trap.fixture,),
                distance,
                limit,
                "in",
                f"{name(model, trap.fixture)}: {distance:.2f} in from {start} to the vent; a "
                f"{what} may have {limit:g} in.",
                model.book.cite(key),
                "Bring the vent nearer to the trap.",
            )


RULES = (
    Rule(
        "trap-without-vent",
        "A trap that no vent serves",
        "venting",
        "stop",
        ("trap.vented",),
        trap_without_vent,
        (
            "individual_vent",
            "common_vent",
            "wet_vent",
            "vertical_wet_vent",
            "stack_vent",
            "circuit_vent",
            "combination",
            "island_vent",
            "vent.above_rim",
        ),
    ),
    Rule(
        "trap-too-far-from-vent",
        "A trap too far from its vent",
        "venting",
        "stop",
        ("trap_arm.length",),
        trap_too_far,
        ("trap_arm.closet_limited", "trap_arm.closet_length", "trap_arm.closet_from_flange"),
    ),
)
