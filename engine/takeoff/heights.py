"""Heights along every run: where each joist, fitting, end, block and strap finds the pipe, from edges that a tape hooks."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.framing.wood import Wood, wood_of
from engine.joinery.records import Part
from engine.plan.records import Point, Record
from engine.takeoff.cutlist import named
from engine.takeoff.naming import whole_words
from engine.takeoff.records import Support, System
from engine.takeoff.runs import Run, runs
from engine.takeoff.seats import Seat, seat
from engine.takeoff.standing import SAME, called, corners, fittings_under, stands_at, within
from engine.takeoff.supports import supports
from engine.takeoff.upright import hub_radius
from engine.trade.pipe import tube

_FINE = 6
"""Decimals to which two places along a run are one."""


class HeightRow(Record, frozen=True, gc=False):
    """One place on a run: `along` inches from its upper end (a supply's first point); what is there, and how high.

    `centre_down` and `bottom_down` count down from the joists' top to the pipe's axis and underside; None where
    the height is not known, negative above the joists. `centre_below` and `bottom_below` count down from the bottom
    edge of the joist there, or of the bay's, negative above that edge; None where no joist is near. `held` names what
    carries the pipe at the place, if anything does. `crossing` is the joist's, where the pipe meets one, and `seat` says
    where the place lies among the joists.
    """

    element: str
    system: System
    size: float
    along: float
    what: str
    at: Point
    centre_down: float | None
    bottom_down: float | None
    centre_below: float | None = None
    bottom_below: float | None = None
    held: str = ""
    crossing: str = ""
    seat: Seat = Seat()


def height_table(model: Model, held: tuple[Support, ...] | None = None) -> tuple[HeightRow, ...]:
    """Each run under the floor from its upper end down: ends, fittings, corners, joists crossed, blocks, straps, hooks.

    `held` are the model's supports where they are known already.
    """
    return tuple(row for _, rows in run_heights(model, held) for row in rows)


def run_heights(model: Model, held: tuple[Support, ...] | None = None) -> Iterator[tuple[Run, list[HeightRow]]]:
    """The runs of the height table, each with its rows."""
    overhead = {vent.id for vent in model.plan.vents if vent.above_floor is not None}
    fittings, wood = fittings_under(model), wood_of(model.framing)
    carried: dict[str, list[Support]] = {}
    for one in supports(model) if held is None else held:
        carried.setdefault(one.pipe, []).append(one)
    based = {
        one.at: hub_radius(one.size) - one.down
        for ones in carried.values()
        for one in ones
        if one.kind == "base" and one.down is not None
    }
    for run in runs(model):
        if run.element not in overhead:
            yield run, _of_run(model, wood, fittings, run, carried, based)


def _of_run(
    model: Model,
    wood: Wood,
    fittings: list[Part],
    run: Run,
    carried: dict[str, list[Support]],
    based: dict[Point, float],
) -> list[HeightRow]:
    placed = [one for stretch in run.stretches for one in carried.get(stretch.pipe, ())]
    mine = [one for one in placed if one.kind != "nothing"]
    by = {round(one.along, _FINE): one.kind for one in mine}
    crossed = dict(run.crossings)
    found = [(along, 1, whole_words(model, model.joists[crossing.joist])) for along, crossing in run.crossings]
    found += [(along, 0, called(run, along, stands_at(fittings, run, point))) for along, point in corners(run)]
    found += [(along, 0, named(part)) for part, along in within(fittings, run)]
    traps = _traps(fittings, run)
    found = [
        (traps[order, along][0], order, f"{what}, outlet") if (order, along) in traps else (along, order, what)
        for along, order, what in found
    ]
    outlets = dict(traps.values())
    there = {round(along, _FINE) for along, _, _ in found}
    found += [(one.along, 2, one.kind) for one in mine if round(one.along, _FINE) not in there]
    feet = {along: based[point] for along, point in corners(run) if point in based}
    od = tube(run.size).od if run.material == "PEX" else run.od
    rows = []
    for along, order, what in sorted(found):
        stretch = run.stretch(along)
        z, at = stretch.z(along), stretch.at(along)
        z = z if z is None or order else outlets.get(along, z)
        crossing = crossed.get(along) if order else None
        place = seat(model, wood, at, crossing)
        edge = place.bottom
        rows.append(
            HeightRow(
                run.element,
                run.system,
                run.size,
                along,
                what,
                at,
                None if z is None else -z,
                None if z is None else -z + od / 2.0,
                None if z is None or edge is None else edge - z,
                None if z is None or edge is None else edge - z + od / 2.0,
                by.get(round(along, _FINE), "") or ("base" if order == 0 and _stands_on(feet.get(along), z) else ""),
                crossing.id if crossing is not None and order == 1 else "",
                place,
            )
        )
    return rows


def _traps(fittings: list[Part], run: Run) -> dict[tuple[int, float], tuple[float, float]]:
    """For each trap by its row's order and place along a run: where its outlet is, and at which height.

    The trap is level in itself, and the fall begins at its outlet's stop.
    """
    placed = [(along, part) for along, point in corners(run) for part in stands_at(fittings, run, point)]
    placed += [(along, part) for part, along in within(fittings, run)]
    return {
        (0, along): (
            along + max((port.takeoff.length for port in part.ports if port.role == "outlet"), default=0.0),
            part.centre[2],
        )
        for along, part in placed
        if part.kind == "p_trap"
    }


def _stands_on(foot: float | None, z: float | None) -> bool:
    """Whether a plumb pipe's foot, carried by itself, lies at a run's own height."""
    return foot is not None and z is not None and abs(foot - z) <= SAME
