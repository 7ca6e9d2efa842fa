"""Which way everything runs: waste to an exit, dry vents to open air.

The direction in which a run was drawn does not matter. Breadth first from the exits (or the open tops), each
stick is turned so that it leads there; a stick that closes a ring is turned by the same order, so the graph
stays free of cycles, and is reported.
"""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Iterable, Iterator

from engine.piping.records import UNDER, Fault, Node
from engine.piping.records import is_under as is_under
from engine.piping.sticks import Stick, Sticks
from engine.plan.records import Drain, Plan, Point

SQUARE = 1.0
"""A drawn angle is met within this many degrees."""
NEAR = 1.0 / 16.0
"""A climb is met within this, inches: a tape's finest mark."""
LEDGE = -1.0e9
"""Levels from here up to real heights are the feet of runs that drop onto a main: under the floor, above `UNDER`."""


def neighbours(sticks: list[Stick], system: str) -> dict[Node, list[Stick]]:
    """The sticks of one system by the nodes they end at."""
    meeting: dict[Node, list[Stick]] = {}
    for stick in sticks:
        if stick.system == system:
            meeting.setdefault(stick.start, []).append(stick)
            meeting.setdefault(stick.end, []).append(stick)
    return meeting


def direct_waste(made: Sticks, plan: Plan) -> dict[Node, str]:
    """Turn every waste stick toward its exit. Returns the exit that each reached node drains to."""
    meeting = neighbours(made.all, "waste")
    reached: dict[Node, str] = {}
    for exit_id, node in made.exits.items():
        if node not in meeting:
            made.faults.append(
                Fault(
                    "exit-joins-nothing",
                    (exit_id,),
                    (node.x, node.y),
                    f"No drain runs to exit {exit_id}.",
                    mend="Draw the main to the exit's point, or move the exit to the main's lower end.",
                )
            )
            continue
        if node in reached:
            made.faults.append(
                Fault(
                    "waste-ring",
                    (exit_id, reached[node]),
                    (node.x, node.y),
                    f"Exits {reached[node]} and {exit_id} are on one drain: each exit heads a tree of its own.",
                    mend="Delete one exit or part the drains.",
                )
            )
            continue
        _spread(made, meeting, node, exit_id, reached)
    lost: dict[str, list[Stick]] = {}
    visited: set[Node] = set()
    for stick in made.all:
        if stick.system != "waste" or stick.directed:
            continue
        lost[stick.id] = [turned for turned, _ in _turned(meeting, [_lower_end(stick, meeting)], visited)]
    runs = {drain.id for drain in plan.drains}
    for component in lost.values():
        elements = tuple(dict.fromkeys(stick.element for stick in component if stick.element in runs))
        if not elements:
            continue
        first = next(stick.end for stick in component if stick.element in runs)
        made.faults.append(
            Fault(
                "drain-reaches-no-exit",
                elements,
                (first.x, first.y),
                f"{'Runs' if len(elements) > 1 else 'Run'} {', '.join(elements)}: the water reaches no exit.",
                mend="Draw on to a main or an exit; an end near a pipe is not joined until it is on the pipe's axis.",
            )
        )
    return reached


def _turned(meeting: dict[Node, list[Stick]], roots: Iterable[Node], seen: set[Node]) -> Iterator[tuple[Stick, bool]]:
    """Turn the sticks that hang on some nodes so that each leads to them, breadth first, nearest first.

    Yields each stick with whether it closes a ring: its upper end was reached before. `seen` gathers the nodes.
    """
    queue = deque(roots)
    seen.update(queue)
    while queue:
        node = queue.popleft()
        for stick in meeting[node]:
            if stick.directed:
                continue
            other = stick.end if stick.start == node else stick.start
            stick.start, stick.end = other, node
            stick.directed = True
            ring = other in seen
            if not ring:
                seen.add(other)
                queue.append(other)
            yield stick, ring


