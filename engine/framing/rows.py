"""What stands side by side in each field: all that runs the joists' way, with the flush beams that run so among it."""

from __future__ import annotations

from engine.framing.records import Framing, Joist


def rows(framing: Framing) -> dict[str, list[Joist]]:
    """By field, its joists, trimmers and tails and the flush beams that lie along them between its ends, in order across."""
    found: dict[str, list[Joist]] = {}
    for joist in framing.joists:
        if joist.runs:
            found.setdefault(joist.field, []).append(joist)
    for row in found.values():
        axis = 0 if row[0].along[1] else 1
        row += [beam for beam in framing.beams if beam.flush and _stands_in(row, beam, axis)]
        row.sort(key=lambda one: (one.start[axis], one.start[1 - axis]))
    return found


def _stands_in(row: list[Joist], beam: Joist, axis: int) -> bool:
    """Whether a beam runs the way of a field's joists, between its outermost ones and past at least one."""
    if beam.along != row[0].along:
        return False
    places = [one.start[axis] for one in row]
    low, high = min(one.start[1 - axis] for one in row), max(one.end[1 - axis] for one in row)
    inside = min(places) <= beam.start[axis] <= max(places)
    return inside and beam.start[1 - axis] < high and beam.end[1 - axis] > low
