"""The drain's way from the floor to the ground in words, and what to buy for it: sleeve, box, heat cable."""

from __future__ import annotations

import math
from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.way_down import Drop, drops
from engine.lengths import inches, up
from engine.takeoff.partnames import words
from engine.takeoff.records import ShoppingLine
from engine.trade.facts import table
from engine.trade.pipe import drain, label, nominal
from engine.trade.sleeves import box_clear
from engine.trade.sundries import sundry

_PASSES = {"ground": "bare ground", "slab": "a slab", "foundation": "a foundation wall or footing"}
_FOOT = 12.0
_HAIR = 1.0 / 32.0


def way_words(model: Model) -> dict[str, str]:
    """By exit: how far it goes down, what it passes, in what; measured from the joists' top."""
    return {drop.exit.id: _told(drop) for drop in drops(model)}


def _told(drop: Drop) -> str:
    exit_ = drop.exit
    said = []
    if exit_.how == "turn-down":
        said.append(f"its tail ends {inches(-exit_.tail_z)} in below the joists' top{_in_ground(drop)}")
    if exit_.meets is not None:
        sleeve = f" in a {exit_.sleeve} in sleeve" if exit_.sleeve is not None and exit_.meets != "ground" else ""
        said.append(f"passes {_PASSES[exit_.meets]}{sleeve}")
    if exit_.how == "turn-down" and exit_.frost_guard != "none":
        kept = {
            "box": f"boxed in {inches(exit_.box_foam)} in foam",
            "heat": "under listed heat cable",
            "box-and-heat": f"boxed in {inches(exit_.box_foam)} in foam over listed heat cable",
        }
        said.append(f"{kept[exit_.frost_guard]} from the joists into the ground")
    return ", ".join(said)


def _in_ground(drop: Drop) -> str:
    if drop.ground is None:
        return ""
    deep = drop.ground - drop.exit.tail_z
    if abs(deep) < _HAIR:
        return ", at the ground"
    where = "into the ground" if deep > 0.0 else "over the ground"
    return f", {inches(abs(deep))} in {where}, which lies {inches(-drop.ground)} in below it"


def way_down(model: Model) -> list[ShoppingLine]:
    """Sleeves by size, foam board for the boxes, heat cable by its length; each drop as long as it stands open."""
    return [line for drop in drops(model) for line in _of_drop(model, drop)]


def _of_drop(model: Model, drop: Drop) -> Iterator[ShoppingLine]:
    exit_ = drop.exit
    if exit_.sleeve is not None and exit_.meets in ("slab", "foundation"):
        thing = sundry("wall_sleeve")
        why = f"round {exit_.id} through {_PASSES[exit_.meets]}; cut it as long as that is thick"
        yield ShoppingLine(thing.words, label(nominal(exit_.sleeve)), 1, "each", "waste", why, thing.source, thing.kind)
        seal = sundry("sleeve_sealant")
        yield ShoppingLine(
            seal.words, "", 1, "tube", "waste", f"round the pipe in the sleeve of {exit_.id}", seal.source, seal.kind
        )
    if exit_.how != "turn-down" or drop.size is None:
        return
    length, known = _length(model, drop)
    if exit_.frost_guard in ("box", "box-and-heat"):
        yield _foam(drop, drop.size, length, known)
    if exit_.frost_guard in ("heat", "box-and-heat"):
        thing = sundry("heat_cable")
        why = f"for {inches(up(length))} in of the drop of {exit_.id}{known}: as long as its maker asks for that pipe"
        yield ShoppingLine(thing.words, "", 1, "each", "waste", why, thing.source, thing.kind)


def _length(model: Model, drop: Drop) -> tuple[float, str]:
    """How long the guarded part is, and what that rests on where the ground's height is not known."""
    into = table("sleeves").number("box", "into the ground")
    if drop.open is not None:
        return drop.open + into, ""
    depth = max((joist.depth for joist in model.framing.joists), default=0.0)
    return max(0.0, -depth - drop.exit.tail_z), " (to its tail: the ground's height is not given)"


def _foam(drop: Drop, size: float, length: float, known: str) -> ShoppingLine:
    """Board for a square box: two sides as wide as its inside, two wider by the foam's own thickness twice."""
    facts = table("sleeves")
    inside = drain(size).od + 2.0 * box_clear()
    foam = drop.exit.box_foam
    width, sheet = facts.number("box", "board width"), facts.number("box", "board length")
    around = 2.0 * inside + 2.0 * (inside + 2.0 * foam)
    boards = math.ceil(around / width) * math.ceil(length / sheet)
    why = (
        f"round {drop.exit.id}: two sides {inches(up(inside))} in and two {inches(up(inside + 2.0 * foam))} in wide, "
        f"{inches(up(length))} in long{known}; skin it so that it stays dry and whole"
    )
    source = facts.fact("box", "board width").source
    part = f"{words('frost_box')}, {inches(foam)} in thick"
    return ShoppingLine(
        part, "", boards, f"{width / _FOOT:g} by {sheet / _FOOT:g} ft board", "waste", why, source, "frost_box"
    )
