"""The numbers and names that tie drawings to schedules: cuts, findings and joists."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from engine.checks.model import Model, once_a_model
from engine.crossings.records import Crossing, JoistCut
from engine.framing.outside import outside_of
from engine.framing.records import Joist
from engine.framing.telling import NOUNS, ends
from engine.plan.outline import compass

_AT_FACE = 1.0 / 64.0
"""How far a stick's face may lie from the floor's outline and still be its outside face, inches."""


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
    """What a joist is called on paper: its number, or which rim or end joist it is, and which piece where it is in several;
    where there are several fields, of which field: ``joist 2 of f1``."""
    return f"{whole_words(model, joist)}{_piece(model, joist)}"


def whole_words(model: Model, joist: Joist) -> str:
    """What a joist is called, whichever piece of it a flush beam leaves."""
    several = len(model.plan.fields) > 1
    of_field = f" of {joist.field}" if several else ""
    if joist.kind in ("common", "tail"):
        piece = joist.id.removeprefix(f"{joist.field}.{joist.number}")
        return f"joist {joist.number}{piece}{of_field}{' (tail)' if joist.kind == 'tail' else ''}"
    if joist.kind in ("trimmer", "header"):
        return f"{side_words(joist)} {joist.kind} of {_named(model, joist.opening)}"
    if joist.kind == "block":
        row, place = joist.id.rpartition("block-")[2].split("-")
        return f"block {place} of row {row}{of_field}"
    if joist.kind == "beam":
        return beam_words(model, joist.id)
    fields = {field.id: field for field in model.plan.fields}
    if fields[joist.field].to_outline:
        return f"{_at_side(model, joist)}{of_field}"
    return f"{side_words(joist)} {'rim' if joist.kind == 'rim' else 'end joist'}{of_field}"


def side_words(joist: Joist) -> str:
    """On which side of its field or opening a rim, end joist, header or trimmer stands: west, east, south or north."""
    return _side(joist)[0 if joist.number == 0 else 1]


def on_paper(model: Model, text: str) -> str:
    """A text with every stick of wood called what the sheets call it, in place of its name in the plan's model.

    ``block f1.block-1-2 (9 1/4 in deep)`` becomes ``block 2 of row 1 (9 1/4 in deep)``.
    """
    told, names = _names(model)
    return names.sub(lambda found: told[found[1] or found[2]], text)


@once_a_model
def _names(model: Model) -> tuple[dict[str, str], re.Pattern[str]]:
    """What each stick is called on paper by its name in the model, and what finds such a name in a text.

    A name that begins with a figure could be a measure, and is looked for behind its noun only.
    """
    told = {joist.id: joist_words(model, joist) for joist in model.framing.members}
    longest_first = sorted(told, key=len, reverse=True)
    every, lettered = (
        "|".join(map(re.escape, names)) or "(?!)"
        for names in (longest_first, [name for name in longest_first if not name[0].isdigit()])
    )
    nouns = "|".join((*NOUNS.values(), "joist"))
    ended = r"(?![\w-]|\.\w)"
    return told, re.compile(rf"\b(?:{nouns}) ({every}){ended}|(?<![\w.-])({lettered}){ended}")


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
    """What the floor's westmost and southmost outside faces are: the framing members that a tape hooks on."""
    lowest = tuple(min(values) for values in zip(*model.plan.floor.outline, strict=True))
    found = []
    for axis, otherwise in enumerate(("westmost framing", "southmost framing")):
        there = [
            joist
            for joist in model.framing.joists
            if joist.kind in ("rim", "end")
            and joist.along[axis] == 0.0
            and abs(joist.start[axis] - joist.thickness / 2.0 - lowest[axis]) < _AT_FACE
        ]
        found.append(joist_words(model, max(there, key=lambda one: one.length)) if there else otherwise)
    return found[0], found[1]
