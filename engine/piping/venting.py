"""What vents each trap, read off the graph.

A trap's arm ends at the first node downstream where another pipe meets it; air must reach that node, by a dry
pipe or by a waste pipe coming in that is itself vented. Individual vents and horizontal wet vents are
recognised; every other arrangement that the book may allow is said to be not judged yet, and why.
"""

from __future__ import annotations

import msgspec

from engine.piping.records import Node, Trap
from engine.piping.sticks import Stick, Sticks
from engine.piping.web import Web
from engine.plan.records import Fixture, FixtureKind, MeasuredTakeOff, Plan
from engine.rulebooks import RuleBook
from engine.trade import fixtures as trade
from engine.trade.fittings import takeoff
from engine.trade.pipe import nominal

INDIVIDUAL = "individual vent"
WET = "horizontal wet vent"


def trap_size(fixture: Fixture, book: RuleBook) -> float:
    """The trap's nominal size: as drawn, else the usual one, never under the book's least."""
    if fixture.trap is not None:
        return nominal(fixture.trap)
    usual = trade.fixture(fixture.kind).trap or 0.0
    key = f"trap.least.{fixture.kind}"
    return max(usual, book.number(key)) if book.has(key) else usual


def air_through(web: Web) -> dict[str, str]:
    """The waste sticks that carry air to their lower end, each with the dry element it comes from."""
    air: dict[str, str] = {}
    for stick in web.order:
        source = dry_at(web, stick.start)
        if source is None:
            source = next((air[s.id] for s in web.inflow.get(stick.start, ()) if s.id in air), None)
        if source is not None:
            air[stick.id] = source
    return air


def dry_at(web: Web, node: Node) -> str | None:
    """The element of a dry pipe at this node through which open air is reached, None where there is none."""
    if node not in web.aired:
        return None
    for stick in web.dry.get(node, ()):
        if stick.end in web.aired:
            return stick.element
    return None


class _Arm(msgspec.Struct, gc=False):
    sticks: list[Stick]
    ends: Node | None
    drops: bool


def _follow(web: Web, start: Node, closet: bool, upright: float) -> _Arm:
    """The arm from a trap to the first node where another pipe meets it, or to the drain's end.

    It drops where it is plumb, or climbs by `upright` degrees or more; a closet's first pipe may.
    """
    sticks: list[Stick] = []
    node, drops = start, False
    while node in web.outflow:
        stick = web.outflow[node]
        sticks.append(stick)
        steep = stick.shape == "plumb" or (stick.shape == "inclined" and stick.climb >= upright)
        if steep and not (closet and len(sticks) == 1):
            drops = True
        node = stick.end
        if web.meeting(node) > 2:
            return _Arm(sticks, node, drops)
        if len(sticks) > 10_000:
            break
    return _Arm(sticks, None, drops)


def find_traps(plan: Plan, book: RuleBook, made: Sticks, web: Web, air: dict[str, str]) -> tuple[Trap, ...]:
    """Every fixture's trap with its arm, and what vents it."""
    kinds = {f.id: f.kind for f in plan.fixtures}
    found: list[Trap] = []
    for fixture in plan.fixtures:
        start = made.trap_starts.get(fixture.id)
        if start is None:
            continue
        found.append(_trap(fixture, book, start, web, air, kinds, plan.takeoffs))
    return tuple(found)


def _trap(
    fixture: Fixture,
    book: RuleBook,
    start: Node,
    web: Web,
    air: dict[str, str],
    kinds: dict[str, FixtureKind],
    measured: tuple[MeasuredTakeOff, ...],
) -> Trap:
    spec = trade.fixture(fixture.kind)
    size = trap_size(fixture, book)
    arm = _follow(web, start, spec.outlet == "closet", book.number("slope.vertical_from"))
    weir = takeoff("p_trap", (size, size), "run_out", measured).length if spec.outlet in ("floor", "tub") else 0.0
    length: float | None = None
    fall: float | None = None
    if arm.ends is not None:
        length = sum(stick.run for stick in arm.sticks) - weir
        fall = sum(stick.slope * stick.run for stick in arm.sticks) / 12.0 - (
            arm.sticks[0].slope * weir / 12.0 if weir else 0.0
        )
    breaks = ""
    method, by, recognised, why = _vented(fixture, spec, arm, web, air, kinds, book)
    if method == WET and arm.ends is not None:
        breaks, why = _against_the_book(book, fixture, _through(web, air, arm), kinds)
        method = None if breaks else method
    return Trap(
        fixture=fixture.id,
        kind=fixture.kind,
        size=size,
        node=start,
        weir=weir,
        arm=tuple(stick.id for stick in arm.sticks),
        ends=arm.ends,
        length=length,
        fall=fall,
        drops=arm.drops,
        method=method,
        vented_by=by,
        recognised=recognised,
        why=why,
        breaks=breaks,
    )


