"""Every trap with its arm, and the first of the codes' methods that vents it."""

from __future__ import annotations

from collections.abc import Callable

from engine.piping.loads import Loads
from engine.piping.records import Trap, VentWay
from engine.piping.sticks import Sticks
from engine.piping.venting.arms import Arm, trap_size
from engine.piping.venting.circuit import circuit
from engine.piping.venting.combination import combination
from engine.piping.venting.scene import Attempt, Refused, Scene, Unknown, Vented
from engine.piping.venting.shared import one_level, two_levels
from engine.piping.venting.single import own_vent
from engine.piping.venting.stack import waste_stack
from engine.piping.venting.telling import tell
from engine.piping.venting.ways import gather
from engine.piping.venting.wet import lying, upright
from engine.piping.web import Web
from engine.plan.records import MeasuredTakeOff, Plan
from engine.rulebooks import RuleBook
from engine.trade.fittings import takeoff

METHODS: tuple[Callable[[Scene, Arm], Attempt], ...] = (
    own_vent,
    one_level,
    lying,
    two_levels,
    upright,
    waste_stack,
    circuit,
    combination,
)
"""The codes' methods in the order in which they are tried: the plainest first."""


def find_traps(
    plan: Plan, book: RuleBook, made: Sticks, web: Web, air: dict[str, str], loads: Loads
) -> tuple[tuple[Trap, ...], tuple[VentWay, ...]]:
    """Every fixture's trap with its arm and what vents it, and the arrangements that vent several together."""
    scene = Scene(plan, book, made, web, air, loads)
    found: dict[str, Vented] = {}
    rest: dict[str, Refused | Unknown] = {}
    for name, arm in scene.arms.items():
        answer = _judged(scene, arm)
        if isinstance(answer, Vented):
            found[name] = answer
        else:
            rest[name] = answer
    ways, way_of = gather(scene, found)
    traps = tuple(
        _trap(scene, arm, found.get(name), rest.get(name), ways, way_of, plan.takeoffs)
        for name, arm in scene.arms.items()
    )
    return traps, ways


def _judged(scene: Scene, arm: Arm) -> Vented | Refused | Unknown:
    """The first method that fits; else the one that the book says nothing of; else what stands against it."""
    if not arm.sticks:
        return Refused("no drain leaves the trap")
    refused: Refused | None = None
    unknown: Unknown | None = None
    for method in METHODS:
        answer = method(scene, arm)
        if isinstance(answer, Vented):
            barred = scene.barred(answer.method)
            if barred is None:
                return answer
            refused = barred
        elif isinstance(answer, Refused):
            refused = refused or answer
        elif isinstance(answer, Unknown):
            unknown = unknown or answer
    if unknown is not None:
        return unknown
    if refused is not None:
        return refused
    if arm.ends is None:
        return Refused("no other pipe meets its drain")
    if arm.siphons:
        return Refused("its drain drops before any air can reach it")
    return Refused("no air reaches the place where its drain meets another pipe")


def _trap(
    scene: Scene,
    arm: Arm,
    vented: Vented | None,
    rest: Refused | Unknown | None,
    ways: tuple[VentWay, ...],
    way_of: dict[str, int],
    measured: tuple[MeasuredTakeOff, ...],
) -> Trap:
    fixture = arm.fixture
    size = trap_size(fixture, scene.book)
    weir = takeoff("p_trap", (size, size), "run_out", measured).length if arm.spec.outlet in ("floor", "tub") else 0.0
    own = arm.sticks if vented is None else arm.sticks[: vented.own]
    beyond = [] if vented is None else vented.beyond
    ends = arm.ends if vented is None else vented.ends
    length = fall = None
    if ends is not None and own:
        length = sum(stick.run for stick in (*own, *beyond)) - weir
        fall = sum(stick.slope * stick.run for stick in (*own, *beyond)) / 12.0 - own[0].slope * weir / 12.0
    way = ways[way_of[fixture.id]] if vented is not None else None
    return Trap(
        fixture=fixture.id,
        kind=fixture.kind,
        size=size,
        node=arm.sticks[0].start if arm.sticks else scene.start(fixture.id),
        weir=weir,
        arm=tuple(stick.id for stick in own),
        ends=ends,
        length=length,
        fall=fall,
        drops=arm.drops if vented is None else False,
        method=None if way is None else way.method,
        vented_by=None if vented is None else vented.source,
        recognised=not isinstance(rest, Unknown),
        why="" if rest is None else rest.why,
        breaks=rest.breaks if isinstance(rest, Refused) else "",
        way=None if way is None else way.number,
        beyond=tuple(stick.id for stick in beyond),
        told="" if way is None else tell(fixture.id, way),
    )
