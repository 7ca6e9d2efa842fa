"""The skeleton of the water lines: the tubes as drawn, with their rises to the fixtures, and their fittings."""

from __future__ import annotations

import math
from itertools import pairwise

from engine.drafting.finished import under_fixture
from engine.drawings.isometric.skeleton import SYSTEMS, Length, Mount, Skeleton
from engine.joinery.records import Part, System
from engine.plan.records import Fixture, Point, Supply
from engine.study import Study
from engine.trade import fixtures as trade
from engine.trade.pipe import nominal

AT_WALL: dict[str, int] = {
    "heater_valve": 0,
    "tube_adapter": 1,
    "tube_stub_elbow": 0,
    "stop_valve": 1,
    "hammer_arrester": 2,
}
"""The parts at a fixture's end of a tube, in the order in which the water passes them."""

ELBOW = "tube_stub_elbow"
"""The part with which a rising tube turns out of the wall."""


def water(study: Study) -> Skeleton:
    """Joints, lengths and mounted parts of the cold and hot runs."""
    bones = Skeleton("water")
    parts = [part for part in study.model.joinery.parts if part.system in SYSTEMS["water"]]
    for supply in study.plan.supplies:
        _lay(study, bones, supply)
    by_place: dict[str, list[Part]] = {}
    for part in parts:
        by_place.setdefault(_key(part.system, part.node[:2]), []).append(part)
    for key, here in by_place.items():
        bones.joint(key, here[0].centre)
        ending = [part for part in here if part.kind in AT_WALL]
        meeting = bones.at_joint()[key]
        rest = [part for part in here if part not in ending]
        if len(meeting) == 1 and not ending:
            outward = bones.outward(key, meeting[0])
            bones.mounts += [Mount(part, key, outward, rank) for rank, part in enumerate(rest)]
        else:
            bones.joints[key].fittings += rest
        if ending:
            _at_fixture(study, bones, key, sorted(ending, key=lambda part: AT_WALL[part.kind]))
    return bones


def _lay(study: Study, bones: Skeleton, supply: Supply) -> None:
    z = height_of(study, supply)
    size = nominal(supply.size)
    for number, (a, b) in enumerate(pairwise(supply.points)):
        if a == b:
            continue
        keys = (_key(supply.water, a), _key(supply.water, b))
        for key, point in zip(keys, (a, b), strict=True):
            bones.joint(key, (point[0], point[1], z))
        pipe = f"{supply.id}.{number}"
        bones.lengths.append(Length(supply.id, "tube", supply.water, size, "level", *keys, (supply.id,), pipe))


def _at_fixture(study: Study, bones: Skeleton, key: str, parts: list[Part]) -> None:
    """Lead the tube up to its fixture, and set the parts there one behind the other."""
    fixture = _fixture_of(study, parts)
    joint, toward = key, None
    above = trade.fixture(fixture.kind).supply_above_floor if fixture is not None else None
    meeting = bones.at_joint()[key]
    if fixture is not None:
        turn = math.radians(fixture.turn)
        toward = (math.cos(turn), math.sin(turn), 0.0)
    if fixture is not None and above is not None and meeting:
        x, y, z = bones.joints[key].at
        joint = f"{key}^"
        up = under_fixture(study.plan, fixture) + above
        bones.joint(joint, (x, y, up))
        size = min(length.size for length in meeting)
        elements = (meeting[0].elements[0], fixture.id)
        bones.lengths.append(
            Length(
                meeting[0].name, "tube", parts[0].system, size, "plumb", key, joint, elements, f"{meeting[0].name}.up"
            )
        )
        if z > up:
            toward = (0.0, 0.0, -1.0)
    for part in parts:
        if part.kind == ELBOW and joint != key and toward is not None:
            bones.joints[joint].fittings.append(part)
            bones.facing[part.id] = toward
    rest = [part for part in parts if part.kind != ELBOW or joint == key]
    bones.mounts += [Mount(part, joint, toward, rank) for rank, part in enumerate(rest)]


def _fixture_of(study: Study, parts: list[Part]) -> Fixture | None:
    """The fixture that the parts of one end serve."""
    fixtures = {fixture.id: fixture for fixture in study.plan.fixtures}
    return next((fixtures[name] for part in parts for name in part.elements if name in fixtures), None)


def height_of(study: Study, supply: Supply) -> float:
    """The tube's axis above the joists' top, inches: as drawn, else in the middle of the joists."""
    if supply.down is not None:
        return -supply.down
    return -min((joist.depth for joist in study.model.framing.joists), default=0.0) / 2.0


def _key(system: System, point: Point | tuple[float, ...]) -> str:
    return f"{system}:{point[0]:.3f},{point[1]:.3f}"
