"""Heights on the strip in words, limits rounded to the safe side."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks import ALL_RULES
from engine.lengths import down, feet_inches, inches, up
from engine.plan.outline import listed
from engine.takeoff.levers import Lever
from engine.takeoff.long_section import LongSection, Wood

UNIT = {"pinned_z": "down", "rise": "up", "down": "down"}
"""Which way each field counts: down from the joists' top, or up from the main's axis."""

LABELS = {"pinned_z": "{}, down", "rise": "{}", "down": "{}, down"}

_TITLES = {rule.id: rule.title for rule in ALL_RULES}


def title(section: LongSection) -> str:
    """What is shown: from where to where, how far and with what fall."""
    long = feet_inches(section.length)
    if section.exit is None:
        return f"{section.element} to {section.high_end}: level, {long} long"
    return f"{section.low_end} to {section.high_end}: falls {inches(section.fall)} in over {long}"


def measure(lever: Lever, z: float) -> str:
    """A height as its field counts it: ``7 3/16``; in decimals where no sixteenth is near."""
    value = shown(lever, z)
    mark = round(value * 16.0) / 16.0
    return inches(value) if abs(mark - value) < 1.0 / 256.0 else f"{value:.3f}"


def tape(lever: Lever, z: float) -> str:
    """A height as its field counts it, to the nearest sixteenth."""
    return inches(shown(lever, z))


def height(lever: Lever) -> str:
    """The height in force and where it counts: ``7 3/16 in down at exit x1``."""
    where = "over its main" if lever.field == "rise" else f"down at {lever.words}"
    return f"{tape(lever, lever.z)} in {where}"


def shown(lever: Lever, z: float) -> float:
    """What a person reads for a height: inches down from the joists' top, or up from the main."""
    value = lever.value(z)
    return -value if lever.field == "pinned_z" else value


def value_of(lever: Lever, read: float) -> float:
    """The height over the joists' top that a person means by a figure."""
    return lever.z_of(-read if lever.field == "pinned_z" else read)


def limit(lever: Lever, end: str) -> str:
    """One limit as it is read, to the safe side; ``no limit`` where there is none."""
    z = lever.high if end == "high" else lever.low
    if z is None:
        return "no limit"
    low, high = lever.stops
    if not lever.empty and (low, high) == (lever.low, lever.high):
        return measure(lever, z)
    value = shown(lever, z)
    counts_down = UNIT[lever.field] == "down"
    inward = up if (end == "high") == counts_down else down
    return inches(inward(value))


def verdict(lever: Lever, section: LongSection) -> str:
    """What the height in force breaks, in one line."""
    broken = [wood for wood in section.woods if wood.cut is not None and wood.cut.legal is False]
    said = []
    if lever.empty and lever.low is not None and lever.high is not None:
        said.append(f"no height serves: the two limits exclude each other by {inches(up(lever.low - lever.high))} in")
    elif lever.past > 0.0:
        said.append(f"{_by(lever.past)} over the highest: {lever.high_by}")
    elif lever.past < 0.0:
        said.append(f"{_by(-lever.past)} under the lowest: {lever.low_by}")
    if broken:
        what = "cut does" if len(broken) == 1 else "cuts do"
        said.append(f"{len(broken)} {what} not hold")
    if not said:
        return f"suits by {lever.by_other}" if lever.by_other else "inside its limits"
    return "; ".join(said)


def _by(length: float) -> str:
    return f"{inches(up(length))} in"


def at_place(section: LongSection, station: float, wood: Wood | None, things: list[str]) -> Iterator[str]:
    """What lies at a distance from the exit: the pipe's axis from both edges of the wood, and what is there."""
    leg = section.leg_at(station)
    z = wood.z if wood is not None else leg.z(station)
    place = feet_inches(station)
    yield f"{place} from {'the exit' if section.exit is not None else 'its first point'}, {leg.element}"
    bays = (-bay.depth for bay in section.bays if bay.begins <= station <= bay.ends)
    bottom = wood.bottom if wood is not None else next(bays, None)
    down_words = f"{inches(-z)} in down" if z <= 0.0 else f"{inches(z)} in above the joists"
    if bottom is None:
        yield f"axis {down_words}"
    elif z >= bottom:
        yield f"axis {down_words}, {inches(z - bottom)} in up from the bottom"
    else:
        yield f"axis {down_words}, {inches(bottom - z)} in under the joists"
    if wood is not None:
        yield f"{wood.words}: {cut_words(wood)}"
    yield from things


def cut_words(wood: Wood) -> str:
    """What a joist loses there, and whether that holds."""
    cut = wood.cut
    if cut is None:
        return "the pipe passes clear of it"
    across = f"{cut.bit} in bit" if cut.bit is not None else f"{inches(cut.diameter)} in wide"
    what = f"bore, {across}" if cut.kind == "bore" else f"notch {inches(cut.depth)} in deep"
    if len(cut.elements) > 1:
        what += f" round {listed(cut.elements)}"
    if cut.legal is None:
        return f"{what}, not judged"
    if cut.legal:
        return f"{what}, holds"
    faults = "; ".join(_TITLES.get(rule, rule).lower() for rule in cut.faults)
    return f"{what}, does not hold: {faults}"
