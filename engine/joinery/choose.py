"""Which fitting a node gets: by the drawn directions, the flow, the sizes and the user's own choice."""

from __future__ import annotations

from itertools import combinations

import msgspec

from engine.joinery.legs import SQUARE, Leg, change, met, turned
from engine.joinery.records import Change, Role
from engine.rulebooks import RuleBook
from engine.trade.fittings import KINDS

BENDS = (
    (90.0, "quarter_bend"),
    (60.0, "sixth_bend"),
    (45.0, "eighth_bend"),
    (22.5, "sixteenth_bend"),
)
"""Bends by the angle they turn, as named in fractions of a circle."""
TURNS = {
    "quarter_bend": 90.0,
    "long_sweep_quarter_bend": 90.0,
    "closet_bend": 90.0,
    "vent_quarter_bend": 90.0,
    "sixth_bend": 60.0,
    "eighth_bend": 45.0,
    "sixteenth_bend": 22.5,
    "sanitary_tee": 90.0,
    "combo_wye_eighth_bend": 90.0,
    "wye": 45.0,
}
"""The angle at which each pattern takes its second leg off its first, degrees."""


class Choice(msgspec.Struct, frozen=True, gc=False):
    """A fitting and which leg goes into which of its openings; `fault` says why nothing fits."""

    kind: str | None
    roles: tuple[tuple[Role, Leg], ...]
    turn: float
    change: Change
    pinned: bool = False
    fault: str = ""
    mend: str = ""
    measured: float | None = None
    limit: float | None = None
    by_hand: bool = False


def nearest_bend(angle: float) -> float:
    """The catalogue angle nearest to a drawn one, degrees."""
    return min((a for a, _ in BENDS), key=lambda a: abs(a - angle))


def straight(a: Leg, b: Leg) -> bool:
    """Whether two legs are one line."""
    return met(turned(a, b), 0.0)


def allowed(book: RuleBook, kind: str, how: str, size: float, fixture_drain: bool) -> bool:
    """Whether the book's fittings table lets this pattern make this change of direction, footnotes included."""
    key = f"fitting.{kind}.{how}"
    if how == "none" or not book.has(key):
        return True
    mark = book.text(key)
    if mark == "no":
        return False
    if mark == "a":
        return fixture_drain and size <= book.number("fitting.note_a.largest_fixture_drain")
    if mark == "ab":
        small = fixture_drain and size <= book.number("fitting.note_a.largest_fixture_drain")
        return small or size >= book.number("fitting.note_b.least")
    return True


def takes_branch(kind: str) -> bool:
    """Whether a pattern has a third opening, for a branch."""
    return "branch" in KINDS[kind].legs


def could_stand(legs: list[Leg], kind: str) -> bool:
    """Whether a pattern has as many openings as pipes meet, and an angle that two of them make."""
    return (len(legs) > 2) == takes_branch(kind) and any(
        met(turned(a, b), TURNS[kind]) for a, b in combinations(legs, 2)
    )


def drained(a: Leg, b: Leg) -> tuple[Leg, Leg]:
    """Two dry legs in the order in which what condenses in them runs: down, and on the level back to the drain.

    `a` is the one that air comes from, so that a level pipe falls toward it.
    """
    return (a, b) if b.toward[2] < a.toward[2] else (b, a)


