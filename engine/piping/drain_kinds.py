"""Which kind of drain each pipe is, since the tables of loads go by it.

The building drain is the line of level pipes that leaves the house, followed upstream by the larger load as long as
several fixtures drain through it. Level pipes that flow into it, or into one that does, are its branches. A level pipe
that empties into an upright one is a branch in the narrow sense. What carries one fixture only is that fixture's drain,
its trap arm as far as the vent. A turn down at the exit ends no building drain.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import Literal

from engine.piping.records import Node
from engine.piping.sticks import Stick
from engine.piping.venting.arms import steep
from engine.piping.web import Web

DrainKind = Literal[
    "trap arm", "fixture drain", "branch", "building drain branch", "building drain", "vertical drain", "stub"
]
OF_THE_BUILDING: frozenset[DrainKind] = frozenset({"building drain", "building drain branch"})
"""The kinds that a building drain's own table is for, where a book has one."""


def drain_kinds(web: Web, arms: Collection[str], exits: Iterable[Node], upright: float) -> dict[str, DrainKind]:
    """The kind of every waste stick by its id.

    `arms` are the sticks of trap arms, `upright` from how many degrees on a pipe counts as vertical.
    """
    kinds: dict[str, DrainKind] = {}
    for node in exits:
        for stick in _main(web, node, upright):
            kinds[stick.id] = "building drain"
    for stick in reversed(web.order):
        if stick.id not in kinds:
            kinds[stick.id] = _kind(web, stick, kinds, arms, upright)
    return kinds


def _main(web: Web, node: Node, upright: float) -> Iterable[Stick]:
    """The level pipes from an exit upstream, by the larger load at each joint, while several fixtures drain through."""
    seen: set[str] = set()
    while True:
        level = [
            s for s in web.inflow.get(node, ()) if not steep(s, upright) and len(s.carries) > 1 and s.id not in seen
        ]
        if not level:
            return
        stick = max(level, key=lambda s: (s.load, len(s.carries)))
        seen.add(stick.id)
        yield stick
        node = stick.start


def _kind(web: Web, stick: Stick, kinds: dict[str, DrainKind], arms: Collection[str], upright: float) -> DrainKind:
    if steep(stick, upright):
        return "vertical drain"
    if not stick.carries:
        return "stub"
    if len(stick.carries) == 1:
        return "trap arm" if stick.id in arms else "fixture drain"
    onward = web.outflow.get(stick.end)
    below = "building drain" if onward is None else kinds.get(onward.id, "building drain")
    return "branch" if below in ("vertical drain", "branch") else "building drain branch"
