"""isometrics(study, ...): the drains and vents, or the water lines, as isometrics on as few sheets as stay readable."""

from __future__ import annotations

from itertools import chain, count

from engine.drawings.isometric.axes import ACROSS, CORNERS, UPWARD, project
from engine.drawings.isometric.drains import drains
from engine.drawings.isometric.figure import Figure, Shown
from engine.drawings.isometric.labelling import Label, at_anchor, seat, wishes
from engine.drawings.isometric.levels import Least, Places, settle
from engine.drawings.isometric.raster import Raster
from engine.drawings.isometric.shapes import BODY, LEG, TRAP_WIDE
from engine.drawings.isometric.skeleton import Cover, Length, Skeleton
from engine.drawings.isometric.splitting import in_two
from engine.drawings.isometric.views import best_turn
from engine.drawings.isometric.water import water
from engine.drawings.isometric.wording import Wording
from engine.drawings.labels import Box
from engine.drawings.linetypes import MEDIUM
from engine.drawings.strokes import Drawing, Fill, Line, Stroke, Text
from engine.joinery.records import Space
from engine.plan.records import Point, Record
from engine.study import Study

USUAL = 0.07
"""The height of capitals at which everything has its usual size, inches."""

SHORTEST = 0.2
"""No length is drawn shorter, paper inches at the usual lettering."""

RISES = (40.0, 32.0, 26.0, 21.0, 17.0)
"""Risers with nothing on them for longer than one of these are broken, inches of the building: the first that fits."""

FREE_PIPE = 0.1
"""Pipe seen between a trap or a mounted part and the next fitting, paper inches."""

_EDGE_WIDE = 0.62
_EDGE_HIGH = 0.34
_SHARES = (1.0, 0.93)
_HOPELESS = 4
_MOST_PARTINGS = 3
_COMPASS = 0.3


class Isometric(Record, frozen=True, gc=False):
    """One sheet: the drawing, and what of it is which thing of the lists. `turn` is the corner looked from."""

    drawing: Drawing
    shown: tuple[Shown, ...]
    labels: tuple[Label, ...]
    cover: Cover
    turn: int


def skeleton(study: Study, cover: Cover) -> Skeleton:
    """What an isometric of drains and vents, or of water, is hung on."""
    return drains(study) if cover == "drains" else water(study)


def isometrics(
    study: Study, cover: Cover, width: float, height: float, lettering: float = USUAL, turn: int | None = None
) -> tuple[Isometric, ...]:
    """The isometrics that show everything, each `width` by `height` paper inches; none where there are no pipes.

    `turn` is the corner to look from, the clearest one when None. Everything is on one sheet where all labels find
    bare paper there, else on two, and so on.
    """
    bones = skeleton(study, cover)
    if not bones.joints:
        return ()
    return tuple(_on_sheets(study, bones, (width, height), lettering, turn, 0, count()))


def fit(study: Study, cover: Cover, width: float, height: float, lettering: float = USUAL) -> float:
    """The scale that one sheet of this size would have, paper inches an inch of the building; 0 without pipes."""
    bones = skeleton(study, cover)
    if not bones.joints:
        return 0.0
    return _placed(bones, _bounds((width, height), lettering), lettering, None, 1.0)[2]


def _on_sheets(
    study: Study,
    bones: Skeleton,
    paper: tuple[float, float],
    lettering: float,
    turn: int | None,
    parted: int,
    letters: count[int],
) -> list[Isometric]:
    made = _compose(study, bones, paper, lettering, turn)
    if made is not None:
        return [made]
    halves = in_two(bones, letters) if parted < _MOST_PARTINGS else None
    if halves is None:
        return [_crowded(study, bones, paper, lettering, turn)]
    parts = (_on_sheets(study, half, paper, lettering, turn, parted + 1, letters) for half in halves)
    return list(chain.from_iterable(parts))


