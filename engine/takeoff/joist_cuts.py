"""The joist-cut schedule: every bore and notch with its measures from edges that a tape can hook."""

from __future__ import annotations

from engine.checks import ALL_RULES
from engine.checks.model import Model
from engine.crossings.limits import allowance, judged_by_book
from engine.crossings.records import JoistCut
from engine.framing.records import Joist
from engine.plan.records import Record
from engine.takeoff.boring import sawn
from engine.takeoff.naming import ends_of, joist_words, numbered_cuts
from engine.trade.pipe import label, nominal


class CutOfJoist(Record, frozen=True, gc=False):
    """One row of the schedule, lengths in inches; tubes that share a hole stand in one row.

    `from_end` runs along the joist from its `end`, which is the south or west one, to the cut's middle, `from_other` from
    `other_end`; `sawn` are a notch's two sides from `end`. `down_from_top` and
    `up_from_bottom` are the bore's middle or the pipe's axis. `limit` is the widest bore or deepest notch allowed there, None
    where the rules on joists have no number: in rims, headers, blocks and engineered members; `least_wood` what must stay at
    either edge of a bore, None where no rule says; `sleeve` is the thickness of foam round a tube. `verdict` is ``yes``,
    ``no``, or ``not judged``.
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
    least_wood: float | None
    sleeve: float
    verdict: str
    faults: str


def cut_rows(model: Model) -> tuple[CutOfJoist, ...]:
    """Every cut in the order in which somebody with a drill walks the joists; numbered as on the drawings."""
    titles = {rule.id: rule.title for rule in ALL_RULES}
    return tuple(_row(model, titles, number, made) for number, made in numbered_cuts(model))


def _row(model: Model, titles: dict[str, str], number: int, made: JoistCut) -> CutOfJoist:
    joist = model.joists[made.joist]
    start, end = ends_of(joist)
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
        sawn=sawn(made) if notch else None,
        end=start,
        from_end=made.from_start,
        other_end=end,
        from_other=made.from_end,
        down_from_top=made.down_from_top,
        up_from_bottom=made.up_from_bottom,
        wood_above=made.wood_above,
        wood_below=made.wood_below,
        limit=made.limit if judged_by_book(joist) else None,
        least_wood=_least_wood(model, joist) if made.kind == "bore" else None,
        sleeve=next((run.insulation for run in model.plan.supplies if run.id == made.element), 0.0),
        verdict="not judged" if made.legal is None else "yes" if made.legal else "no",
        faults="; ".join([*(titles.get(rule, rule) for rule in made.faults), *unjudged]),
    )


def _least_wood(model: Model, joist: Joist) -> float | None:
    """What the book wants left between a bore and either edge; None where no rule speaks of the member."""
    ruled = judged_by_book(joist) and model.book.has("joist.bore.edge")
    return allowance(joist.depth, model.book).edge if ruled else None


def _pipe_words(model: Model, made: JoistCut) -> str:
    """The pipe's size and the run it belongs to; of tubes that share the hole, each one's."""
    pipe = model.network.by_id.get(made.pipe)
    if pipe is not None:
        return f"{label(pipe.size)} in, {made.element}"
    sizes = {run.id: label(nominal(run.size)) for run in model.plan.supplies}
    return "; ".join(f"{sizes[name]} in, {name}" if name in sizes else name for name in made.elements)
