"""The joist-cut schedule: every bore and notch with its measures from edges that a tape can hook."""

from __future__ import annotations

from engine.checks import ALL_RULES
from engine.checks.model import Model
from engine.crossings.limits import judged_by_book
from engine.crossings.records import JoistCut
from engine.plan.records import Record
from engine.takeoff.naming import ends_of, joist_words, numbered_cuts
from engine.trade.pipe import label, nominal


class CutOfJoist(Record, frozen=True, gc=False):
    """One row of the schedule, lengths in inches; tubes that share a hole stand in one row.

    `from_end` runs along the joist from its `end`, the nearer of the two, to the cut's middle, `from_other` from
    `other_end`; `sawn` are a notch's two sides from `end`. `down_from_top` and
    `up_from_bottom` are the bore's middle or the pipe's axis. `verdict` is ``yes``, ``no``, or ``not judged``.
    `limit` is None where the rules on joists have no number: in rims, headers, blocks and engineered members.
    """

    number: int
    joist: str
    pipe: str
    system: str
    kind: str
    bit: str
    diameter: float
    depth: float | None
    length: float | None
    sawn: tuple[float, float] | None
    end: str
    from_end: float
    other_end: str
    from_other: float
    down_from_top: float
    up_from_bottom: float
    wood_above: float
    wood_below: float
    limit: float | None
    verdict: str
    faults: str


def cut_rows(model: Model) -> tuple[CutOfJoist, ...]:
    """Every cut in the order in which somebody with a drill walks the joists; numbered as on the drawings."""
    titles = {rule.id: rule.title for rule in ALL_RULES}
    return tuple(_row(model, titles, number, made) for number, made in numbered_cuts(model))


def _row(model: Model, titles: dict[str, str], number: int, made: JoistCut) -> CutOfJoist:
    joist = model.joists[made.joist]
    start, end = ends_of(joist)
    from_start = made.from_start <= made.from_end
    notch = made.kind == "notch"
    unjudged = [f"not judged: {titles.get(rule, rule).lower()}" for rule in made.unjudged]
    return CutOfJoist(
        number=number,
        joist=joist_words(model, joist),
        pipe=_pipe_words(model, made),
        system=", ".join(dict.fromkeys(one.system for one in model.crossings if one.id in made.crossings)),
        kind=f"notch, {made.edge} edge" if notch and made.edge else made.kind,
        bit=made.bit or "",
        diameter=made.diameter,
        depth=made.depth if notch else None,
        length=made.length if notch else None,
        sawn=_sawn(made, from_start) if notch else None,
        end=start if from_start else end,
        from_end=made.from_start if from_start else made.from_end,
        other_end=end if from_start else start,
        from_other=made.from_end if from_start else made.from_start,
        down_from_top=made.down_from_top,
        up_from_bottom=made.up_from_bottom,
        wood_above=made.wood_above,
        wood_below=made.wood_below,
        limit=made.limit if judged_by_book(joist) else None,
        verdict="not judged" if made.legal is None else "yes" if made.legal else "no",
        faults="; ".join([*(titles.get(rule, rule) for rule in made.faults), *unjudged]),
    )


def _sawn(made: JoistCut, from_start: bool) -> tuple[float, float]:
    """A notch's two sides from the nearer end of the joist."""
    middle = made.from_start if from_start else made.from_end
    return middle - made.length / 2.0, middle + made.length / 2.0


def _pipe_words(model: Model, made: JoistCut) -> str:
    """The pipe's size and the run it belongs to; of tubes that share the hole, each one's."""
    pipe = model.network.by_id.get(made.pipe)
    if pipe is not None:
        return f"{label(pipe.size)} in, {made.element}"
    sizes = {run.id: label(nominal(run.size)) for run in model.plan.supplies}
    return "; ".join(f"{sizes[name]} in, {name}" if name in sizes else name for name in made.elements)
