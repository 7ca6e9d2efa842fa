"""What must hold of the pieces and parts of any plan: lengths add up, nothing is left out in silence, no two marks alike."""

from __future__ import annotations

import math
from collections import Counter

import networkx as nx
import pytest
from hypothesis import HealthCheck, given, settings

from engine.joinery.pieces import true_length
from engine.joinery.records import Part, Piece, Port
from engine.piping.records import Pipe
from engine.plan.records import Drain, Exit, Fixture, Floor, Plan
from engine.study import Study, study
from tests.engine.coarse_plans import bathrooms, plans

HAIR = 1.0 / 64.0
slow = settings(deadline=None, max_examples=60, suppress_health_check=[HealthCheck.too_slow])


def seats(found: Study) -> dict[str, dict[int, tuple[Part, Port]]]:
    """For each mark the parts and ports that its two ends are glued into."""
    joinery = found.model.joinery
    parts = {part.id: part for part in joinery.parts}
    marks = {piece.mark for piece in joinery.pieces}
    held: dict[str, dict[int, tuple[Part, Port]]] = {mark: {} for mark in marks}
    for bond in joinery.bonds:
        if bond.other in marks:
            assert bond.other_port not in held[bond.other]
            held[bond.other][bond.other_port] = (parts[bond.part], parts[bond.part].ports[bond.port])
        else:
            assert bond.other in parts
    return held


def rolled(found: Study, piece: Piece) -> bool:
    """Whether a piece leans, or a run's rolled end takes some of its length, so that it stops short of the node."""
    pipes = [found.model.network.by_id[pipe] for pipe in piece.pipes if pipe in found.model.network.by_id]
    ends = {pipe.end for pipe in pipes}
    leaning = [other for other in found.model.network.pipes if other.shape == "inclined"]
    return any(other.start in ends or other in pipes for other in leaning)


def falls_as_drawn(found: Study, piece: Piece) -> bool:
    """Whether a piece has one slope, and its ends lie as far apart in height as it says.

    A vent that closes a ring cannot choose its own, a run whose slope changes half-way bends a little there, and where
    no height fits, a riser's foot may come to stand over its tee.
    """
    by_id, heights = found.model.network.by_id, found.model.heights
    pipes = [by_id[pipe] for pipe in piece.pipes if pipe in by_id]
    if any(
        pipe.shape == "plumb" and pipe.system == "waste" and heights[pipe.end] > heights[pipe.start] for pipe in pipes
    ):
        return False
    fall = sum(pipe.slope * pipe.run / 12.0 for pipe in pipes)
    if len({pipe.slope for pipe in pipes}) > 1:
        return False
    return any(pipe.shape != "level" for pipe in pipes) or abs(abs(piece.start[2] - piece.end[2]) - abs(fall)) < HAIR


def ends_in_tail(found: Study, pipe: Pipe) -> bool:
    """Whether a plumb pipe goes on below an exit to its tail, where no pipe of the graph is."""
    return pipe.shape == "plumb" and pipe.end in found.model.network.exits.values()


def check_lengths(found: Study) -> None:
    """Cut and take-offs make the axis; the axes make the pipes; and a straight line is as long as its piece."""
    model, held = found.model, seats(found)
    for piece in model.joinery.pieces:
        ports = [port for _, port in held[piece.mark].values()]
        assert piece.cut + sum(port.takeoff.length for port in ports) == pytest.approx(piece.axis, abs=HAIR)
        assert len(ports) == sum(part is not None for part in (piece.from_part, piece.to_part))
        for end, name in enumerate((piece.from_part, piece.to_part)):
            assert (held[piece.mark][end][0].id if end in held[piece.mark] else None) == name
        # overhead, and where no exit sets a height, both ends are given at one height though the pipe falls
        if not rolled(found, piece) and falls_as_drawn(found, piece):
            assert math.dist(piece.start, piece.end) == pytest.approx(piece.axis, abs=HAIR)
    for line in nx.connected_components(
        nx.Graph((piece.pipes[0], pipe) for piece in model.joinery.pieces for pipe in piece.pipes)
    ):
        # a coupling in the first of two pipes in one straight leaves a piece of the first and a piece of both
        pieces = [piece for piece in model.joinery.pieces if piece.pipes[0] in line]
        pipes = [model.network.by_id[pipe] for pipe in line if pipe in model.network.by_id]
        if any(ends_in_tail(found, pipe) for pipe in pipes) or any(rolled(found, piece) for piece in pieces):
            continue
        lengths = [true_length(pipe, model.heights) for pipe in pipes]
        if lengths:
            axes = sum(piece.axis for piece in pieces)
            assert sum(length for length in lengths if length is not None) == pytest.approx(axes, abs=HAIR)


