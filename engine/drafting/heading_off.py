"""How heavy the wood round a floor opening has to be."""

from __future__ import annotations

from msgspec.structs import replace

from engine.framing.layout import lay_out
from engine.framing.records import Joist
from engine.framing.shadow import in_frame
from engine.plan.records import FloorOpening, Plan
from engine.rulebooks import RuleBook

ENOUGH = 2
"""Plies that the book asks for where one is too few."""


def plies_for(plan: Plan, opening: FloorOpening, book: RuleBook) -> tuple[int, int]:
    """The plies of an opening's headers and trimmers, the least that the book's rules on openings allow.

    An opening that frames nothing takes one of each; trimmers whose bearing is not drawn are doubled. Source: IRC R502.10.
    """
    others = tuple(one for one in plan.floor_openings if one.id != opening.id)
    single = replace(opening, headers=1, trimmers=1)
    joists = [
        one for one in lay_out(replace(plan, floor_openings=(*others, single))).joists if one.opening == opening.id
    ]
    headers = [one for one in joists if one.kind == "header"]
    if not headers:
        return 1, 1
    if max(header.length for header in headers) > book.number("header.single_most"):
        return ENOUGH, ENOUGH
    within = book.number("header.single_trimmer_within")
    trimmers = [one for one in joists if one.kind == "trimmer" and stands_along(one, opening)]
    near = all(from_bearing(trimmer, header) <= within for trimmer in trimmers for header in headers)
    return 1, 1 if near else ENOUGH


def from_bearing(trimmer: Joist, header: Joist) -> float:
    """How far along a trimmer its nearest bearing is from a header's middle, inches; without end where none is drawn."""
    u = in_frame(trimmer, header.start)[0]
    return min((max(low - u, u - high, 0.0) for low, high in trimmer.supports), default=float("inf"))


def stands_along(trimmer: Joist, opening: FloorOpening) -> bool:
    """Whether a trimmer, or the piece that a beam or splice leaves of it, stands beside its opening and not past it."""
    ends = [in_frame(trimmer, corner)[0] for corner in (opening.start, opening.end)]
    return min(ends) < trimmer.length and max(ends) > 0.0
