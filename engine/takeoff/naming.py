"""The numbers and names that tie drawings to schedules: cuts, findings and joists."""

from __future__ import annotations

import math
import re

from engine.checks.model import Model, once_a_model
from engine.crossings.records import JoistCut
from engine.framing.outside import outside_of
from engine.framing.records import Joist
from engine.framing.telling import NOUNS, ends
from engine.plan.outline import compass
from engine.plan.records import Beam, FloorOpening

_AT_FACE = 1.0 / 64.0
"""How far a stick's face may lie from the floor's outline and still be its outside face, inches."""


def numbered_cuts(model: Model) -> tuple[tuple[int, JoistCut], ...]:
    """Every bore and notch with its number: joist by joist, and along each joist from its start."""
    order = {joist.id: n for n, joist in enumerate(model.framing.joists)}
    cuts = sorted(model.cuts, key=lambda made: (order[made.joist], made.from_start, made.crossing))
    return tuple(enumerate(cuts, 1))


def joist_words(model: Model, joist: Joist) -> str:
    """What a joist is called on paper: its number, or which rim or end joist it is; where there are several fields, of
    which field: ``joist 2 of f1``."""
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
        return _named(model, joist.id)
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


def _side(joist: Joist) -> tuple[str, str]:
    """What the two sides of the field are called that a stick of its heading can stand at."""
    return ("west", "east") if abs(joist.along[1]) > abs(joist.along[0]) else ("south", "north")


def _named(model: Model, name: str) -> str:
    """A beam or floor opening by the name its owner gave it, else by its id."""
    things: tuple[Beam | FloorOpening, ...] = (*model.plan.beams, *model.plan.floor_openings)
    told = next((one.name for one in things if one.id == name), "")
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
