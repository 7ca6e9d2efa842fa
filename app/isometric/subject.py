"""What the isometric window shows: one study's drains or water, hung up once, then drawn at any zoom."""

from __future__ import annotations

from collections.abc import Sequence

from engine.drawings.isometric.axes import project
from engine.drawings.isometric.figure import Figure
from engine.drawings.isometric.labelling import Label, Wish, seat, wishes
from engine.drawings.isometric.levels import Places, settle
from engine.drawings.isometric.sheets import RISES, least_lengths, skeleton
from engine.drawings.isometric.skeleton import Cover
from engine.drawings.isometric.telling import Told, parts_told, pipes_told
from engine.drawings.isometric.views import best_turn
from engine.drawings.isometric.wording import Wording
from engine.drawings.labels import Box
from engine.drawings.typeface import CAP_HEIGHT
from engine.study import Study

PIXELS = 112.0
"""Pixels that one inch of paper takes on a screen at scale 1."""

TYPE_PIXELS = 12
"""Size of the type, pixels."""

LETTERING = TYPE_PIXELS * CAP_HEIGHT / PIXELS
"""Height of its capitals, paper inches."""

FARTHEST = 0.66
"""A label without a bare place within this distance waits until one comes nearer, paper inches."""

USUAL_SCALE = 1.0 / 26.0
"""The scale for which short lengths are drawn out, paper inches an inch of the building."""

RISE = RISES[2]
"""Risers bare for longer than this are broken, inches of the building."""


class Subject:
    """One study from one corner. `told` are its pipes and parts in words, `elements_of` what each belongs to."""

    def __init__(self, study: Study, cover: Cover, turn: int | None = None) -> None:
        self.cover: Cover = cover
        self.bones = skeleton(study, cover)
        self._wording = Wording(study, self.bones)
        self.places: Places = settle(self.bones, least_lengths(self.bones, USUAL_SCALE, 1.0), RISE)
        self.turn = best_turn(self.bones, self.places) if turn is None else turn
        self.told: tuple[tuple[Told, ...], tuple[Told, ...]] = (pipes_told(study, cover), parts_told(study, cover))
        self.lines = {told.name: told.text for group in self.told for told in group}
        self.elements_of = {told.name: told.elements for group in self.told for told in group}

    @property
    def empty(self) -> bool:
        """Whether there is nothing to draw."""
        return not self.bones.joints

    def extent(self) -> Box:
        """What the joints cover, inches of the building as drawn from this corner."""
        us, vs = zip(*(project(at, self.turn) for at in self.places.at.values()), strict=True)
        return Box(min(us), min(vs), max(us), max(vs))

    def figure(self, scale: float) -> Figure:
        """The picture at a scale in paper inches an inch of the building; its origin is the floor's."""
        return Figure(self.bones, self.places, self.turn, scale, (0.0, 0.0), 1.0, LETTERING)

    def labels(self, figure: Figure, window: Box) -> list[Label]:
        """The labels that have a bare place in a part of the paper."""
        wanted = [wish for wish in wishes(figure, self._wording) if _inside(wish, window)]
        found: Sequence[Label | None] = seat(figure, wanted, window, LETTERING, farthest=FARTHEST, hasty=True)
        return [label for label in found if label is not None]


def _inside(wish: Wish, window: Box) -> bool:
    x, y = wish.anchors[0]
    return window.left <= x <= window.right and window.bottom <= y <= window.top