def choose_bend(up: Leg, down: Leg, pinned: str | None, closet: bool, bend_under_closet: str) -> Choice:
    """The bend between two legs: gentle where water lies down, short where it drops.

    An island's vent is turned as a drain is: short into an upright or from one to another, long where it comes to lie.
    """
    angle = turned(up, down)
    island = up.dry and down.dry and (up.island or down.island)
    if island:
        up, down = drained(up, down)
    how: Change = "none" if (up.dry or down.dry) and not island else change(up, down)
    roles: tuple[tuple[Role, Leg], ...] = (("run_in", up), ("run_out", down))
    if pinned is not None:
        return _pinned_bend(pinned, roles, angle, how)
    for catalogue, kind in BENDS:
        if not met(angle, catalogue):
            continue
        if kind == "quarter_bend":
            if closet:
                kind = bend_under_closet
            elif island:
                kind = "quarter_bend" if how in ("horizontal_to_vertical", "none") else "long_sweep_quarter_bend"
            elif up.dry and down.dry:
                kind = "vent_quarter_bend"
            elif change(up, down) != "horizontal_to_vertical":
                kind = "long_sweep_quarter_bend"
        return Choice(kind, roles, angle, how)
    near = nearest_bend(angle)
    return Choice(
        None,
        roles,
        angle,
        how,
        False,
        f"no bend turns {angle:.1f} degrees",
        f"Move the corner so that it turns {near:g} degrees.",
        angle,
        near,
    )


def _pinned_bend(pinned: str, roles: tuple[tuple[Role, Leg], ...], angle: float, how: Change) -> Choice:
    words, want = KINDS[pinned].words, TURNS[pinned]
    if takes_branch(pinned):
        why = f"the {words} chosen here has a branch, and no third pipe meets there"
        return Choice(None, roles, angle, how, True, why, "Choose a bend.")
    if not met(angle, want):
        why = f"the {words} chosen here turns {want:g} degrees, the pipes turn {angle:.1f}"
        return Choice(None, roles, angle, how, True, why, "Choose another fitting or move the corner.", angle, want)
    return Choice(pinned, roles, angle, how, True)


def _pinned_branch(pinned: str, roles: tuple[tuple[Role, Leg], ...], angle: float, how: Change) -> Choice:
    words, want = KINDS[pinned].words, TURNS[pinned]
    if not takes_branch(pinned):
        why = f"the {words} chosen here joins two pipes, and three meet there"
        return Choice(None, roles, angle, how, True, why, "Choose a wye, a combination or a tee.")
    if not met(angle, want):
        why = f"the {words} chosen here takes its branch at {want:g} degrees, the pipes meet at {angle:.1f}"
        return Choice(None, roles, angle, how, True, why, "Choose another fitting or move the branch.", angle, want)
    return Choice(pinned, roles, angle, how, True)


def choose_branch(up: Leg, down: Leg, side: Leg, pinned: str | None, square: str | None = None) -> Choice:
    """The fitting where a side pipe meets a run that goes straight on from `up` to `down`.

    `square` is the pattern for a side that comes in square where another than the usual one is asked for.
    """
    roles: tuple[tuple[Role, Leg], ...] = (("run_in", up), ("run_out", down), ("branch", side))
    angle = turned(side, down)
    how: Change = "none" if side.dry and not side.island else change(side, down)
    if pinned == "wye" and met(angle, 90.0) and not down.plumb:
        return Choice("wye", roles, angle, how, True, by_hand=True)
    if pinned is not None:
        return _pinned_branch(pinned, roles, angle, how)
    if met(angle, 90.0):
        return Choice(square or ("sanitary_tee" if down.plumb else "combo_wye_eighth_bend"), roles, angle, how)
    if met(angle, 45.0):
        return Choice("wye", roles, angle, how)
    if angle > 90.0 + SQUARE and not side.dry:
        return Choice(
            None,
            roles,
            angle,
            how,
            False,
            f"the branch runs against the main's flow: it comes in at {angle:.1f} degrees to it",
            "Turn its last stretch so that it comes in at 45 degrees with the flow.",
            angle,
            90.0,
        )
    near = 45.0 if abs(angle - 45.0) <= abs(angle - 90.0) else 90.0
    return Choice(
        None,
        roles,
        angle,
        how,
        False,
        f"no wye or tee takes a branch at {angle:.1f} degrees",
        f"Turn the branch's last stretch to {near:g} degrees to the main.",
        angle,
        near,
    )
