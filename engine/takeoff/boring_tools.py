"""Every bit and saw that a job's holes ask for, in joists, floor, walls and roof, and how many holes each makes."""

from __future__ import annotations

from collections import Counter

from engine.checks.model import Model
from engine.lengths import mixed
from engine.plan.outline import listed
from engine.plan.records import Record
from engine.takeoff.marking import layout
from engine.takeoff.records import ShoppingLine
from engine.takeoff.wall_holes import wall_holes
from engine.trade import bits

_FLOOR = ("subfloor", "roof")
"""What is bored at a mark besides the plates, which the list of wall holes counts."""


class BoringTool(Record, frozen=True, gc=False):
    """One bit or saw by the hole it leaves, inches: its label, what it is, and its holes by what they go through."""

    label: str
    diameter: float
    what: str
    holes: tuple[tuple[str, int], ...]
    source: str

    @property
    def words(self) -> str:
        """``4 in joists, 3 in plates``."""
        return listed(f"{count} in {wood}" for wood, count in self.holes)


def boring_tools(model: Model) -> tuple[BoringTool, ...]:
    """The tools, smallest first; what no listed bit bores is sawn round and stands by the hole's width."""
    counts: dict[float, Counter[str]] = {}
    for cut in model.cuts:
        if cut.bit:
            counts.setdefault(_known()[cut.bit].diameter, Counter())["joists"] += 1
    for hole in wall_holes(model):
        counts.setdefault(hole.hole, Counter())["studs" if hole.part == "stud" else "plates"] += 1
    for mark in layout(model).marks:
        for made in mark.holes:
            if made.diameter is not None and made.through in _FLOOR:
                counts.setdefault(made.diameter, Counter())[made.through] += 1
    return tuple(_tool(diameter, counts[diameter]) for diameter in sorted(counts))


def tools_to_buy(model: Model) -> list[ShoppingLine]:
    """A line for each tool, one of each."""
    return [
        ShoppingLine(
            f"{tool.what}, for {', '.join(wood for wood, _ in tool.holes)}",
            tool.label,
            1,
            "each",
            "waste",
            f"for holes: {tool.words}",
            tool.source,
            "boring_tool",
        )
        for tool in boring_tools(model)
    ]


def _known() -> dict[str, bits.Bit]:
    return {bit.label: bit for bit in (*bits.saws(), *bits.listed())}


def _tool(diameter: float, holes: Counter[str]) -> BoringTool:
    bit = next((bit for bit in _known().values() if abs(bit.diameter - diameter) < 1e-9), None)
    if bit is None:
        label, what, source = mixed(diameter), "hole saw or jigsaw", ""
    else:
        label, source = bit.label, bit.source
        what = "hole saw" if bit in bits.saws() else "bit or hole saw"
    return BoringTool(label, diameter, what, tuple(sorted(holes.items())), source)
