"""Two traps on one vent: their drains meet at one level, or one above the other on an upright drain."""

from __future__ import annotations

from engine.piping.records import Node
from engine.piping.sticks import Stick
from engine.piping.venting.air import dry_at
from engine.piping.venting.arms import Arm
from engine.piping.venting.scene import Attempt, Refused, Scene, Vented


def one_level(scene: Scene, arm: Arm) -> Attempt:
    """Two drains that meet at one level, with the vent at their meeting or, where the book lets it, below."""
    if arm.ends is None or arm.siphons:
        return None
    vented, airless = scene.others(arm)
    if vented or len(airless) != 1:
        return None
    other = scene.last.get(airless[0].id)
    if other is None or other.siphons:
        return None
    unknown = scene.speaks("common_vent.traps_most", "common vents")
    if unknown is not None:
        return unknown
    most = scene.book.number("common_vent.traps_most")
    source = dry_at(scene.web, arm.ends)
    if source is not None:
        if len(scene.ending[arm.ends]) > most:
            return Refused(f"one common vent serves {most:g} drains", "common_vent.traps_most")
        return Vented("common vent at one level", source, arm.ends, "", arm.ends, len(arm.sticks))
    beyond, below = _vent_below(scene, arm.ends)
    if below is None:
        return None
    if not scene.book.says("common_vent.downstream"):
        unknown = scene.speaks("common_vent.downstream", "a common vent below the place where the drains meet")
        return unknown or Refused(
            "a common vent must stand where the two drains meet, and it stands below", "common_vent.traps_most"
        )
    source = dry_at(scene.web, below)
    return Vented("common vent at one level", source, below, "", below, len(arm.sticks), beyond=beyond)


def _vent_below(scene: Scene, node: Node) -> tuple[list[Stick], Node | None]:
    """The pipes from a meeting down to a dry vent with no other drain between and no drop; no node where none is."""
    beyond: list[Stick] = []
    while node in scene.web.outflow:
        stick = scene.web.outflow[node]
        if scene.steep(stick) or stick in beyond:
            return [], None
        beyond.append(stick)
        node = stick.end
        if scene.web.meeting(node) > 2:
            alone = len(scene.web.inflow.get(node, ())) == 1
            return beyond, node if alone and dry_at(scene.web, node) is not None else None
    return [], None


def two_levels(scene: Scene, arm: Arm) -> Attempt:
    """The lower of two drains that join one upright drain, whose vent goes on straight above the upper one."""
    if arm.ends is None or arm.siphons:
        return None
    vented, airless = scene.others(arm)
    if len(vented) != 1 or airless:
        return None
    path = scene.airway(vented[0])
    if not all(scene.steep(stick) for stick in path):
        return None
    upper = scene.starters(path[0].start)
    if len(vented[0].carries) != 1 or len(upper) != 1:
        return None
    unknown = scene.speaks("common_vent.two_levels", "two drains that join an upright drain at two levels")
    if unknown is not None:
        return unknown
    if not scene.book.says("common_vent.two_levels"):
        return None
    if upper[0].fixture.kind == "water_closet" and not scene.book.says("common_vent.upper_closet"):
        return Refused(
            f"{upper[0].fixture.id} joins above it, and no closet may be the upper of two", "common_vent.upper_closet"
        )
    starter = upper[0].fixture.id
    source = scene.source(path)
    return Vented("common vent at two levels", source, path[0].start, starter, arm.ends, len(arm.sticks), path)
