"""What holds and guards the pipes: straps, blocks and hooks, shield plates, ties over bored top plates, sealant, screws
and nails."""

from __future__ import annotations

import math
from collections import Counter

from engine.checks.model import Model
from engine.checks.plate_cuts import tied
from engine.checks.plates import gaps, guards
from engine.lengths import down, inches, up
from engine.takeoff.firstfit import first_fit
from engine.takeoff.partnames import words
from engine.takeoff.records import ShoppingLine, Support
from engine.trade import stock
from engine.trade.facts import table
from engine.trade.pipe import label, tube
from engine.trade.walls import sealant, tube_holds

HELD_BY = {
    "block": "drain_block",
    "base": "stack_base",
    "strap": "drain_strap",
    "hook": "tube_hook",
    "bend support": "tube_bend_support",
    "guide": "stack_guide",
    "sway brace": "sway_brace",
}
"""What is made or bought for each kind of support that is no joist."""

_FOOT = 12.0
_EXACT = 16
"""Blocks and kerf are laid into sticks in sixteenths of an inch."""

_SAWN = ("drain_block", "stack_base")
"""What is sawn from lumber; straps that hang come off a roll. Neither is bought by the piece."""


def fastenings(model: Model, held: tuple[Support, ...]) -> list[ShoppingLine]:
    """Supports by size and system, shield plates, ties, and the screws and nails that they take."""
    ties = _ties(model)
    return [
        *_supports(model, held),
        *_strap(held),
        *_lumber(held),
        *_shields(model),
        *ties,
        *_seals(model),
        *_screws(held),
        *_nails(model, ties),
    ]


def _kinds(one: Support) -> list[str]:
    """What one support takes, by its names in the trade's data: a strap or hook on a block or strip takes both."""
    if one.kind not in HELD_BY:
        return []
    kind = HELD_BY[one.kind]
    held = [kind] if one.strap is None else ["hung_strap"]
    if one.block is None or (kind in held and kind in _SAWN):
        return held
    return [*held, kind if kind in _SAWN else "drain_block"]


def _supports(model: Model, held: tuple[Support, ...]) -> list[ShoppingLine]:
    """What is bought by the piece: straps for pipe that lies on wood, hooks, guides, braces."""
    sleeved = {supply.id: supply.insulation for supply in model.plan.supplies}
    counts = Counter(
        (kind, support.size, support.system, support.limit, support.cites, sleeved.get(support.element, 0.0))
        for support in held
        for kind in _kinds(support)
        if kind not in _SAWN and kind != "hung_strap"
    )
    return [
        ShoppingLine(
            words(kind),
            label(size),
            count,
            "each",
            system,
            f"no further apart than {inches(limit)} in, one near each end and corner{_round(kind, size, sleeve)}",
            cites,
            kind,
        )
        for (kind, size, system, limit, cites, sleeve), count in sorted(counts.items())
    ]


def _round(kind: str, size: float, sleeve: float) -> str:
    """What a hook goes round, where that is not the bare tube."""
    if kind != "tube_hook" or not sleeve:
        return ""
    return f"; to go round the tube's sleeve, {inches(tube(size).od + 2.0 * sleeve)} in outside"


def _strap(held: tuple[Support, ...]) -> list[ShoppingLine]:
    """Strap for what hangs under or low in the joists: the rolls that the lengths together take."""
    lengths = [up(one.strap) for one in held if one.strap is not None]
    if not lengths:
        return []
    rolls = stock.lengths("hanger strap", "coil")
    needed = sum(lengths)
    roll = next((one for one in reversed(rolls) if one.length >= needed), rolls[0])
    why = f"{len(lengths)} straps, {inches(needed)} in together, the longest {inches(max(lengths))} in"
    unit = f"{roll.length / _FOOT:g} ft roll"
    return [
        ShoppingLine(
            words("hung_strap"), "", math.ceil(needed / roll.length), unit, "waste", why, roll.source, "hung_strap"
        )
    ]