def _compose(
    study: Study, bones: Skeleton, paper: tuple[float, float], lettering: float, turn: int | None
) -> Isometric | None:
    """A sheet on which every label has its place, at the largest scale that allows it; None where none does."""
    wording = Wording(study, bones)
    for share in _SHARES:
        figure, bounds = _drawn(bones, paper, lettering, turn, share)
        compass = _compass(figure, bounds, lettering)
        wanted = wishes(figure, wording)
        labels = seat(figure, wanted, bounds, lettering, [compass[0]])
        found = [label for label in labels if label is not None]
        if len(found) == len(labels):
            return _finished(figure, found, compass[1], paper, lettering)
        if len(labels) - len(found) > _HOPELESS:
            break
    return None


def _crowded(
    study: Study, bones: Skeleton, paper: tuple[float, float], lettering: float, turn: int | None
) -> Isometric:
    """A sheet that shows everything although some labels lie on other ink."""
    figure, bounds = _drawn(bones, paper, lettering, turn, 1.0)
    compass = _compass(figure, bounds, lettering)
    wanted = wishes(figure, Wording(study, bones))
    labels = seat(figure, wanted, bounds, lettering, [compass[0]])
    found = [label or at_anchor(figure, wish, lettering) for label, wish in zip(labels, wanted, strict=True)]
    return _finished(figure, found, compass[1], paper, lettering)


def _drawn(
    bones: Skeleton, paper: tuple[float, float], lettering: float, turn: int | None, share: float
) -> tuple[Figure, Box]:
    """The figure at a share of the largest scale that leaves room for labels round it, in the middle of its bounds."""
    bounds = _bounds(paper, lettering)
    places, chosen, scale = _placed(bones, bounds, lettering, turn, share)
    left, low, right, high = _extent(places, chosen)
    origin = (
        (bounds.left + bounds.right) / 2.0 - (left + right) / 2.0 * scale,
        (bounds.bottom + bounds.top) / 2.0 - (low + high) / 2.0 * scale,
    )
    return Figure(bones, places, chosen, scale, origin, lettering / USUAL, lettering), bounds


def _bounds(paper: tuple[float, float], lettering: float) -> Box:
    return Box(0.0, _strip_height(lettering), paper[0], paper[1])


def _placed(
    bones: Skeleton, bounds: Box, lettering: float, turn: int | None, share: float
) -> tuple[Places, int, float]:
    """Where the joints are drawn, from which corner, and at which scale; risers are broken until they fit."""
    unit = lettering / USUAL
    room = (
        max(0.5, bounds.right - bounds.left - 2.0 * _EDGE_WIDE * unit),
        max(0.5, bounds.top - bounds.bottom - 2.0 * _EDGE_HIGH * unit),
    )
    places = settle(bones, lambda _: 0.0, RISES[0])
    chosen = best_turn(bones, places) if turn is None else turn
    scale = _scale(_extent(places, chosen), room) * share
    for rise in RISES:
        places = settle(bones, least_lengths(bones, scale, unit), rise)
        extent = _extent(places, chosen)
        scale = _scale(extent, room) * share
        if scale * (extent[3] - extent[1]) < room[1] * share * 0.98:
            break
    return places, chosen, scale


def least_lengths(bones: Skeleton, scale: float, unit: float) -> Least:
    """How short each length may be drawn at a scale (paper inches an inch), in inches of the building."""
    traps = {key for key, joint in bones.joints.items() if any(part.kind == "p_trap" for part in joint.fittings)}
    mounted: dict[str, int] = {}
    for made in bones.mounts:
        if made.toward is not None and bones.cover == "drains":
            mounted[made.joint] = mounted.get(made.joint, 0) + 1

    def least(length: Length) -> float:
        paper = SHORTEST
        if length.what == "part":
            paper = TRAP_WIDE + FREE_PIPE + LEG + BODY * mounted.get(length.end, 0)
        elif length.shape == "level" and length.start in traps:
            paper = TRAP_WIDE + FREE_PIPE + LEG
        return paper * unit / scale

    return least


