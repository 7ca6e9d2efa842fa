"""Mends at a fixture: how high its outlet and its top stand, where it stands, whose trap it drains through."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial

from engine.checks.records import Finding
from engine.drafting.sharing import drained_through
from engine.lengths import inches, up
from engine.mending import costs
from engine.mending.cleanouts import from_node
from engine.mending.heights import shifted
from engine.mending.ideas import Idea, Maker
from engine.mending.moves import thing_moved
from engine.mending.vents import nearer
from engine.plan import edits
from engine.plan.records import Fixture
from engine.plan.welds import outlet
from engine.study import Study
from engine.trade import fixtures as trade

APART = (4.0, 6.0, 8.0, 10.0)
"""Inches by which one of two outlets opposite each other is set higher, so that each has a tee of its own."""


def _fixtures(study: Study, finding: Finding) -> list[Fixture]:
    return [fixture for fixture in study.plan.fixtures if fixture.id in finding.elements]


def standpipe(study: Study, finding: Finding) -> Iterator[Idea]:
    """A standpipe's top, or its trap, set so that it rises as it should; both left to the trade's usual."""
    if finding.measured is None or finding.limit is None:
        return
    for fixture in _fixtures(study, finding):
        weir, top = trade.outlet_of(fixture), trade.rim_of(fixture)
        yield from _usual(study, fixture)
        if weir is None or top is None:
            continue
        lacks = finding.limit - finding.measured
        put = partial(partial, edits.set_fields, study.plan, fixture.id)
        if finding.rule == "standpipe-too-short":
            words = f"Let the standpipe of {fixture.id} end {inches(top + lacks)} in above the floor"
            yield Idea(words, costs.HEIGHT, put(rim_above_floor=top + lacks))
            if weir - lacks > 0.0:
                words = f"Put the trap of {fixture.id} {inches(weir - lacks)} in above the floor"
                yield Idea(words, costs.HEIGHT + 1.0, put(outlet_above_floor=weir - lacks))
        else:
            words = f"Put the trap of {fixture.id} {inches(weir + lacks)} in above the floor"
            yield Idea(words, costs.HEIGHT, put(outlet_above_floor=weir + lacks))
            words = f"{words} and its top {inches(top + lacks)} in"
            yield Idea(words, costs.HEIGHT + 0.5, put(outlet_above_floor=weir + lacks, rim_above_floor=top + lacks))


def over_the_tub(study: Study, finding: Finding) -> Iterator[Idea]:
    """A standpipe's top set over the rim of the tub that drains into it, or the tub's rim left to the trade's usual."""
    if finding.limit is None:
        return
    for fixture in _fixtures(study, finding):
        yield from _usual(study, fixture)
        if fixture.through is None:
            top = finding.limit + CLEAR_OF_RIM
            words = f"Let the standpipe of {fixture.id} end {inches(top)} in above the floor"
            make = partial(edits.set_field, study.plan, fixture.id, "rim_above_floor", top)
            yield Idea(words, costs.HEIGHT, make)


CLEAR_OF_RIM = 1.0
"""How far over a tub's rim its standpipe then ends, inches."""


def _usual(study: Study, fixture: Fixture) -> Iterator[Idea]:
    for field, words in (("rim_above_floor", "top"), ("outlet_above_floor", "outlet")):
        if getattr(fixture, field) is not None:
            make = partial(edits.set_field, study.plan, fixture.id, field, None)
            yield Idea(f"Leave the {words} of {fixture.id} to the program", costs.UNPIN, make)


def set_nearer(study: Study, finding: Finding) -> Iterator[Idea]:
    """A fixture that drains into another one set as near to it as it may be."""
    for fixture in _fixtures(study, finding):
        host = next((one for one in study.plan.fixtures if one.id == fixture.through), None)
        if host is None or finding.measured is None or finding.limit is None:
            continue
        dx, dy = host.at[0] - fixture.at[0], host.at[1] - fixture.at[1]
        far = math.hypot(dx, dy)
        share = up(finding.measured - finding.limit) / far if far else 0.0
        yield from thing_moved(study, fixture.id, dx * share, dy * share)


