"""The changes that could open a window: each is worked out from the two limits that exclude each other, then tried.

The window is empty by a sum: the low limit's height and the fall down from it, less the high limit's and the fall from
that. What only one of them falls through counts, so a run's slope, its way and what it joins are worth as much as the
difference of the two ways in it says. The numbers come from that sum, rounded to what can be built; whether they
hold is left to the trial.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from engine.crossings.records import Window
from engine.lengths import down, inches, up
from engine.mending import costs
from engine.mending.heights import is_open, pinned, unpinned, window_of
from engine.mending.ideas import Idea, both
from engine.mending.lumber import framed
from engine.mending.moves import part_slid, thing_moved
from engine.mending.opening.excluding import Exclusion, exclusion
from engine.mending.opening.quick import shut_by, windows_of
from engine.mending.sizes import smaller
from engine.mending.sliding import straights
from engine.mending.slopes import sloped
from engine.plan import edits
from engine.plan.edits import EditError
from engine.plan.points import Run
from engine.plan.records import Plan
from engine.study import Study
from engine.study import study as study_plan
from engine.trade.pipe import label

LOOKS = 90
"""So many plans have their windows worked out at most, for one window: about a third of a study each."""
ROLLS = (45.0, 22.5, 60.0)
"""Degrees by which a fitting is rolled for a branch to come in from above: those that a bend brings level again."""
ROOM = 0.125
"""Inches that a window is to be opened at least where the sum gives the choice: so that a tape can find the height."""
STEEPEST = 1.0
"""Inches per foot up to which a run is made steeper to open a window: past it water runs away from solids."""
HEAVY = 20000
"""Pipes times plans looked at past which fewer are."""
SHORT = (1.0, 2.0, 4.0, 6.0, 8.0, 12.0, 16.0)
"""Inches by which a run's straight parts are slid."""
PAIRED = 5
"""So many changes that open a window only partly are tried together with another one."""


def openings_of(study: Study, name: str) -> Iterator[Idea]:
    """What would open the window of an exit, or of a run with an open rise: only what does, by the windows alone.

    Single changes first; pairs of them where no single one does. They are yet to be tried by a whole study. A pinned
    exit is let go of with each, since its height was chosen for the window that is to be left.
    """
    window = window_of(study, name)
    if window is None or is_open(window):
        return
    if not window.pinned:
        yield from _opened(study, name)
        return
    let_go = unpinned(study, name)
    for idea in _opened(study_plan(let_go.make()), name):
        words = f"{idea.words}, and {let_go.label}"
        yield idea._replace(words=words, cost=idea.cost + let_go.cost)


