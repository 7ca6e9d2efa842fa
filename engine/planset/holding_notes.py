"""When the supports go in: which of them each group of the assembly order wants first, and which once its pipe lies."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from engine.checks.model import Model
from engine.lengths import feet_inches
from engine.planset.subassemblies import Subassembly
from engine.takeoff.records import Support
from engine.water.network import WATERS

Note = tuple[str, str]
"""The first words, and what follows them."""

_PLURALS = {
    "base": "bases",
    "block": "blocks",
    "packer": "packers on the girder",
    "block for a strap": "blocks that straps hang from",
    "strap": "straps",
    "guide": "guides",
    "sway brace": "sway braces",
    "strip": "strips",
    "hook": "hooks",
    "bend support": "bend supports",
}


def beside_groups(model: Model, groups: Sequence[Subassembly], held: Iterable[Support]) -> list[list[Note]]:
    """For each group of steps the supports of the pipes that it puts in place; each support stands in one group.

    A pipe whose steps are in several groups has them in the first.
    """
    pieces = {piece.mark: piece for piece in model.joinery.pieces}
    of_pipe: dict[str, int] = {}
    of_element: dict[str, int] = {}
    for n, group in enumerate(groups):
        for step in group.steps:
            for pipe in (pipe for mark in step.pieces for pipe in pieces[mark].pipes):
                of_pipe.setdefault(pipe, n)
                known = model.network.by_id.get(pipe)
                if known is not None:
                    of_element.setdefault(known.element, n)
    found: list[list[Support]] = [[] for _ in groups]
    for one in held:
        place = of_pipe.get(one.pipe, of_element.get(one.element))
        if one.mark and one.system not in WATERS and groups:
            found[0 if place is None else place].append(one)
    return [_rigid(some) for some in found]


def of_tubes(model: Model, held: Iterable[Support]) -> list[Note]:
    """What holds each water line, its strips before its hooks, and where an elbow turns it because no bend has room.

    Of a line with neither nothing is said.
    """
    lines: dict[str, list[Support]] = {supply.id: [] for supply in model.plan.supplies}
    for one in held:
        if one.mark and one.system in WATERS:
            lines.setdefault(one.element, []).append(one)
    said = []
    for element, some in lines.items():
        elbows = [
            f"{feet_inches(part.centre[0])} E, {feet_inches(part.centre[1])} N"
            for part in model.joinery.parts
            if part.kind == "tube_elbow" and part.elements[0] == element
        ]
        turned = f"an elbow, where no bend has room, at {' and at '.join(elbows)}" if elbows else ""
        strips = _listed(("strip", one.mark) for one in some if one.block is not None)
        then = _listed((one.kind, one.mark) for one in some)
        first = (
            f"screw {strips} on first; once the tube is pulled through, "
            if strips
            else "once the tube is pulled through, "
        )
        held_by = f"{first}{then}" if some else ""
        words = "; ".join(filter(None, (turned, held_by)))
        if words:
            said.append((f"{element}:", f"{words}."))
    return said


def _rigid(some: list[Support]) -> list[Note]:
    first = [(_wood(one), one.mark) for one in some if _wood(one)]
    later = [(one.kind, one.mark) for one in some if one.kind not in ("base", "block")]
    notes = []
    if first:
        notes.append(("Set first:", f"{_listed(first)}."))
    if later:
        notes.append(("Once the pipe is in place:", f"{_listed(later)}."))
    return notes


def _wood(one: Support) -> str:
    """What of a support has to stand before its pipe is laid, in a word; nothing where all of it goes on after."""
    if one.packer is not None:
        return "packer"
    if one.kind in ("base", "block"):
        return one.kind
    return "block for a strap" if one.block is not None else ""


def _listed(things: Iterable[tuple[str, str]]) -> str:
    """Marks by what they are: ``blocks S1, S2; base S7``."""
    by_kind: dict[str, list[str]] = {}
    for kind, mark in things:
        by_kind.setdefault(kind, []).append(mark)
    return "; ".join(
        f"{_PLURALS[kind] if len(marks) > 1 else kind} {', '.join(marks)}" for kind, marks in by_kind.items()
    )
