"""A circuit vent: a level branch of several drains with one dry vent between the two furthest upstream."""

from __future__ import annotations

from engine.piping.venting.arms import Arm
from engine.piping.venting.scene import Attempt, Refused, Scene, Vented


def circuit(scene: Scene, arm: Arm) -> Attempt:
    """A drain that joins a level branch below the place where the branch's vent stands on it."""
    if arm.ends is None or arm.siphons:
        return None
    vented, airless = scene.others(arm)
    if not vented or not all(stick.id in scene.last for stick in airless):
        return None
    path = scene.airway(vented[0])
    if any(map(scene.steep, path)):
        return None
    unknown = scene.speaks("circuit_vent", "circuit vents")
    if unknown is not None:
        return unknown
    if not scene.book.speaks_of("circuit_vent"):
        return None
    dry = path[0].start
    above = list(scene.web.inflow.get(dry, ()))
    first = [stick for stick in above if stick.id in scene.last]
    key = "circuit_vent.fixtures_most"
    between, level = "circuit_vent.between_last_two", "circuit_vent.joins_level"
    if len(first) != 1 or (len(above) != 1 and scene.book.says(between)):
        return Refused("a circuit vent stands between the two drains furthest upstream on its branch", between)
    for node in (stick.end for stick in path[:-1]):
        beside = [s for s in scene.web.inflow.get(node, ()) if s not in path]
        together = [s for s in beside if s.id not in scene.last and s.id not in scene.air]
        if together:
            return Refused(
                f"{', '.join(together[0].carries)} join the branch by one drain, and each must join by its own", key
            )
        falling = [one for s in beside if (one := scene.last.get(s.id)) and (one.siphons or scene.drops_in(one))]
        if falling and (falling[0].siphons or scene.book.says(level)):
            who = falling[0].fixture.id
            return Refused(f"{who} joins the branch by a drain that drops, and each must join level", level)
    if scene.drops_in(arm) and scene.book.says(level):
        return Refused("its drain drops onto the branch, where it must join level", level)
    through = {*path[-1].carries, arm.fixture.id}
    most = scene.book.number(key)
    if len(through) > most:
        return Refused(f"{len(through)} fixtures are on its branch, and a circuit vent serves {most:g}", key)
    starter = scene.last[first[0].id].fixture.id
    return Vented("circuit vent", scene.source(path), dry, starter, arm.ends, len(arm.sticks), path)
