"""The shopping list: every part of the joinery, what holds the pipes, and what is used up in joining them."""

from __future__ import annotations

import math
from collections import Counter

from engine.checks.model import Model
from engine.lengths import inches, mixed
from engine.takeoff.buying import routed_length
from engine.takeoff.records import ShoppingLine, Support
from engine.takeoff.shields import shields
from engine.trade import cement, insulation, stock
from engine.trade.facts import table
from engine.trade.fittings import KINDS, size_label
from engine.trade.pipe import label, nominal
from engine.trade.sundries import sundry

_HELD_BY = {
    "block": "drain_block",
    "strap": "drain_strap",
    "hook": "tube_hook",
    "bend support": "tube_bend_support",
    "guide": "stack_guide",
}


def shopping(model: Model, held: tuple[Support, ...]) -> tuple[ShoppingLine, ...]:
    """Everything to buy besides pipe and tube, drains first; each line with its arithmetic and source."""
    return (
        *_parts(model),
        *_supports(held),
        *_shields(model),
        *_joining(model),
        *_sleeves(model),
    )


def not_counted(model: Model) -> tuple[str, ...]:
    """What a job like this needs that the list does not count, and why."""
    missing = ["Screws and nails for straps, blocks, hooks and plates."]
    if model.plan.supplies:
        missing.append(
            "Water fittings, valves and manifolds: supply runs are counted by their routed length, not by joints."
        )
    if model.joinery.faults:
        missing.append("Fittings at the places that the findings say no fitting makes.")
    return tuple(missing)


def words(kind: str) -> str:
    """What a part is called: the fitting's or the sundry's name."""
    if kind in KINDS:
        return KINDS[kind].words
    try:
        return sundry(kind).words
    except KeyError:
        return kind.replace("_", " ")


def size_words(size: tuple[float, ...]) -> str:
    """A part's size as a store writes it: one number where all legs are alike."""
    if len(set(size)) == 1:
        return label(size[0])
    return size_label(size) if size else ""


def _parts(model: Model) -> list[ShoppingLine]:
    counts: Counter[tuple[str, tuple[float, ...], str]] = Counter()
    notes: dict[tuple[str, tuple[float, ...], str], dict[str, None]] = {}
    for part in model.joinery.parts:
        key = (part.kind, part.size, part.system)
        counts[key] += 1
        if part.note:
            notes.setdefault(key, {})[part.note] = None
    lines = []
    for (kind, size, system), count in counts.items():
        why = "; ".join(notes.get((kind, size, system), ()))
        lines.append(ShoppingLine(words(kind), size_words(size), count, "each", system, why, "", kind))
    order = {"waste": 0, "vent": 1}
    return sorted(lines, key=lambda line: (line.kind not in KINDS, order.get(line.system, 2), line.part))


def _supports(held: tuple[Support, ...]) -> list[ShoppingLine]:
    counts = Counter(
        (_HELD_BY[support.kind], support.size, support.system, support.limit, support.cites)
        for support in held
        if support.kind in _HELD_BY
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
    limit = model.book.number("shield.edge")
    why = "; ".join(f"{plate.where}: {plate.count}" for plate in plates)
    return [
        ShoppingLine(
            words("shield_plate"),
            "",
            sum(plate.count for plate in plates),
            "each",
            "waste",
            f"pipe nearer than {inches(limit)} in to a plate's face ({why})",
            model.book.cite("shield.edge"),
            "shield_plate",
        )
    ]


def _joining(model: Model) -> list[ShoppingLine]:
    joints = Counter(bond.size for bond in model.joinery.bonds)
    if not joints:
        return []
    material = model.plan.material
    facts = table("allowances")
    can, spare = facts.number("cement", "smallest can"), facts.number("cement", "spare")
    quarts = cement.quarts(joints)
    cans = math.ceil(quarts / can + spare / can)
    counted = ", ".join(f"{count} of {label(size)} in" for size, count in sorted(joints.items()))
    source = "; ".join(dict.fromkeys(table("cement").fact(label(size), "joints").source for size in sorted(joints)))
    lines = [
        ShoppingLine(
            cement.cement(material),
            "",
            cans,
            "half-pint can",
            "waste",
            f"{counted} make {quarts:.2f} quart; half a pint more, since open cans thicken",
            source,
            "cement",
        )
    ]
    primed = cement.primer(material)
    if primed is not None:
        name, share = primed
        lines.append(
            ShoppingLine(
                name,
                "",
                math.ceil((quarts * share + spare) / can),
                "half-pint can",
                "waste",
                f"{share:g} of the cement's {quarts:.2f} quart; half a pint more",
                table("cement").fact(material, "primer share").source,
                "primer",
            )
        )
    by_tool: dict[str, list[float]] = {}
    for size in sorted(joints):
        by_tool.setdefault(cement.applicator(size), []).append(size)
    lines += [
        ShoppingLine(
            tool,
            "",
            1,
            "each",
            "waste",
            f"for pipe of {', '.join(label(size) for size in sizes)} in",
            table("cement").fact(label(sizes[0]), "applicator").source,
            "applicator",
        )
        for tool, sizes in by_tool.items()
    ]
    return lines


def _sleeves(model: Model) -> list[ShoppingLine]:
    lengths: dict[tuple[float, float, str], float] = {}
    for supply in model.plan.supplies:
        if supply.insulation > 0.0:
            key = (nominal(supply.size), supply.insulation, supply.water)
            lengths[key] = lengths.get(key, 0.0) + routed_length(supply)
    sold = stock.lengths("pipe insulation")[0]
    thickest = max(insulation.walls())
    lines = []
    for (size, wall, water), length in sorted(lengths.items()):
        count = math.ceil(length / sold.length)
        odd = "" if wall <= thickest else f"; no sleeve is sold thicker than {mixed(thickest)} in"
        lines.append(
            ShoppingLine(
                f"foam sleeve, {mixed(wall)} in wall",
                label(size),
                count,
                f"{inches(sold.length)} in length",
                water,
                f"{inches(length)} in under the floor / {inches(sold.length)} in{odd}",
                sold.source,
                "sleeve",
            )
        )
    return lines
