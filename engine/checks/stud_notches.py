"""Notches in studs, for runs that are said to be notched in: how deep they may be, and that no hole lies at their level."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.records import Finding, Holds, Outcome, Rule
from engine.checks.stud_cuts import StudCut, StudNotch, key_of_notch, stud_cuts, stud_notches
from engine.checks.wall_sites import SUBJECT, above_floor, face_names, kind_words, stud_words, wall_words
from engine.crossings.limits import over
from engine.lengths import down, inches, up
from engine.plan.outline import listed
from engine.trade.pipe import drain, label


def too_deep(model: Model) -> Iterator[Outcome]:
    """How deep a level run is let into studs: a quarter of a bearing or outside wall's, two fifths of others'.

    The depth runs from the nearer face to the pipe's far side; a doubled stud takes no deeper one. Told once for a run's studs
    of a wall. Holds: 1-1/2 in pipe flush in the face of a 2x6 that bears nothing (1.900 of 2.20 in). Broken: the same in a 2x4
    (1.40), or in a bearing 2x6 (1.375). Reads ``stud.bearing.notch`` and ``stud.nonbearing.notch``. Source: IRC R602.6.
    """
    broken: dict[tuple[str, str], list[StudNotch]] = {}
    for notch in stud_notches(model):
        if is_too_deep(model, notch):
            broken.setdefault((notch.lying.pipe.id, notch.lying.wood.wall.id), []).append(notch)
        else:
            yield Holds(notch.lying.pipe.element)
    for notches in broken.values():
        notch = max(notches, key=lambda one: one.deep)
        lying, wall = notch.lying, notch.lying.wood.wall
        most = _most(model, notch)
        numbers = sorted(one.stud.number for one in notches)
        where = (
            stud_words(lying.wood, notch.stud)
            if len(notches) == 1
            else f"studs {listed(map(str, numbers))} of {wall_words(wall)}"
        )
        yield Finding(
            "stud-notch-too-deep",
            "stop",
            (*lying.wood.at((notch.stud.low + notch.stud.high) / 2.0, notch.left), lying.z),
            (lying.pipe.element, wall.id),
            notch.deep,
            most,
            "in",
            f"{lying.pipe.element}'s {label(lying.pipe.size)} in pipe, {inches(above_floor(model, lying.z))} in above the floor, "
            f"wants a notch {inches(up(notch.deep))} in deep in {where}; in {kind_words(wall)} a {wall.lumber} stud may be "
            f"notched {inches(down(most))} in at most.",
            model.book.cite(key_of_notch(lying)),
            _instead(notch, most),
        )


def is_too_deep(model: Model, notch: StudNotch) -> bool:
    """Whether a notch is deeper than the book lets a stud of its wall be."""
    return over(notch.deep, _most(model, notch))


def _most(model: Model, notch: StudNotch) -> float:
    return notch.lying.wood.depth * model.book.number(key_of_notch(notch.lying))


def _instead(notch: StudNotch, most: float) -> str:
    """Nearer to the face where the pipe itself is thin enough, else bored or over the plates."""
    wood = notch.lying.wood
    if not over(drain(notch.lying.pipe.size).od, most):
        face = face_names(wood)[0 if notch.left >= 0.0 else 1]
        return f"Move it {inches(up(notch.deep - most))} in toward the {face} face of {wall_words(wood.wall)}, or bore the studs."
    return "Bore the studs in their middle, or let the pipe rise through the top plates and run over them."


def at_a_hole(model: Model) -> Iterator[Outcome]:
    """A notch at whose level the same stud has a hole, or another notch: both take from one section of it.

    Measured is how much of their heights they share. Holds: a hole that ends where the notch begins. Broken: 1/16 in of it at
    the notch's level. Reads ``stud.hole_at_notch_allowed``. Source: IRC R602.6.
    """
    allowed = model.book.flag("stud.hole_at_notch_allowed")
    notches = stud_notches(model)
    cuts = stud_cuts(model) if notches else ()
    for n, notch in enumerate(notches):
        others = [one for one in cuts if one is not notch and one_stud(one, notch) and one not in notches[:n]]
        worst = max(others, key=lambda one: shared(one, notch), default=None)
        if allowed or worst is None or not over(shared(worst, notch), 0.0):
            yield Holds(notch.lying.pipe.element)
            continue
        lying, what = notch.lying, "notch" if isinstance(worst, StudNotch) else "hole"
        yield Finding(
            "stud-notch-at-hole",
            "stop",
            (*lying.wood.at((notch.stud.low + notch.stud.high) / 2.0, notch.left), notch.z),
            (lying.pipe.element, worst.lying.pipe.element, lying.wood.wall.id),
            shared(worst, notch),
            0.0,
            "in",
            f"{lying.pipe.element}'s notch in {stud_words(lying.wood, notch.stud)} lies at the level of "
            f"{worst.lying.pipe.element}'s {what}: {inches(up(shared(worst, notch)))} in of their heights are one.",
            model.book.cite("stud.hole_at_notch_allowed"),
            f"Set one of the two {inches(up(shared(worst, notch)))} in higher or lower.",
        )


def shared(one: StudCut, other: StudCut) -> float:
    """How much of their heights two cuts share, inches; under 0 where wood lies between them."""
    return (one.tall + other.tall) / 2.0 - abs(one.z - other.z)


def one_stud(one: StudCut, other: StudCut) -> bool:
    """Whether two cuts are in the same stud."""
    return one.lying.wood.wall.id == other.lying.wood.wall.id and one.stud.number == other.stud.number


RULES = (
    Rule(
        "stud-notch-too-deep",
        "A notch too deep for its stud",
        SUBJECT,
        "stop",
        ("stud.bearing.notch", "stud.nonbearing.notch"),
        too_deep,
    ),
    Rule(
        "stud-notch-at-hole",
        "A hole at the level of a stud's notch",
        SUBJECT,
        "stop",
        ("stud.hole_at_notch_allowed",),
        at_a_hole,
    ),
)
