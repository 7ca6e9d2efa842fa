"""What of the floor's layers lies while pipes are roughed in: the lowest of the subfloor, on which a tape is then stood."""

from __future__ import annotations

from typing import NamedTuple

from engine.lengths import inches
from engine.plan.outline import listed
from engine.plan.records import Floor


class Deck(NamedTuple):
    """What lies on the joists by then: its name, its thickness, and in words what comes over it later; inches.

    `board` is what of that is still subfloor, under whatever finish lies there.
    """

    name: str
    thickness: float
    later: str
    board: str

    @property
    def top(self) -> str:
        """``the plywood's top``."""
        return f"the {self.name}'s top"


def deck(floor: Floor) -> Deck:
    """The lowest layer of the subfloor where its layers are told, else the subfloor as a whole."""
    layers = floor.subfloor_layers
    name, thickness = (
        (layers[0].name or "lowest layer", layers[0].thickness) if layers else ("subfloor", floor.subfloor)
    )
    board = [f"{inches(layer.thickness, 32)} in {layer.name or 'more'}" for layer in layers[1:]]
    finish = [f"{inches(layer.thickness, 32)} in {layer.name or 'more'}" for layer in floor.finish_layers]
    if not finish and floor.finish > 0.0:
        finish.append(f"{inches(floor.finish)} in finish")
    return Deck(name, thickness, listed([*board, *finish]), listed(board))
