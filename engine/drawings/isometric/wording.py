"""What is written on an isometric: the lines of each label, and what each of them names."""

from __future__ import annotations

from engine.drafting.finished import at_riser, under_fixture
from engine.drawings.isometric.names import part_name, short
from engine.drawings.isometric.skeleton import Joint, Length, Skeleton
from engine.drawings.isometric.tags import Words, tags
from engine.lengths import feet_inches, inches
from engine.plan.grid import spot
from engine.study import Study
from engine.trade.pipe import label

OVER_FLOOR = 1.0
"""Ends no higher than this above the finished floor are told by their fixture, inches."""

IN_FEET = 60.0
"""From this height on feet and inches are written, inches."""

MOST_TUBES = 3
"""One fitting joins no more tubes than this."""

STRAIGHT_ON = -0.999
"""Two lengths run straight on where the cosine between their ends' directions is no more than this."""


class Wording:
    """The lines for everything on one isometric."""

    def __init__(self, study: Study, bones: Skeleton) -> None:
        self._study, self._bones = study, bones
        self._meeting = bones.at_joint()
        self._fixtures = {fixture.id: fixture for fixture in study.plan.fixtures}
        self._tags = tags(study, bones)
        self._sloped = self._longest_of_runs()

    def at(self, key: str) -> list[Words]:
        """What stands at a joint: the fixture, exit or riser that it belongs to, its height, its parts."""
        joint = self._bones.joints[key]
        parts = [*joint.fittings, *(made.part for made in self._bones.mounts if made.joint == key)]
        lines = [*self._tags.get(key, ())]
        if self._bare(joint, self._meeting[key]):
            lines.append(Words("NO FITTING: see findings", self._meeting[key][0].name, bold=True))
        for part in parts:
            lines.append(Words(part_name(part), part.id))
            extras = self._bones.extras.get(part.id)
            if extras:
                lines.append(Words(", ".join(short(extra.kind) for extra in extras), part.id))
        height = self._height(joint, self._meeting[key])
        if height:
            about = parts[0].id if parts else self._meeting[key][0].name
            lines.append(Words(height, about))
        return lines

    def mark(self, lengths: list[Length]) -> list[Words]:
        """A piece's mark and size; of a tube its run's name. The slope stands under the longest piece of a run."""
        first = lengths[0]
        lines = [Words(f'{first.name} {label(first.size)}"', first.name, bold=True)]
        if first.name in self._sloped:
            lines.append(Words(f"{inches(first.slope, 64)} in/ft", first.name))
        return lines

    def _longest_of_runs(self) -> frozenset[str]:
        """The pieces that have their run's slope written under them: the longest of each."""
        longest: dict[str, Length] = {}
        for length in self._bones.lengths:
            if length.what == "piece" and length.shape == "level" and length.system == "waste":
                held = longest.get(length.elements[0])
                if held is None or self._run(length) > self._run(held):
                    longest[length.elements[0]] = length
        return frozenset(length.name for length in longest.values())

    def _run(self, length: Length) -> float:
        a, b = self._bones.joints[length.start].at, self._bones.joints[length.end].at
        return abs(a[0] - b[0]) + abs(a[1] - b[1])

    def _height(self, joint: Joint, meeting: list[Length]) -> str:
        """How high above the finished floor a joint on a riser, an end over the floor, or a water stub lies."""
        above = joint.at[2] - self._floor_at(joint, meeting)
        shapes = {length.shape for length in meeting}
        if above <= OVER_FLOOR or "plumb" not in shapes:
            return ""
        words = f"{_tape(above)} above floor"
        if len(meeting) == 1:
            return f"top {words}" if self._bones.cover == "drains" else words
        return words if "level" in shapes else ""

    def _floor_at(self, joint: Joint, meeting: list[Length]) -> float:
        """The finished floor that a joint's height counts from: under the fixture that a tube comes up to, else its riser's."""
        plan = self._study.plan
        if not plan.flooring_areas:
            return plan.floor.finished_z
        if self._bones.cover == "water":
            served = (self._fixtures[name] for length in meeting for name in length.elements if name in self._fixtures)
            fixture = next(served, None)
            if fixture is not None:
                return under_fixture(plan, fixture)
        return at_riser(plan, spot(joint.at[0], joint.at[1]))

    def _bare(self, joint: Joint, meeting: list[Length]) -> bool:
        """Whether pipes meet or turn at a joint and no fitting is found for it."""
        if joint.fittings or joint.key in self._bones.matches or len(meeting) < 2:
            return False
        if self._bones.cover == "water":
            return len(meeting) > MOST_TUBES
        if len(meeting) > 2:
            return True
        a, b = (self._bones.outward(joint.key, length) for length in meeting)
        level = all(length.shape == "level" for length in meeting)
        return sum(p * q for p, q in zip(a[:2] if level else a, b[:2] if level else b, strict=True)) > STRAIGHT_ON


def _tape(above: float) -> str:
    """A height as it is measured: inches as far as a hand reaches, feet and inches beyond."""
    return feet_inches(above) if above >= IN_FEET else f'{inches(above)}"'
