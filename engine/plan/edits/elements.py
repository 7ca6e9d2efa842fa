"""Adding, finding, changing and deleting the plan's elements."""

from __future__ import annotations

import difflib
import re
from typing import Any

from msgspec import structs

from engine.plan.edits.checking import FIELD_OF, checked, rebuilt, roomy
from engine.plan.edits.errors import EditError
from engine.plan.edits.pins import without_loose_pins
from engine.plan.faults import shown
from engine.plan.records import (
    KINDS,
    AirOpening,
    Beam,
    Cleanout,
    Drain,
    Element,
    Exit,
    Fixture,
    Floor,
    FlooringArea,
    FloorOpening,
    Hatch,
    Inlet,
    JoistField,
    PinnedFitting,
    Plan,
    Riser,
    Supply,
    Vent,
    Wall,
)
from engine.plan.sound import LAYERED, unsound

LETTERS: dict[type, str] = {
    JoistField: "j",
    FloorOpening: "o",
    Beam: "b",
    FlooringArea: "c",
    Wall: "w",
    Fixture: "f",
    Drain: "d",
    Vent: "v",
    Riser: "r",
    Supply: "s",
    Exit: "x",
    Inlet: "i",
    PinnedFitting: "p",
    Cleanout: "k",
    AirOpening: "a",
    Hatch: "h",
}
"""The letter that new ids of each kind begin with."""


def find(plan: Plan, element_id: str) -> Element:
    """The element of that id. EditError when the plan has none."""
    for kind in KINDS:
        for element in getattr(plan, kind):
            if element.id == element_id:
                found: Element = element
                return found
    raise EditError(element_id, "there is nothing of that id in the plan")


def fresh_id(plan: Plan, letter: str) -> str:
    """An id that nothing in the plan has: the letter and one more than the highest number after it."""
    numbered = re.compile(rf"{re.escape(letter)}(\d{{1,15}})\Z")
    ids = (element.id for kind in KINDS for element in getattr(plan, kind))
    return f"{letter}{max((int(m[1]) for name in ids if (m := numbered.match(name))), default=0) + 1}"


def add(plan: Plan, *elements: Element) -> Plan:
    """The plan with these elements behind those of their kinds; each needs an id of its own."""
    ids = {element.id for kind in KINDS for element in getattr(plan, kind)}
    for element in map(checked, elements):
        if element.id in ids:
            raise EditError(element.id, "expected a new id, and the plan has something of this one")
        ids.add(element.id)
        kind = FIELD_OF[type(element)]
        plan = structs.replace(plan, **{kind: (*getattr(plan, kind), element)})
    _named_there(plan, elements)
    return roomy(plan)


def add_new(plan: Plan, kind: type, /, **values: Any) -> Plan:
    """The plan with a new element of a kind under a fresh id; it is the last of its kind.

    ``add_new(plan, Drain, points=((0, 0), (10, 0)), size="3")``
    """
    if kind not in FIELD_OF:
        raise EditError("", f"expected a kind of element, found {kind.__name__}")
    _names_right("", kind, values)
    return add(plan, kind(id=fresh_id(plan, LETTERS[kind]), **values))


def replace(plan: Plan, *elements: Element) -> Plan:
    """The plan with these elements in place of those of the same ids and kinds."""
    for element in elements:
        if type(find(plan, element.id)) is not type(element):
            raise EditError(element.id, f"expected a {type(find(plan, element.id)).__name__} in its place")
    _named_there(plan, elements)
    return rebuilt(plan, {element.id: element for element in elements})


def set_fields(plan: Plan, element_id: str, /, **values: Any) -> Plan:
    """The plan with some fields of one element changed. What is welded to it stays; ids change by `rename`.

    A flooring's layers set its thickness, and a thickness that is set alone forgets its layers.
    """
    element = find(plan, element_id)
    _names_right(element_id, type(element), values)
    if values.get("id", element_id) != element_id:
        raise EditError(element_id, "expected the same id: rename changes it, with what refers to it")
    return replace(plan, structs.replace(element, **_layered(element, values)))


def set_field(plan: Plan, element_id: str, field: str, value: Any) -> Plan:
    """The plan with one field of one element changed."""
    return set_fields(plan, element_id, **{field: value})