def _spread(made: Sticks, meeting: dict[Node, list[Stick]], root: Node, exit_id: str, reached: dict[Node, str]) -> None:
    seen: set[Node] = set()
    for stick, ring in _turned(meeting, [root], seen):
        if ring:
            made.faults.append(
                Fault(
                    "waste-ring",
                    (stick.element,),
                    (stick.end.x, stick.end.y),
                    f"The drains close a ring at {stick.element}: the water has two ways to the exit.",
                    mend=f"Delete a stretch of the ring, {stick.element} for one.",
                )
            )
    reached.update(dict.fromkeys(seen, exit_id))


def _lower_end(stick: Stick, meeting: dict[Node, list[Stick]]) -> Node:
    """Where a drain with no exit is taken to flow for now: the end of the drawn run it belongs to."""
    node, last = stick.end, stick
    while True:
        onward = [
            s for s in meeting[node] if s is not last and s.element == stick.element and s.segment == last.segment + 1
        ]
        if not onward or onward[0].shape != last.shape:
            return node
        last = onward[0]
        node = last.end if last.start == node else last.start


def direct_vents(made: Sticks) -> set[Node]:
    """Turn every dry stick toward open air. Returns the nodes from which air can be reached."""
    meeting = neighbours(made.all, "vent")
    waste = {node for stick in made.all if stick.system == "waste" for node in (stick.start, stick.end)}
    aired: set[Node] = set()
    for _ in _turned(meeting, [top for top in made.air if top in meeting], aired):
        pass
    visited: set[Node] = set()
    for stick in made.all:
        if stick.system != "vent" or stick.directed:
            continue
        root = stick.start if stick.start in waste else stick.end
        component = [turned for turned, _ in _turned(meeting, [root], visited)]
        for part in component:
            part.start, part.end = part.end, part.start
        made.faults.append(_airless(made, component, (root.x, root.y)))
    return aired


def _airless(made: Sticks, component: list[Stick], at: Point) -> Fault:
    elements = tuple(dict.fromkeys(part.element for part in component))
    text = f"Vent {', '.join(elements)} reaches no open air"
    mend = "End it in a riser through the roof, in an admittance valve, or in a vent that does."
    if any(node in made.refused for part in component for node in (part.start, part.end)):
        text += ": the rule book accepts no admittance valve"
        mend = "End it in a riser through the roof or in a vent that does; if the official accepts the valve, say so in an amendment."
    return Fault("vent-reaches-no-air", elements, at, f"{text}.", mend=mend)


def _along(stick: Stick, foot: Node) -> tuple[float, float]:
    """The plan heading of a stick toward its foot; (0, 0) when it stands plumb."""
    dx, dy = foot.x - stick.start.x, foot.y - stick.start.y
    return (dx / stick.run, dy / stick.run) if stick.run else (0.0, 0.0)


def _lift(made: Sticks, foot: Node, ledge: Node, aired: set[Node]) -> None:
    """Let what stands plumb over a joint, and a trap that hangs there, stand on the ledge above it."""
    for fixture, node in made.trap_starts.items():
        if node == foot:
            made.trap_starts[fixture] = ledge
    for stick in made.all:
        if stick.shape != "plumb" or (is_under(stick.start) and is_under(stick.end)):
            continue
        if stick.end == foot:
            stick.end = ledge
        elif stick.start == foot:
            stick.start = ledge
            if stick.end in aired:
                aired.add(ledge)


