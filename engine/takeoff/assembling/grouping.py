"""What one step puts in place: a piece with the fitting on its far end, unless that fitting has to be tried first."""

from __future__ import annotations

from collections.abc import Iterator

from engine.takeoff.assembling.joints import Joints, is_plumb
from engine.takeoff.assembling.phases import FLANGES
from engine.takeoff.assembling.sliding import Slides
from engine.takeoff.assembling.tree import Placing

_UPRIGHT = 0.5
"""From this vertical share on a leg counts as upright."""


def groups(joints: Joints, placings: list[Placing], slides: Slides) -> Iterator[list[Placing]]:
    """The placings step by step, in their order; small parts (bushings, adapters, caps) go with their host."""
    group: list[Placing] = []
    for placing in placings:
        if group and not _goes_with(joints, placing, group, slides):
            yield group
            group = []
        group.append(placing)
    if group:
        yield group


def _goes_with(joints: Joints, placing: Placing, group: list[Placing], slides: Slides) -> bool:
    if placing.begins or placing.onto not in {other.item for other in group}:
        return False
    if is_small(joints, placing):
        return True
    main = [other for other in group if not is_small(joints, other)]
    if len(main) != 1 or tried_with(joints, placing) is not None or slides.speaks_of(placing.item):
        return False
    return main[0].onto is None or (placing.item in joints.parts and main[0].item in joints.pieces)


def is_small(joints: Joints, placing: Placing) -> bool:
    """Whether a part hangs on one joint alone, so that it goes in with its host."""
    return placing.onto is not None and placing.item in joints.parts and len(joints.of[placing.item]) == 1


def tried_with(joints: Joints, placing: Placing) -> str | None:
    """What has to stand plumb through the floor on a fitting before its joint with a level pipe is glued.

    The plumb piece that its upper leg takes (or the flange on its upper spigot); None for any other fitting.
    """
    part = joints.parts.get(placing.item)
    if part is None or placing.joint is None or part.centre[2] >= 0.0:
        return None
    own = joints.port(placing.joint, part.id)
    if own is None or abs(own.toward[2]) > _UPRIGHT:
        return None
    for joint in joints.across(part.id, placing.joint):
        port, other = joints.port(joint, part.id), joint.other(part.id)
        if port is None or port.toward[2] < _UPRIGHT:
            continue
        piece = joints.pieces.get(other)
        if piece is not None and is_plumb(piece) and max(piece.start[2], piece.end[2]) > 0.0:
            return other
        if other in joints.parts and joints.parts[other].kind in FLANGES:
            return other
    return None