def _extent(places: Places, turn: int) -> tuple[float, float, float, float]:
    """What the joints cover: left, low, right, high, in inches of the building."""
    us, vs = zip(*(project(at, turn) for at in places.at.values()), strict=True)
    return min(us), min(vs), max(us), max(vs)


def _scale(extent: tuple[float, float, float, float], room: tuple[float, float]) -> float:
    """Paper inches an inch of the building."""
    wide, high = extent[2] - extent[0], extent[3] - extent[1]
    return min(room[0] / max(wide, 12.0), room[1] / max(high, 12.0))


def _finished(
    figure: Figure, labels: list[Label], compass: list[Stroke], paper: tuple[float, float], lettering: float
) -> Isometric:
    strokes: list[Stroke] = [line for label in labels for line in label.strokes if line is label.leader]
    strokes += figure.ink()
    strokes += [stroke for label in labels for stroke in label.strokes if stroke is not label.leader]
    strokes += compass
    strokes += _strip(figure, lettering)
    drawing = Drawing(tuple(strokes), *paper, (0.0, 0.0, *paper), "not to scale")
    return Isometric(drawing, tuple(figure.shown), tuple(labels), figure.bones.cover, figure.turn)


def _strip_height(lettering: float) -> float:
    return 2.4 * lettering


def _strip(figure: Figure, lettering: float) -> list[Stroke]:
    """The line under the drawing: where the looker stands, and how lengths are to be taken."""
    words = (
        f"SEEN FROM THE {CORNERS[figure.turn].upper()}, NOT TO SCALE. Level pipes are drawn without their grade; short "
        "lengths are drawn out, long risers broken. Heights count from the finished floor."
    )
    return [Text((0.05, lettering * 0.5), words, lettering * 0.95)]


def _compass(figure: Figure, bounds: Box, lettering: float) -> tuple[Box, list[Stroke]]:
    """North, east and up as they lie here, in the corner of the sheet that is barest; with the box they take."""
    reach = _COMPASS * figure.unit
    wide, high = reach * (2.0 * ACROSS) + 4.0 * lettering, reach * (1.0 + 2.0 * UPWARD) + 3.4 * lettering
    ink = Raster(bounds)
    for stroke in figure.ink():
        ink.cover_stroke(stroke, lettering)
    corners = [
        Box(left, low, left + wide, low + high)
        for left in (bounds.left, bounds.right - wide)
        for low in (bounds.bottom, bounds.top - high)
    ]
    box = next((corner for corner in corners if ink.bare(corner)), corners[0])
    centre = ((box.left + box.right) / 2.0, box.bottom + reach * 2.0 * UPWARD + 1.6 * lettering)
    strokes: list[Stroke] = []
    ways: tuple[tuple[str, Space], ...] = (("N", (0.0, 1.0, 0.0)), ("E", (1.0, 0.0, 0.0)), ("UP", (0.0, 0.0, 1.0)))
    for letters, toward in ways:
        u, v = project(toward, figure.turn)
        strokes += _pointer(centre, (u, v), reach, letters, lettering)
    return box, strokes


def _pointer(at: Point, way: Point, reach: float, letters: str, lettering: float) -> list[Stroke]:
    tip = (at[0] + way[0] * reach, at[1] + way[1] * reach)
    half, back = reach * 0.1, reach * 0.32
    tail = (tip[0] - way[0] * back, tip[1] - way[1] * back)
    head = (tip, (tail[0] - way[1] * half, tail[1] + way[0] * half), (tail[0] + way[1] * half, tail[1] - way[0] * half))
    beyond = (tip[0] + way[0] * lettering * 1.1, tip[1] + way[1] * lettering * 1.1 - lettering / 2.0)
    return [Line((at, tip), MEDIUM), Fill(head, 0.0), Text(beyond, letters, lettering, "middle", bold=letters == "N")]
