"""The building drain's way from the floor to the ground: frost round its drop, a sleeve where it passes concrete."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from engine.checks.model import Model, once_a_model
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import over, short
from engine.lengths import inches
from engine.plan.records import Exit
from engine.trade import sleeves
from engine.trade.pipe import label, nominal

FREEZES, SIZES_UP = "exit.freezes_at", "exit.sleeve_sizes_up"
WALL, SLAB = "exit.sleeved_wall", "exit.sleeved_slab"
_PASSES = {"slab": "a concrete slab", "foundation": "a foundation wall or footing"}


class Drop(NamedTuple):
    """One exit with its pipe: `size` is nominal inches, None where nothing reaches it; `axis` its height there.

    `ground` is the ground's height, `open` how much of the drop hangs between the joists' bottom edge (or the pipe, where
    that is lower) and the ground, both inches; None where the ground's height is not known.
    """

    exit: Exit
    size: float | None
    axis: float | None
    ground: float | None
    open: float | None

    @property
    def at(self) -> tuple[float, float, float]:
        """Its place."""
        return (*self.exit.at, 0.0 if self.axis is None else self.axis)


@once_a_model
def drops(model: Model) -> tuple[Drop, ...]:
    """Every exit, in file order."""
    depth = max((joist.depth for joist in model.framing.joists), default=0.0)
    crawl = model.plan.floor.crawl
    under = None if crawl is None or not model.framing.joists else -(depth + crawl)
    found = []
    for exit_ in model.plan.exits:
        node = model.network.exits.get(exit_.id)
        sizes = [pipe.size for pipe in model.network.pipes if node is not None and pipe.end == node]
        axis = None if node is None else model.heights.get(node)
        ground = under if exit_.ground_z is None else exit_.ground_z
        top = min(-depth, 0.0 if axis is None else axis)
        gap = None if ground is None or exit_.how != "turn-down" else max(0.0, top - ground)
        found.append(Drop(exit_, max(sizes, default=None), axis, ground, gap))
    return tuple(found)


def open_to_frost(model: Model) -> Iterator[Outcome]:
    """Where winters freeze, the drop between floor and ground is boxed and insulated, or heated.

    Holds: a box, or listed heat cable; nothing where the design temperature is 32 1/16 deg F. To look at: nothing at 32
    deg F. Not judged: a winter that is not given, and pipe that goes on outside the rim, which is not drawn. Source: IRC
    P2603.5; UPC 312.6.
    """
    cold, at = model.plan.floor.design_temp, model.book.number(FREEZES)
    for drop in drops(model):
        exit_ = drop.exit
        if cold is None:
            missing = "the winter design temperature is not given, so whether the drain's drop freezes is not known: it stands in the plan's settings"
            yield NotJudged(drop.at, (exit_.id,), missing)
        elif over(cold, at) or drop.open == 0.0:
            yield DoesNotApply(exit_.id)
        elif exit_.how != "turn-down":
            yield NotJudged(
                drop.at, (exit_.id,), "how the drain goes on outside the rim is not drawn: keep it from frost"
            )
        elif exit_.frost_guard != "none":
            yield Holds(exit_.id)
        else:
            long = "The drop" if drop.open is None else f"{inches(drop.open)} in of the drop"
            yield Finding(
                "drop-open-to-frost",
                "look",
                drop.at,
                (exit_.id,),
                cold,
                at,
                "°F",
                f"{long} of {exit_.id} stands open between the floor and the ground; winters of {cold:g} °F freeze what lingers in it.",
                model.book.cite(FREEZES),
                f"Box it in foam of {inches(exit_.box_foam)} in from the joists into the ground, or wind listed heat cable round it.",
            )


def no_sleeve(model: Model) -> Iterator[Outcome]:
    """Where the drain passes a foundation, a footing or a slab it runs in a sleeve, of the size that the book names.

    Holds: 3 in pipe in a 5 in sleeve, two of the code's sizes up (IRC); in any sleeve (UPC). Broken: a 4 in sleeve round
    it, or none. Not judged: what it passes, where that is not told. Source: IRC P2603.3, P2603.4; UPC 312.10.
    """
    for drop in drops(model):
        exit_ = drop.exit
        key = {"foundation": WALL, "slab": SLAB}.get(exit_.meets or "")
        if exit_.meets is None:
            missing = f"what {exit_.id} passes on its way (bare ground, a slab, a foundation) is not told"
            yield NotJudged(drop.at, (exit_.id,), missing)
        elif key is None or not model.book.says(key):
            yield DoesNotApply(exit_.id)
        elif exit_.sleeve is None:
            yield _unsleeved(model, drop, key)
        elif exit_.meets == "slab" or not model.book.has(SIZES_UP):
            yield Holds(exit_.id)
        elif drop.size is None:
            yield NotJudged(drop.at, (exit_.id,), "the building drain's size: nothing reaches this exit")
        else:
            yield _wide_enough(model, drop, drop.size, nominal(exit_.sleeve))


def least_sleeve(model: Model, drop: Drop) -> float | None:
    """The least sleeve that is sold and wide enough round a drop; None where its pipe's size is not known."""
    if drop.size is None:
        return None
    steps = int(model.book.number(SIZES_UP)) if drop.exit.meets == "foundation" and model.book.has(SIZES_UP) else 1
    return sleeves.sold(sleeves.up(drop.size, steps))


def _unsleeved(model: Model, drop: Drop, key: str) -> Finding:
    least = least_sleeve(model, drop)
    size = "a sleeve" if least is None else f"a {label(least)} in sleeve"
    return Finding(
        "no-sleeve",
        "stop" if key == WALL else "look",
        drop.at,
        (drop.exit.id,),
        None,
        None,
        "",
        f"{drop.exit.id} passes {_PASSES[drop.exit.meets or '']} with no sleeve round the pipe.",
        model.book.cite(key),
        f"Set {size} before the concrete is poured, and seal round the pipe.",
    )


def _wide_enough(model: Model, drop: Drop, size: float, sleeve: float) -> Outcome:
    limit = sleeves.up(size, int(model.book.number(SIZES_UP)))
    if not short(sleeve, limit):
        return Holds(drop.exit.id)
    return Finding(
        "no-sleeve",
        "stop",
        drop.at,
        (drop.exit.id,),
        sleeve,
        limit,
        "in",
        f"The {label(sleeve)} in sleeve of {drop.exit.id} is too narrow for {label(size)} in pipe: {label(limit)} in is the least.",
        model.book.cite(SIZES_UP),
        f"Set a {label(sleeves.sold(limit))} in sleeve, the next that is sold.",
    )


RULES: tuple[Rule, ...] = (
    Rule("drop-open-to-frost", "A drop that frost can reach", "way to the ground", "look", (FREEZES,), open_to_frost),
    Rule(
        "no-sleeve",
        "No sleeve, or too narrow a one",
        "way to the ground",
        "stop",
        (WALL,),
        no_sleeve,
        (SLAB, SIZES_UP),
    ),
)
