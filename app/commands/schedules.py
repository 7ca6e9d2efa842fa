"""How each trap is vented and where each joist is cut, read off the same answer that is printed as JSON."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from app.commands.quantity import tape
from app.commands.terminal import table, wrapped
from engine.lengths import feet_inches

Row = Mapping[str, Any]


def trap_words(traps: Iterable[Row], names: Mapping[str, str]) -> list[str]:
    """A line for each trap: what vents it, how far away, and how far it may be. `names` are the owner's own."""
    lines: list[str] = []
    for trap in traps:
        called = names.get(trap["fixture"]) or trap["fixture"]
        lines += wrapped(f"{called}: {_vented(trap)} - {trap['cites']}", "  ", "    ")
    return lines


def _vented(trap: Row) -> str:
    if not trap["recognised"]:
        return f"not judged, {trap['why']}"
    if trap["method"] is None:
        return "no vent serves it"
    by = f" by {trap['vented_by']}" if trap["vented_by"] else ""
    away = "" if trap["distance"] is None else f", {feet_inches(trap['distance'])} away"
    limit = ", no limit" if trap["limit"] is None else f", limit {feet_inches(trap['limit'])}"
    return f"{trap['method']}{by}{away}{limit}"


def cut_words(cuts: Iterable[Row]) -> list[str]:
    """A table of bores and notches by joist, each measured from edges that a tape can hook."""
    rows = sorted(cuts, key=lambda cut: (cut["joist"], cut["from_start"]))
    return table(
        ("joist", "cut", "for", "bit", "from south or west end", "from the other", "axis down", "axis up", "lawful"),
        [
            (
                cut["joist"],
                cut["kind"],
                ", ".join(cut["elements"]),
                "" if cut["bit"] is None else f"{cut['bit']} in",
                feet_inches(cut["from_start"]),
                feet_inches(cut["from_end"]),
                tape(cut["down_from_top"]),
                tape(cut["up_from_bottom"]),
                {True: "yes", False: "no", None: "not judged"}[cut["legal"]],
            )
            for cut in rows
        ],
        frozenset({4, 5, 6, 7}),
    )
