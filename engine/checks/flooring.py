"""Areas with a flooring of their own: whether each covers some of the floor, and nothing else."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from engine.checks.floor_framing import SUBJECT
from engine.checks.model import Model
from engine.checks.outcomes import COMMON
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.lengths import inches, up
from engine.plan.records import Floor, FlooringArea, Point

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

_SLIVER = 1e-6
"""Square inches, or inches, that only arithmetic leaves."""


def covers_nothing(model: Model) -> Iterator[Outcome]:
    """An area that covers nothing: it lies off the floor, or later areas hide all of it that lies on it.

    Holds: one of which some lies bare on the floor. To look at: one wholly past the outline; one under a later one as
    large. Common practice, no source.
    """
    areas = model.plan.flooring_areas
    if not areas:
        yield DoesNotApply()
        return
    from shapely.geometry import Polygon

    bare: BaseGeometry = Polygon(model.plan.floor.outline)
    found: list[Outcome] = []
    for area in reversed(areas):
        shape = _shape(area)
        on_floor = shape.intersection(Polygon(model.plan.floor.outline)).area > _SLIVER
        if shape.intersection(bare).area > _SLIVER:
            found.append(Holds(area.id))
        else:
            why = "lies under others drawn after it" if on_floor else "lies off the floor"
            mend = "Delete it, or draw it after what should lie under it." if on_floor else "Move it onto the floor."
            text = f"Flooring area {area.id} {why}: it changes nothing."
            found.append(_finding("flooring-covers-nothing", area, None, text, mend))
        bare = bare.difference(shape)
    yield from reversed(found)


def past_the_floor(model: Model) -> Iterator[Outcome]:
    """An area that reaches past the floor's outline: one of its edges lies elsewhere than meant.

    Holds: one whose edges lie on the outline. To look at: one 1/16 in past it, measured square to its edges. One wholly
    off the floor does not apply: that is told by itself. Common practice, no source.
    """
    areas = model.plan.flooring_areas
    if not areas:
        yield DoesNotApply()
        return
    from shapely.geometry import Polygon

    floor = Polygon(model.plan.floor.outline)
    for area in areas:
        reaches = reach_on_floor(area, model.plan.floor)
        if reaches is None:
            yield DoesNotApply(area.id)
        elif _shape(area).difference(floor).area <= _SLIVER:
            yield Holds(area.id)
        else:
            (x0, y0), (x1, y1) = reaches
            (left, low), (right, high) = area.start, area.end
            by = max(x0 - left, y0 - low, right - x1, high - y1)
            reach = f"by {inches(up(by))} in" if by > _SLIVER else "at a corner"
            text = f"Flooring area {area.id} reaches past the floor {reach}."
            yield _finding("flooring-past-the-floor", area, by, text, "Set its edges on the floor's.")


def reach_on_floor(area: FlooringArea, floor: Floor) -> tuple[Point, Point] | None:
    """The corners of the rectangle round what of an area lies on the floor; None where nothing of it does."""
    import shapely

    on_floor = _shape(area).intersection(shapely.Polygon(floor.outline))
    parts = [part for part in shapely.get_parts(on_floor) if part.area > _SLIVER]
    if not parts:
        return None
    x0, y0, x1, y1 = map(float, shapely.total_bounds(parts))
    return (x0, y0), (x1, y1)


def _shape(area: FlooringArea) -> BaseGeometry:
    from shapely.geometry import box

    shape: BaseGeometry = box(*area.start, *area.end)
    return shape


def _finding(rule: str, area: FlooringArea, measured: float | None, text: str, mend: str) -> Finding:
    at = ((area.start[0] + area.end[0]) / 2.0, (area.start[1] + area.end[1]) / 2.0, 0.0)
    limit, unit = (None, "") if measured is None else (0.0, "in")
    return Finding(rule, "look", at, (area.id,), measured, limit, unit, text, COMMON, mend)


RULES = (
    Rule("flooring-covers-nothing", "A flooring area that covers nothing", SUBJECT, "look", (), covers_nothing),
    Rule("flooring-past-the-floor", "A flooring area past the floor's edge", SUBJECT, "look", (), past_the_floor),
)
