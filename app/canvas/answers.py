"""The study's answers on the canvas: which way waste flows, which crossings hold, where the findings are and
where something could not be judged.

Marks follow the study by value: what did not change between two studies keeps its items.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Hashable, Iterable
from functools import partial
from typing import NamedTuple

from PySide6.QtWidgets import QGraphicsPathItem, QGraphicsScene

from app.canvas.badges import (
    ASIDE,
    BADGE,
    DOUBT,
    LIFT,
    crossing_badge,
    doubt_badge,
    finding_badge,
    flow_badge,
    joint_badge,
)
from app.canvas.doubts import Doubt, doubts
from app.canvas.lettering import Spot as Mark
from app.canvas.picture import HEIGHT_OF
from engine.checks.records import Finding
from engine.crossings.records import JoistCut
from engine.lengths import inches
from engine.piping.records import UNDER, Pipe
from engine.plan.outline import listed
from engine.plan.records import Point
from engine.study import Study

WEIGHTS = ("stop", "look", "note")
"""Weights of findings, heaviest first."""

TOGETHER = 0.5
"""Findings nearer to each other than this share one mark, inches."""

FULL_SIZE_FROM, LEAST_SIZE, LEAST_BADGE = 2.6, 0.3, 0.6
"""From this zoom on, in pixels an inch, marks have their full size; they never shrink below these shares of it."""

LEAST_FLOW = 44.0
"""Shortest pipe on the screen that carries an arrowhead, pixels."""


class Spot(NamedTuple):
    """Findings that share one mark."""

    at: Point
    weight: str
    findings: tuple[Finding, ...]


class Answers:
    """The marks of the latest study."""

    def __init__(self, scene: QGraphicsScene) -> None:
        self._scene = scene
        self._items: dict[Hashable, QGraphicsPathItem] = {}
        self._runs: dict[Hashable, float] = {}
        self._hidden: frozenset[str] = frozenset()
        self.spots: tuple[Spot, ...] = ()
        self.doubts: tuple[Doubt, ...] = ()
        self.marked: tuple[Mark, ...] = ()
        self.badge_size = 1.0

    def show(self, study: Study | None) -> None:
        """Mark what this study says in place of the last; None takes all marks away."""
        wanted: dict[Hashable, Callable[[], QGraphicsPathItem]] = {}
        runs: dict[Hashable, float] = {}
        pipes = study.model.network.pipes if study is not None else ()
        cuts = study.model.cuts if study is not None else ()
        self.spots = spots(study.findings if study is not None else ())
        self.doubts = doubts(study.not_judged if study is not None else ())
        for pipe in pipes:
            if pipe.system == "waste" and pipe.shape == "level" and pipe.start.level == UNDER:
                key = ("flow", pipe.start, pipe.end)
                runs[key] = pipe.run
                wanted[key] = partial(flow_badge, _middle(pipe), pipe.heading)
        for at in joints(pipes):
            wanted[("flow", at)] = partial(joint_badge, at)
        for cut in cuts:
            wanted[("crossings", cut.at, cut.legal, _cut_words(cut))] = partial(_cut_item, cut)
        for doubt in self.doubts:
            wanted[("not_judged", doubt.at, doubt.words)] = partial(_doubt_item, doubt)
        for spot in self.spots:
            wanted[("findings", spot.at, spot.weight, _spot_words(spot))] = partial(_spot_item, spot)
        badges = (Mark(spot.at, (LIFT.x(), -LIFT.y()), BADGE) for spot in self.spots)
        quiet = (Mark(doubt.at, (ASIDE.x(), -ASIDE.y()), DOUBT) for doubt in self.doubts)
        self.marked = (*(Mark(cut.at) for cut in cuts), *badges, *quiet)
        self._sync(wanted)
        self._runs = runs

    def fit(self, scale: float) -> None:
        """Draw the marks smaller from far away, and no arrowheads where the pipe is too short on the screen."""
        size = min(1.0, scale / FULL_SIZE_FROM)
        self.badge_size = max(LEAST_BADGE, size)
        for key, item in self._items.items():
            item.setScale(self.badge_size if _layer(key) in ("findings", "not_judged") else max(LEAST_SIZE, size))
        for key, run in self._runs.items():
            self._items[key].setVisible("flow" not in self._hidden and run * scale >= LEAST_FLOW)

    def hide_layers(self, names: frozenset[str]) -> None:
        """Hide the marks of these layers, show the others."""
        self._hidden = names
        for key, item in self._items.items():
            item.setVisible(_layer(key) not in names)

    def near(self, at: Point, reach: float) -> Spot | None:
        """The mark of findings nearest to a plan point within `reach` inches."""
        near = [spot for spot in self.spots if math.dist(spot.at, at) <= reach]
        return min(near, key=lambda spot: math.dist(spot.at, at), default=None)

    def doubt_near(self, at: Point, reach: float) -> Doubt | None:
        """The mark of what could not be judged nearest to a plan point within `reach` inches."""
        near = [doubt for doubt in self.doubts if math.dist(doubt.at, at) <= reach]
        return min(near, key=lambda doubt: math.dist(doubt.at, at), default=None)

    def shown(self, layer: str) -> int:
        """How many marks of a layer are on show."""
        return sum(1 for key, item in self._items.items() if _layer(key) == layer and item.isVisible())

    def clear(self) -> None:
        """Take all marks away."""
        self._sync({})
        self._runs, self.spots, self.doubts, self.marked = {}, (), (), ()

    def _sync(self, wanted: dict[Hashable, Callable[[], QGraphicsPathItem]]) -> None:
        for key in [key for key in self._items if key not in wanted]:
            self._scene.removeItem(self._items.pop(key))
        for key, make in wanted.items():
            if key not in self._items:
                item = make()
                item.setZValue(HEIGHT_OF[_layer(key)])
                item.setVisible(_layer(key) not in self._hidden)
                self._scene.addItem(item)
                self._items[key] = item


def spots(findings: Iterable[Finding]) -> tuple[Spot, ...]:
    """Findings gathered by place, each place with its heaviest weight."""
    places: list[tuple[Point, list[Finding]]] = []
    for finding in findings:
        at = (finding.at[0], finding.at[1])
        for place, members in places:
            if math.dist(place, at) < TOGETHER:
                members.append(finding)
                break
        else:
            places.append((at, [finding]))
    made = []
    for place, members in places:
        members.sort(key=lambda finding: WEIGHTS.index(finding.weight))
        made.append(Spot(place, members[0].weight, tuple(members)))
    return tuple(made)


def joints(pipes: Iterable[Pipe]) -> tuple[Point, ...]:
    """The places under the floor where three or more level pipes meet."""
    ends = Counter(node for pipe in pipes if pipe.shape == "level" for node in (pipe.start, pipe.end))
    return tuple((node.x, node.y) for node, count in ends.items() if node.level == UNDER and count > 2)


def _layer(key: Hashable) -> str:
    assert isinstance(key, tuple)  # every key begins with its layer
    return str(key[0])


def _middle(pipe: Pipe) -> Point:
    return ((pipe.start.x + pipe.end.x) / 2.0, (pipe.start.y + pipe.end.y) / 2.0)


def _cut_item(cut: JoistCut) -> QGraphicsPathItem:
    item = crossing_badge(cut.at, cut.legal)
    item.setToolTip(_cut_words(cut))
    return item


def _spot_item(spot: Spot) -> QGraphicsPathItem:
    item = finding_badge(spot.at, spot.weight, len(spot.findings))
    item.setToolTip(_spot_words(spot))
    return item


def _doubt_item(doubt: Doubt) -> QGraphicsPathItem:
    item = doubt_badge(doubt.at)
    item.setToolTip(doubt.words)
    return item


def _cut_words(cut: JoistCut) -> str:
    verdict = {True: "holds", False: "does not hold", None: "not judged"}[cut.legal]
    across = f"{inches(cut.diameter)} in" if cut.bit is None else f"{cut.bit} in bit"
    what = f"bore, {across}" if cut.kind == "bore" else f"notch {inches(cut.depth)} in deep"
    if len(cut.elements) > 1:
        what += f" round {listed(cut.elements)}"
    where = f"{inches(cut.down_from_top)} in down from the joist's top, {inches(cut.from_start)} in along it"
    return "\n".join(
        (f"{cut.joist}: {what}, {where}", f"{verdict}: {', '.join(cut.faults)}" if cut.faults else verdict)
    )


def _spot_words(spot: Spot) -> str:
    lines = []
    for finding in spot.findings:
        lines.append(f"{finding.weight}: {finding.text}")
        if finding.mend:
            lines.append(f"   {finding.mend}")
    return "\n".join(lines)
