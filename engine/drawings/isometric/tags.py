"""The tags of an isometric: fixtures with their load and trap, the exit with its invert, risers, cleanouts, inlets."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from engine.checks.venting import distance_of
from engine.drawings.isometric.skeleton import Skeleton
from engine.drawings.pipes import TOPS
from engine.joinery.records import Part
from engine.lengths import inches
from engine.piping.records import Trap
from engine.plan.flooring import finished_at
from engine.plan.records import Exit, Fixture, Point
from engine.study import Study
from engine.trade import fixtures as trade
from engine.trade.pipe import drain, label

ENDS = ("vent_flashing", "admittance_valve", "end_cap", "aav_adapter")
"""Parts that end a riser."""

UPPER_ENDS: dict[str, tuple[str, ...]] = {
    "closet": ("closet_flange_4x3", "closet_flange_hub"),
    "floor": ("test_cap", "p_trap"),
    "tub": ("waste_and_overflow", "p_trap"),
    "wall": ("tubular_trap", "p_trap"),
    "none": (),
}
"""The parts at which a fixture's tag stands, by its outlet, the best first."""

Owners = list[tuple[str, Part]]
"""Every part with the joint at which it stands."""


class Words(NamedTuple):
    """One line of a label: its text, the part, piece or element that it is about, whether it stands out."""

    text: str
    about: str
    bold: bool = False


def tags(study: Study, bones: Skeleton) -> dict[str, list[Words]]:
    """The lines that come first at a joint."""
    owners = list(_owners(bones))
    found: dict[str, list[Words]] = {}
    for key, lines in _tagged(study, bones, owners):
        if key is not None:
            found.setdefault(key, []).extend(lines)
    return found


def _tagged(study: Study, bones: Skeleton, owners: Owners) -> Iterator[tuple[str | None, list[Words]]]:
    plan = study.plan
    for fixture in plan.fixtures:
        lines = _fixture_lines(study, bones, fixture)
        for key in _fixture_joints(bones, fixture, owners):
            yield key, lines
    for exit_ in plan.exits:
        yield _joint_of(owners, exit_.id, ("test_cap",)), _exit_lines(study, exit_)
    for riser in plan.risers:
        words = f"{TOPS[riser.top]} {riser.id}".strip()
        joint = _turning_over(owners, riser.id) if riser.top == "loop" else _joint_of(owners, riser.id, ENDS)
        yield joint, [Words(words, riser.id, bold=True)]
    for cleanout in plan.cleanouts:
        yield _joint_of(owners, cleanout.id), [Words(f"CO {cleanout.id}", cleanout.id, bold=True)]
    for inlet in plan.inlets:
        words = f'WATER IN {inlet.id} {inlet.size}"'
        yield _inlet_joint(owners, inlet.at), [Words(words, inlet.id, bold=True)]
    for key, letter in bones.matches.items():
        yield key, [Words(f"MATCH {letter}", "", bold=True)]


def _owners(bones: Skeleton) -> Iterator[tuple[str, Part]]:
    for key, joint in bones.joints.items():
        for part in joint.fittings:
            yield key, part
    for made in bones.mounts:
        yield made.joint, made.part


def _joint_of(owners: Owners, element: str, kinds: tuple[str, ...] = ()) -> str | None:
    """Where the first part stands that is an element's own, of one of some kinds if any are named."""
    for key, part in owners:
        if part.elements[:1] == (element,) and (not kinds or part.kind in kinds):
            return key
    return None


def _turning_over(owners: Owners, riser: str) -> str | None:
    """Where an island's vent turns over: its highest fitting."""
    over = [
        (part.centre[2], key)
        for key, part in owners
        if part.elements[:1] == (riser,) and part.system == "vent" and part.ports
    ]
    return max(over)[1] if over else None


def _inlet_joint(owners: Owners, at: Point) -> str | None:
    return next((key for key, part in owners if part.kind == "main_valve" and part.node[:2] == at), None)


def _fixture_joints(bones: Skeleton, fixture: Fixture, owners: Owners) -> list[str]:
    """Where a fixture's tag stands: at its drain's upper end, or at each end of its water."""
    if bones.cover == "water":
        return list(dict.fromkeys(key for key, part in owners if fixture.id in part.elements))
    kinds = UPPER_ENDS[trade.fixture(fixture.kind).outlet]
    mine = [
        (kinds.index(part.kind), key) for key, part in owners if part.kind in kinds and part.elements[0] == fixture.id
    ]
    return [min(mine)[1]] if mine else []


def _fixture_lines(study: Study, bones: Skeleton, fixture: Fixture) -> list[Words]:
    letters = f"{trade.fixture(fixture.kind).letters} {fixture.id}"
    if bones.cover == "water":
        return [Words(letters, fixture.id, bold=True)]
    units = study.model.network.loads.units.get(fixture.id)
    load = f", {units.units:g} DFU" if units is not None else ""
    lines = [Words(f"{letters}{load}", fixture.id, bold=True)]
    trap = next((trap for trap in study.model.network.traps if trap.fixture == fixture.id), None)
    if trap is not None:
        lines.append(Words(_trap_words(study, trap), fixture.id))
    fixtures = {one.id: one for one in study.plan.fixtures}
    guests = (fixtures[guest] for guest in study.model.network.loads.through.get(fixture.id, ()))
    lines += [Words(f"takes {trade.fixture(guest.kind).letters} {guest.id}", guest.id) for guest in guests]
    return lines


def _trap_words(study: Study, trap: Trap) -> str:
    size = f'trap {label(trap.size)}"' if trap.size else "own trap"
    if trap.ends is None:
        return f"{size}, arm meets no vent"
    if trap.recognised and trap.method is None:
        return f"{size}, no vent"
    far = distance_of(study.model, trap)
    return f'{size}, arm {inches(far)}" to vent' if far is not None else size


def _exit_lines(study: Study, exit_: Exit) -> list[Words]:
    model = study.model
    node = model.network.exits.get(exit_.id)
    lines = [Words(f"EXIT {exit_.id}", exit_.id, bold=True)]
    z = None if node is None else model.heights.get(node)
    into = [pipe for pipe in model.network.pipes if pipe.end == node]
    if z is not None and into:
        down = drain(max(pipe.size for pipe in into)).bore / 2.0 - z
        lines.append(Words(f'IE {inches(down + finished_at(study.plan, exit_.at))}" below floor', exit_.id))
        lines.append(Words(f"{inches(down)}\" below joists' top", exit_.id))
    return lines