def _rolled_wye(made: Sticks, run: Drain, stick: Stick, onward: Stick) -> bool:
    """Whether a rolled run comes in as a wye's branch; its last stretch is then the branch itself, and leans.

    A wye rolled by r about the main shows its branch at atan(cos r) to the main in plan and lifts it by
    asin(sin 45 sin r) above level (by geometry); the climb follows from the stretch's drawn length.
    """
    roll, half = math.radians(run.roll), math.sqrt(0.5)
    into, main = _along(stick, stick.end), _along(onward, onward.end)
    drawn = math.degrees(math.acos(max(-1.0, min(1.0, into[0] * main[0] + into[1] * main[1]))))
    if onward.run == 0.0 or abs(drawn - math.degrees(math.atan(math.cos(roll)))) > SQUARE:
        return False
    climb = math.asin(half * math.sin(roll))
    stick.shape, stick.climb, stick.heading = "inclined", math.degrees(climb), into
    stick.slope = 12.0 * math.tan(climb)
    rise = stick.run * math.tan(climb)
    if run.rise is not None and abs(run.rise - rise) > NEAR:
        made.faults.append(
            Fault(
                "no-fitting-turns-so",
                (run.id,),
                (stick.end.x, stick.end.y),
                f"The rolled wye lifts {run.id} by {rise:.2f} in over its last stretch as drawn, not by {run.rise:g} in.",
                measured=rise,
                limit=run.rise,
                unit="in",
                mend="Draw the last stretch longer or shorter, or leave the climb open.",
            )
        )
    return True


def set_on_ledges(made: Sticks, plan: Plan, reached: dict[Node, str], aired: set[Node]) -> dict[Node, tuple[str, Node]]:
    """Part the lower ends of runs that drop (or roll) onto a main from the main's node.

    Each such run's last stick is led to a ledge node of its own above the joint, and a plumb or inclined stick
    closes the gap; a roll by nothing is a flat join, and so is the end of a run at an exit, where there is no main.
    What stands plumb on the joint from above then stands on the first ledge. Runs that drop onto one joint from one
    height share ledge and drop. Returns each ledge with its run's id and the main's node.
    """
    ledges: dict[Node, tuple[str, Node]] = {}
    runs = {drain.id: drain for drain in plan.drains if drain.join == "drop" or (drain.join == "rolled" and drain.roll)}
    if not runs:
        return ledges
    dropping: dict[tuple[Node, float | None], Stick] = {}
    leaving: dict[Node, Stick] = {stick.start: stick for stick in made.all if stick.system == "waste"}
    exits = set(made.exits.values())
    for stick in [s for s in made.all if s.element in runs and s.directed and s.end not in exits]:
        foot = stick.end
        onward = leaving.get(foot)
        ends_here = onward is None or onward.element != stick.element
        if not ends_here or foot.level != UNDER or foot not in reached:
            continue
        run = runs[stick.element]
        if run.join == "rolled" and onward is not None and _rolled_wye(made, run, stick, onward):
            continue
        beside = dropping.get((foot, run.rise)) if run.join == "drop" else None
        if beside is not None and beside.element != run.id:
            stick.end = beside.start
            beside.size = _wider(beside.size, stick.size)
            continue
        ledge = Node(foot.x, foot.y, LEDGE + len(ledges))
        second = sum(name == run.id for name, _ in ledges.values())
        ledges[ledge] = (run.id, foot)
        reached[ledge] = reached[foot]
        _lift(made, foot, ledge, aired)
        stick.end = ledge
        closing = Stick(
            id=f"{run.id}.{'drop' if run.join == 'drop' else 'roll'}{second or ''}",
            element=run.id,
            segment=len(run.points),
            system="waste",
            shape="plumb" if run.join == "drop" else "inclined",
            start=ledge,
            end=foot,
            run=0.0,
            slope=0.0,
            size=stick.size,
            passing=stick.passing,
            directed=True,
            heading=_along(stick, foot),
            climb=run.roll if run.join == "rolled" else 90.0,
        )
        made.all.append(closing)
        if run.join == "drop":
            dropping[foot, run.rise] = closing
    return ledges


def _wider(a: float | None, b: float | None) -> float | None:
    """The wider of two drawn sizes; None, an automatic one, where either is open."""
    return None if a is None or b is None else max(a, b)