def _vented(
    fixture: Fixture,
    spec: trade.FixtureSpec,
    arm: _Arm,
    web: Web,
    air: dict[str, str],
    kinds: dict[str, FixtureKind],
    book: RuleBook,
) -> tuple[str | None, str | None, bool, str]:
    """Method, the element that vents, whether the arrangement is recognised, and what it may be if not."""
    combination = book.says(f"combination.allows.{fixture.kind}")
    if not arm.sticks:
        return None, None, True, "no drain leaves the trap"
    if arm.ends is None:
        return None, None, True, "no other pipe meets its drain"
    node, last = arm.ends, arm.sticks[-1]
    others = [stick for stick in web.inflow.get(node, ()) if stick.id != last.id]
    dry = dry_at(web, node)
    vented = [stick for stick in others if stick.id in air]
    unvented = [stick for stick in others if stick.id not in air]
    if dry is not None:
        if not unvented:
            return INDIVIDUAL, dry, True, ""
        return None, dry, False, "two drains and one vent meet: a common vent, which is not judged yet"
    onward = web.outflow.get(node)
    if arm.drops:
        if combination and (vented or _air_below(web, air, node)):
            return None, None, False, _may_be(fixture, spec, combination)
        return None, None, True, "its drain drops before any air can reach it"
    if vented:
        by = vented[0].element
        foreign = sorted(f for f in _through(web, air, arm) if not trade.fixture(kinds[f]).group)
        if not spec.group:
            return None, by, False, _may_be(fixture, spec, combination)
        if foreign:
            names = ", ".join(foreign)
            return None, by, False, f"{names} drains through the pipe that brings the air: not judged yet"
        if unvented:
            return None, by, False, "a third drain meets at the same place: that arrangement is not judged yet"
        return WET, by, True, ""
    below = dry_at(web, onward.end) if onward is not None else None
    if len(others) == 1 and below is not None and web.meeting(onward.end if onward else node) == 3:
        return None, below, False, "two drains meet above one vent: a common vent, which is not judged yet"
    if combination and onward is not None and _air_below(web, air, node):
        return None, None, False, _may_be(fixture, spec, combination)
    return None, None, True, "no air reaches the place where its drain meets another pipe"


def _through(web: Web, air: dict[str, str], arm: _Arm) -> set[str]:
    """The fixtures that drain through the pipes which bring air to an arm's end."""
    if arm.ends is None:
        return set()
    bringing = (s for s in web.inflow.get(arm.ends, ()) if s.id in air and s.id != arm.sticks[-1].id)
    return {fixture for stick in bringing for fixture in stick.carries}


def _against_the_book(
    book: RuleBook, fixture: Fixture, through: set[str], kinds: dict[str, FixtureKind]
) -> tuple[str, str]:
    """The book's key that a wet vent breaks, and how; empty where it may stand."""
    closets = sorted(f for f in through if kinds[f] == "water_closet")
    if closets and fixture.kind != "water_closet" and book.says("wet_vent.closet_last"):
        why = f"{', '.join(closets)} drains through the pipe that would bring its air, and the closet must join last"
        return "wet_vent.closet_last", why
    for key in book.keys("wet_vent.members"):
        kind = key.rsplit(".", 1)[-1]
        most = book.number(key) * book.number("wet_vent.groups_most")
        found = sorted(f for f in through | {fixture.id} if kinds[f] == kind)
        if len(found) > most:
            return key, f"{', '.join(found)} share one wet vent, which serves {most:g} of their kind"
    return "", ""


def _air_below(web: Web, air: dict[str, str], node: Node) -> bool:
    """Whether any pipe further down is vented."""
    seen: set[Node] = set()
    while node in web.outflow and node not in seen:
        seen.add(node)
        if dry_at(web, node) is not None or any(stick.id in air for stick in web.inflow.get(node, ())):
            return True
        node = web.outflow[node].end
    return dry_at(web, node) is not None or any(stick.id in air for stick in web.inflow.get(node, ()))


def _may_be(fixture: Fixture, spec: trade.FixtureSpec, combination: bool) -> str:
    if combination:
        return "it may stand as combination waste and vent, which is not judged yet"
    return f"a {spec.words} on a pipe vented higher up may stand as circuit venting, which is not judged yet"
