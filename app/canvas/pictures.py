"""Which picture an element has: one function a kind of record."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from app.canvas.air_openings import draw_opening
from app.canvas.cleanouts import draw_cleanout
from app.canvas.fixtures import draw_fixture
from app.canvas.flooring import draw_flooring
from app.canvas.framed import draw_beam, draw_floor_opening
from app.canvas.hatches import draw_hatch
from app.canvas.picture import Picture
from app.canvas.posts import draw_exit, draw_fitting, draw_inlet, draw_riser
from app.canvas.runs import draw_drain, draw_supply, draw_vent
from app.canvas.walls import draw_wall
from app.canvas.wood import draw_field
from engine.framing.records import Joist
from engine.plan.records import (
    AirOpening,
    Beam,
    Cleanout,
    Drain,
    Element,
    Exit,
    Fixture,
    FlooringArea,
    FloorOpening,
    Hatch,
    Inlet,
    JoistField,
    PinnedFitting,
    Plan,
    Riser,
    Supply,
    Vent,
    Wall,
)


def draw(element: Element, plan: Plan, joists: Mapping[str, Sequence[Joist]], sizes: Mapping[str, float]) -> Picture:
    """The picture of an element of the plan, with the joists by field, the beams by their ids and the sizes that the study chose by id."""
    match element:
        case JoistField():
            return draw_field(element, joists.get(element.id, ()), plan.floor)
        case FloorOpening():
            return draw_floor_opening(element)
        case Beam():
            return draw_beam(element, any(one.flush for one in joists.get(element.id, ())))
        case FlooringArea():
            return draw_flooring(element)
        case Wall():
            return draw_wall(element, plan.floor)
        case AirOpening():
            return draw_opening(element, plan.walls)
        case Fixture():
            return draw_fixture(element, plan.walls, _host(element, plan))
        case Drain():
            return draw_drain(element, sizes.get(element.id))
        case Vent():
            return draw_vent(element, sizes.get(element.id))
        case Supply():
            return draw_supply(element)
        case Riser():
            return draw_riser(element)
        case Exit():
            return draw_exit(element)
        case Inlet():
            return draw_inlet(element)
        case PinnedFitting():
            return draw_fitting(element)
        case Cleanout():
            return draw_cleanout(element, plan)
        case Hatch():
            return draw_hatch(element)


def _host(fixture: Fixture, plan: Plan) -> Fixture | None:
    """The fixture that this one drains through; None where it has a drain of its own."""
    if fixture.through is None:
        return None
    return next((other for other in plan.fixtures if other.id == fixture.through), None)
