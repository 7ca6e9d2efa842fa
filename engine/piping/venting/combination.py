"""Combination waste and vent: sinks, floor drains and standpipes on a drain so wide that air goes along over the water."""

from __future__ import annotations

from engine.piping.flow import is_under
from engine.piping.records import Node
from engine.piping.sticks import Stick
from engine.piping.venting.air import dry_at
from engine.piping.venting.arms import Arm
from engine.piping.venting.scene import Attempt, Refused, Scene, Vented
from engine.trade.pipe import DRAIN_SIZES, label, nominal


def combination(scene: Scene, arm: Arm) -> Attempt:
    """A drain that comes down, once, to a level pipe which reaches a vented drain or a vent of its own."""
    if not arm.sticks:
        return None
    key = f"combination.allows.{arm.fixture.kind}"
    if scene.book.has(key) and not scene.book.says(key):
        return None
    if not scene.book.has(key):
        unknown = scene.speaks("combination", "combination waste and vent")
        return unknown if unknown is not None and not arm.spec.group else None
    down = _to_the_air(scene, arm.sticks[0])
    if down is None:
        return None
    last, system, meets = down
    if not is_under(meets):
        return None
    kinds = {fixture: scene.kinds[fixture] for fixture in last.carries}
    others = sorted(f for f, kind in kinds.items() if not scene.book.says(f"combination.allows.{kind}"))
    if others and arm.spec.group:
        return None
    if others:
        return Refused(
            f"{', '.join(others)} drains into the same pipe, which may not stand as combination waste and vent then",
            scene.rule("combination.allows"),
        )
    drops = [stick for stick in system if scene.steep(stick) and len(stick.carries) > 1]
    if drops:
        return Refused(
            f"the pipe that {', '.join(drops[0].carries)} share drops, and in combination waste and vent only a "
            "fixture's own drain may",
            "combination.vertical_most",
        )
    level = [stick for stick in system if not scene.steep(stick) and not _is_arm(scene, stick)]
    if not level:
        return None
    least = _least(scene)
    thin = [stick for stick in level if stick.size is not None and stick.size < least]
    if thin:
        falls = "its drain drops before any air can reach it; " if arm.drops else ""
        return Refused(
            f"{falls}as combination waste and vent {thin[0].element} would have to be {label(least)} in at least",
            scene.rule("combination.branch") or "combination.sizes_up",
        )
    own = arm.level if arm.drops else len(arm.sticks)
    ends = arm.sticks[arm.level].start if arm.drops else (arm.ends or arm.sticks[-1].end)
    return Vented(
        "combination waste and vent",
        dry_at(scene.web, meets),
        None,
        "",
        ends,
        own,
        path=level,
        system=last.carries,
    )


def _least(scene: Scene) -> float:
    """The size that no such pipe is under: where the book's table begins, else the smallest size made so much larger."""
    rows = [nominal(key.rsplit(".", 1)[-1]) for key in scene.book.keys("combination.branch")]
    if rows:
        return min(rows)
    up = "combination.sizes_up"
    return DRAIN_SIZES[int(scene.book.number(up))] if scene.book.has(up) else 0.0


def _is_arm(scene: Scene, stick: Stick) -> bool:
    """Whether a level pipe is a fixture's arm before its drop."""
    arm = scene.arms.get(stick.carries[0]) if len(stick.carries) == 1 else None
    return arm is not None and arm.drops and stick in arm.sticks[: arm.level]


def _to_the_air(scene: Scene, first: Stick) -> tuple[Stick, list[Stick], Node] | None:
    """The last pipe of a system that no air comes down to, all its pipes, and the node where it meets air."""
    web, stick, seen = scene.web, first, {first.id}
    while True:
        node = stick.end
        if dry_at(web, node) is not None or any(
            s.id in scene.air and s.id != stick.id for s in web.inflow.get(node, ())
        ):
            break
        onward = web.outflow.get(node)
        if onward is None or onward.id in seen or onward.id in scene.air:
            return None
        seen.add(onward.id)
        stick = onward
    system: list[Stick] = []
    waiting = [stick]
    while waiting:
        pipe = waiting.pop()
        system.append(pipe)
        waiting.extend(web.inflow.get(pipe.start, ()))
    return stick, system, stick.end
