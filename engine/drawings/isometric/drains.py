"""The skeleton of drains and vents, read off the joinery's parts, bonds and pieces."""

from __future__ import annotations

import math
from itertools import pairwise

from engine.drawings.isometric.mounting import mount
from engine.drawings.isometric.skeleton import SYSTEMS, Length, Shape, Skeleton, same_plumb, spot_key
from engine.joinery.records import Part, Piece, Port, Space
from engine.piping.records import Node
from engine.study import Study

OWN_TUBE = "tubular_trap"
"""The kind of part that brings the pipe of its arm along."""

BESIDE = 0.01
"""A place so near to a line lies on it, inches."""


def drains(study: Study) -> Skeleton:
    """Joints, lengths and mounted parts of everything that carries waste or air."""
    bones = Skeleton("drains")
    parts = [part for part in study.model.joinery.parts if part.system in SYSTEMS["drains"]]
    for part in parts:
        if part.ports:
            bones.joint(part.id, part.centre).fittings.append(part)
    _set_street_bends(study, bones)
    for piece in study.model.joinery.pieces:
        _lay_piece(study, bones, piece)
    _join_bonded(study, bones)
    _lay_arms(study, bones, parts)
    _lean_rolled(study, bones)
    mount(bones, [part for part in parts if not part.ports and part.kind != OWN_TUBE], study)
    return bones


def _lay_piece(study: Study, bones: Skeleton, piece: Piece) -> None:
    """One length for each straight stretch of a piece: it may run through drawn corners that no fitting turns."""
    by_id = study.model.network.by_id
    first = by_id.get(piece.pipes[0])
    elements = tuple(dict.fromkeys(by_id[p].element if p in by_id else p.split(".")[0] for p in piece.pipes))
    shape: Shape = first.shape if first is not None else "plumb" if same_plumb(piece.start, piece.end) else "level"
    places = [piece.start, *_corners(study, piece), piece.end]
    keys = [piece.from_part or spot_key(piece.start)]
    keys += [spot_key(place) for place in places[1:-1]]
    keys.append(piece.to_part or spot_key(piece.end))
    for key, place in zip(keys, places, strict=True):
        bones.joint(key, place)
    for a, b in pairwise(keys):
        slope = first.slope if first is not None and first.shape == "level" else 0.0
        bones.lengths.append(
            Length(piece.mark, "piece", piece.system, piece.size, shape, a, b, elements, piece.pipes[0], slope)
        )


def _corners(study: Study, piece: Piece) -> list[Space]:
    """The drawn corners inside a piece."""
    pipes = [study.model.network.by_id[p] for p in piece.pipes if p in study.model.network.by_id]
    nodes: list[Node] = [pipe.end for pipe in pipes[:-1]]
    if (
        not nodes
        or math.dist(piece.start[:2], pipes[0].start[:2]) + math.dist(piece.end[:2], pipes[-1].end[:2]) > BESIDE
    ):
        return []
    return [(node.x, node.y, study.model.heights.get(node, 0.0)) for node in nodes]


def _join_bonded(study: Study, bones: Skeleton) -> None:
    """A bare joint between two fittings that are glued into each other."""
    for bond in study.model.joinery.bonds:
        if bond.part in bones.joints and bond.other in bones.joints:
            host, other = bones.joints[bond.part].fittings[0], bones.joints[bond.other].fittings[0]
            toward = host.ports[bond.port].toward
            shape: Shape = "level" if toward[2] == 0.0 else "plumb" if abs(toward[2]) == 1.0 else "inclined"
            elements = tuple(dict.fromkeys((*host.elements, *other.elements)))
            bones.lengths.append(Length("", "bond", host.system, bond.size, shape, bond.other, bond.part, elements))


def _set_street_bends(study: Study, bones: Skeleton) -> None:
    """Put a fitting that is glued into another one where the host's opening points and its own far leg crosses."""
    for bond in study.model.joinery.bonds:
        if bond.part not in bones.joints or bond.other not in bones.joints:
            continue
        host, street = bones.joints[bond.part], bones.joints[bond.other]
        toward = host.fittings[0].ports[bond.port].toward
        far = next((p for n, p in enumerate(street.fittings[0].ports) if n != bond.other_port), None)
        if far is not None and _off_line(host.at, toward, street.at) > BESIDE:
            street.at = _crossing(host.at, toward, street.at, far) or street.at


def _off_line(origin: Space, toward: Space, place: Space) -> float:
    gap = tuple(p - o for p, o in zip(place, origin, strict=True))
    along = sum(g * t for g, t in zip(gap, toward, strict=True))
    return math.dist(gap, tuple(along * t for t in toward))


def _crossing(origin: Space, toward: Space, place: Space, far: Port) -> Space | None:
    """The point of the first line that lies nearest to the second; None where they are parallel."""
    d = far.toward
    w = tuple(o - p for o, p in zip(origin, place, strict=True))
    b = sum(t * f for t, f in zip(toward, d, strict=True))
    if 1.0 - b * b < BESIDE:
        return None
    t_w = sum(t * g for t, g in zip(toward, w, strict=True))
    d_w = sum(f * g for f, g in zip(d, w, strict=True))
    along = (b * d_w - t_w) / (1.0 - b * b)
    return (origin[0] + along * toward[0], origin[1] + along * toward[1], origin[2] + along * toward[2])


def _lay_arms(study: Study, bones: Skeleton, parts: list[Part]) -> None:
    """The arms that come with their traps: no pipe is cut for them."""
    network = study.model.network
    seats = {port.pipe: part.id for part in parts for port in part.ports if port.pipe is not None}
    for part in parts:
        if part.kind != OWN_TUBE:
            continue
        bones.joint(part.id, part.centre).fittings.append(part)
        arm = network.by_id.get(f"{part.elements[0]}.arm")
        if arm is None:
            continue
        end = (arm.end.x, arm.end.y, study.model.heights.get(arm.end, 0.0))
        key = seats.get(arm.id) or spot_key(end)
        bones.joint(key, end)
        bones.lengths.append(
            Length(part.id, "part", part.system, arm.size, "level", part.id, key, part.elements, arm.id)
        )


def _lean_rolled(study: Study, bones: Skeleton) -> None:
    """Set the upper end of each rolled stretch back from the main by what the roll's climb takes of the run."""
    for length in bones.lengths:
        pipe = study.model.network.by_id.get(length.pipe)
        if length.shape == "inclined" and pipe is not None and pipe.climb and not pipe.run:
            upper, foot = bones.joints[length.start], bones.joints[length.end]
            back = (upper.at[2] - foot.at[2]) / math.tan(math.radians(pipe.climb))
            upper.at = (upper.at[0] - back * pipe.heading[0], upper.at[1] - back * pipe.heading[1], upper.at[2])
