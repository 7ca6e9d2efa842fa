"""One joist of a field taken by itself: doubled, or its move or measured depth begun in the properties."""

from __future__ import annotations

import re
from collections.abc import Hashable
from functools import partial
from typing import Literal, NamedTuple

from app.tools.desk import Desk
from app.tools.offer import Line, Section
from app.tools.plane import beside
from engine.framing.layout import lay_out
from engine.plan import edits
from engine.plan.records import DoubledJoist, JoistField, Plan, Point

NEAR = 5.0
"""How near to a joist's wood a press must be, pixels."""

_NUMBER = re.compile(r"\.(\d+)[a-z]*$")

Does = Literal["east or north", "west or south", "single", "move", "back", "measure", "unmeasured"]


class OneJoist(NamedTuple):
    """A joist by its field and its number there."""

    field: str
    number: int

    @property
    def name(self) -> str:
        """What the plan calls it."""
        return f"{self.field}.{self.number}"


class Wish(NamedTuple):
    """What is wanted of a joist."""

    joist: OneJoist
    does: Does


def joist_at(plan: Plan, at: Point, near: float, chosen: frozenset[str]) -> OneJoist | None:
    """The joist within so many inches of a point, of a chosen field first."""
    found = []
    for stick in lay_out(plan).joists:
        along, aside = beside(at, stick.start, stick.end)
        off = abs(aside) - stick.thickness / 2.0
        number = _NUMBER.search(stick.id)
        if stick.runs and number is not None and off <= near and -near <= along <= stick.length + near:
            found.append((stick.field not in chosen, off, OneJoist(stick.field, int(number[1]))))
    return min(found)[2] if found else None


def joists_of(plan: Plan, field: str) -> tuple[OneJoist, ...]:
    """A field's joists in the order of their numbers."""
    sticks = (stick for stick in lay_out(plan).joists if stick.field == field and stick.runs)
    numbers = {int(found[1]) for stick in sticks if (found := _NUMBER.search(stick.id)) is not None}
    return tuple(OneJoist(field, number) for number in sorted(numbers))


def ask_which(desk: Desk, field: JoistField) -> None:
    """Offer a field's joists by their names, and then what can be done to the one that is taken."""
    lines = tuple(Line(one, one.name) for one in joists_of(desk.document.settled, field.id))
    middle = (field.corner[0] + field.size[0] / 2.0, field.corner[1] + field.size[1] / 2.0)

    def taken(key: Hashable) -> None:
        if isinstance(key, OneJoist):
            ask_what(desk, key, middle)

    desk.offer(middle, "Which joist", (Section("Which joist?", lines),), taken)


def ask_what(desk: Desk, joist: OneJoist, at: Point) -> None:
    """Offer what can be done to one joist."""
    field = edits.find(desk.document.settled, joist.field)
    if isinstance(field, JoistField):
        desk.pick(frozenset({field.id}))
        section = Section(f"Joist {joist.name}", _lines(field, joist))
        desk.offer(at, f"Joist {joist.name}", (section,), partial(_take, desk))


def _lines(field: JoistField, joist: OneJoist) -> tuple[Line, ...]:
    near, far = ("west", "east") if field.direction == "north-south" else ("south", "north")
    own = next((one for one in field.doubled if one.number == joist.number), None)
    moved = any(one.number == joist.number for one in field.shifts)
    measured = any(one.number == joist.number for one in field.measured)
    doubles = (
        Line(Wish(joist, "east or north"), f"Double it on its {far} side", _is_doubled(own, "east or north")),
        Line(Wish(joist, "west or south"), f"Double it on its {near} side", _is_doubled(own, "west or south")),
    )
    lines = [
        *doubles,
        *([Line(Wish(joist, "single"), "Make it single again")] if own is not None else []),
        Line(Wish(joist, "move"), "Move it by\N{HORIZONTAL ELLIPSIS}"),
        *([Line(Wish(joist, "back"), "Put it back to its place")] if moved else []),
        Line(Wish(joist, "measure"), "Its measured depth\N{HORIZONTAL ELLIPSIS}"),
        *([Line(Wish(joist, "unmeasured"), "Forget its measured depth")] if measured else []),
    ]
    return tuple(lines)


def _is_doubled(own: DoubledJoist | None, side: str) -> bool:
    return own is not None and own.side == side


def _take(desk: Desk, key: Hashable) -> None:
    """Do what was chosen, as one step; what wants a length is begun in the properties."""
    assert isinstance(key, Wish)  # the keys of the lines above
    joist, does = key
    if does == "move":
        desk.write(joist.field, "shifts", f"{joist.number} by ")
    elif does == "measure":
        desk.write(joist.field, "measured", f"{joist.number} is ")
    else:
        document = desk.document
        document.commit(done(document.settled, key), LABELS[does].format(joist.name))


LABELS: dict[Does, str] = {
    "east or north": "double joist {}",
    "west or south": "double joist {}",
    "single": "make joist {} single",
    "back": "put joist {} back",
    "unmeasured": "forget the measured depth of joist {}",
}
"""How the steps are called in the history."""


def done(plan: Plan, wish: Wish) -> Plan:
    """The plan after a wish that needs no length."""
    field = edits.find(plan, wish.joist.field)
    assert isinstance(field, JoistField)  # joists are in fields
    number = wish.joist.number
    match wish.does:
        case "east or north" | "west or south" as side:
            own = DoubledJoist(number, side=side)
            others = [one for one in field.doubled if one.number != number]
            doubled = tuple(sorted((*others, own), key=lambda one: one.number))
            return edits.set_field(plan, field.id, "doubled", doubled)
        case "single":
            return _without(plan, field, "doubled", number)
        case "back":
            return _without(plan, field, "shifts", number)
        case _:
            return _without(plan, field, "measured", number)


def _without(plan: Plan, field: JoistField, what: str, number: int) -> Plan:
    kept = tuple(one for one in getattr(field, what) if one.number != number)
    return edits.set_field(plan, field.id, what, kept)
