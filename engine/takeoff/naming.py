"""The numbers and names that tie drawings to schedules: cuts, findings and joists."""

from __future__ import annotations

from engine.checks.model import Model
from engine.crossings.records import JoistCut
from engine.framing.records import Joist

_ENDS = {"north-south": ("south", "north"), "east-west": ("west", "east")}


def numbered_cuts(model: Model) -> tuple[tuple[int, JoistCut], ...]:
    """Every bore and notch with its number: joist by joist, and along each joist from its start."""
    order = {joist.id: n for n, joist in enumerate(model.framing.joists)}
    cuts = sorted(model.cuts, key=lambda made: (order[made.joist], made.from_start, made.crossing))
    return tuple(enumerate(cuts, 1))


def joist_words(model: Model, joist: Joist) -> str:
    """What a joist is called on paper: its number, or which rim or end joist it is."""
    several = len(model.plan.fields) > 1
    where = f"{joist.field}: " if several else ""
    if joist.kind == "common":
        return f"{where}joist {joist.number}"
    northward = bool(joist.along[1])
    if joist.kind == "rim":
        side = ("west", "east") if northward else ("south", "north")
        return f"{where}{side[joist.number]} rim"
    side = ("west", "east") if northward else ("south", "north")
    return f"{where}{side[0] if joist.number == 0 else side[1]} end joist"


def ends_of(joist: Joist) -> tuple[str, str]:
    """What a joist's start and end are called: south and north, or west and east."""
    return _ENDS["north-south" if joist.along[1] else "east-west"]


def edges_of(model: Model) -> tuple[str, str]:
    """What the floor's west and south outside faces are: the framing members that a tape hooks on."""
    northward = any(joist.kind == "common" and joist.along[1] for joist in model.framing.joists)
    eastward = any(joist.kind == "common" and joist.along[0] for joist in model.framing.joists)
    if northward == eastward:
        return ("west framing", "south framing")
    return ("west end joist", "south rim") if northward else ("west rim", "south end joist")
