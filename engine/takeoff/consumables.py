"""What is used up: cement, primer and what they are put on with, sleeves and tape, rings."""

from __future__ import annotations

import math
from collections import Counter

from engine.checks.model import Model
from engine.lengths import inches, mixed
from engine.takeoff.buying import routed_length
from engine.takeoff.partnames import words
from engine.takeoff.records import ShoppingLine
from engine.trade import cement, insulation, stock
from engine.trade.facts import table
from engine.trade.pipe import label, nominal, tube
from engine.trade.sundries import sundry
from engine.water.joints import joints

CAN = "half-pint can"


def joining(model: Model) -> list[ShoppingLine]:
    """Cement and primer by the joints of each size, of the kind for the plastic, and what to put them on with."""
    counts = Counter(bond.size for bond in model.joinery.bonds)
    if not counts:
        return []
    material = model.plan.material
    facts = table("allowances")
    can, spare = facts.number("cement", "smallest can"), facts.number("cement", "spare")
    quarts = cement.quarts(counts)
    counted = ", ".join(f"{count} of {label(size)} in" for size, count in sorted(counts.items()))
    source = "; ".join(dict.fromkeys(table("cement").fact(label(size), "joints").source for size in sorted(counts)))
    why = f"{counted} make {quarts:.2f} quart; half a pint more, since open cans thicken"
    lines = [
        ShoppingLine(
            cement.cement(material), "", math.ceil(quarts / can + spare / can), CAN, "waste", why, source, "cement"
        )
    ]
    primed = cement.primer(material)
    if primed is not None:
        name, share = primed
        why = f"{share:g} of the cement's {quarts:.2f} quart; half a pint more"
        source = table("cement").fact(material, "primer share").source
        lines.append(
            ShoppingLine(name, "", math.ceil((quarts * share + spare) / can), CAN, "waste", why, source, "primer")
        )
    return [*lines, *_applicators(sorted(counts))]


def _applicators(sizes: list[float]) -> list[ShoppingLine]:
    by_tool: dict[str, list[float]] = {}
    for size in sizes:
        by_tool.setdefault(cement.applicator(size), []).append(size)
    lines = []
    for tool, used in by_tool.items():
        why = f"for pipe of {', '.join(label(size) for size in used)} in"
        source = table("cement").fact(label(used[0]), "applicator").source
        lines.append(ShoppingLine(tool, "", 1, "each", "waste", why, source, "applicator"))
    return lines


def rings(model: Model) -> list[ShoppingLine]:
    """Rings by size and water, one for each end of tube that goes into a fitting."""
    made, _ = joints(model.plan, model.water)
    counts = Counter((size, joint.water) for joint in made for size in joint.rings)
    ring = sundry("tube_ring")
    return [
        ShoppingLine(
            ring.words,
            label(size),
            count,
            "each",
            water,
            "one for each tube end in a fitting",
            ring.source,
            "tube_ring",
        )
        for (size, water), count in sorted(counts.items())
    ]


def sleeves(model: Model) -> list[ShoppingLine]:
    """Foam sleeves by tube and wall, and the tape for their seams and butts."""
    lengths: dict[tuple[float, float, str], float] = {}
    for supply in model.plan.supplies:
        if supply.insulation > 0.0:
            key = (nominal(supply.size), supply.insulation, supply.water)
            lengths[key] = lengths.get(key, 0.0) + routed_length(supply)
    if not lengths:
        return []
    sold = stock.lengths("pipe insulation")[0]
    thickest = max(insulation.walls())
    lines = []
    tape = 0.0
    for (size, wall, water), length in sorted(lengths.items()):
        count = math.ceil(length / sold.length)
        tape += length + count * math.pi * insulation.covered(tube(size).od, wall)
        odd = "" if wall <= thickest else f"; no sleeve is sold thicker than {mixed(thickest)} in"
        why = f"{inches(length)} in under the floor / {inches(sold.length)} in{odd}"
        name = f"foam sleeve, {mixed(wall)} in wall"
        unit = f"{inches(sold.length)} in length"
        lines.append(ShoppingLine(name, label(size), count, unit, water, why, sold.source, "sleeve"))
    return [*lines, _tape(tape)]


def _tape(needed: float) -> ShoppingLine:
    roll = stock.lengths("seam tape", "coil")[0]
    count = math.ceil(needed / roll.length)
    why = f"{math.ceil(needed / 12.0)} ft along the seams and once round at each butt"
    return ShoppingLine(
        words("seam_tape"), "", count, f"{roll.length / 36.0:g} yd roll", "cold", why, roll.source, "seam_tape"
    )


def thread_tape(model: Model) -> list[ShoppingLine]:
    """A roll of tape where anything is screwed together."""
    goes_with = table("sundries").text("thread_tape", "goes with").split()
    screwed = Counter(words(part.kind) for part in model.joinery.parts if part.kind in goes_with)
    if not screwed:
        return []
    tape = sundry("thread_tape")
    why = "for the threads of " + ", ".join(f"{count} {name}" for name, count in screwed.items())
    return [ShoppingLine(tape.words, "", 1, "roll", "waste", why, tape.source, "thread_tape")]
