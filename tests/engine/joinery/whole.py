"""What a floor put together whole must satisfy: every hub filled, every joint made, and all lists saying the same."""

from __future__ import annotations

from collections import Counter

from engine.drawings.isometric import isometrics
from engine.drawings.isometric.skeleton import SYSTEMS
from engine.plan.records import Plan
from engine.study import Study, study
from engine.takeoff.cutlist import cut_list
from tests.engine.drawings.isometric_reading import listed, marks, named_parts
from tests.engine.takeoff.ordered_steps import order_of

PAPER = (10.0, 6.4)
CARRIERS = ("waste", "vent")
MOUNTED = frozenset({"test_cap", "vent_flashing", "closet_bolts", "flange_screws", "closet_seal", "waste_and_overflow"})
"""Parts that are put on without glue, or lie beside."""
LOOSE = frozenset({"tubular_trap", "test_plug", "cleanout_plug", "admittance_valve"})


def unfilled(found: Study) -> list[str]:
    """Hubs and spigots that no joint of the joinery holds, and parts without a joint that need one."""
    joinery = found.model.joinery
    held = {(bond.part, bond.port) for bond in joinery.bonds} | {(b.other, b.other_port) for b in joinery.bonds}
    names = {part for part, _ in held}
    empty = []
    for part in joinery.parts:
        if part.system not in CARRIERS or part.kind in MOUNTED | LOOSE:
            continue
        empty += [f"{part.kind} {number}" for number in range(len(part.ports)) if (part.id, number) not in held]
        if not part.ports and part.id not in names:
            empty.append(f"{part.kind} without a joint")
    return empty


def whole(plan: Plan) -> Study:
    """The study of a plan that can be put together, after everything that must hold of it has been held."""
    found = study(plan)
    joinery = found.model.joinery
    assert [fault.text for fault in joinery.faults] == []
    assert unfilled(found) == []
    marked = {piece.mark for piece in joinery.pieces}
    ends = Counter(bond.other for bond in joinery.bonds if bond.other in marked)
    for piece in joinery.pieces:
        assert piece.cut >= piece.least - 1.0 / 128.0
        assert ends[piece.mark] == (piece.from_part is not None) + (piece.to_part is not None)
    sheets = isometrics(found, "drains", *PAPER)
    assert named_parts(sheets) == listed([part for part in joinery.parts if part.system in SYSTEMS["drains"]])
    assert set(marks(sheets)) == {row.mark for row in cut_list(found.model)} == marked
    assert [step.text for step in order_of(plan) if step.kind in ("stuck", "loose")] == []
    return found
