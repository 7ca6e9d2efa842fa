"""How the fixtures hold the heights under the floor: room for the bends from above, the weir from below."""

from __future__ import annotations

from collections.abc import Iterator

from engine.crossings.records import Bound
from engine.drafting.finished import under_fixture
from engine.piping.falls import bushing
from engine.piping.islands import foot_fitting
from engine.piping.records import Network, Node, Pipe, Reach, Trap, is_under
from engine.plan.records import Fixture, Plan
from engine.rulebooks import RuleBook
from engine.trade import fixtures as trade
from engine.trade.fittings import KINDS, takeoff
from engine.trade.pipe import drain


class Street:
    """One closet's street bend: the single axis height it makes at the closet, as the reach's foot height."""

    __slots__ = ("closet", "reach", "z")

    def __init__(self, closet: str, reach: int, z: float) -> None:
        self.closet = closet
        self.reach = reach
        self.z = z


def flange_stop(plan: Plan, closet: Fixture, size: float) -> float:
    """Height of the pipe stop in a closet's flange, whose ring's underside lies on what is finished there, inches."""
    kind, sizes = flange_of(size)
    return under_fixture(plan, closet) - takeoff(kind, sizes, "run_out", plan.takeoffs).length


def flange_of(size: float) -> tuple[str, tuple[float, float]]:
    """The flange for a closet pipe: 4x3 over a 3 in pipe, straight hub on 4 in."""
    return ("closet_flange_4x3", (4.0, 3.0)) if size <= 3.0 else ("closet_flange_hub", (4.0, 4.0))


def closet_bend(plan: Plan, book: RuleBook, at: tuple[float, float], size: float) -> str:
    """The bend under a closet: the user's, else the short one where the book allows it.

    It does for a bend of a `size` that comes under a 4x3 flange (IRC 2021 P3005.1.4, from memory).
    """
    for pinned in plan.fittings:
        if pinned.at == at and pinned.level == "under":
            return pinned.pattern
    return "quarter_bend" if short_bend_allowed(book, size) else "long_sweep_quarter_bend"


def short_bend_allowed(book: RuleBook, size: float) -> bool:
    """Whether the book takes a short quarter bend of this size under a closet."""
    key = "closet.quarter_bend_under_flange"
    return book.has(key) and book.flag(key) and flange_of(size)[0] == "closet_flange_4x3"


def bounds(plan: Plan, book: RuleBook, network: Network) -> tuple[dict[int, list[Bound]], list[Street]]:
    """Every limit that fixtures, risers and sewers set, by reach, as heights of the reach's foot.

    What stands straight over an exit sets none: it goes on down to the tail.
    """
    held: dict[int, list[Bound]] = {}
    streets: list[Street] = []
    fixtures = {fixture.id: fixture for fixture in plan.fixtures}
    traps_of = {trap.fixture: trap for trap in network.traps}
    for pipe in network.pipes:
        if pipe.shape != "plumb" or is_under(pipe.start) or not is_under(pipe.end) or pipe.end not in network.reach:
            continue
        reach, rise = network.reach[pipe.end], network.rise[pipe.end]
        outflow = _outflow(network, pipe.end)
        if outflow is None:
            continue
        fixture = fixtures.get(pipe.element)
        outlet = trade.fixture(fixture.kind).outlet if fixture is not None else "riser"
        found: list[Bound]
        if fixture is not None and outlet == "closet":
            found, street = _closet(plan, book, network, fixture, pipe, rise)
            if street is not None:
                streets.append(Street(fixture.id, reach, street))
        elif fixture is not None and outlet in ("floor", "tub"):
            found = _floor_outlet(book, fixture, traps_of[fixture.id], pipe, outflow, rise)
        else:
            found = _riser_foot(plan, network, pipe, rise)
        held.setdefault(reach, []).extend(found)
    for hung in network.reaches:
        if hung.hung:
            held.setdefault(hung.number, []).extend(_foot_vent(plan, book, network, hung))
    for exit_ in plan.exits:
        node = network.exits.get(exit_.id)
        if node is None or exit_.sewer_invert_z is None or node not in network.reach:
            continue
        into = [network.graph.edges[a, node]["pipe"] for a in network.graph.predecessors(node)]
        bore = max((drain(p.size).bore for p in into), default=0.0)
        held.setdefault(network.reach[node], []).append(
            Bound(
                "low", exit_.sewer_invert_z + bore / 2.0, f"the sewer's invert at exit {exit_.id}", exit_.id, exit_.at
            )
        )
    return held, streets


def _outflow(network: Network, node: Node) -> Pipe | None:
    for after in network.graph.successors(node):
        pipe: Pipe = network.graph.edges[node, after]["pipe"]
        if pipe.system == "waste":
            return pipe
    return None


