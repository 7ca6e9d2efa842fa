"""The numbers and names that tie drawings to schedules: cuts, findings and joists."""

from __future__ import annotations

import math
from collections.abc import Sequence

from engine.checks.model import Model, once_a_model
from engine.crossings.records import Crossing, JoistCut
from engine.framing.outside import outside_of
from engine.framing.records import Joist
from engine.framing.telling import ends
from engine.plan.outline import compass


def numbered_cuts(model: Model) -> tuple[tuple[int, JoistCut], ...]:
    """Every bore and notch with its number: joist by joist, and along each joist from its start."""
    order = {joist.id: n for n, joist in enumerate(model.framing.joists)}
    cuts = sorted(model.cuts, key=lambda made: (order[made.joist], made.from_start, made.crossing))
    return tuple(enumerate(cuts, 1))


@once_a_model
def crossings_on(model: Model) -> dict[str, list[Crossing]]:
    """The crossings of each pipe or stretch of water line, by its id."""
    found: dict[str, list[Crossing]] = {}
    for crossing in model.crossings:
        found.setdefault(crossing.pipe, []).append(crossing)
    return found


def joist_words(model: Model, joist: Joist) -> str:
    """What a joist is called on paper: its number, or which rim or end joist it is, and which piece where it is in several."""
    return f"{whole_words(model, joist)}{_piece(model, joist)}"


def whole_words(model: Model, joist: Joist) -> str:
    """What a joist is called, whichever piece of it a flush beam leaves."""
    several = len(model.plan.fields) > 1
    where = f"{joist.field}: " if several else ""
    if joist.kind in ("common", "tail"):
        piece = joist.id.removeprefix(f"{joist.field}.{joist.number}")
        return f"{where}joist {joist.number}{piece}{' (tail)' if joist.kind == 'tail' else ''}"
    side = _side(joist)
    if joist.kind in ("trimmer", "header"):
        return f"{where}{side[joist.number]} {joist.kind} of {_named(model, joist.opening)}"
    if joist.kind == "block":
        row, place = joist.id.rpartition("block-")[2].split("-")
        return f"{where}block {place} of row {row}"
    if joist.kind == "beam":
        return beam_words(model, joist.id)
    fields = {field.id: field for field in model.plan.fields}
    if fields[joist.field].to_outline:
        return f"{where}{_at_side(model, joist)}"
    if joist.kind == "rim":
        return f"{where}{side[joist.number]} rim"
    return f"{where}{side[0] if joist.number == 0 else side[1]} end joist"


def _piece(model: Model, joist: Joist) -> str:
    """On which side of the beams and laps that end it a piece lies."""
    before, after = (_ended_at(model, joist, place) for place in (0, 1))
    if before and after:
        return f" (between {before} and {after})"
    if not before and not after:
        return ""
    start, end = ends(joist)
    return f" ({start} of {after})" if after else f" ({end} of {before})"


def _ended_at(model: Model, joist: Joist, place: int) -> str:
    """What a piece ends at, at its start or end: a flush beam, or the lap where its joist goes on; empty for its own end."""
    beam = joist.cut_at[place]
    if not beam:
        return "the lap" if joist.joined[place] else ""
    return beam_words(model, beam)


def together(names: Sequence[str], last: str = ", ") -> str:
    """Sticks' names in a row, with the word that they share and where their pieces lie said once; `last` joins the last."""
    wholes, pieces = zip(*(name.partition(" (")[::2] for name in names), strict=True)
    heads, tails = zip(*(whole.rpartition(" ")[::2] for whole in wholes), strict=True)
    alike = len(names) > 1 and len({*heads}) == len({*pieces}) == 1 and heads[0]
    if not alike or not all(tail[0].isdigit() for tail in tails):
        return last.join((", ".join(names[:-1]), names[-1])) if len(names) > 1 else names[0]
    piece = f" ({pieces[0]}" if pieces[0] else ""
    return f"{heads[0]}s {last.join((', '.join(tails[:-1]), tails[-1]))}{piece}"


def beam_words(model: Model, name: str) -> str:
    """A beam by the name its owner gave it, else by its id."""
    return _called(model, name) or f"beam {name}"


def the_beam(model: Model, name: str) -> str:
    """A beam within a sentence: the girder, or beam b1."""
    called = _called(model, name)
    return f"the {called}" if called else f"beam {name}"


def _called(model: Model, beam: str) -> str:
    return next((one.name for one in model.plan.beams if one.id == beam), "")


def _side(joist: Joist) -> tuple[str, str]:
    """What the two sides of the field are called that a stick of its heading can stand at."""
    return ("west", "east") if abs(joist.along[1]) > abs(joist.along[0]) else ("south", "north")


def _named(model: Model, name: str) -> str:
    """A floor opening by the name its owner gave it, else by its id."""
    told = next((one.name for one in model.plan.floor_openings if one.id == name), "")
    return told or name


def _at_side(model: Model, joist: Joist) -> str:
    """On which side of the floor a rim or side joist stands, by where the floor's outline looks to there."""
    mates = [one for one in model.framing.joists if one.kind == joist.kind and one.field == joist.field]
    alike = [one for one in mates if _facing(model, one) == _facing(model, joist)]
    which = f" {alike.index(joist) + 1}" if len(alike) > 1 else ""
    return f"{_facing(model, joist)} {'rim' if joist.kind == 'rim' else 'side joist'}{which}"


def _facing(model: Model, joist: Joist) -> str:
    """The compass word for the way that a rim or side joist looks out of the floor."""
    found = outside_of(joist, model.plan.floor.outline)
    side = 1.0 if found is None else found.side
    return compass(math.degrees(math.atan2(-side * joist.along[0], side * joist.along[1])))


def ends_of(joist: Joist) -> tuple[str, str]:
    """What a joist's start and end are called: south and north, or west and east."""
    return ends(joist)


def edges_of(model: Model) -> tuple[str, str]:
    """What the floor's west and south outside faces are: the framing members that a tape hooks on."""
    northward = any(joist.kind == "common" and joist.along[1] for joist in model.framing.joists)
    eastward = any(joist.kind == "common" and joist.along[0] for joist in model.framing.joists)
    if northward == eastward:
        return ("west framing", "south framing")
    return ("west end joist", "south rim") if northward else ("west rim", "south end joist")
