"""Which pieces are sawn longer than they will be in the end, by how much, and when they are trimmed."""

from __future__ import annotations

import math

from engine.checks.model import Model
from engine.joinery.records import Piece
from engine.plan.records import Record
from engine.takeoff.assembling.site import left_long
from engine.trade import fixtures as trade
from engine.trade.stock import longest_drain

_SAME = 1.0 / 64.0


class Trim(Record, frozen=True, gc=False):
    """What a piece is left longer by, inches, and until when."""

    extra: float
    why: str


def trims(model: Model) -> dict[str, Trim]:
    """By mark: the stubs under closets and floor outlets, long and capped for the test, and vents through the roof.

    No piece is left longer than the longest stick for sale.
    """
    stubs = {
        f"{fixture.id}.drop"
        for fixture in model.plan.fixtures
        if trade.fixture(fixture.kind).outlet in ("closet", "floor")
    }
    flashings = [part.centre for part in model.joinery.parts if part.kind == "vent_flashing"]
    found: dict[str, Trim] = {}
    for piece in model.joinery.pieces:
        room = max(0.0, longest_drain(model.plan.sticks, piece.size) - piece.cut)
        if piece.pipes[0] in stubs and is_plumb(piece):
            found[piece.mark] = Trim(
                min(left_long("stub"), room), "capped for the test; cut off once the finish stands"
            )
        elif any(math.dist(end, at) < _SAME for end in (piece.start, piece.end) for at in flashings):
            found[piece.mark] = Trim(min(left_long("vent"), room), "cut off above the roof once it is covered")
    return found


def is_plumb(piece: Piece) -> bool:
    """Whether a piece stands plumb."""
    return math.dist(piece.start[:2], piece.end[:2]) < _SAME
