"""Setting texts beside what they name: each takes the first of its places that is free at the present zoom.

Places are tried on a raster of the screen's pixels: lines and marks are put in first, then the texts one by
one: names, heights, what lies between them, and the rest. A text that finds no free place stands off at the end of a
line, is set all the same or is left out, as its tag says.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from PySide6.QtCore import QRectF
from PySide6.QtGui import QBrush, QPen, QTransform
from PySide6.QtWidgets import QGraphicsItem, QGraphicsLineItem, QGraphicsScene, QGraphicsSimpleTextItem

from app import palette
from app.canvas.picture import HEIGHT_OF, Seat, Tag, Turn
from app.canvas.places import to_scene
from engine.plan.records import Point

CELL = 6.0
"""Side of a cell of the raster, pixels."""

GAP = 3.0
"""Pixels between ink and text."""

LEADS = (26.0, 40.0, 56.0, 74.0, 96.0, 120.0, 150.0, 185.0)
"""How far from its place a text may stand off, pixels from the place to the text's edge; nearest first."""

AROUND = 24
"""In so many directions a text may stand off."""

HALO = 3.0
"""Width of the ground's colour round each letter, pixels."""

Cell = tuple[int, int]


class Spot(NamedTuple):
    """A mark that keeps its size on the screen: its plan point, pixels it is off east and north, half its height."""

    at: Point
    off: tuple[float, float] = (0.0, 0.0)
    reach: float = CELL


