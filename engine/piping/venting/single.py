"""One trap with a vent of its own: the dry pipe meets its drain, and no other drain takes air there."""

from __future__ import annotations

from engine.piping.records import Method
from engine.piping.venting.air import dry_at, dry_stick_at
from engine.piping.venting.arms import Arm
from engine.piping.venting.scene import Attempt, Refused, Scene, Vented


def own_vent(scene: Scene, arm: Arm) -> Attempt:
    """An individual vent, or an island's where the dry pipe turns over and comes down again."""
    if arm.ends is None:
        return None
    dry = dry_stick_at(scene.web, arm.ends)
    if dry is None:
        return None
    _, airless = scene.others(arm)
    if airless:
        if len(airless) == 1 and airless[0].id in scene.last:
            return None
        names = ", ".join(sorted({fixture for stick in airless for fixture in stick.carries})) or "another drain"
        return Refused(f"its vent is also the only air for {names}", "common_vent.traps_most")
    if arm.siphons:
        return None
    source = dry_at(scene.web, arm.ends)
    method: Method = "island vent" if dry.loops else "individual vent"
    return Vented(method, source, arm.ends, arm.fixture.id, arm.ends, len(arm.sticks))
