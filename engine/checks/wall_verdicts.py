"""What the rules on walls say of one hole or notch: which it breaks, so that a list and a finding never disagree."""

from __future__ import annotations

from engine.checks import stud_notches, studs
from engine.checks.model import Model, once_a_model
from engine.checks.records import Finding
from engine.checks.stud_cuts import StudCut, StudHole, StudNotch, key_of_notch, stud_cuts
from engine.checks.stud_cuts import stud_notches as notches_of
from engine.checks.wall_room import out_of_wall
from engine.crossings.in_walls import Upright
from engine.crossings.limits import over, short

Faults = tuple[str, ...] | None
"""The ids of the rules that a cut breaks; None where the book lacks what it is judged by."""


def stud_faults(model: Model, cut: StudCut) -> Faults:
    """The rules that a hole or notch in a stud breaks."""
    return _of_notch(model, cut) if isinstance(cut, StudNotch) else _of_hole(model, cut)


def plate_faults(model: Model, one: Upright) -> Faults:
    """The rules that a plumb pipe's holes in plates break: its wall does not hold it."""
    return ("riser-out-of-wall",) if (one.elements[0], one.at) in _out(model) else ()


def _of_hole(model: Model, hole: StudHole) -> Faults:
    book = model.book
    if not (book.has(studs.key_of(hole)) and book.has("stud.edge")):
        return None
    faults = []
    if studs.is_too_wide(model, hole):
        faults.append("stud-hole-too-wide")
    elif short(hole.wood, book.number("stud.edge")):
        faults.append("stud-hole-near-edge")
    if hole in _too_many(model):
        faults.append("doubled-studs-in-a-row")
    return (*faults, *_at_one_level(model, hole))


def _of_notch(model: Model, notch: StudNotch) -> Faults:
    if not model.book.has(key_of_notch(notch.lying)):
        return None
    deep = ("stud-notch-too-deep",) if stud_notches.is_too_deep(model, notch) else ()
    return (*deep, *_at_one_level(model, notch))


def _at_one_level(model: Model, cut: StudCut) -> tuple[str, ...]:
    """That a notch takes from the same section of the stud."""
    if not notches_of(model) or model.book.says("stud.hole_at_notch_allowed"):
        return ()
    others = stud_cuts(model) if isinstance(cut, StudNotch) else notches_of(model)
    met = any(
        other is not cut and stud_notches.one_stud(other, cut) and over(stud_notches.shared(other, cut), 0.0)
        for other in others
    )
    return ("stud-notch-at-hole",) if met else ()


@once_a_model
def _too_many(model: Model) -> tuple[StudHole, ...]:
    """The holes of doubled studs that stand too many in a row."""
    if not (model.book.has("stud.doubled_in_a_row_most") and model.book.has(studs.BEARING)):
        return ()
    most = model.book.number("stud.doubled_in_a_row_most")
    return tuple(
        hole for wide, row in studs.doubled_rows(model) if wide and over(float(len(row)), most) for hole in row
    )


@once_a_model
def _out(model: Model) -> frozenset[tuple[str, tuple[float, float]]]:
    """The pipes that their walls do not hold, by name and place."""
    found = (case for case in out_of_wall(model) if isinstance(case, Finding) and case.weight == "stop")
    return frozenset((case.elements[0], (case.at[0], case.at[1])) for case in found)
