"""The framing's outside faces that a tape can be hooked on, and which of them a floor is measured from.

All marks of a floor are measured from one face in each direction, since distances from one face never add up. Where it
serves every mark it is the west one and the south one, from which every other sheet measures too; else that which is nearest to
the work as a whole. Where no face serves every mark (a floor that is not one rectangle), each mark takes the nearest that
runs past it.
"""

from __future__ import annotations

from collections.abc import Sequence

from engine.checks.model import Model
from engine.framing.outside import outside_of
from engine.framing.records import Joist
from engine.plan.records import JoistField, Point
from engine.takeoff.marks.records import Edge, Side
from engine.takeoff.naming import whole_words

_BESIDE = 1.0 / 16.0
"""How far outside a face another field counts as standing against it, inches."""


def edges(model: Model) -> tuple[Edge, ...]:
    """The outside faces of every rim and end joist, each once where a flush beam leaves several pieces of it."""
    fields = {field.id: field for field in model.plan.fields}
    faces = (_face(model, fields[joist.field], joist) for joist in model.framing.joists if joist.kind in ("rim", "end"))
    return tuple(dict.fromkeys(face for face in faces if face is not None))


def _face(model: Model, field: JoistField, joist: Joist) -> Edge | None:
    """The outside face of a rim or end joist; None for one that lies aslant or looks out nowhere."""
    across = 0 if joist.along[1] else 1
    half = joist.thickness / 2.0
    first = joist.number == 0
    low, high = field.corner[1 - across], field.corner[1 - across] + field.size[1 - across]
    if field.to_outline:
        found = outside_of(joist, model.plan.floor.outline)
        if found is None or 0.0 not in joist.along:
            return None
        first = (found.side > 0.0) != bool(joist.along[1])
        low, high = joist.start[1 - across] + found.first, joist.start[1 - across] + found.last
    side: Side = (("west", "east"), ("south", "north"))[across][0 if first else 1]
    return Edge(
        field=field.id,
        side=side,
        at=joist.start[across] + (-half if first else half),
        low=low,
        high=high,
        words=f"outside face of the {whole_words(model, joist)}",
    )


def running_past(model: Model, faces: Sequence[Edge], point: Point, axis: int) -> list[Edge]:
    """The faces square to an axis (0 east-west, 1 north-south) from which a point can be measured, near ones first.

    The foot of the measure must lie on the face, no other field may stand against it there, and the point must lie
    on its inner side.
    """
    found = []
    for face in faces:
        if (
            face.side not in (("west", "east"), ("south", "north"))[axis]
            or not face.low <= point[1 - axis] <= face.high
        ):
            continue
        inward = point[axis] - face.at if face.side in ("west", "south") else face.at - point[axis]
        if inward >= 0.0 and not _covered(model, face, point[1 - axis], axis):
            found.append(face)
    return sorted(found, key=lambda face: abs(point[axis] - face.at))


def _covered(model: Model, face: Edge, along: float, axis: int) -> bool:
    """Whether another field's wood stands against a face, so that no tape can be hooked there."""
    off = face.at + (-_BESIDE if face.side in ("west", "south") else _BESIDE)
    for field in model.plan.fields:
        low, size = field.corner, field.size
        if field.id == face.field:
            continue
        if low[axis] < off < low[axis] + size[axis] and low[1 - axis] < along < low[1 - axis] + size[1 - axis]:
            return True
    return False


def baseline(options: Sequence[Sequence[Edge]], points: Sequence[Point], axis: int) -> list[Edge | None]:
    """The face that each point is measured from along an axis (0 east-west, 1 north-south); None where it has none."""
    served = [(faces, point) for faces, point in zip(options, points, strict=True) if faces]
    lines = [{(face.side, face.at) for face in faces} for faces, _ in served]
    common = set.intersection(*lines) if lines else set()
    if not common:
        return [faces[0] if faces else None for faces in options]
    first = ("west", "south")[axis]
    line = min(common, key=lambda one: (one[0] != first, sum(abs(point[axis] - one[1]) for _, point in served), one))
    return [next((face for face in faces if (face.side, face.at) == line), None) for faces in options]
