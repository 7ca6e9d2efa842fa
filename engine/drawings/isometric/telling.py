"""The same in words: every piece, run and part of an isometric as a line to read."""

from __future__ import annotations

from typing import NamedTuple

from engine.drawings.isometric.names import full_name
from engine.drawings.isometric.skeleton import SYSTEMS, Cover
from engine.joinery.records import Part
from engine.lengths import inches
from engine.plan.outline import tell
from engine.plan.records import Point
from engine.study import Study
from engine.takeoff.cutlist import cut_list, named
from engine.trade.habits import CLOSET_EXTRAS
from engine.trade.pipe import label


class Told(NamedTuple):
    """One thing shown, in words: its name on the isometric, the line, and the plan's elements that it belongs to."""

    name: str
    text: str
    elements: tuple[str, ...]


def pipes_told(study: Study, cover: Cover) -> tuple[Told, ...]:
    """The pieces of the cut list in the order of their marks, or the water runs."""
    if cover == "water":
        return tuple(Told(run.id, tell(study.plan, run), (run.id,)) for run in study.plan.supplies)
    by_id = study.model.network.by_id
    elements = {
        piece.mark: tuple(dict.fromkeys(by_id[p].element if p in by_id else p.split(".")[0] for p in piece.pipes))
        for piece in study.model.joinery.pieces
    }
    return tuple(
        Told(
            row.mark,
            f"{row.mark}: {label(row.size)} in {row.system}, cut {inches(row.length)} in, from {row.start} to {row.end}",
            elements[row.mark],
        )
        for row in cut_list(study.model)
    )


def parts_told(study: Study, cover: Cover) -> tuple[Told, ...]:
    """Every part of the joinery, alike ones together; what goes with a flange is told with it."""
    parts = [part for part in study.model.joinery.parts if part.system in SYSTEMS[cover]]
    shown = [part for part in parts if part.kind not in CLOSET_EXTRAS]
    shown.sort(key=lambda part: named(part))
    pinned = {(pin.at, str(pin.level)): pin.id for pin in study.plan.fittings}
    return tuple(Told(part.id, _line(part, parts), belongs(part, pinned)) for part in shown)


def belongs(part: Part, pinned: dict[tuple[Point, str], str]) -> tuple[str, ...]:
    """The plan's elements that a part belongs to, with the choice that pinned it if somebody did."""
    at = (part.node[0], part.node[1])
    chosen = [pinned[at, level] for level in ("under", "wall") if part.pinned and (at, level) in pinned]
    return tuple(dict.fromkeys((*part.elements, *chosen)))


def _line(part: Part, parts: list[Part]) -> str:
    words = named(part)
    words = words[:1].upper() + words[1:]
    if part.kind.startswith("closet_flange"):
        extras = [full_name(extra.kind) for extra in parts if extra.kind in CLOSET_EXTRAS and extra.node == part.node]
        words += f" with {', '.join(extras)}" if extras else ""
    where = f": {', '.join(part.elements)}"
    note = f"; {part.note}" if part.note and part.note not in words else ""
    return f"{words}{where}{note}"