def by_design(found: Study, pipe: Pipe) -> bool:
    """Whether a pipe of the graph is no pipe to cut: a tubular arm, a tub's drop, a pair joined by a street bend."""
    if pipe.id.endswith(".arm") and pipe.size <= 1.5:
        return True
    kinds = {fixture.id: fixture.kind for fixture in found.plan.fixtures}
    if pipe.id.endswith(".drop") and kinds.get(pipe.element) == "bathtub":
        return True
    return any(
        port.pipe == pipe.id and port.end == "spigot" and part.kind.startswith("street_")
        for part in found.model.joinery.parts
        for port in part.ports
    )


def check_every_end(found: Study) -> None:
    """Each pipe is cut once, or in two at a coupling, or is none by design; each end is glued in, free by design, or reported."""
    model = found.model
    graph, network = model.network.graph, model.network
    reported = {element for one in found.findings for element in one.elements}
    cut = Counter(pipe for pipes in {piece.pipes for piece in model.joinery.pieces} for pipe in pipes)
    glued = [part.ports for part in model.joinery.parts if len(part.ports) > 1]
    parted = {ports[0].pipe for ports in glued if len({port.pipe for port in ports}) == 1}
    assert all(count == 1 or (count == 2 and pipe in parted) for pipe, count in cut.items())
    for pipe in network.pipes:
        if pipe.id not in cut and not by_design(found, pipe):
            assert true_length(pipe, model.heights) is None or pipe.element in reported
    free_nodes = set(network.exits.values()) | {node for node in graph if graph.degree(node) == 1}
    for piece in model.joinery.pieces:
        if piece.pipes[0] not in network.by_id:
            continue
        first, last = network.by_id[piece.pipes[0]], network.by_id[piece.pipes[-1]]
        for name, node in ((piece.from_part, first.start), (piece.to_part, last.end)):
            if name is None:
                told = {p.element for p in network.pipes if node in (p.start, p.end)} & reported
                assert node in free_nodes or told, f"{piece.mark} ends at {node} in nothing, unreported"


def check_parts(found: Study) -> None:
    """No two fittings share a node unless they are a wye and its own eighth bend; no hub takes two things."""
    joinery = found.model.joinery
    glued = [part for part in joinery.parts if len(part.ports) > 1]
    told = {element for finding in found.findings for element in finding.elements}
    for node, here in _by_node(glued).items():
        kinds = sorted(part.kind for part in here)
        meant = len(kinds) == 1 or kinds == ["street_eighth_bend", "wye"]
        assert meant or all(told.intersection(part.elements) for part in here), f"{kinds} stand at {node}"
    parts = {part.id: part for part in joinery.parts}
    used: Counter[tuple[str, int]] = Counter()
    for bond in joinery.bonds:
        other = parts.get(bond.other)
        if other is not None and other.kind == "flush_bushing":
            continue
        used[bond.part, bond.port] += 1
        if other is not None and other.ports:
            used[other.id, bond.other_port] += 1
    assert [seat for seat, count in used.items() if count > 1] == []


def _by_node(parts: list[Part]) -> dict[tuple[float, float, float], list[Part]]:
    found: dict[tuple[float, float, float], list[Part]] = {}
    for part in parts:
        if part.kind not in ("coupling", "repair_coupling"):
            found.setdefault(part.node, []).append(part)
    return found


def check_marks(found: Study) -> None:
    marks = [piece.mark for piece in found.model.joinery.pieces]
    ids = [part.id for part in found.model.joinery.parts]
    assert len(marks) == len(set(marks))
    assert len(ids) == len(set(ids))
    assert not set(marks) & set(ids)


def check_short(found: Study) -> None:
    """A piece that is too short for its sockets is reported, and so is one that shows too little between hubs."""
    reported = {
        element for one in found.findings if one.rule in ("no-room", "little-pipe-showing") for element in one.elements
    }
    for piece in found.model.joinery.pieces:
        if piece.from_part is None or piece.to_part is None or piece.cut - piece.least >= 0.75 - HAIR:
            continue
        elements = {found.model.network.by_id[p].element for p in piece.pipes if p in found.model.network.by_id}
        assert elements & reported


CHECKS = (check_lengths, check_every_end, check_parts, check_marks, check_short)


