"""Parting an isometric that is too full for one sheet: by what hangs together, else at a pipe between two halves."""

from __future__ import annotations

from collections import Counter
from itertools import count

from engine.drawings.isometric.skeleton import Joint, Length, Skeleton


def in_two(bones: Skeleton, letters: count[int]) -> tuple[Skeleton, Skeleton] | None:
    """Two skeletons with about as much on each; None where nothing can be parted.

    A length that is cut stays whole on the sheet to which its water runs; its upper end there and the joint that
    it comes from on the other sheet carry the same letter.
    """
    groups = _groups(bones)
    if len(groups) > 1:
        return _parted(bones, groups)
    found = _halving(bones)
    if found is None:
        return None
    length, upper = found
    letter = chr(ord("A") + next(letters) % 26)
    lower = bones.joints.keys() - upper
    top, foot = _part(bones, upper), _part(bones, lower)
    top.lengths = [each for each in top.lengths if each is not length]
    top.matches[length.start] = letter
    loose = f"match {letter}"
    foot.joints[loose] = Joint(loose, bones.joints[length.start].at)
    foot.matches[loose] = letter
    foot.lengths.append(_led_from(length, loose))
    return top, foot


def _led_from(length: Length, key: str) -> Length:
    return Length(
        length.name,
        length.what,
        length.system,
        length.size,
        length.shape,
        key,
        length.end,
        length.elements,
        length.pipe,
        length.slope,
    )


def _groups(bones: Skeleton, without: Length | None = None) -> list[set[str]]:
    """The joints that hang together, largest group first."""
    meeting = bones.at_joint()
    seen: set[str] = set()
    groups: list[set[str]] = []
    for root in bones.joints:
        if root in seen:
            continue
        group, waiting = {root}, [root]
        while waiting:
            for length in meeting[waiting.pop()]:
                if length is without:
                    continue
                for key in (length.start, length.end):
                    if key not in group:
                        group.add(key)
                        waiting.append(key)
        seen |= group
        groups.append(group)
    return sorted(groups, key=len, reverse=True)


def _parted(bones: Skeleton, groups: list[set[str]]) -> tuple[Skeleton, Skeleton]:
    """Whole groups on two sheets, the next largest always to the emptier one."""
    sides: tuple[set[str], set[str]] = (set(), set())
    for group in groups:
        min(sides, key=len).update(group)
    return _part(bones, sides[0]), _part(bones, sides[1])


def _halving(bones: Skeleton) -> tuple[Length, set[str]] | None:
    """The piece or tube whose cutting leaves the most even halves, and the joints on its upper side."""
    heavy = Counter(made.joint for made in bones.mounts)
    whole = len(bones.joints) + sum(heavy.values())
    best: tuple[int, Length, set[str]] | None = None
    for length in bones.lengths:
        if length.what not in ("piece", "tube") or length.shape != "level":
            continue
        groups = _groups(bones, without=length)
        upper = next(group for group in groups if length.start in group)
        if length.end in upper:
            continue
        uneven = abs(2 * (len(upper) + sum(heavy[key] for key in upper)) - whole)
        if best is None or uneven < best[0]:
            best = (uneven, length, upper)
    return None if best is None or len(best[2]) in (0, len(bones.joints)) else (best[1], best[2])


def _part(bones: Skeleton, keys: set[str]) -> Skeleton:
    """What stands on some of the joints."""
    part = Skeleton(bones.cover)
    part.joints = {key: joint for key, joint in bones.joints.items() if key in keys}
    part.lengths = [length for length in bones.lengths if {length.start, length.end} <= keys]
    part.mounts = [made for made in bones.mounts if made.joint in keys]
    part.facing = bones.facing
    part.matches = {key: letter for key, letter in bones.matches.items() if key in keys}
    shown = {made.id for joint in part.joints.values() for made in joint.fittings} | {
        made.part.id for made in part.mounts
    }
    part.extras = {name: parts for name, parts in bones.extras.items() if name in shown}
    return part
