"""The figures and words of a joist's elevation: what a tape, a bit and a saw need at each cut, as they are printed."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks import ALL_RULES
from engine.checks.model import Model
from engine.crossings.limits import judged_by_book, spans
from engine.crossings.records import Crossing, JoistCut
from engine.crossings.stretches import DIGITS
from engine.drawings.linetypes import LINE_TYPES
from engine.framing.records import Joist
from engine.lengths import down, feet_inches, inches, up
from engine.plan.records import Record
from engine.takeoff.boring import Hook, crossing_of, faces, sawn
from engine.trade.lumber import actual
from engine.trade.pipe import label, nominal


class Shown(Record, frozen=True, gc=False):
    """One cut of an elevation, or one in each of several joists alike, with its figures as they are printed.

    `numbers` are those of plan and lists, joist by joist. `at` is the middle from the hooked end, `height` the axis
    from the bottom edge, `width` the hole's or the pipe's, `length` what it takes along the joist; `low` and `high`
    bound what it takes out of the depth, from the bottom edge; `near` and `behind` are a hole's middle on the face
    seen and on the one behind; all in inches of the joist. `along` and `other` are told on the face seen. `straight` is False for what no bore makes. `verdict` is
    ``legal``, ``NOT LEGAL`` or ``not judged``. `pipes` are what passes, each with its size, letters and run, `runs` the runs
    drawn on the plan; `tubes` are the outlines of those that share the hole, on the face seen: middle from the hooked
    end, height from the bottom edge, and width; `notes` say what has no column.
    """

    numbers: tuple[int, ...]
    kind: str
    verdict: str
    at: float
    height: float
    width: float
    length: float
    low: float
    high: float
    straight: bool
    near: float
    behind: float
    along: str
    other: str
    down: str
    up: str
    bit: str
    pipes: tuple[str, ...]
    runs: tuple[str, ...]
    tubes: tuple[tuple[float, float, float], ...]
    notes: tuple[str, ...]


_OPPOSITE = {"south": "north", "east": "west"}

_BY_SIZE = ("bore-too-large", "notch-too-deep", "end-notch-too-deep")
"""Rules that a cut's limit of size belongs to."""


def facts(model: Model, joist: Joist) -> Iterator[str]:
    """Lumber, measured depth, length, clear spans, and what no rule speaks of."""
    field = next((field for field in model.plan.fields if field.id == joist.field), None)
    lumber = None if field is None else actual(field.lumber)
    if lumber is None or field is None or joist.depth not in (field.depth, lumber.depth):
        yield f'{inches(joist.thickness)}" BY {inches(joist.depth)}"'
    else:
        thick = "" if joist.thickness == lumber.thickness else f', {inches(joist.thickness)}" THICK'
        yield f'{field.lumber}{thick}, {inches(joist.depth)}" DEEP' + (" AS MEASURED" if field.depth else "")
    yield f'{inches(joist.length)}" LONG'
    if joist.member == "engineered":
        yield "ENGINEERED: NO CUT BUT BY ITS MAKER'S CHART"
    elif joist.kind == "block":
        yield "BORE IT BEFORE IT IS NAILED IN: NO RULE OF THE BOOK SPEAKS OF CUTS IN IT"
    elif not judged_by_book(joist):
        yield "NO RULE OF THE BOOK SPEAKS OF CUTS IN IT"
    else:
        clear = [feet_inches(span.length) for span in spans(joist)]
        yield f"CLEAR SPAN{'S' if len(clear) > 1 else ''} {', '.join(clear)}" if clear else "NO SPAN DRAWN"