@given(bathrooms())
@slow
def test_of_any_bathroom(plan: Plan) -> None:
    found = study(plan)
    for check in CHECKS:
        check(found)


@given(plans())
@slow
def test_of_any_plan(plan: Plan) -> None:
    found = study(plan)
    for check in CHECKS:
        check(found)


def test_a_coupling_in_the_first_of_two_pipes_in_one_straight() -> None:
    """A trap's reducer stands in the first of them: one piece up to it, and one past the node to the far end."""
    plan = Plan(
        floor=Floor(outline=((0.0, 0.0), (120.0, 0.0), (120.0, 120.0), (0.0, 120.0))),
        fixtures=(Fixture("tub", "bathtub", (0.0, 0.0), trap_at=(72.0, 0.0)),),
        drains=(Drain("arm", ((72.0, 0.0), (24.0, 48.0), (0.0, 72.0), (0.0, 110.0)), size="2"),),
        exits=(Exit("out", (0.0, 110.0)),),
    )
    found = study(plan)
    assert [piece.pipes for piece in found.model.joinery.pieces] == [
        ("out.tail",),
        ("arm.2",),
        ("arm.0",),
        ("arm.0", "arm.1"),
    ]
    for check in CHECKS:
        check(found)


def taken_by_roll(found: Study, pipe: Pipe) -> float:
    """What the climb of its rolled end takes off a level run: as much plan length, at 45 degrees, as it climbs."""
    for other in found.model.network.pipes:
        if other.shape == "inclined" and other.start == pipe.end and pipe.shape == "level":
            climb = found.model.heights[other.start] - found.model.heights[other.end]
            return climb / math.tan(math.radians(other.climb)) * math.hypot(1.0, pipe.slope / 12.0)
    return 0.0


@given(bathrooms())
@slow
def test_along_any_path_to_the_exit(plan: Plan) -> None:
    """Cuts and take-offs from each trap down to the exit make up the way that the water takes."""
    found = study(plan)
    model, held = found.model, seats(found)
    pieces = {pipe: [p for p in model.joinery.pieces if pipe in p.pipes] for pipe in model.network.by_id}
    for trap in model.network.traps:
        node, way, made = trap.node, 0.0, 0.0
        seen: set[str] = set()
        while model.network.graph.out_degree(node):
            pipe = next(
                edge["pipe"]
                for _, _, edge in model.network.graph.out_edges(node, data=True)
                if edge["pipe"].system == "waste"
            )
            if pieces[pipe.id]:
                way += (true_length(pipe, model.heights) or 0.0) - taken_by_roll(found, pipe)
            for piece in pieces[pipe.id]:
                if piece.mark not in seen:
                    seen.add(piece.mark)
                    made += piece.cut + sum(port.takeoff.length for _, port in held[piece.mark].values())
            node = pipe.end
        assert made == pytest.approx(way, abs=HAIR)


@given(bathrooms())
@slow
def test_a_height_in_an_open_window_has_room_for_its_fittings(plan: Plan) -> None:
    """What the window reckons for bends and tees is what they take: no plumb or leaning piece is short of room."""
    found = study(plan)
    network = found.model.network
    shut = {
        window.reach
        for window in found.model.windows
        if (window.low is not None and window.chosen < window.low - HAIR)
        or (window.high is not None and window.chosen > window.high + HAIR)
    }
    for piece in found.model.joinery.pieces:
        pipes = [network.by_id[pipe] for pipe in piece.pipes if pipe in network.by_id]
        reaches = {network.reach.get(node) for pipe in pipes for node in (pipe.start, pipe.end)}
        if piece.note.startswith("no room") and pipes and pipes[0].shape != "level":
            assert reaches & shut, f"{piece.pipes} is {piece.cut:.3f} long and needs {piece.least:.3f}"


def test_the_hand_floors_branch(hand_floor: object) -> None:
    """Wye 3.4375, piece, eighth bend 1.125 twice, piece, coupling 1/16 twice, piece, sweep 2.25: 37.1576 in all."""
    found = study(hand_floor())  # type: ignore[operator]
    held = seats(found)
    branch = [piece for piece in found.model.joinery.pieces if piece.pipes[0].startswith("d2.")]
    offs = sorted(round(port.takeoff.length, 4) for piece in branch for _, port in held[piece.mark].values())
    assert offs == [0.0625, 0.0625, 1.125, 1.125, 2.25, 3.4375]
    assert sum(piece.cut for piece in branch) + sum(offs) == pytest.approx(37.1576, abs=5e-5)