def rename(plan: Plan, element_id: str, new: str) -> Plan:
    """The plan with an element under a new id, which whatever refers to it takes over."""
    element = find(plan, element_id)
    if new == element_id:
        return plan
    renamed = checked(structs.replace(element, id=new))
    if any(other.id == new for kind in KINDS for other in getattr(plan, kind)):
        raise EditError(element_id, f"expected a new id, and the plan has something called {shown(new)}")
    changed: dict[str, Element] = {
        riser.id: structs.replace(riser, wall=new) for riser in plan.risers if riser.wall == element_id
    }
    for fixture in plan.fixtures:
        if fixture.through == element_id:
            changed[fixture.id] = structs.replace(fixture, through=new)
    plan = rebuilt(plan, changed)
    kind = FIELD_OF[type(element)]
    rulings = tuple(structs.replace(one, about=new) if one.about == element_id else one for one in plan.rulings)
    things = tuple(renamed if one.id == element_id else one for one in getattr(plan, kind))
    return structs.replace(plan, rulings=rulings, **{kind: things})


def delete(plan: Plan, *ids: str) -> Plan:
    """The plan without these elements.

    Risers of a deleted wall stand in no wall, what drained through a deleted fixture wants a drain of its own; pinned
    fittings and cleanouts that are left without a pipe go too.
    """
    gone = {find(plan, name).id for name in ids}
    widowed: dict[str, Element] = {
        riser.id: structs.replace(riser, wall=None)
        for riser in plan.risers
        if riser.wall in gone and riser.id not in gone
    }
    for fixture in plan.fixtures:
        if fixture.through in gone and fixture.id not in gone:
            widowed[fixture.id] = structs.replace(fixture, through=None)
    return without_loose_pins(plan, rebuilt(plan, widowed, gone))


def set_plan(plan: Plan, **values: Any) -> Plan:
    """The plan with some of its own fields changed: name, place, rulebook, material, slope and the like."""
    _names_right("", Plan, values)
    for name in values:
        if name == "floor" or isinstance(getattr(plan, name), tuple):
            raise EditError("", f"expected a field of the plan itself, found {name}: it has edits of its own")
    checked(Plan(floor=plan.floor, **values))
    return structs.replace(plan, **values)


def set_floor(plan: Plan, **values: Any) -> Plan:
    """The plan with some fields of its floor changed: outline, subfloor, finish, roof height, snow.

    Layers set the thickness that they add up to; a thickness that is set alone forgets the layers that it was made of.
    """
    _names_right("", type(plan.floor), values)
    return structs.replace(plan, floor=checked(structs.replace(plan.floor, **_layered(plan.floor, values))))


def _layered(thing: Element | Floor, values: dict[str, Any]) -> dict[str, Any]:
    """The values with each thickness that their layers add up to, or without the layers that a new thickness ends."""
    made = dict(values)
    for part in LAYERED.get(type(thing), ()):
        layers = f"{part}_layers"
        if made.get(layers) and part not in made:
            made[part] = sum(layer.thickness for layer in made[layers])
        elif part in made and layers not in made and made[part] != getattr(thing, part):
            made[layers] = ()
    return made


def _names_right(element_id: str, kind: type, values: dict[str, Any]) -> None:
    known = [field.name for field in structs.fields(kind)]
    for name in values:
        if name not in known:
            alike = difflib.get_close_matches(name, known, 1)
            hint = f"did you mean {alike[0]}?" if alike else f"it has {', '.join(known)}"
            raise EditError(element_id, f"a {kind.__name__} has no field {shown(name)}; {hint}")


def _named_there(plan: Plan, elements: tuple[Element, ...]) -> None:
    """That the walls and fixtures which elements name are in the plan, and can be what is said of them."""
    walls = {wall.id for wall in plan.walls}
    for one in elements:
        if isinstance(one, Riser) and one.wall is not None and one.wall not in walls:
            raise EditError(one.id, f"wall: expected the id of one of the plan's walls, found {shown(one.wall)}")
        if isinstance(one, Fixture) and one.through is not None:
            changed = {fixture.id: fixture for fixture in plan.fixtures} | {
                other.id: other for other in elements if isinstance(other, Fixture)
            }
            other = changed.get(one.through)
            if other is None or other.through is not None or other.id == one.id:
                what = f"expected a fixture with a drain of its own, found {shown(one.through)}"
                raise EditError(one.id, f"through: {what}")
            if any(fixture.through == one.id for fixture in changed.values()):
                raise EditError(
                    one.id, "through: another fixture drains through this one, which must keep its own drain"
                )


def require_sound(plan: Plan) -> Plan:
    """The plan itself when all of it is sound, as a file must be; else EditError for the first fault."""
    for found in unsound(plan):
        raise EditError(found.element, f"{found.where}: {found.what}" if found.where else found.what)
    return plan
