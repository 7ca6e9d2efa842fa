"""Edits: pure functions from plan to plan, which share what did not change and raise EditError when they can't."""

from engine.plan.edits.elements import (
    LETTERS,
    add,
    add_new,
    delete,
    find,
    fresh_id,
    rename,
    replace,
    require_sound,
    set_field,
    set_fields,
    set_floor,
    set_plan,
)
from engine.plan.edits.errors import EditError
from engine.plan.edits.islands import turn_over
from engine.plan.edits.moving import move, turn
from engine.plan.edits.notes import (
    add_ruling,
    amend,
    drop_amendment,
    drop_measure,
    drop_ruling,
    drop_stick,
    measure,
    put_on_hand,
    sell,
    take_off_hand,
)
from engine.plan.edits.outline import set_outline
from engine.plan.edits.runs import join, join_ends, merge, reverse, split
from engine.plan.edits.vertices import delete_point, insert_point, move_point, rotate_fixture
from engine.plan.edits.whole import mirrored, quarter_turned, shift

__all__ = [
    "LETTERS",
    "EditError",
    "add",
    "add_new",
    "add_ruling",
    "amend",
    "delete",
    "delete_point",
    "drop_amendment",
    "drop_measure",
    "drop_ruling",
    "drop_stick",
    "find",
    "fresh_id",
    "insert_point",
    "join",
    "join_ends",
    "measure",
    "merge",
    "mirrored",
    "move",
    "move_point",
    "put_on_hand",
    "quarter_turned",
    "rename",
    "replace",
    "require_sound",
    "reverse",
    "rotate_fixture",
    "sell",
    "set_field",
    "set_fields",
    "set_floor",
    "set_outline",
    "set_plan",
    "shift",
    "split",
    "take_off_hand",
    "turn",
    "turn_over",
]