def _lumber(held: tuple[Support, ...]) -> list[ShoppingLine]:
    """Lumber for the blocks, by laying them into sticks the longest first; what is longer than a stick says so."""
    blocks = [down(one.block) for one in held if one.block is not None]
    if not blocks:
        return []
    stick = stock.lengths("block lumber")[0]
    kerf = table("allowances").number("cutting", "kerf")
    fits = [block for block in blocks if block <= stick.length]
    weights = Counter(round((block + kerf) * _EXACT) for block in fits)
    sizes = sorted(weights, reverse=True)
    laid = (
        first_fit(sizes, [weights[size] for size in sizes], {round((stick.length + kerf) * _EXACT): 1}) if fits else []
    )
    long = len(blocks) - len(fits)
    beyond = f"; {long} longer than a stick are not counted" if long else ""
    why = f"{len(blocks)} blocks, {inches(sum(blocks))} in together, the longest {inches(max(blocks))} in{beyond}"
    lumber = table("supports").text("drain_block", "lumber")
    part, unit = f"{lumber} for blocks", f"{inches(stick.length / _FOOT)} ft"
    return [ShoppingLine(part, "", len(laid), unit, "waste", why, stick.source, "block_lumber")]


def _shields(model: Model) -> list[ShoppingLine]:
    """A steel plate for each face of a plate or stud that nails reach pipe through."""
    found = guards(model)
    if not found:
        return []
    limit = inches(model.book.number("shield.edge"))
    counts = Counter(f"{guard.element} at {guard.part}" for guard in found for _ in guard.faces)
    why = f"pipe nearer than {limit} in to a face ({'; '.join(f'{place}: {count}' for place, count in counts.items())})"
    count = counts.total()
    return [
        ShoppingLine(
            words("shield_plate"), "", count, "each", "waste", why, model.book.cite("shield.edge"), "shield_plate"
        )
    ]


def _ties(model: Model) -> list[ShoppingLine]:
    """A tie over each top plate of an outside or bearing wall that is bored wider than the book lets it go untied."""
    book = model.book
    if not book.has("plate.cut_most"):
        return []
    cuts = tied(model)
    if not cuts:
        return []
    names = [" and ".join(dict.fromkeys(hole.element for hole in cut.holes)) for cut in cuts]
    share = book.number("plate.cut_most")
    why = f"top plates of outside or bearing walls bored wider than {share:g} of their width: {', '.join(names)}"
    return [
        ShoppingLine(words("plate_tie"), "", len(cuts), "each", "vent", why, book.cite("plate.cut_most"), "plate_tie")
    ]


def _seals(model: Model) -> list[ShoppingLine]:
    """Sealant for the gaps round pipes in floors and plates, by the tubes that they fill."""
    book, found = model.book, gaps(model)
    if not found or not book.has("fireblock.round_pipes") or not book.flag("fireblock.round_pipes"):
        return []
    volume = sum(sealant(gap.hole, gap.outside) for gap in found)
    why = f"{len(found)} holes in floor and plates, about {volume:.1f} cubic inches to fill"
    count = max(1, math.ceil(volume / tube_holds()))
    cites = book.cite("fireblock.round_pipes")
    return [ShoppingLine(words("fireblock_sealant"), "", count, "tube", "waste", why, cites, "fireblock_sealant")]


def _screws(held: tuple[Support, ...]) -> list[ShoppingLine]:
    facts = table("supports")
    taken = Counter(kind for one in held for kind in _kinds(one) if facts.has(kind, "screws"))
    count = sum(int(facts.number(kind, "screws")) * number for kind, number in taken.items())
    if not count:
        return []
    why = ", ".join(
        f"{int(facts.number(kind, 'screws'))} for each of {number} ({words(kind)})"
        for kind, number in sorted(taken.items())
    )
    source = facts.fact("drain_strap", "screws").source
    return [ShoppingLine(words("hanger_screws"), "", count, "each", "waste", why, source, "hanger_screws")]


def _nails(model: Model, ties: list[ShoppingLine]) -> list[ShoppingLine]:
    if not ties or not model.book.has("plate.tie_nails_each_side"):
        return []
    each = 2 * int(model.book.number("plate.tie_nails_each_side"))
    cites = model.book.cite("plate.tie_nails_each_side")
    why = f"{each} for each tie, half of them at each side of the hole"
    return [ShoppingLine(words("tie_nails"), "", each * ties[0].count, "each", "vent", why, cites, "tie_nails")]
