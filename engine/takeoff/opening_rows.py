"""Openings framed in a floor, set out for whoever frames them: clear ways by distances from faces, and the wood round them."""

from __future__ import annotations

from engine.checks.model import Model
from engine.drafting.heading_off import stands_along
from engine.framing.records import Joist
from engine.framing.telling import ends
from engine.plan.records import FloorOpening, Record
from engine.takeoff.framing_rows import datum
from engine.takeoff.naming import side_words, whole_words


class OpeningRow(Record, frozen=True, gc=False):
    """One opening. `west` and `east` count from its field's west outside face, `south` and `north` from the south one, inches,
    each to the face of the wood that bounds its clear way. `headers` and `trimmers` are the plies and length of each; `tails`
    the joists that are cut back, by their words and length.
    """

    name: str
    west: float
    east: float
    south: float
    north: float
    lumber: str
    headers: tuple[tuple[str, int, float], ...]
    trimmers: tuple[tuple[str, int, float], ...]
    tails: tuple[tuple[str, float], ...]


def opening_rows(model: Model) -> tuple[OpeningRow, ...]:
    """Every opening that frames something, in the plan's order."""
    return tuple(row for opening in model.plan.floor_openings if (row := _row(model, opening)) is not None)


def _row(model: Model, opening: FloorOpening) -> OpeningRow | None:
    framed = [joist for joist in model.framing.joists if joist.opening == opening.id]
    if not framed:
        return None
    field = next(field for field in model.plan.fields if field.id == framed[0].field)
    x, y = datum(model)
    (x0, y0), (x1, y1) = opening.start, opening.end
    headers = [joist for joist in framed if joist.kind == "header"]
    return OpeningRow(
        name=opening.name or opening.id,
        west=x0 - x,
        east=x1 - x,
        south=y0 - y,
        north=y1 - y,
        lumber=field.lumber,
        headers=tuple((side_words(one), one.plies, one.length) for one in headers),
        trimmers=tuple(
            (side_words(one), one.plies, one.length)
            for one in framed
            if one.kind == "trimmer" and stands_along(one, opening)
        ),
        tails=tuple(
            (whole_words(model, joist), joist.length)
            for joist in model.framing.joists
            if joist.kind == "tail" and any(_hangs(joist, header) for header in headers)
        ),
    )


def _hangs(tail: Joist, header: Joist) -> bool:
    """Whether a tail ends at a header's face."""
    axis = 0 if ends(tail)[0] == "west" else 1
    other = 1 - axis
    low, high = sorted((header.start[other], header.end[other]))
    half = header.thickness / 2.0
    near = min(abs(abs(end[axis] - header.start[axis]) - half) for end in (tail.start, tail.end))
    return low < tail.start[other] < high and near < 1.0 / 64.0
