"""An island's vent: up from the sink's tee, over, and down again to the sink's drain and to a foot vent under the floor.

The pipe that comes down meets the drain from above; a little higher, just under the floor, the foot vent leaves it for
a wall. So at the point of its return two nodes lie under the floor, the drain's and the foot vent's above it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import NamedTuple

from engine.drafting.finished import at_riser, under_fixture
from engine.piping.records import Node, is_under
from engine.plan.records import Fixture, Plan, Point, Riser
from engine.rulebooks import RuleBook
from engine.trade import fixtures as trade
from engine.trade.habits import ISLAND_LOOP

FOOT = -1.5e9
"""The level of the nodes at which foot vents leave: under the floor, over the drains and under the ledges of drops."""

IN_THREE = "island_vent.bend_in_three"
"""The book's word on a loop of two quarter bends: where it says yes, one of 45, 90 and 45 degrees is asked for."""
BY_WYE = "island_vent.foot_by_wye"
"""The book's word on the fitting by which a foot vent leaves: where it says yes, no tee."""
LEAN = 45.0
"""How the two legs of a loop in three bends lean, degrees."""
FORMS = {"eighth_bend": True, "quarter_bend": False, "long_sweep_quarter_bend": False}
"""What a bend chosen by hand at a loop makes of it: three bends, or two."""


class Loop(NamedTuple):
    """One loop: where the pipe that rises ends, the turns between, and where the one that comes down begins."""

    riser: str
    rises: Node
    over: tuple[Node, ...]
    falls: Node

    @property
    def way(self) -> tuple[Node, ...]:
        """Its nodes in order."""
        return (self.rises, *self.over, self.falls)


def feet(plan: Plan) -> dict[Point, Node]:
    """The nodes at which foot vents leave, by the plan points at which loops come down."""
    down = (riser.returns for riser in plan.risers if returns(riser))
    return {at: Node(at[0], at[1], FOOT) for at in down if at is not None}


def returns(riser: Riser) -> bool:
    """Whether a riser turns over and comes down at another point."""
    return riser.top == "loop" and riser.returns is not None and riser.returns != riser.at


def in_three(plan: Plan, book: RuleBook, riser: Riser) -> bool:
    """Whether a loop is made of 45, 90 and 45 degrees: as the user chose, else as the book asks; else of two quarters."""
    for pin in plan.fittings:
        if pin.level == "wall" and pin.at in (riser.at, riser.returns) and pin.pattern in FORMS:
            return FORMS[pin.pattern]
    return book.says(IN_THREE)


def foot_fitting(book: RuleBook) -> str:
    """The fitting by which a foot vent leaves the upright pipe: the low tee, or a combination where a wye is asked for."""
    return "combo_wye_eighth_bend" if book.says(BY_WYE) else "sanitary_tee"


def loop_of(plan: Plan, book: RuleBook, riser: Riser, served: Iterable[Fixture], highest: float) -> Loop | None:
    """The loop that a riser makes over its highest tee at `highest`; None where it makes none.

    Without a stated height it lies as far under the lowest rim of what it serves as counter and bends ask, or where no
    rim is known the book's rise over the tee. Both legs of a loop in three bends lean to its middle; the stated height
    is that of the corner between them.
    """
    if not returns(riser) or riser.returns is None:
        return None
    if riser.above_floor is not None:
        top = at_riser(plan, riser.at) + riser.above_floor
    else:
        rims = [under_fixture(plan, one) + rim for one in served if (rim := trade.rim_of(one)) is not None]
        top = min(rims) - ISLAND_LOOP if rims else highest + book.number("vent.above_rim")
    (x, y), (u, v) = riser.at, riser.returns
    if not in_three(plan, book, riser):
        return Loop(riser.id, Node(x, y, top), (), Node(u, v, top))
    low = top - math.dist(riser.at, riser.returns) / 2.0 * math.tan(math.radians(LEAN))
    middle = Node((x + u) / 2.0, (y + v) / 2.0, top)
    return Loop(riser.id, Node(x, y, low), (middle,), Node(u, v, low))


def under_floor(foot: Node, meeting: dict[Node, list[Node]]) -> set[Node]:
    """The nodes under the floor that a foot vent's pipes reach."""
    seen, waiting = {foot}, [foot]
    for node in waiting:
        for other in meeting.get(node, ()):
            if other not in seen and is_under(other):
                seen.add(other)
                waiting.append(other)
    return seen