def own_trap(study: Study, finding: Finding) -> Iterator[Idea]:
    """A fixture taken off another's trap, where a drain of its own stands there."""
    for fixture in _fixtures(study, finding):
        if fixture.through is not None:
            make = partial(drained_through, study.plan, fixture.id, None)
            yield Idea(f"Give {fixture.id} a trap of its own", costs.FITTING, make)


def one_higher(study: Study, finding: Finding) -> Iterator[Idea]:
    """One of two fixtures that drain opposite each other set higher, so that each has a tee of its own."""
    here = finding.at[:2]
    for fixture in study.plan.fixtures:
        if outlet(fixture) != here and fixture.at != here:
            continue
        now = trade.outlet_of(fixture)
        for by in APART:
            if now is not None:
                make = partial(edits.set_field, study.plan, fixture.id, "outlet_above_floor", now + by)
                words = f"Raise the outlet of {fixture.id} to {inches(now + by)} in above the floor"
                yield Idea(words, costs.HEIGHT + costs.INCH * by, make)


def hung_higher(study: Study, finding: Finding) -> Iterator[Idea]:
    """A trap too far below its outlet: the exit higher, or its run let down onto the main by a drop below the trap."""
    yield from shifted(study, finding)
    for trap in study.model.network.traps:
        if trap.fixture not in finding.elements or not trap.arm:
            continue
        name = study.model.network.by_id[trap.arm[0]].element
        for drain in study.plan.drains:
            if drain.id == name and drain.join == "flat":
                rolled = partial(edits.set_fields, study.plan, name, join="rolled", roll=45.0)
                yield Idea(f"Roll {name} up from its main by 45 degrees", costs.DROP, rolled)
                dropped = partial(edits.set_field, study.plan, name, "join", "drop")
                yield Idea(f"Let {name} drop onto its main", costs.DROP + 0.5, dropped)


def straighter(study: Study, finding: Finding) -> Iterator[Idea]:
    """An arm that turns too much: a cleanout where it turns, or the vent brought nearer."""
    for trap in study.model.network.traps:
        if trap.fixture in finding.elements:
            for name in trap.arm:
                yield from from_node(study, study.model.network.by_id[name].end, 0.0)
    yield from nearer(study, finding)


def outlets_closer(study: Study, finding: Finding) -> Iterator[Idea]:
    """An upright wet vent that is too long: its lowest outlet set higher, or its highest lower, by what it is too long."""
    if finding.measured is None or finding.limit is None:
        return
    lacks = up(finding.measured - finding.limit)
    heights: list[tuple[float, str]] = []
    for fixture in study.plan.fixtures:
        now = trade.outlet_of(fixture)
        if fixture.at == finding.at[:2] and now is not None:
            heights.append((now, fixture.id))
    for (now, name), by, verb in (
        (min(heights, default=(0.0, "")), lacks, "Raise"),
        (max(heights, default=(0.0, "")), -lacks, "Lower"),
    ):
        if name and now + by > 0.0:
            make = partial(edits.set_field, study.plan, name, "outlet_above_floor", now + by)
            words = f"{verb} the outlet of {name} to {inches(now + by)} in above the floor"
            yield Idea(words, costs.HEIGHT + costs.INCH * lacks, make)


MAKERS: dict[str, Maker] = {
    "arm-turns-too-much": straighter,
    "double-fitting-unlike": one_higher,
    "double-tee-back-to-back": one_higher,
    "double-tee-takes-pumped": one_higher,
    "hose-too-short": set_nearer,
    "laundry-tub-too-far": set_nearer,
    "standpipe-too-short": standpipe,
    "standpipe-trap-height": standpipe,
    "standpipe-under-the-tub": over_the_tub,
    "trap-takes-another": own_trap,
    "vertical-wet-vent-too-long": outlets_closer,
    "weir-too-low": hung_higher,
}
