"""An island's vent: whom it may serve, where it may stand, how high it turns over, what drains above its return."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from engine.checks.model import Model, once_a_model
from engine.checks.outcomes import fixtures, name, place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import over, short
from engine.drafting.finished import under_fixture
from engine.lengths import inches
from engine.piping import islands
from engine.piping.records import Node, Pipe, Trap
from engine.plan.axis import distance, foot
from engine.plan.dressed import WALL_DEPTH
from engine.plan.records import Point, Riser
from engine.trade import fixtures as trade
from engine.trade.pipe import label

SUBJECT = "island vents"


class Island(NamedTuple):
    """One island's vent as it was drawn: its riser, its return, its dry pipes, and the traps that it vents."""

    riser: Riser
    returns: Point
    pipes: tuple[Pipe, ...]
    traps: tuple[Trap, ...]

    @property
    def top(self) -> float:
        """The height of the axis where the loop turns over, from the joists' top."""
        return max(max(pipe.start.level, pipe.end.level) for pipe in self.pipes)


@once_a_model
def island_vents(model: Model) -> tuple[Island, ...]:
    """The plan's islands whose loop is whole."""
    pipes: dict[str, list[Pipe]] = {}
    for pipe in model.network.pipes:
        if pipe.island:
            pipes.setdefault(pipe.island, []).append(pipe)
    traps: dict[str | None, list[Trap]] = {}
    for trap in model.network.traps:
        if trap.method == "island vent":
            traps.setdefault(trap.vented_by, []).append(trap)
    return tuple(
        Island(riser, riser.returns, tuple(pipes[riser.id]), tuple(traps.get(riser.id, ())))
        for riser in model.plan.risers
        if islands.returns(riser) and riser.returns is not None and riser.id in pipes
    )


def beside(model: Model) -> Iterator[Outcome]:
    """`does not apply` once where a plan has no island's vent."""
    if not island_vents(model):
        yield DoesNotApply()


def wrong_fixture(model: Model) -> Iterator[Outcome]:
    """Which fixtures an island's vent may serve.

    Holds: a kitchen sink, with its dishwasher and disposer. Broken: a washer's standpipe. Source: IRC P3112.1; UPC 909.1.
    """
    table = "island_vent.allows"
    for island in island_vents(model):
        for trap in island.traps:
            if model.book.says(f"{table}.{trap.kind}"):
                yield Holds(trap.fixture)
                continue
            may = [key.rsplit(".", 1)[-1] for key in model.book.keys(table) if model.book.says(key)]
            kinds = ", ".join(kind.replace("_", " ") for kind in may)
            key = next(key for key in model.book.keys(table))
            yield Finding(
                "island-vent-wrong-fixture",
                "stop",
                place(model, trap.node),
                (trap.fixture, island.riser.id),
                None,
                None,
                "",
                f"{name(model, trap.fixture)} is vented by {island.riser.id}, which turns over and comes down: so may only "
                f"be vented {kinds}.",
                model.book.cite(key),
                "Give it a vent that rises in a wall.",
            )
    yield from beside(model)


def by_a_wall(model: Model) -> Iterator[Outcome]:
    """An island's vent where a wall stands so near that an arm could reach an ordinary vent in it.

    Holds: a wall 43 in from a 1-1/2 in trap under the UPC, whose arm may be 42. Broken: one 42 in away. Whether an aisle
    lies between is not drawn, so it is something to look at. Source: UPC 909.1.
    """
    for island in island_vents(model):
        for trap in island.traps:
            key = f"trap_arm.length.{label(trap.size)}"
            near = min(
                ((_to_wall(trap.node, wall.start, wall.end, wall.lumber), wall) for wall in model.plan.walls),
                key=lambda one: one[0],
                default=None,
            )
            if not model.book.says("island_vent.only_islands"):
                yield DoesNotApply(trap.fixture)
            elif near is None:
                yield Holds(trap.fixture)
            elif not model.book.has(key):
                yield NotJudged(
                    place(model, trap.node),
                    (trap.fixture,),
                    f"the book gives no length for a {label(trap.size)} in arm",
                )
            elif over(near[0], model.book.number(key)):
                yield Holds(trap.fixture)
            else:
                most = model.book.number(key)
                wall = near[1].name or f"wall {near[1].id}"
                yield Finding(
                    "island-vent-near-a-wall",
                    "look",
                    place(model, trap.node),
                    (trap.fixture, island.riser.id, near[1].id),
                    near[0],
                    most,
                    "in",
                    f"From the trap of {name(model, trap.fixture)} it is {inches(near[0])} in to {wall}, and an arm may be "
                    f"{inches(most)} in long: an island's vent is for a sink that no wall's vent can reach. With an aisle "
                    "between it is one.",
                    model.book.cite("island_vent.only_islands"),
                    f"Vent it by a riser in {wall}, if nothing but cabinets lies between.",
                )
    yield from beside(model)


