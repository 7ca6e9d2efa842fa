"""What holds where a field of the plan is left empty: from the trade data, as the plan, or as the study worked out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from app.panels.writing import LENGTH, say_length
from engine.checks.way_down import drops
from engine.lengths import inches, mixed
from engine.plan.records import Beam, Drain, Element, Exit, Fixture, JoistField, Plan, Riser, Supply, Vent, Wall
from engine.trade.fixtures import fixture
from engine.trade.lumber import actual
from engine.trade.pipe import label as size_label
from engine.trade.walls import usual_height

if TYPE_CHECKING:
    from engine.study import Study

USUAL = "usual"
"""Stands before what comes from the trade data."""

_SPEC_FIELDS = {"flow_gpm": "flow"}


def unset_words(element: Element, field: str, plan: Plan, study: Study | None) -> str:
    """What an empty field of this element comes to, in words; `study` may be older than the plan, or None."""
    if isinstance(element, Fixture):
        return _of_fixture(element, field)
    if isinstance(element, JoistField):
        return _of_field(element, field)
    if isinstance(element, Beam) and field == "top_z":
        return _under_joists(element, study)
    if isinstance(element, Wall):
        return _of_wall(element, field)
    if field == "passing":
        return "bored through"
    if field == "slope" and isinstance(element, Drain | Vent):
        return f"as the plan: {plan.slope:.6g}"
    if field in ("size", "vent") and isinstance(element, Drain | Vent | Riser):
        return _size(element, field, study)
    if isinstance(element, Supply):
        return "mid-joist"
    if isinstance(element, Exit):
        return _of_exit(element, field, study)
    return _REST.get((type(element).__name__, field), "not given")


_REST = {
    ("Drain", "rise"): "worked out",
    ("Vent", "above_floor"): "under the floor",
    ("Riser", "above_floor"): "worked out",
    ("Riser", "returns"): "not set",
    ("Riser", "wall"): "the wall it stands in",
    ("Inlet", "pressure_psi"): "not known",
    ("Cleanout", "above_floor"): "at the end of the run",
    ("Cleanout", "size"): "as its pipe",
}


_OF_FIXTURES = {
    "trap_at": "under the outlet",
    "through": "a drain of its own",
    "bowls_apart": "not known",
    "gallons": "1.6 or less",
}


def _of_fixture(element: Fixture, field: str) -> str:
    if field in _OF_FIXTURES:
        return _OF_FIXTURES[field]
    value = getattr(fixture(element.kind), _SPEC_FIELDS.get(field, field))
    if value is None:
        return "not given"
    if field == "trap":
        said = f"{size_label(value)} in"
    else:
        said = f"{value:.6g}" if field == "flow_gpm" else LENGTH.say(value)
    return f"{USUAL}: {said}"


_UNTOLD = {"species": "not told: span not judged", "overhang_carries": "not told: not judged"}
"""Of joist fields: what is not judged while it is not told."""


def _of_field(element: JoistField, field: str) -> str:
    if field == "first":
        return f"one spacing: {say_length(element.spacing)}"
    if field in _UNTOLD:
        return _UNTOLD[field]
    return f"{USUAL}: {say_length(actual(element.lumber).depth)}"


def _of_wall(element: Wall, field: str) -> str:
    if field == "height":
        return f"{USUAL}: {say_length(usual_height())}"
    return f"one spacing: {say_length(element.stud_spacing)}"


def _under_joists(element: Beam, study: Study | None) -> str:
    """Where the study found the top of a beam that lies against the joists."""
    beams = study.model.framing.beams if study is not None else ()
    top = next((beam.top for beam in beams if beam.id == element.id), None)
    return "under the joists" if top is None else f"under the joists: {say_length(-top)}"


def _size(element: Drain | Vent | Riser, field: str, study: Study | None) -> str:
    """The sizes that the study gave its pipes; several where the load grows along the run."""
    if study is None:
        return "by its load"
    system = {"size": ("waste", "vent") if isinstance(element, Vent) else ("waste",), "vent": ("vent",)}[field]
    sizes = sorted(
        {pipe.size for pipe in study.model.network.pipes if pipe.element == element.id and pipe.system in system}
    )
    told = " and ".join(f"{mixed(size, joint='-')} in" for size in sizes)
    return f"by its load: {told}" if told else "by its load"


def _of_exit(element: Exit, field: str, study: Study | None) -> str:
    if field == "sleeve":
        return "none"
    if field == "ground_z" and study is not None:
        known = next((drop.ground for drop in drops(study.model) if drop.exit.id == element.id), None)
        return "not known" if known is None else f"by the crawl space: {inches(-known)}"
    if field != "pinned_z":
        return "not known"
    windows = study.model.windows if study is not None else ()
    chosen = next((window.chosen for window in windows if window.exit == element.id), None)
    return "chosen in its window" if chosen is None else f"chosen: {inches(-chosen)}"