def _opened(study: Study, name: str) -> Iterator[Idea]:
    window = window_of(study, name)
    out = exclusion(study, window) if window is not None else None
    if out is None:
        return
    before = shut_by(study.model.windows)
    partly: list[tuple[float, Idea, Plan]] = []
    opened = False
    for idea in sorted(_ideas(study, out), key=lambda one: one.cost)[: _looks(study)]:
        plan = _made(idea)
        if plan is None:
            continue
        found = windows_of(plan)
        if _serves(found, study, name):
            opened = True
            yield _kept_up(study, found, name, idea)._replace(gains=partial(_gained, name))
        elif shut_by(found) < before:
            partly.append(((before - shut_by(found)) / idea.cost, idea, plan))
    if not opened:
        partly.sort(key=lambda one: -one[0])
        yield from _pairs(partly[:PAIRED], name, _looks(study) // PAIRED)


def _kept_up(study: Study, found: tuple[Window, ...], name: str, idea: Idea) -> Idea:
    """The idea; with the exit pinned at its window's upper end where it would else be chosen below the joists."""
    window = next((one for one in found if one.exit == name), None)
    depth = max((joist.depth for joist in study.model.framing.joists), default=0.0)
    if window is None or window.high is None or window.pinned or window.chosen >= -depth or window.high < -depth:
        return idea
    z = down(window.high)
    pin = pinned(study, name, z)
    return both(idea, partial(_pinned, name=name, z=z), pin.words, costs.UNPIN)


def _pinned(plan: Plan, name: str, z: float) -> Plan:
    return edits.set_field(plan, name, "pinned_z", z)


def _looks(study: Study) -> int:
    """How many plans are looked at for one window: fewer of a large one."""
    return min(LOOKS, max(PAIRED, HEAVY // (len(study.model.network.pipes) + 1)))


def _pairs(partly: list[tuple[float, Idea, Plan]], name: str, most: int) -> Iterator[Idea]:
    """Two changes together, where neither opens the window alone: the second worked out from what the first left."""
    for _, first, plan in partly:
        half = study_plan(plan)
        window = window_of(half, name)
        out = exclusion(half, window) if window is not None else None
        if out is None:
            continue
        for then in sorted(_ideas(half, out), key=lambda one: one.cost)[:most]:
            then_plan = _made(then)
            windows = windows_of(then_plan) if then_plan is not None else ()
            if then_plan is not None and _serves(windows, half, name):
                idea = both(first, partial(_instead, then_plan), then.words, then.cost)
                idea = _kept_up(half, windows, name, idea)
                yield idea._replace(gains=partial(_gained, name))


def _instead(plan: Plan, _: Plan) -> Plan:
    return plan


def _made(idea: Idea) -> Plan | None:
    try:
        return idea.make()
    except EditError:
        return None


def _serves(found: tuple[Window, ...], study: Study, name: str) -> bool:
    """Whether a height serves the exit, and none of the runs that rise onto it is left without one that had one."""
    exits = {one.exit: one for one in found if one.exit is not None}
    if name not in exits:
        mine = window_of(study, name)
        return mine is not None and len(found) > mine.reach and all(map(is_open, found))
    shut = sum(1 for one in found if not is_open(one))
    before = sum(1 for one in study.model.windows if not is_open(one))
    return is_open(exits[name]) and shut < before


def _gained(name: str, found: tuple[Window, ...]) -> str:
    """What was won, with its number: how far the window is open."""
    window = next((one for one in found if one.exit == name), None)
    if window is None or window.low is None or window.high is None:
        return ""
    room = window.high - window.low
    if down(room) > 0.0:
        return f"the window opens to {inches(down(room))} in"
    return "one height serves" if room < 1.0 / 64.0 else f"the window opens to {room:.3f} in"


def _ideas(study: Study, out: Exclusion) -> Iterator[Idea]:
    yield from _slopes(study, out)
    yield from _drops(study, out)
    yield from _pipes(study, out)
    yield from _passing(study, out)
    yield from _nearer(study, out)
    yield from _routes(study, out)
    yield from _deeper(study, out)
    yield from _lower_main(study, out)


def _worth(out: Exclusion) -> dict[str, float]:
    """Inches by which the window closes for an inch per foot more of each run's slope: negative where it opens."""
    runs = dict.fromkeys((*out.high.lengths, *out.low.lengths))
    return {run: (out.high.lengths.get(run, 0.0) - out.low.lengths.get(run, 0.0)) / 12.0 for run in runs}


def _slope_of(study: Study, run: str) -> float | None:
    drawn = next((one for one in study.plan.drains if one.id == run), None)
    if drawn is None:
        return None
    return study.plan.slope if drawn.slope is None else drawn.slope


def _least(study: Study, run: str) -> float | None:
    """The least slope that the book asks for the pipes of a run."""
    sizes = {pipe.size for pipe in study.model.network.pipes if pipe.element == run and pipe.shape == "level"}
    keys = [f"slope.least.{label(size)}" for size in sizes]
    if not keys or not all(study.model.book.has(key) for key in keys):
        return None
    return max(study.model.book.number(key) for key in keys)


def _slopes(study: Study, out: Exclusion) -> Iterator[Idea]:
    """Less slope where only the high limit's water runs, more where only the low one's does."""
    gentler: list[tuple[str, float]] = []
    for run, worth in _worth(out).items():
        now, least = _slope_of(study, run), _least(study, run)
        if now is None or worth == 0.0:
            continue
        want = now - out.apart / worth
        if worth > 0.0:
            if least is not None and least < now:
                gentler.append((run, least))
                for slope in dict.fromkeys((max(least, down(want - ROOM / worth)), least)):
                    yield sloped(study.plan, run, slope)
        else:
            roomy, bare = up(want - ROOM / worth), up(want)
            for slope in dict.fromkeys((roomy, bare)):
                if now < slope <= STEEPEST:
                    idea = _steeper(study, run, slope, slope - now)
                    yield idea if slope == roomy else idea._replace(cost=idea.cost + 1.0)
            if want > STEEPEST > now:
                yield _steeper(study, run, STEEPEST, STEEPEST - now)
    if len(gentler) > 1:
        yield _all_gentler(study.plan, gentler)


def _all_gentler(plan: Plan, runs: list[tuple[str, float]]) -> Idea:
    """All runs that only the high limit's water falls through, each at the least slope that it may have."""
    idea = sloped(plan, *runs[0])
    for name, slope in runs[1:]:
        more = sloped(plan, name, slope)
        idea = both(idea, partial(_sloped, name=name, slope=slope), more.words, more.cost)
    return idea


def _steeper(study: Study, run: str, slope: float, by: float) -> Idea:
    idea = sloped(study.plan, run, slope)
    return idea._replace(cost=idea.cost + 4.0 * by)


def _sloped(plan: Plan, name: str, slope: float) -> Plan:
    return edits.set_field(plan, name, "slope", slope)


def _drops(study: Study, out: Exclusion) -> Iterator[Idea]:
    """The low limit's runs let down onto what they join, by a drop or a rolled fitting; so the main may lie lower."""
    for run in out.low.lengths:
        drawn = next((one for one in study.plan.drains if one.id == run), None)
        if drawn is None or drawn.join != "flat" or run in out.high.lengths:
            continue
        for roll in ROLLS:
            make: Callable[[], Plan] = partial(edits.set_fields, study.plan, run, join="rolled", roll=roll)
            yield Idea(f"Roll {run} up from its main by {roll:g} degrees", costs.DROP, make)
        make = partial(edits.set_field, study.plan, run, "join", "drop")
        yield Idea(f"Let {run} drop onto its main", costs.DROP + 0.5, make)
    for run in out.high.lengths:
        drawn = next((one for one in study.plan.drains if one.id == run), None)
        if drawn is not None and drawn.join != "flat":
            make = partial(edits.set_fields, study.plan, run, join="flat", roll=45.0, rise=None)
            yield Idea(f"Let {run} join its main flat", costs.DROP, make)


def _pipes(study: Study, out: Exclusion) -> Iterator[Idea]:
    """Smaller pipe through the joists that set the limits."""
    for way in (out.low, out.high):
        if way.joist is not None and any(one.id == way.run for one in study.plan.drains):
            yield from smaller(study, way.run)


def _passing(study: Study, out: Exclusion) -> Iterator[Idea]:
    """The runs whose bores set the limits hung under the joists."""
    for way in (out.low, out.high):
        if way.joist is None or not any(one.id == way.run for one in study.plan.drains):
            continue
        make = partial(edits.set_field, study.plan, way.run, "passing", "under")
        yield Idea(f"Take {way.run} under the joists", costs.BELOW, make)


def _deeper(study: Study, out: Exclusion) -> Iterator[Idea]:
    """Deeper lumber for the joists that set a limit, else for those that the drains pass."""
    joists = [way.joist for way in (out.low, out.high) if way.joist is not None]
    fields = dict.fromkeys(study.model.joists[joist].field for joist in joists)
    for field in fields or [one.id for one in study.plan.fields]:
        yield from framed(study.plan, field)


def _nearer(study: Study, out: Exclusion) -> Iterator[Idea]:
    """What sets the high limit moved down its run, so that its water has less far to fall."""
    if not out.high.pipes or out.high.joist is not None:
        return
    pipe = out.high.pipes[0]
    if pipe.shape != "level" or pipe.slope <= 0.0:
        return
    by = up(12.0 * (out.apart + ROOM) / pipe.slope, 4)
    for more in (0.0, 2.0):
        if by + more < pipe.run:
            dx, dy = pipe.heading[0] * (by + more), pipe.heading[1] * (by + more)
            yield from thing_moved(study, out.high.bound.element, dx, dy)


def _routes(study: Study, out: Exclusion) -> Iterator[Idea]:
    """The straight parts of the two ways slid aside, by short lengths, a bay, and what the sum asks."""
    spacing = {field.spacing for field in study.plan.fields}
    for run in dict.fromkeys((*out.low.lengths, *out.high.lengths)):
        drawn = edits.find(study.plan, run) if any(one.id == run for one in study.plan.drains) else None
        slope = _slope_of(study, run)
        if not isinstance(drawn, Run) or slope is None:
            continue
        exact = up(12.0 * (out.apart + ROOM) / slope) if slope > 0.0 else 0.0
        lengths = sorted({*SHORT, *spacing, *(one for one in (exact,) if 0.0 < one <= 96.0)})
        for part in straights(drawn):
            for by in lengths:
                for side in (by, -by):
                    yield from part_slid(study, run, part, side)


def _lower_main(study: Study, out: Exclusion) -> Iterator[Idea]:
    """Under a run with an open rise: the exit pinned lower, so that what rises from the main has room."""
    if out.window.exit is not None:
        return
    reach = study.model.network.reaches[out.window.reach]
    parent = next((one for one in study.model.windows if one.reach == reach.parent), None)
    while parent is not None and parent.exit is None:
        above = study.model.network.reaches[parent.reach].parent
        parent = next((one for one in study.model.windows if one.reach == above), None)
    if parent is None or parent.exit is None:
        return
    idea = pinned(study, parent.exit, down(parent.chosen - out.apart))
    yield idea._replace(cost=idea.cost + costs.INCH * out.apart)
    if parent.low is not None and parent.low < parent.chosen:
        yield pinned(study, parent.exit, up(parent.low))