class Letter:
    """One text on the canvas."""

    def __init__(self, tag: Tag, scene: QGraphicsScene) -> None:
        self.tag = tag
        self.item = QGraphicsSimpleTextItem(tag.text)
        font = palette.lettering(tag.pixels, tag.bold)
        halo = QGraphicsSimpleTextItem(tag.text, self.item)
        for item in (self.item, halo):
            item.setFont(font)
        halo.setPen(QPen(palette.shade(palette.GROUND, 230), HALO))
        halo.setBrush(palette.shade(palette.GROUND))
        halo.setFlag(QGraphicsItem.GraphicsItemFlag.ItemStacksBehindParent)
        self.item.setBrush(QBrush(palette.shade(tag.colour)))
        self.item.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self.item.setVisible(False)
        self.item.setZValue(HEIGHT_OF[tag.layer])
        ink = self.item.boundingRect()
        self.width, self.height = ink.width(), ink.height()
        scene.addItem(self.item)
        self._scene = scene
        self.leader: QGraphicsLineItem | None = None

    def show(self, seat: Seat | None, scale: float) -> None:
        """Set the text at a place, on a leader where it stands off; None leaves it out."""
        self.item.setVisible(seat is not None)
        self._drop_leader()
        if seat is not None:
            self.put(seat, scale)
            if seat.off is not None:
                self._lead(seat)

    def remove(self) -> None:
        """Take the text and its leader out of the scene."""
        self._drop_leader()
        self._scene.removeItem(self.item)

    def _drop_leader(self) -> None:
        if self.leader is not None:
            self._scene.removeItem(self.leader)
            self.leader = None

    def _lead(self, seat: Seat) -> None:
        east, north = self.foot(seat)
        self.leader = QGraphicsLineItem(0.0, 0.0, east, -north)
        self.leader.setPen(palette.pen(self.tag.colour, 0.9))
        self.leader.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self.leader.setPos(to_scene(seat.at))
        self.leader.setZValue(self.item.zValue())
        self._scene.addItem(self.leader)

    def foot(self, seat: Seat) -> tuple[float, float]:
        """Where a leader meets the text: the nearest of its box to the place, pixels east and north of the place."""
        east, north = seat.off if seat.off is not None else (0.0, 0.0)
        half_w, half_h = self.width / 2.0 + 1.0, self.height / 2.0 - 2.0
        return _toward_zero(east, half_w), _toward_zero(north, half_h)

    def leads(self) -> Iterator[Seat]:
        """The places where the text may stand off from the first of its own, nearest first."""
        if not self.tag.seats:
            return
        at = self.tag.seats[0].at
        for reach in (length for length in LEADS if length <= self.tag.leads):
            for step in range(AROUND):
                turn = 2.0 * math.pi * (step + 0.5) / AROUND
                c, s = math.cos(turn), math.sin(turn)
                off = (c * (reach + self.width / 2.0), s * (reach + self.height / 2.0))
                yield Seat(at, off=off)

    def put(self, seat: Seat, scale: float) -> None:
        """Move the text to a place; `scale` is pixels an inch."""
        along, up = self._shift(seat, scale)
        turned = QTransform().rotate(-upright(seat.heading))
        self.item.setPos(to_scene(seat.at))
        self.item.setTransform(turned.translate(along - self.width / 2.0, -up - self.height / 2.0))

    def cells(self, seat: Seat, scale: float) -> Iterator[Cell]:
        """The cells that the text would cover there."""
        along, up = self._shift(seat, scale)
        turn = math.radians(upright(seat.heading))
        c, s = math.cos(turn), math.sin(turn)
        x0, y0 = seat.at[0] * scale, seat.at[1] * scale
        half_w, half_h = self.width / 2.0, self.height / 2.0 - 1.0
        columns, rows = math.ceil(self.width / CELL * 1.2), math.ceil(self.height / CELL * 1.2)
        for i in range(columns + 1):
            u = along - half_w + 2.0 * half_w * i / columns
            for j in range(rows + 1):
                v = up - half_h + 2.0 * half_h * j / rows
                yield (int((x0 + u * c - v * s) // CELL), int((y0 + u * s + v * c) // CELL))

    def box(self, scale: float) -> QRectF:
        """The rectangle round the text where it is now, in pixels from the scene's origin."""
        ink = self.item.transform().mapRect(QRectF(0.0, 0.0, self.width, self.height))
        return ink.translated(self.item.pos() * scale)

    def _shift(self, seat: Seat, scale: float) -> tuple[float, float]:
        """Pixels along the reading direction and up from the place's point to the text's middle."""
        if seat.off is not None:
            return seat.off
        reach = seat.clear * scale + GAP
        along = seat.anchor * (reach + self.width / 2.0)
        return along, seat.side * (reach + self.height / 2.0)


class Lettering:
    """All texts of the canvas, by the key of what they name."""

    def __init__(self, scene: QGraphicsScene) -> None:
        self._scene = scene
        self._letters: dict[str, list[Letter]] = {}
        self._lines: dict[str, tuple[tuple[Point, Point], ...]] = {}
        self._marks: dict[str, tuple[Spot, ...]] = {}
        self._hidden: frozenset[str] = frozenset()
        self._scale = 1.0

    def keep(self, key: str, tags: Iterable[Tag], lines: tuple[tuple[Point, Point], ...] = ()) -> None:
        """Take these texts, and the lines that all texts keep off, in place of the key's last ones."""
        self.drop(key)
        made = [Letter(tag, self._scene) for tag in tags]
        if made:
            self._letters[key] = made
        if lines:
            self._lines[key] = lines

    def mark(self, key: str, spots: tuple[Spot, ...]) -> None:
        """Take these as marks that all texts keep off, in place of the key's last ones."""
        self._marks[key] = spots

    def drop(self, key: str) -> None:
        """Forget a key's texts and lines."""
        for letter in self._letters.pop(key, ()):
            letter.remove()
        self._lines.pop(key, None)

    def drop_all(self, prefix: str) -> None:
        """Forget every key that begins so."""
        for key in [key for key in self._letters if key.startswith(prefix)]:
            self.drop(key)

    def hide_layers(self, names: frozenset[str]) -> None:
        """Leave out the texts of these layers at the next arranging."""
        self._hidden = names

    def arrange(self, scale: float) -> None:
        """Give every text a place for a zoom of `scale` pixels an inch."""
        self._scale = scale
        taken = set(self._ink(scale))
        words: set[Cell] = set()
        letters = [letter for group in self._letters.values() for letter in group]
        for letter in sorted(letters, key=lambda letter: _turn(letter.tag)):
            seat = None if letter.tag.layer in self._hidden else self._seat(letter, scale, taken, words)
            letter.show(seat, scale)
            if seat is not None:
                own = set(letter.cells(seat, scale))
                taken |= own
                words |= own
                if seat.off is not None:
                    words.update(_leader_cells(letter, seat, scale))

    def count(self) -> int:
        """How many texts there are, shown or not."""
        return sum(map(len, self._letters.values()))

    def shown(self) -> tuple[str, ...]:
        """The texts that have a place now."""
        return tuple(letter.tag.text for group in self._letters.values() for letter in group if letter.item.isVisible())

    def leaders(self) -> tuple[Point, ...]:
        """The places from which a text stands off at the end of a line."""
        letters = (letter for group in self._letters.values() for letter in group)
        return tuple(letter.tag.seats[0].at for letter in letters if letter.leader is not None)

    def boxes(self) -> tuple[tuple[str, QRectF], ...]:
        """Each text that has a place, with the rectangle of its ink in pixels from the scene's origin."""
        return tuple(
            (letter.tag.text, letter.box(self._scale))
            for group in self._letters.values()
            for letter in group
            if letter.item.isVisible()
        )

    def _seat(self, letter: Letter, scale: float, taken: set[Cell], words: set[Cell]) -> Seat | None:
        fits = [seat for seat in letter.tag.seats if seat.room is None or seat.room * scale >= letter.width + 2.0 * GAP]
        for seat in fits:
            if taken.isdisjoint(letter.cells(seat, scale)) and words.isdisjoint(letter.cells(seat, scale)):
                return seat
        crossing: Seat | None = None
        for seat in letter.leads():
            if taken.isdisjoint(letter.cells(seat, scale)) and words.isdisjoint(letter.cells(seat, scale)):
                if words.isdisjoint(_leader_cells(letter, seat, scale)):
                    return seat
                crossing = crossing or seat
        if crossing is not None:
            return crossing
        if letter.tag.urgent and fits:
            return next((seat for seat in fits if words.isdisjoint(letter.cells(seat, scale))), fits[0])
        return None

    def _ink(self, scale: float) -> Iterator[Cell]:
        for lines in self._lines.values():
            for start, end in lines:
                steps = max(1, math.ceil(math.dist(start, end) * scale / CELL * 1.5))
                for k in range(steps + 1):
                    x = start[0] + (end[0] - start[0]) * k / steps
                    y = start[1] + (end[1] - start[1]) * k / steps
                    yield (int(x * scale // CELL), int(y * scale // CELL))
        for spots in self._marks.values():
            for (x, y), (east, north), reach in spots:
                cells = math.ceil(reach / CELL)
                left, low = int((x * scale + east) // CELL), int((y * scale + north) // CELL)
                for i in range(-cells, cells + 1):
                    for j in range(-cells, cells + 1):
                        yield (left + i, low + j)


def _turn(tag: Tag) -> int:
    """When a text takes its place; an urgent one with the heights at the latest."""
    return min(tag.turn, Turn.HEIGHT) if tag.urgent else tag.turn


def _leader_cells(letter: Letter, seat: Seat, scale: float) -> Iterator[Cell]:
    """The cells under a leader, its beginning at the place left out."""
    east, north = letter.foot(seat)
    steps = max(1, math.ceil(math.hypot(east, north) / CELL * 1.5))
    for k in range(2, steps + 1):
        x, y = seat.at[0] * scale + east * k / steps, seat.at[1] * scale + north * k / steps
        yield (int(x // CELL), int(y // CELL))


def _toward_zero(value: float, half: float) -> float:
    """The nearest to 0 of the numbers within `half` of a value."""
    return math.copysign(max(0.0, abs(value) - half), value)


def upright(heading: float) -> float:
    """The heading along which a text on that line is read without turning one's head: above -90, at most 90."""
    turned = math.fmod(heading, 180.0)
    if turned > 90.0:
        turned -= 180.0
    return turned + 180.0 if turned <= -90.0 else turned
