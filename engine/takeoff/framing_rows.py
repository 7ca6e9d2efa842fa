"""The floor's framing as whoever lays it out needs it: every stick by its faces and ends, from one datum.

The datum is the floor's outside south-west corner: the line of its westmost and that of its southmost outside face.
"""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.framing.records import Joist
from engine.lengths import feet_inches, inches
from engine.plan.outline import listed
from engine.plan.records import DoubledJoist, JoistField, Point, Record, Wall
from engine.takeoff.naming import joist_words
from engine.trade.lumber import actual

_EXACT = 1.0 / 1024.0


class Framed(Record, frozen=True, gc=False):
    """One stick, or one line that bears; lengths in inches.

    Across itself it lies between the faces `near` and `far`, along itself from `first` to `last`, all counted from the
    datum: from the west for a stick that runs north-south (`northward`), else from the south. `mark` is the centre of the
    ply that is laid out first. `depth` and `top` (down from the joists' top) are None for what has none here. `remark` says
    what sets it apart. One that lies `aslant` has the box round its centre line for faces and ends.
    """

    name: str
    kind: str
    field: str
    northward: bool
    near: float
    far: float
    mark: float
    first: float
    last: float
    length: float
    depth: float | None
    top: float | None
    plies: int
    remark: str
    aslant: bool = False


class BlockRow(Record, frozen=True, gc=False):
    """A row of blocks in line: its faces from the datum, and each length with the blocks cut to it."""

    name: str
    northward: bool
    near: float
    far: float
    blocks: tuple[tuple[float, tuple[str, ...]], ...]


def datum(model: Model) -> Point:
    """Where all figures run from: the floor's westmost and southmost outside faces."""
    xs, ys = zip(*model.plan.floor.outline, strict=True)
    return min(xs), min(ys)


def corners(model: Model) -> tuple[Point, ...]:
    """The floor's corners from the datum, round it from the one nearest to the datum on."""
    west, south = datum(model)
    found = [(x - west, y - south) for x, y in model.plan.floor.outline]
    first = min(range(len(found)), key=lambda n: (found[n][0] + found[n][1], found[n]))
    return tuple(found[first:] + found[:first])


def running(model: Model) -> tuple[Framed, ...]:
    """The sticks that run the joists' way, field by field and from the datum on."""
    order = {field.id: n for n, field in enumerate(model.plan.fields)}
    found = [_stick(model, joist) for joist in model.framing.joists if joist.runs]
    return tuple(sorted(found, key=lambda one: (order[one.field], one.near, one.first)))


def crossing(model: Model) -> tuple[Framed, ...]:
    """Rims and headers, field by field and from the datum on."""
    order = {field.id: n for n, field in enumerate(model.plan.fields)}
    found = [_stick(model, joist) for joist in model.framing.joists if joist.kind in ("rim", "header")]
    return tuple(sorted(found, key=lambda one: (order[one.field], one.near, one.first)))


def bearing(model: Model) -> tuple[Framed, ...]:
    """What lies under the joists and what stands on them: beams, bearing lines, walls."""
    beams = [_stick(model, beam) for beam in model.framing.beams]
    lines = [one for field in model.plan.fields for one in _lines(model, field)]
    return (*beams, *lines, *(_wall(model, wall) for wall in model.plan.walls if wall.start != wall.end))


def block_rows(model: Model) -> tuple[BlockRow, ...]:
    """Every row of blocks, with what its blocks are cut to."""
    rows: dict[tuple[str, int], list[Joist]] = {}
    for joist in model.framing.joists:
        if joist.kind == "block":
            rows.setdefault((joist.field, joist.number), []).append(joist)
    return tuple(_row(model, blocks) for blocks in rows.values())


def _row(model: Model, blocks: list[Joist]) -> BlockRow:
    first = _stick(model, blocks[0])
    lengths: dict[float, list[str]] = {}
    for block in blocks:
        lengths.setdefault(round(block.length, 4), []).append(block.id.rpartition("-")[2])
    name = joist_words(model, blocks[0]).partition(" of ")[2]
    cut = tuple((length, tuple(names)) for length, names in sorted(lengths.items(), reverse=True))
    return BlockRow(name, first.northward, first.near, first.far, cut)


def _stick(model: Model, joist: Joist) -> Framed:
    field = next((one for one in model.plan.fields if one.id == joist.field), None)
    northward = abs(joist.along[1]) > abs(joist.along[0])
    (a0, b0), (a1, b1) = (_turned(model, point, northward) for point in (joist.start, joist.end))
    across, ends = sorted((a0, a1)), sorted((b0, b1))
    half = joist.thickness / 2.0
    doubled = _doubled(field, joist)
    ply = joist.thickness / joist.plies / 2.0
    mark = across[1] + half - ply if doubled is not None and doubled.side == "west or south" else across[0] - half + ply
    return Framed(
        name=joist_words(model, joist),
        kind=joist.kind,
        field=joist.field,
        northward=northward,
        near=across[0] - half,
        far=across[1] + half,
        mark=mark if joist.plies > 1 and doubled is not None else (across[0] + across[1]) / 2.0,
        first=ends[0],
        last=ends[1],
        length=joist.length,
        depth=joist.depth,
        top=-joist.top,
        plies=joist.plies,
        remark="; ".join(_remarks(field, joist, doubled)),
        aslant=0.0 not in joist.along,
    )