def _to_wall(node: Node, start: Point, end: Point, lumber: str) -> float:
    """How far it is in plan from a trap to the near face of a wall's studs, inches."""
    at = (node.x, node.y)
    return max(0.0, distance(at, foot(start, end, at)) - WALL_DEPTH[lumber] / 2.0)


def loop_too_low(model: Model) -> Iterator[Outcome]:
    """How high an island's vent rises before it turns over: over the sink's outlet (IRC), up to the drainboard (UPC).

    Holds: the loop's axis 33 in up on a sink whose rim stands at 36 and whose outlet at 28. Broken: 27 15/16 in under the
    IRC, 32 15/16 under the UPC. Source: IRC P3112.2; UPC 909.1.
    """
    for island in island_vents(model):
        for trap in island.traps:
            yield from _height(model, island, trap)
    yield from beside(model)


def _height(model: Model, island: Island, trap: Trap) -> Iterator[Outcome]:
    fixture = fixtures(model)[trap.fixture]
    floor = under_fixture(model.plan, fixture)
    rim, outlet = trade.rim_of(fixture), trade.tailpiece_end_of(fixture)
    for key, from_, sign, words in (
        ("island_vent.above_outlet", outlet, 1.0, "outlet"),
        ("island_vent.below_rim_most", rim, -1.0, "rim"),
    ):
        if not model.book.has(key):
            continue
        if from_ is None:
            at = place(model, trap.node)
            yield NotJudged(
                at, (trap.fixture,), f"how high the {words} of {name(model, trap.fixture)} stands is not known"
            )
            continue
        least, up = from_ + sign * model.book.number(key), island.top - floor
        if not short(up, least):
            yield Holds(trap.fixture)
            continue
        yield Finding(
            "island-loop-too-low",
            "stop",
            (island.riser.at[0], island.riser.at[1], island.top),
            (island.riser.id, trap.fixture),
            up,
            least,
            "in",
            f"{island.riser.id} turns over {inches(up)} in above the floor; the {words} of {name(model, trap.fixture)} stands "
            f"{inches(from_)} in up, and it may turn over from {inches(least)} in on.",
            model.book.cite(key),
            f"Let it turn over {inches(least)} in above the floor or higher.",
        )


def drained_above(model: Model) -> Iterator[Outcome]:
    """Above the point at which an island's vent returns, its drain carries the island's own sink and nothing else.

    Holds: the sink's riser alone upstream of the return. Broken: a lavatory's branch between the two. Source: UPC 909.1.
    """
    for island in island_vents(model):
        own = {trap.fixture for trap in island.traps}
        above = [
            pipe
            for pipe in model.network.pipes
            if pipe.system == "waste" and (pipe.end.x, pipe.end.y) == island.returns and pipe.shape != "plumb"
        ]
        others = sorted(
            {fixture for pipe in above for fixture in pipe.carries if _own_waste(model, fixture) not in own}
        )
        if not model.book.says("island_vent.alone_upstream"):
            yield DoesNotApply(island.riser.id)
            continue
        if not others:
            yield Holds(island.riser.id)
            continue
        both = " and ".join(name(model, fixture) for fixture in others)
        yield Finding(
            "island-drain-shared",
            "stop",
            place(model, above[0].end),
            (island.riser.id, *others),
            float(len(others)),
            0.0,
            "fixtures",
            f"{both} drains into the island's drain above the point where {island.riser.id} comes down; there it serves "
            "its own sink alone.",
            model.book.cite("island_vent.alone_upstream"),
            f"Lead {both} into the drain below that point.",
        )
    yield from beside(model)


def _own_waste(model: Model, fixture: str) -> str:
    """The fixture by whose trap another one drains, such as the sink of a dishwasher; itself where it has its own."""
    return fixtures(model)[fixture].through or fixture


RULES = (
    Rule(
        "island-vent-wrong-fixture",
        "An island's vent on another fixture",
        SUBJECT,
        "stop",
        ("island_vent.allows",),
        wrong_fixture,
    ),
    Rule(
        "island-vent-near-a-wall",
        "An island's vent beside a wall",
        SUBJECT,
        "look",
        ("island_vent.only_islands",),
        by_a_wall,
        ("trap_arm.length",),
    ),
    Rule(
        "island-loop-too-low",
        "An island's vent that turns over too low",
        SUBJECT,
        "stop",
        (),
        loop_too_low,
        ("island_vent.above_outlet", "island_vent.below_rim_most"),
    ),
    Rule(
        "island-drain-shared",
        "An island's drain that others share",
        SUBJECT,
        "stop",
        ("island_vent.alone_upstream",),
        drained_above,
    ),
)
