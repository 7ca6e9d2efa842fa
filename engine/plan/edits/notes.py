"""What is written beside the drawing: local amendments, rulings, take-offs measured, and what is sold or there."""

from __future__ import annotations

from msgspec.structs import replace

from engine.plan.edits.checking import checked
from engine.plan.edits.errors import EditError
from engine.plan.faults import shown
from engine.plan.records import Amendment, MeasuredTakeOff, OnHand, Plan, Ruling, StickForSale


def amend(plan: Plan, amendment: Amendment) -> Plan:
    """The plan with a value of its rule book amended; an older amendment of the same value gives way in place."""
    made = checked(amendment)
    if not any(one.value == made.value for one in plan.amendments):
        return replace(plan, amendments=(*plan.amendments, made))
    return replace(plan, amendments=tuple(made if one.value == made.value else one for one in plan.amendments))


def drop_amendment(plan: Plan, value: str) -> Plan:
    """The plan with the rule book's own word on a value again."""
    kept = tuple(one for one in plan.amendments if one.value != value)
    if len(kept) == len(plan.amendments):
        raise EditError("", f"no amendment of {shown(value)} stands in the plan")
    return replace(plan, amendments=kept)


def add_ruling(plan: Plan, ruling: Ruling) -> Plan:
    """The plan with an official's word on a thing or rule written down, after those that are there."""
    return replace(plan, rulings=(*plan.rulings, checked(ruling)))


def drop_ruling(plan: Plan, ruling: Ruling) -> Plan:
    """The plan without one ruling."""
    if ruling not in plan.rulings:
        raise EditError("", f"no such ruling about {shown(ruling.about)} stands in the plan")
    at = plan.rulings.index(ruling)
    return replace(plan, rulings=plan.rulings[:at] + plan.rulings[at + 1 :])


def measure(plan: Plan, takeoff: MeasuredTakeOff) -> Plan:
    """The plan with a measured take-off; an older measure of the same leg gives way in place."""
    made = checked(takeoff)
    if not any(_leg(one) == _leg(made) for one in plan.takeoffs):
        return replace(plan, takeoffs=(*plan.takeoffs, made))
    return replace(plan, takeoffs=tuple(made if _leg(one) == _leg(made) else one for one in plan.takeoffs))


def drop_measure(plan: Plan, takeoff: MeasuredTakeOff) -> Plan:
    """The plan with the catalogue's take-off for a leg again."""
    kept = tuple(one for one in plan.takeoffs if _leg(one) != _leg(takeoff))
    if len(kept) == len(plan.takeoffs):
        raise EditError("", f"no measure of {takeoff.kind} {takeoff.size} {takeoff.leg} stands in the plan")
    return replace(plan, takeoffs=kept)


def sell(plan: Plan, stick: StickForSale) -> Plan:
    """The plan with a stick that the store sells; an older word on that length of that size gives way in place."""
    made = checked(stick)
    if not any(_stick(one) == _stick(made) for one in plan.sticks):
        return replace(plan, sticks=(*plan.sticks, made))
    return replace(plan, sticks=tuple(made if _stick(one) == _stick(made) else one for one in plan.sticks))


def drop_stick(plan: Plan, stick: StickForSale) -> Plan:
    """The plan without a stick for sale; a size's last one brings the usual lengths back."""
    kept = tuple(one for one in plan.sticks if _stick(one) != _stick(stick))
    if len(kept) == len(plan.sticks):
        raise EditError("", f"no {stick.size} in stick of {stick.length:g} in is for sale in the plan")
    return replace(plan, sticks=kept)


def put_on_hand(plan: Plan, thing: OnHand) -> Plan:
    """The plan with something already there; an older count of the same part and size gives way in place."""
    made = checked(thing)
    if not any(_thing(one) == _thing(made) for one in plan.on_hand):
        return replace(plan, on_hand=(*plan.on_hand, made))
    return replace(plan, on_hand=tuple(made if _thing(one) == _thing(made) else one for one in plan.on_hand))


def take_off_hand(plan: Plan, thing: OnHand) -> Plan:
    """The plan without something on hand."""
    kept = tuple(one for one in plan.on_hand if _thing(one) != _thing(thing))
    if len(kept) == len(plan.on_hand):
        raise EditError("", f"no {' '.join(filter(None, _thing(thing)))} is on hand in the plan")
    return replace(plan, on_hand=kept)


def _stick(stick: StickForSale) -> tuple[str, float]:
    return stick.size, stick.length


def _thing(thing: OnHand) -> tuple[str, str]:
    return thing.part, thing.size


def _leg(takeoff: MeasuredTakeOff) -> tuple[str, str, str]:
    return takeoff.kind, takeoff.size, takeoff.leg