def _closet(
    plan: Plan, book: RuleBook, network: Network, fixture: Fixture, pipe: Pipe, rise: float
) -> tuple[list[Bound], float | None]:
    """The highest axis under a closet with a stub of pipe (hubs touching), and the one that a street bend makes."""
    size = pipe.size
    stop = flange_stop(plan, fixture, size)
    kind = closet_bend(plan, book, fixture.at, _run_size(network, pipe))
    words = fixture.name or fixture.id
    top = _leg_up(plan, network, pipe, kind)
    found = [
        Bound(
            "high",
            stop - 2.0 * drain(size).socket - top - rise,
            f"{words}: room for the flange, a stub of pipe and the bend below it",
            fixture.id,
            fixture.at,
        )
    ]
    street: float | None = None
    if _alone(network, pipe.end) and kind == "quarter_bend" and _run_size(network, pipe) == size:
        street = stop - takeoff("street_quarter_bend", (size, size), "run_out", plan.takeoffs).length - rise
    return found, street


def _alone(network: Network, node: Node) -> bool:
    """Whether a plumb pipe's foot is a corner, where no other pipe joins."""
    return bool(network.graph.in_degree(node) == 1 and network.graph.out_degree(node) == 1)


def _run_size(network: Network, pipe: Pipe) -> float:
    """The size of the fitting at a plumb pipe's foot, which is as large as the larger of its pipes."""
    outflow = _outflow(network, pipe.end)
    return max(pipe.size, outflow.size if outflow is not None else 0.0)


def _leg_up(plan: Plan, network: Network, pipe: Pipe, bend: str) -> float:
    """Take-off of the leg that points up into a plumb pipe from its foot: of this bend, or of a combination."""
    size, run = pipe.size, _run_size(network, pipe)
    if not _alone(network, pipe.end) or "branch" in KINDS[bend].legs:
        return takeoff("combo_wye_eighth_bend", (run, run, size), "branch", plan.takeoffs).length
    sizes = (4.0, 3.0) if bend == "closet_bend" else (run, run)
    return takeoff(bend, sizes, "run_in", plan.takeoffs).length + bushing(plan, size, sizes[0])


def _floor_outlet(book: RuleBook, fixture: Fixture, trap: Trap, pipe: Pipe, outflow: Pipe, rise: float) -> list[Bound]:
    """A trap in the bay: its pipe under the subfloor, its weir within the book's drop from the outlet."""
    words = fixture.name or fixture.id
    spec = drain(trap.size)
    fallen = outflow.slope * trap.weir / 12.0
    outlet = pipe.start.level
    most = book.number("outlet_to_weir.most")
    return [
        Bound("high", -spec.od / 2.0 - rise, f"{words}: its drain stays below the subfloor", fixture.id, fixture.at),
        Bound(
            "low",
            outlet - most + spec.bore / 2.0 + fallen - rise,
            f"{words}: no more than {most:g} in from its outlet down to the trap's weir",
            fixture.id,
            fixture.at,
        ),
    ]


def _riser_foot(plan: Plan, network: Network, pipe: Pipe, rise: float) -> list[Bound]:
    """Room between a riser's foot and the fitting above it, and below the subfloor."""
    at = (pipe.end.x, pipe.end.y)
    bend = next((p.pattern for p in plan.fittings if p.at == at and p.level == "under"), "long_sweep_quarter_bend")
    tee = takeoff("sanitary_tee", (pipe.size, pipe.size, pipe.size), "run_out", plan.takeoffs).length
    return [
        Bound(
            "high",
            -drain(pipe.size).od / 2.0 - rise,
            f"riser {pipe.element}: its foot stays below the subfloor",
            pipe.element,
            at,
        ),
        Bound(
            "high",
            pipe.start.level - tee - _leg_up(plan, network, pipe, bend) - 2.0 * drain(pipe.size).socket - rise,
            f"riser {pipe.element}: room for the bend below and the tee above",
            pipe.element,
            at,
        ),
    ]


def _foot_vent(plan: Plan, book: RuleBook, network: Network, hung: Reach) -> Iterator[Bound]:
    """An island's foot vent leaves just under the floor, and stays below the subfloor on its way up to the wall."""
    foot, element = hung.foot, hung.element or ""
    meeting = [pipe for pipe in network.pipes if foot in (pipe.start, pipe.end)]
    wide = max(pipe.size for pipe in meeting)
    above = max((pipe.size for pipe in meeting if not is_under(pipe.start) or not is_under(pipe.end)), default=wide)
    up = takeoff(foot_fitting(book), (wide, wide, wide), "run_in", plan.takeoffs).length + bushing(plan, above, wide)
    words = f"riser {element}: the fitting of its foot vent stays below the subfloor"
    yield Bound("high", -up - drain(above).socket, words, element, (foot.x, foot.y))
    for pipe in network.pipes:
        if pipe.shape == "level" and network.reach.get(pipe.end) == hung.number:
            words = f"vent {pipe.element}: it stays below the subfloor"
            high = -drain(pipe.size).od / 2.0 - network.rise[pipe.end]
            yield Bound("high", high, words, pipe.element, (pipe.end.x, pipe.end.y))