def shown(model: Model, joist: Joist, held: Hook, number: int, made: JoistCut) -> Shown:
    """One cut with its figures, told from the end that is measured from."""
    crossing = crossing_of(model, made)
    at = made.from_start
    met = faces(model, joist, made)
    near, behind = (at, at) if met is None else met
    angled = "" if met is None else " *"
    return Shown(
        numbers=(number,),
        kind=made.kind,
        verdict="legal" if made.legal else "not judged" if made.legal is None else "NOT LEGAL",
        at=at,
        height=made.up_from_bottom,
        width=made.diameter,
        length=made.length,
        low=made.wood_below,
        high=joist.depth - made.wood_above,
        straight=crossing.straight,
        near=near,
        behind=behind,
        along=f'{inches(near)}"{angled}',
        other=f'{inches(joist.length - near)}"{angled}',
        down=past(made.down_from_top, "above"),
        up=past(made.up_from_bottom, "below"),
        bit=_bit(made),
        pipes=tuple(_pipes(model, made, crossing)),
        runs=made.elements,
        tubes=tuple(_outlines(joist, made)),
        notes=tuple(_notes(held, made, met)),
    )


def _foam(model: Model, element: str) -> bool:
    """Whether a tube goes through in its foam sleeve, for which its bit is chosen."""
    return any(run.id == element and run.insulation > 0.0 for run in model.plan.supplies)


def past(value: float, side: str) -> str:
    """A height from an edge; an axis that lies past that edge is no place for a tape, and says so."""
    return f'{inches(value)}"' if value >= 0.0 else f'{inches(-value)}" {side}'


def _bit(made: JoistCut) -> str:
    if made.kind == "notch":
        return "notch"
    return f'{made.bit}"' if made.bit else f'{inches(up(made.diameter))}" hole'


def _pipes(model: Model, made: JoistCut, crossing: Crossing) -> Iterator[str]:
    """What passes: size, letters and run; tubes that share the hole in their order along the joist."""
    passing = [(tube.pipe, tube.element, tube.system) for tube in made.tubes]
    for pipe, run, system in dict.fromkeys(passing or [(made.pipe, made.element, crossing.system)]):
        foam = " + foam" if _foam(model, run) else ""
        yield f'{_size(model, pipe, run)}" {LINE_TYPES[system].letters}{foam} {run}'


def _size(model: Model, pipe: str, element: str) -> str:
    drawn = model.network.by_id.get(pipe)
    if drawn is not None:
        return label(drawn.size)
    return next((label(nominal(run.size)) for run in model.plan.supplies if run.id == element), "?")


def _outlines(joist: Joist, made: JoistCut) -> Iterator[tuple[float, float, float]]:
    """The tubes that share a hole as they lie on the face that is seen."""
    for tube in made.tubes:
        along = tube.along + tube.lean * joist.thickness / 2.0
        yield round(along, DIGITS), round(joist.depth + tube.z, DIGITS), tube.width


def _notes(held: Hook, made: JoistCut, met: tuple[float, float] | None) -> Iterator[str]:
    """What a cut needs to be told besides its column of figures, a sentence each."""
    titles = {rule.id: rule.title for rule in ALL_RULES}
    if made.legal is False:
        most = f' ({inches(down(made.limit))}" at most)' if made.limit else ""
        broken = (titles.get(rule, rule).lower() + (most if rule in _BY_SIZE else "") for rule in made.faults)
        yield f"NOT LEGAL, do not cut: {'; '.join(broken)}."
    if made.unjudged:
        yield f"Not judged: {'; '.join(titles.get(rule, rule).lower() for rule in made.unjudged)}."
    elif made.legal is None:
        yield "Not judged: no rule of the book speaks of this member."
    if made.kind == "notch":
        low, high = sawn(made)
        yield (
            f'Notch in the {made.edge} edge: saw at {inches(low)}" and at {inches(high)}" from the {held.end} end, '
            f'{inches(made.depth)}" deep.'
        )
    elif made.bit is None:
        yield "No bit of that size is listed."
    if met is not None:
        near, behind = met
        yield (
            f'* At an angle. On the {held.seen} face, which is seen here, its middle is {inches(near)}" from the {held.end} '
            f'end; on the {_OPPOSITE[held.seen]} face {inches(behind)}". In the middle of the wood, as the list tells it: '
            f'{inches(made.from_start)}".'
        )
