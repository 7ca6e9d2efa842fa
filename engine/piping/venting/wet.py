"""Wet vents: drains of a bathroom group that are another's vent, lying or upright."""

from __future__ import annotations

from engine.piping.sticks import Stick
from engine.piping.venting.arms import Arm
from engine.piping.venting.scene import Attempt, Refused, Scene, Unknown, Vented


def lying(scene: Scene, arm: Arm) -> Attempt:
    """A horizontal wet vent: the pipe below a bathroom fixture's dry vent takes the drains of others of its group."""
    found = _way_in(scene, arm)
    if found is None or arm.ends is None:
        return None
    path, airless = found
    if all(map(scene.steep, path)) and not scene.turns_level(arm.ends):
        return None
    unknown = scene.speaks("wet_vent", "wet vents")
    if unknown is not None:
        return unknown
    refusal = _of_the_group(scene, arm, path, "a wet vent")
    if refusal is not None:
        return refusal
    if scene.book.says("wet_vent.joins_level") and scene.drops_in(arm):
        return Refused("its drain drops onto the wet vent, where it must join level", "wet_vent.joins_level")
    dry = path[0].start
    if not path[-1].carries:
        return Refused(
            "the pipe that would bring its air carries no water: it is a dry vent lying flat", "vent.above_rim"
        )
    starters = scene.starters(dry)
    if not scene.may_start(dry) and scene.book.speaks_of("wet_vent.dry_from"):
        who = ", ".join(one.fixture.id for one in starters)
        if starters:
            return Refused(
                f"the dry vent meets the drain of {who}, from which no wet vent may start",
                f"wet_vent.dry_from.{starters[0].fixture.kind}",
            )
        why = "the dry vent of the pipe that would bring its air meets no fixture's own drain"
        return Refused(why, scene.rule("wet_vent.dry_from"))
    most_above = "wet_vent.upstream_most"
    at_the_foot = all(map(scene.steep, path))
    if at_the_foot and scene.book.has(most_above):
        above = 1 + sum(stick.id in scene.last for stick in airless)
        if above > scene.book.number(most_above):
            return Refused(
                f"{above} drains come in upstream of the one that the dry vent serves; "
                f"{scene.book.number(most_above):g} may",
                most_above,
            )
    closets = sorted(f for f in path[-1].carries if scene.kinds[f] == "water_closet")
    if closets and arm.fixture.kind != "water_closet" and scene.book.says("wet_vent.closet_last"):
        return Refused(
            f"{', '.join(closets)} drains through the pipe that would bring its air, and the closet must join last",
            "wet_vent.closet_last",
        )
    too_many = _too_many(scene, arm, path[-1])
    if too_many is not None:
        return too_many
    starter = starters[0].fixture.id if starters else ""
    return Vented("horizontal wet vent", scene.source(path), dry, starter, arm.ends, len(arm.sticks), path)


def upright(scene: Scene, arm: Arm) -> Attempt:
    """A vertical wet vent: drains that join an upright drain below the dry vent at its top."""
    found = _way_in(scene, arm)
    if found is None or arm.ends is None:
        return None
    path, airless = found
    if not all(map(scene.steep, path)) or scene.turns_level(arm.ends) or scene.drops_in(arm):
        return None
    unknown = scene.speaks("vertical_wet_vent", "vertical wet vents")
    if unknown is not None:
        return unknown
    if not scene.book.speaks_of("vertical_wet_vent"):
        return None
    alone = all(stick.id in scene.last for stick in airless)
    if not alone:
        return Refused("another drain comes in there that carries more than one fixture's water", "trap.vented")
    if scene.book.says("vertical_wet_vent.group_only"):
        refusal = _of_the_group(scene, arm, path, "a vertical wet vent")
        if refusal is not None:
            return refusal
    most = "vertical_wet_vent.fixture_most"
    if scene.book.has(most):
        for fixture in sorted({arm.fixture.id, *path[-1].carries}):
            units = scene.loads.given_by(fixture)
            if units is None:
                return Unknown(f"the book says not how many fixture units {fixture} gives")
            if units > scene.book.number(most):
                return Refused(
                    f"{fixture} gives {units:g} fixture units, and no fixture of a vertical wet vent may give more than "
                    f"{scene.book.number(most):g}",
                    most,
                )
    if scene.book.says("vertical_wet_vent.closets_one_level"):
        closets = [f for f in path[-1].carries if scene.kinds[f] == "water_closet"]
        if closets:
            return Refused(
                f"{', '.join(sorted(closets))} joins above it, and drains join at or above the closets' level",
                "vertical_wet_vent.closets_one_level",
            )
    starters = scene.starters(path[0].start)
    starter = starters[0].fixture.id if starters else ""
    source = scene.source(path)
    return Vented("vertical wet vent", source, path[0].start, starter, arm.ends, len(arm.sticks), path)


def _way_in(scene: Scene, arm: Arm) -> tuple[list[Stick], list[Stick]] | None:
    """The pipes that bring air to the end of an arm, and the airless drains beside it; None where no drain brings any."""
    vented, airless = scene.others(arm)
    if not vented or arm.siphons:
        return None
    return scene.airway(vented[0]), airless


def _of_the_group(scene: Scene, arm: Arm, path: list[Stick], what: str) -> Refused | None:
    """Only bathroom fixtures may drain through, or join, what vents others of their group."""
    key = "wet_vent.groups_most"
    if not scene.in_group(arm.fixture.kind):
        return Refused(f"{what} serves bathroom fixtures only", key)
    foreign = sorted(f for f in path[-1].carries if not scene.in_group(scene.kinds[f]))
    if foreign:
        return Refused(
            f"{', '.join(foreign)} drains through the pipe that would bring its air, and {what} takes bathroom "
            "fixtures only",
            key,
        )
    return None


def _too_many(scene: Scene, arm: Arm, last: Stick) -> Refused | Unknown | None:
    through, groups = {*last.carries, arm.fixture.id}, "wet_vent.groups_most"
    if not scene.book.has(groups):
        return scene.speaks(groups, "how many bathroom groups share a wet vent")
    for key in scene.book.keys("wet_vent.members"):
        kind = key.rsplit(".", 1)[-1]
        most = scene.book.number(key) * scene.book.number(groups)
        found = sorted(f for f in through if scene.kinds[f] == kind)
        if len(found) > most:
            return Refused(f"{', '.join(found)} share one wet vent, which serves {most:g} of their kind", key)
    return None
