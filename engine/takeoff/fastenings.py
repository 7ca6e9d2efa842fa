"""What holds and guards the pipes: straps, blocks and hooks, shield plates, ties over bored top plates, screws and nails."""

from __future__ import annotations

from collections import Counter

from engine.checks.model import Model
from engine.lengths import inches
from engine.plan.walls import wall_at
from engine.takeoff.partnames import words
from engine.takeoff.records import ShoppingLine, Support
from engine.takeoff.shields import shields
from engine.trade.bits import bit_for
from engine.trade.facts import table
from engine.trade.lumber import actual
from engine.trade.pipe import drain, label

HELD_BY = {
    "block": "drain_block",
    "strap": "drain_strap",
    "hook": "tube_hook",
    "bend support": "tube_bend_support",
    "guide": "stack_guide",
}
"""What to buy for each kind of support that is no joist."""


def fastenings(model: Model, held: tuple[Support, ...]) -> list[ShoppingLine]:
    """Supports by size and system, shield plates, ties, and the screws and nails that they take."""
    supports = _supports(held)
    ties = _ties(model)
    return [*supports, *_shields(model), *ties, *_screws(supports), *_nails(model, ties)]


def _supports(held: tuple[Support, ...]) -> list[ShoppingLine]:
    counts = Counter(
        (HELD_BY[support.kind], support.size, support.system, support.limit, support.cites)
        for support in held
        if support.kind in HELD_BY
    )
    return [
        ShoppingLine(
            words(kind),
            label(size),
            count,
            "each",
            system,
            f"no further apart than {inches(limit)} in, one near each end and corner",
            cites,
            kind,
        )
        for (kind, size, system, limit, cites), count in sorted(counts.items())
    ]


def _shields(model: Model) -> list[ShoppingLine]:
    plates = shields(model)
    if not plates:
        return []
    limit = inches(model.book.number("shield.edge"))
    why = f"pipe nearer than {limit} in to a plate's face ({'; '.join(f'{p.where}: {p.count}' for p in plates)})"
    count = sum(plate.count for plate in plates)
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
    share = book.number("plate.cut_most")
    tied = []
    for riser in model.plan.risers:
        wall = wall_at(model.plan, riser.at, riser.wall)
        pipes = [pipe for pipe in model.network.pipes if pipe.element == riser.id and pipe.run == 0.0]
        if riser.top != "roof" or wall is None or not (wall.exterior or wall.bearing) or not pipes:
            continue
        top = max(pipes, key=lambda pipe: max(pipe.start.level, pipe.end.level))
        od = drain(top.size).od
        bit = bit_for(od)
        if (bit.diameter if bit is not None else od) > share * actual(wall.lumber).depth:
            tied.append(riser.id)
    if not tied:
        return []
    why = f"top plates of outside or bearing walls bored wider than {share:g} of their width: {', '.join(tied)}"
    return [
        ShoppingLine(words("plate_tie"), "", len(tied), "each", "vent", why, book.cite("plate.cut_most"), "plate_tie")
    ]


def _screws(supports: list[ShoppingLine]) -> list[ShoppingLine]:
    facts = table("supports")
    taken = [(line, facts.maybe(line.kind, "screws")) for line in supports]
    count = sum(int(each) * line.count for line, each in taken if each)
    if not count:
        return []
    each_kind = {line.part: int(each) for line, each in taken if each}
    why = ", ".join(f"{each} for each {part}" for part, each in each_kind.items())
    source = facts.fact("drain_strap", "screws").source
    return [ShoppingLine(words("hanger_screws"), "", count, "each", "waste", why, source, "hanger_screws")]


def _nails(model: Model, ties: list[ShoppingLine]) -> list[ShoppingLine]:
    if not ties or not model.book.has("plate.tie_nails_each_side"):
        return []
    each = 2 * int(model.book.number("plate.tie_nails_each_side"))
    cites = model.book.cite("plate.tie_nails_each_side")
    why = f"{each} for each tie, half of them at each side of the hole"
    return [ShoppingLine(words("tie_nails"), "", each * ties[0].count, "each", "vent", why, cites, "tie_nails")]
