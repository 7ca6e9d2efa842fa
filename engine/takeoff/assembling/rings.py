"""How a ring of pipe is closed, when everything else of it stands: a vent loop, or a run glued from both ends."""

from __future__ import annotations

import math
from collections import Counter

from engine.checks.model import Model
from engine.lengths import inches
from engine.takeoff.assembling import words
from engine.takeoff.assembling.joints import Joint, Joints, joints_of
from engine.takeoff.assembling.levelling import level_check
from engine.takeoff.assembling.records import Step, StepKind
from engine.takeoff.assembling.tree import MAKE_UP, can_close, showing
from engine.takeoff.cutlist import named
from engine.trade.pipe import drain, label

Needs = tuple[tuple[str, float, int], ...]


def close(model: Model, joints: Joints, closers: tuple[str, ...], number: int) -> Step:
    """The step that closes one ring with the items left out of it."""
    glued = joints_of(joints, closers)
    pieces = [joints.pieces[item] for item in closers if item in joints.pieces]
    alone = len(closers) == len(pieces)
    checks = [check for piece in pieces if alone and (check := level_check(model, piece)) is not None]
    kind, text, needs = _closing(model, joints, closers, glued)
    said = [text, *(words.check_words(model, check) for check in checks)]
    if any(words.lies_in_studs(model, piece) for piece in pieces):
        said.insert(1, words.STUDS)
    sides = (name for joint in glued for name in (joint.host, joint.guest))
    return Step(
        number=number,
        kind=kind,
        text=" ".join(said),
        parts=tuple(item for item in closers if item in joints.parts),
        pieces=tuple(piece.mark for piece in pieces),
        onto=tuple(dict.fromkeys(name for name in sides if name not in closers)),
        bonds=tuple(joint.bond for joint in glued),
        checks=tuple(checks),
        needs=needs,
    )


def _closing(
    model: Model, joints: Joints, closers: tuple[str, ...], glued: tuple[Joint, ...]
) -> tuple[StepKind, str, Needs]:
    parts = [joints.parts[item] for item in closers if item in joints.parts]
    pieces = [joints.pieces[item] for item in closers if item in joints.pieces]
    if any(part.kind == "repair_coupling" for part in parts):
        said = " and ".join(named(part) for part in parts)
        return (
            "close",
            f"Close the ring last: slide the {said} wholly onto the pipe beside, bring the pipes' ends together, and "
            "slide it back over the joint to its middle.",
            (),
        )
    if parts and pieces:
        legs = [joint for joint in glued if {joint.host, joint.guest} - set(closers)]
        onto = " and ".join(
            words.seat_words(joints, joint, joint.guest if joint.host in closers else joint.host) for joint in legs
        )
        told = ", ".join(words.piece_words(piece) for piece in pieces)
        count = Counter(named(part) for part in parts)
        bends = " and ".join(f"{number} of {name}" if number > 1 else f"the {name}" for name, number in count.items())
        apart = math.dist(
            *(joints.parts[joint.host if joint.host in closers else joint.guest].centre for joint in legs)
        )
        return (
            "close",
            f"Close the ring last, from above. On the bench glue {told} and {bends} into one loop, flat on the table so "
            f"that both legs look the same way, {inches(apart)} in from middle to middle. Then push it down onto {onto}, "
            "both at once.",
            (),
        )
    if parts:
        return (
            "stuck",
            f"The ring at {words.place(parts[0].centre)} closes between fittings that no pipe parts: nothing can be "
            "slid there. Draw one of them further off.",
            (),
        )
    piece = joints.pieces[closers[0]]
    seats = " and ".join(words.seat_words(joints, joint, joint.other(piece.mark)) for joint in glued)
    if not can_close(model, piece):
        return (
            "stuck",
            f"{words.piece_words(piece)} closes a ring between {seats}, both glued by now, and shows "
            f"{inches(max(showing(piece), 0.0))} in between them. Of this ring no piece that is clear of the wood shows the "
            f"{inches(MAKE_UP * drain(piece.size).socket)} in that two repair couplings ask for. Draw the ring longer.",
            (),
        )
    gap = 2.0 * drain(piece.size).socket
    half = (piece.cut - gap) / 2.0
    text = (
        f"Close the ring last, with {words.piece_words(piece)}: {seats} are glued by now, and it cannot be pushed into both. "
        f"Saw it into two halves of {inches(half)} in and a make-up length of {inches(gap)} in. Slide a repair coupling "
        f"{label(piece.size)} wholly onto each half, glue the halves into their hubs, hold the make-up length between "
        "them, and slide the couplings back over the two joints, each to its middle."
    )
    return "close", text, (("repair_coupling", piece.size, 2),)
