"""What a tape needs at the joists: which end to measure from, both faces of a hole at an angle, where a notch is sawn."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from engine.checks.model import Model, once_a_model
from engine.crossings.records import Crossing, JoistCut
from engine.crossings.sharing import lean, midway
from engine.crossings.stretches import Line as Stretch
from engine.framing.records import Joist
from engine.lengths import nearest
from engine.takeoff.naming import ends_of, numbered_cuts, the_beam, whole_words

_TOUCHES = 1e-6
_SQUARE = 1.0
"""Degrees from square to the joist under which a bit held square makes the hole all the same: a sixteenth through 2x wood."""


class Hook(NamedTuple):
    """The end of a joist that all its distances run from: its start, in the south or west.

    `end` is what that end is called, `other` the far one. `stands` says against whose face the end stands, where the tape is
    butted, or that it is open at a lap; empty where neither is so. `seen` is the side that the joist is looked at from
    when this end is at the left.
    """

    end: str
    other: str
    stands: str
    seen: str


class Line(NamedTuple):
    """A line across joists on which several cuts lie, at one printed distance `along` from the same end.

    `cuts` are the numbers with their cuts, in the order of the numbers.
    """

    hook: Hook
    along: float
    cuts: tuple[tuple[int, JoistCut], ...]


def walk(model: Model) -> tuple[tuple[Joist, tuple[tuple[int, JoistCut], ...]], ...]:
    """The joists with cuts as one walks them, field by field and from the west or south on, each with its cuts."""
    cuts: dict[str, list[tuple[int, JoistCut]]] = {}
    for number, made in numbered_cuts(model):
        cuts.setdefault(made.joist, []).append((number, made))
    fields = {field.id: n for n, field in enumerate(model.plan.fields)}
    commons = {joist.field: joist.along for joist in model.framing.joists if joist.kind == "common"}

    def place(joist: Joist) -> tuple[object, ...]:
        northward = bool(joist.along[1])
        across, along = (joist.start[0], joist.start[1]) if northward else (joist.start[1], joist.start[0])
        return (
            fields.get(joist.field, len(fields)),
            joist.along != commons.get(joist.field, joist.along),
            across,
            along,
        )

    found = sorted((joist for joist in model.framing.joists if joist.id in cuts), key=place)
    return tuple((joist, tuple(cuts[joist.id])) for joist in found)


def hook(model: Model, joist: Joist) -> Hook:
    """Where the tape is butted for a joist's distances."""
    end, other = ends_of(joist)
    return Hook(end, other, _stands(model, joist), "east" if joist.along[1] else "south")


def faces(model: Model, joist: Joist, made: JoistCut) -> tuple[float, float] | None:
    """Where a hole at an angle comes to the face that is seen and to the one behind, inches from the hooked end.

    None for a hole square to the joist, whose middle is the same on both, and for what no straight bore makes.
    """
    crossing, drawn = crossing_of(model, made), _pipes(model)
    lines = [drawn[pipe] for pipe in made.pipes if pipe in drawn]
    if not lines or not crossing.straight or made.kind != "bore" or crossing.skew < _SQUARE:
        return None
    shift = midway([lean(line, joist) for line in lines]) * joist.thickness / 2.0
    return made.from_start + shift, made.from_start - shift


def crossing_of(model: Model, made: JoistCut) -> Crossing:
    """The crossing that asks for a cut; for tubes that share a hole, the hole's."""
    return _crossings(model)[made.crossing]


def sawn(made: JoistCut) -> tuple[float, float]:
    """Where a notch's two sides are sawn, inches from the hooked end."""
    return made.from_start - made.length / 2.0, made.from_start + made.length / 2.0


def lines(model: Model) -> tuple[Line, ...]:
    """The lines that are worth snapping: cuts of two or more joists at one printed distance from ends in a row.

    Holes at an angle are left out: on the face, where a line is squared down, they lie elsewhere.
    """
    rows: dict[tuple[object, ...], list[tuple[int, JoistCut]]] = {}
    for joist, cuts in walk(model):
        row = nearest(joist.start[1] if joist.along[1] else joist.start[0])
        for number, made in cuts:
            if faces(model, joist, made) is not None:
                continue
            rows.setdefault((joist.field, joist.along, row, nearest(made.from_start)), []).append((number, made))
    found = [
        Line(hook(model, model.joists[cuts[0][1].joist]), nearest(cuts[0][1].from_start), tuple(cuts))
        for cuts in rows.values()
        if len({made.joist for _, made in cuts}) > 1
    ]
    return tuple(sorted(found, key=lambda line: line.cuts[0][0]))


@once_a_model
def _crossings(model: Model) -> dict[str, Crossing]:
    shared = (hole.crossing for hole in model.shared)
    return {crossing.id: crossing for crossing in (*model.crossings, *shared)}


@once_a_model
def _pipes(model: Model) -> dict[str, Stretch]:
    return {line.id: line for line in model.lines}


def own_end(model: Model) -> str:
    """What the end of a joist is that its distances run from, for all the sticks of a floor together."""
    rim = "the rim's inside face"
    pieces = [joist for joist in model.framing.joists if joist.runs]
    others = [
        words
        for words, there in (
            ("the header's face where it hangs on one", any(joist.kind == "tail" for joist in pieces)),
            ("the beam's face where a beam cuts it", any(any(joist.cut_at) for joist in pieces)),
            ("its own open end in a lap", any(any(joist.joined) for joist in pieces)),
        )
        if there
    ]
    return ", or ".join((rim, *others))


def _stands(model: Model, joist: Joist) -> str:
    """Against which face a joist's hooked end stands."""
    looks = ends_of(joist)[1]
    if joist.cut_at[0]:
        return f"stands against the {looks} face of {the_beam(model, joist.cut_at[0])}"
    at = joist.start
    for other in _across(model, joist):
        away = abs(at[0] - other.start[0]) if other.along[1] else abs(at[1] - other.start[1])
        reach = at[1] if other.along[1] else at[0]
        low, high = sorted((other.start[1], other.end[1]) if other.along[1] else (other.start[0], other.end[0]))
        if abs(away - other.thickness / 2.0) <= _TOUCHES and low <= reach <= high:
            against = the_beam(model, other.id) if other.kind == "beam" else _the(whole_words(model, other))
            return f"stands against the {looks} face of {against}"
    return "is open where it is joined to the next" if joist.joined[0] else ""


def _the(stick: str) -> str:
    """A stick's name inside a sentence: a numbered one stands without an article."""
    return stick if stick.split()[0] in ("joist", "block") else f"the {stick}"


def _across(model: Model, joist: Joist) -> Iterator[Joist]:
    """What lies across a joist at its own level: rims, headers, blocks, flush beams."""
    flush = (beam for beam in model.framing.beams if beam.flush and 0.0 in beam.along)
    return (other for other in (*model.framing.joists, *flush) if bool(other.along[1]) != bool(joist.along[1]))