def _turned(model: Model, point: Point, northward: bool) -> Point:
    """A point from the datum: across a stick's way, along it."""
    west, south = datum(model)
    x, y = point[0] - west, point[1] - south
    return (x, y) if northward else (y, x)


def _doubled(field: JoistField | None, joist: Joist) -> DoubledJoist | None:
    """What the field says of a counted joist's plies."""
    if field is None or not _counted(joist):
        return None
    return next((one for one in field.doubled if one.number == joist.number), None)


def _counted(joist: Joist) -> bool:
    """Whether a field's words on a numbered joist are meant for this one."""
    return joist.kind in ("common", "end", "tail") and "side-" not in joist.id


def _remarks(field: JoistField | None, joist: Joist, doubled: DoubledJoist | None) -> Iterator[str]:
    if field is None:
        yield {"sawn": "wood", "steel": "steel", "engineered": "engineered wood"}[joist.member]
        return
    high, low = ("east", "west") if field.direction == "north-south" else ("north", "south")
    if joist.plies > 1:
        more = f"{joist.plies - 1} more" if joist.plies > 2 else "the second"
        side = "" if doubled is None else f", {more} on its {high if doubled.side == 'east or north' else low} side"
        yield f"{joist.plies} plies{side}"
    shift = next((one.by for one in field.shifts if one.number == joist.number), 0.0) if _counted(joist) else 0.0
    if shift:
        yield f"shifted {inches(abs(shift))} in {high if shift > 0.0 else low}"
    usual = actual(field.lumber).depth if field.depth is None else field.depth
    if joist.depth != usual or (field.depth is not None and joist.depth == field.depth):
        yield "depth as measured"
    if joist.kind == "tail":
        yield "hangs on a header"


def _lines(model: Model, field: JoistField) -> Iterator[Framed]:
    """A field's bearing lines, which lie across its joists."""
    northward = field.direction != "north-south"
    (across, along), size = _turned(model, field.corner, northward), field.size
    reach = size[1] if northward else size[0]
    for centre in field.bearings:
        at = across + centre
        yield Framed(
            "bearing line", "bearing", field.id, northward, at, at, at, along, along + reach, reach, None, None, 1, ""
        )


def _wall(model: Model, wall: Wall) -> Framed:
    northward = abs(wall.end[1] - wall.start[1]) > abs(wall.end[0] - wall.start[0])
    (a0, b0), (a1, b1) = (_turned(model, point, northward) for point in (wall.start, wall.end))
    half = actual(wall.lumber).depth / 2.0
    across, ends = sorted((a0, a1)), sorted((b0, b1))
    return Framed(
        name=wall.name or f"wall {wall.id}",
        kind="wall",
        field=wall.id,
        northward=northward,
        near=across[0] - half,
        far=across[1] + half,
        mark=(across[0] + across[1]) / 2.0,
        first=ends[0],
        last=ends[1],
        length=ends[1] - ends[0],
        depth=None,
        top=None,
        plies=1,
        remark=f"{wall.lumber} studs, {'bears on the floor' if wall.bearing else 'bears nothing'}",
        aslant=across[1] - across[0] > _EXACT,
    )


def layout_words(model: Model, field: JoistField) -> str:
    """How a field's joists are laid out, in a sentence: lumber, spacing, where the first centre is, overhangs."""
    high, low = ("east", "west") if field.direction == "north-south" else ("north", "south")
    ends = ("south", "north") if field.direction == "north-south" else ("west", "east")
    axis = 0 if field.direction == "north-south" else 1
    first = field.spacing if field.first is None else field.first
    off = field.corner[axis] - datum(model)[axis]
    said = [
        f"{field.lumber}, {inches(field.spacing)} in on centre, running {field.direction}, counted from the {low}; the first "
        f"one's centre lies {feet_inches(first + off)} from the {low}, and the layout runs on {high}ward from there"
    ]
    for end, reach in zip(ends, field.overhangs, strict=True):
        if reach:
            said.append(f"the {end} ends stand {feet_inches(reach)} out past the outside of their bearing")
    gone = _left_out(model, field)
    if gone:
        one = len(gone) == 1
        said.append(
            f"number{'' if one else 's'} {listed(map(str, gone))} {'has' if one else 'have'} no joist of "
            f"{'its' if one else 'their'} own: a trimmer or side joist is there"
        )
    return "; ".join(said) + "."


def _left_out(model: Model, field: JoistField) -> list[int]:
    """The numbers of the layout at which no joist stands, since another stick took its place."""
    mine = [joist for joist in model.framing.joists if joist.field == field.id and joist.runs]
    there = {joist.number for joist in mine if joist.kind in ("common", "tail")}
    ends = [joist.number - 1 for joist in mine if joist.kind == "end" and _counted(joist)]
    return [number for number in range(1, max((*there, *ends), default=0) + 1) if number not in there]
