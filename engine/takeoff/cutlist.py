"""The cut list: each piece of drain and vent pipe with its length, its ends, its place and what it rests on."""

from __future__ import annotations

from engine.checks.model import Model
from engine.joinery.records import Part, Piece
from engine.lengths import feet_inches, nearest
from engine.takeoff import partnames
from engine.takeoff.measuring import ITS_OWN_STOP
from engine.takeoff.records import CutRow
from engine.takeoff.trimming import Trim, is_plumb, trims
from engine.trade.fittings import KINDS

RESTS_ON = {
    "measured": "measured",
    "read": "published",
    "derived": "derived",
    "memory": "memory",
    "estimate": "estimate",
    "assumed": "assumed",
}
"""How a take-off is known, as the cut list says it, firm ones first."""

FREE_END = "free end"
_HAIR = 1.0 / 32.0


def cut_list(model: Model) -> tuple[CutRow, ...]:
    """One row for each piece, in the order of the marks: waste from the exit upstream, then vents."""
    parts = {part.id: part for part in model.joinery.parts}
    longer = trims(model)
    return tuple(_row(model, parts, piece, longer.get(piece.mark)) for piece in model.joinery.pieces)


def part_words(parts: dict[str, Part], part: str | None) -> str:
    """What a piece ends in: the fitting's name and size, or a free end."""
    if part is None or part not in parts:
        return FREE_END
    return named(parts[part])


def named(part: Part) -> str:
    """A fitting's name with its size, which a few names hold already."""
    return partnames.named(part.kind, partnames.size_words(part.size))


def _row(model: Model, parts: dict[str, Part], piece: Piece, trim: Trim | None) -> CutRow:
    return CutRow(
        mark=piece.mark,
        system=piece.system,
        material=piece.material,
        size=piece.size,
        length=nearest(piece.cut),
        tolerance=piece.tolerance,
        start=part_words(parts, piece.from_part),
        end=part_words(parts, piece.to_part),
        lies=_lies(model, parts, piece),
        rests_on=RESTS_ON[piece.rests_on],
        unmeasured=_unmeasured(parts, piece),
        note=piece.note,
        extra=trim.extra if trim is not None else 0.0,
        until=trim.why if trim is not None else "",
        plumb=is_plumb(piece),
    )


def _lies(model: Model, parts: dict[str, Part], piece: Piece) -> str:
    """The drawn element, and the two ends of its axis from the west and south outside faces; upright ones by heights."""
    elements = dict.fromkeys(
        model.network.by_id[pipe].element if pipe in model.network.by_id else pipe.split(".")[0] for pipe in piece.pipes
    )
    (x0, y0), (x1, y1) = piece.start[:2], piece.end[:2]
    run = ", ".join(elements)
    if is_plumb(piece):
        foot = parts.get(piece.to_part or "")
        last = foot.centre[2] if foot is not None and foot.kind == "p_trap" else piece.end[2]
        low, high = sorted((piece.start[2], last))
        return f"{run}: plumb at {feet_inches(x0)} E, {feet_inches(y0)} N, {_height(low)} to {_height(high)}"
    return f"{run}: {feet_inches(x0)} E, {feet_inches(y0)} N to {feet_inches(x1)} E, {feet_inches(y1)} N"


def _height(z: float) -> str:
    """A height from the joists' top."""
    if abs(z) < _HAIR:
        return "the joists' top"
    return f"{feet_inches(abs(z))} {'up' if z > 0.0 else 'down'}"


def _unmeasured(parts: dict[str, Part], piece: Piece) -> tuple[str, ...]:
    """The fittings at a piece's ends whose take-off nobody measured."""
    found: dict[str, None] = {}
    for end in (piece.from_part, piece.to_part):
        part = parts.get(end or "")
        if part is None or part.kind in ITS_OWN_STOP or part.kind not in KINDS:
            continue
        own = [port for port in part.ports if port.pipe in piece.pipes] or part.ports
        if any(port.takeoff.standing != "measured" for port in own):
            found[named(part)] = None
    return tuple(found)
