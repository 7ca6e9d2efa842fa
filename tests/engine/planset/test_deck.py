"""What of the floor lies while pipes are roughed in."""

from __future__ import annotations

from engine.plan.records import Floor, FloorLayer
from engine.planset.deck import deck

_SQUARE = ((0.0, 0.0), (96.0, 0.0), (96.0, 96.0), (0.0, 96.0))


def test_backer_board_and_tile_come_later() -> None:
    told = Floor(
        _SQUARE,
        subfloor=1.0,
        finish=0.375,
        subfloor_layers=(FloorLayer(0.75, "plywood"), FloorLayer(0.25, "backer board")),
        finish_layers=(FloorLayer(0.375, "tile"),),
    )
    assert deck(told) == ("plywood", 0.75, "1/4 in backer board and 3/8 in tile", "1/4 in backer board")
    assert deck(told).top == "the plywood's top"


def test_without_layers_the_subfloor_is_one_thing() -> None:
    assert deck(Floor(_SQUARE, subfloor=0.75, finish=0.25)) == ("subfloor", 0.75, "1/4 in finish", "")
    assert deck(Floor(_SQUARE, subfloor=0.75, finish=0.0)).later == ""
