"""Sizes of drains: what each carries against what its size may, and what is barred from small pipe."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model, once_a_model
from engine.checks.outcomes import name, place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule, Weight
from engine.checks.vent_words import called
from engine.crossings.limits import over, short
from engine.lengths import inches
from engine.piping.drain_kinds import DrainKind
from engine.piping.drain_sizing import flat_share
from engine.piping.records import Pipe
from engine.piping.sizes import Ask, By, table
from engine.trade.pipe import label

_AS: dict[DrainKind, str] = {
    "trap arm": "trap arm",
    "fixture drain": "drain of one fixture",
    "branch": "branch",
    "building drain branch": "branch of the building drain",
    "building drain": "building drain",
    "vertical drain": "upright drain",
    "stub": "drain",
}


@once_a_model
def drains(model: Model) -> dict[str, list[Pipe]]:
    """The waste pipes that carry something, by the drawn thing that they belong to."""
    found: dict[str, list[Pipe]] = {}
    for pipe in model.network.pipes:
        if pipe.system == "waste" and pipe.carries:
            found.setdefault(pipe.element, []).append(pipe)
    return found


def drained(model: Model, element: str) -> str:
    """A drain as a sentence begins with it, by the run, the riser or the fixture whose own it is."""
    words = called(model, element)
    return f"The drain of {name(model, element)}" if words == element else words


def asked(model: Model, by: By) -> dict[str, list[tuple[Pipe, Ask]]]:
    """The drawn things of whose pipes something is asked, each with those pipes and what is asked of them."""
    return _asked(model).get(by, {})


@once_a_model
def _asked(model: Model) -> dict[By, dict[str, list[tuple[Pipe, Ask]]]]:
    found: dict[By, dict[str, list[tuple[Pipe, Ask]]]] = {}
    for element, pipes in drains(model).items():
        for pipe in pipes:
            for ask in model.network.drain_sizes[pipe.id].asks:
                found.setdefault(ask.by, {}).setdefault(element, []).append((pipe, ask))
    return found


def _plain(model: Model, rule: str, by: By, text: str, mend: str, counts: str = "") -> Iterator[Outcome]:
    """One outcome for each drawn thing whose size is asked for outright: `text` takes what, size, who and least.

    `counts` names what is counted where the book gives a number of things for the size, and no size.
    """
    concerned = asked(model, by)
    if not concerned:
        yield DoesNotApply()
    for element, found in concerned.items():
        small = [(pipe, ask) for pipe, ask in found if short(pipe.size, ask.size)]
        if not small:
            yield Holds(element)
        else:
            pipe, ask = max(small, key=lambda one: one[1].size)
            words = {
                "what": drained(model, element),
                "size": label(pipe.size),
                "who": name(model, ask.element) if ask.element else "",
                "least": label(ask.size),
                "load": f"{ask.load or 0.0:g}",
                "most": f"{ask.most or 0.0:g}",
            }
            yield Finding(
                rule,
                "stop",
                place(model, pipe.end),
                (element, *([ask.element] if ask.element and ask.element != element else [])),
                (ask.load or 0.0) if counts else pipe.size,
                ask.most if counts else ask.size,
                counts or "in",
                text.format(**words),
                model.book.cite(ask.key),
                mend.format(**words),
            )


def drain_too_small(model: Model) -> Iterator[Outcome]:
    """A drain's fixture units against the table that is for it, at its size.

    Upright pipe goes by the column of stacks, the building drain and its branches by their table and slope where the book
    has one, other level pipe by the column of branches. A branch of the building drain that passes its own table and not
    that of branches is looked at only, since officials read it either way. Holds: 28 units through 3 in as building drain
    at 1/4 in per ft. Broken: the same as a branch that empties into an upright pipe; by the UPC a tub's 2 units through
    1-1/2 in level. Source: IRC Tables P3005.4.1, P3005.4.2; UPC Table 703.2.
    """
    concerned = asked(model, "load")
    if not concerned:
        yield DoesNotApply()
    for element, found in concerned.items():
        judged = [(pipe, ask, most) for pipe, ask in found if (most := most_for(model, pipe, ask)) is not None]
        gap = next((pipe for pipe, ask in found if _lacks(model, pipe, ask)), None)
        broken = [(pipe, ask, most) for pipe, ask, most in judged if ask.load is not None and over(ask.load, most)]
        unknown = {fixture for pipe, _ in found for fixture in model.network.loads.of[pipe.id].unknown}
        if broken:
            pipe, ask, most = max(broken, key=lambda one: (not one[1].doubtful, one[1].size, one[0].load))
            yield _overloaded(model, element, pipe, ask, most)
        elif unknown:
            words = ", ".join(name(model, fixture) for fixture in sorted(unknown))
            yield NotJudged(place(model, found[0][0].end), (element,), f"the book gives no fixture units for {words}")
        elif gap is not None:
            size = label(gap.size)
            yield NotJudged(place(model, gap.end), (element,), f"the book gives no load for {size} in pipe")
        elif judged:
            yield Holds(element)
        else:
            yield DoesNotApply(element)


def _lacks(model: Model, pipe: Pipe, ask: Ask) -> bool:
    """Whether a table lacks a size that it should have: one under its first row is not meant for such pipe."""
    rows = table(model.book, ask.rows)
    return rows.at(pipe.size) is None and (not rows.rows or pipe.size > rows.rows[0][0])


def most_for(model: Model, pipe: Pipe, ask: Ask) -> float | None:
    """What a pipe's size may carry by the table that an ask is made by; None where the table has no row for it."""
    most = table(model.book, ask.rows).at(pipe.size)
    share = flat_share(model.book, pipe.slope, pipe.size) if ask.rows == "load.branch" else 1.0
    return None if most is None else most * share


def _overloaded(model: Model, element: str, pipe: Pipe, ask: Ask, most: float) -> Finding:
    weight: Weight = "look" if ask.doubtful else "stop"
    load, kind = model.network.loads.of[pipe.id], model.network.drain_sizes[pipe.id].kind
    as_what = _AS["branch" if ask.doubtful else kind]
    fall = f" that falls {pipe.slope:.3g} in per foot" if kind in ("building drain", "building drain branch") else ""
    text = (
        f"{drained(model, element)} carries {units(load.units)} ({load.told}); a {label(pipe.size)} in {as_what}"
        f"{'' if ask.doubtful else fall} may carry {most:g}."
    )
    if ask.doubtful:
        text += " As a branch of the building drain it may carry it: officials read the tables either way."
    enough = ask.most is not None and ask.load is not None and not over(ask.load, ask.most)
    mend = (
        f"Make it {label(ask.size)} in{_no_half_size(ask)}."
        if enough
        else "Lead part of the fixtures to the exit by another drain."
    )
    rows = ask.rows
    cites = model.book.cite(f"{rows}.{label(pipe.size)}")
    at = place(model, pipe.end)
    return Finding("drain-too-small", weight, at, (element,), load.units, most, "fixture units", text, cites, mend)


def units(load: float) -> str:
    """A load in words: ``1 fixture unit``, ``4 fixture units``."""
    return f"{load:g} fixture unit{'' if load == 1.0 else 's'}"


def _no_half_size(ask: Ask) -> str:
    return f": {label(ask.listed)} in would do by the book, and is hard to buy" if ask.listed is not None else ""


def too_many_fixtures(model: Model) -> Iterator[Outcome]:
    """How many fixtures a small drain takes, whatever their units.

    Holds: two waste fixtures on a 1-1/2 in branch of the building drain; one where one of them is pumped or has a disposer.
    Broken: three, or two with a dishwasher; two lavatories on 1-1/4 in. Source: IRC Table P3005.4.2, note a; Table
    P3005.4.1, note a (from memory); the UPC counts units alone.
    """
    concerned = asked(model, "fixtures")
    if not concerned:
        yield DoesNotApply()
    for element, found in concerned.items():
        small = [(pipe, ask) for pipe, ask in found if short(pipe.size, ask.size)]
        if not small:
            yield Holds(element)
            continue
        pipe, ask = max(small, key=lambda one: (one[1].size, one[1].load or 0.0))
        who = ", ".join(name(model, fixture) for fixture in pipe.carries)
        text = (
            f"{drained(model, element)} takes the waste of {len(pipe.carries)} fixtures ({who}) in {label(pipe.size)} in "
            f"pipe; {ask.most or 0.0:g} is the most{_why_so_few(ask)}."
        )
        yield Finding(
            "drain-takes-too-many-fixtures",
            "stop",
            place(model, pipe.end),
            (element, *pipe.carries),
            float(len(pipe.carries)),
            ask.most,
            "fixtures",
            text,
            model.book.cite(ask.key),
            f"Make it {label(ask.size)} in.",
        )


def _why_so_few(ask: Ask) -> str:
    return ", since one of them is pumped or has a disposer" if "pumped" in ask.key else ""


def closet_drain_too_small(model: Model) -> Iterator[Outcome]:
    """The least drain that a water closet may drain through, all the way to the exit.

    Holds: 3 in. Broken: 2 in. Source: IRC Table P3005.4.1, note; UPC Table 703.2.
    """
    yield from _plain(
        model,
        "closet-drain-too-small",
        "closet",
        "{what} takes the waste of {who} in {size} in pipe; a closet's drain is at least {least} in.",
        "Make {what} {least} in.",
    )


def closets_too_many(model: Model) -> Iterator[Outcome]:
    """How many closets one pipe of the closets' least size takes.

    Holds: three on level 3 in pipe, four on upright. Broken: four, five. Source: UPC Table 703.2, note (sources differ: a
    newer note allows five); the IRC has no such count, towns add one.
    """
    yield from _plain(
        model,
        "closets-too-many-on-drain",
        "closets",
        "{what} takes the waste of {load} closets in {size} in pipe; {most} is the most.",
        "Make {what} {least} in.",
        "closets",
    )


def sink_on_small_stack(model: Model) -> Iterator[Outcome]:
    """A sink or dishwasher of more than one unit in small upright pipe.

    Holds: a kitchen sink down 2 in; a lavatory down 1-1/2 in. Broken: a kitchen sink down 1-1/2 in. Source: UPC Table
    703.2, note.
    """
    yield from _plain(
        model,
        "sink-on-small-stack",
        "sink",
        "{what} takes {who} down in {size} in pipe; a sink or dishwasher of more than {most} unit needs {least} in.",
        "Make {what} {least} in.",
    )


def large_fixture_on_small_drain(model: Model) -> Iterator[Outcome]:
    """A fixture of so many units that the book bars it from small pipe.

    Holds: a shower of six heads through 3 in. Broken: the same through 2 in. Source: UPC Table 703.2, note.
    """
    yield from _plain(
        model,
        "large-fixture-on-small-drain",
        "large fixture",
        "{what} takes the waste of {who}, {load} fixture units, in {size} in pipe; a fixture so large needs {least} in.",
        "Make {what} {least} in.",
    )


def small_past_arm(model: Model) -> Iterator[Outcome]:
    """What some fixtures' drains must be from the end of their trap arms on.

    Holds: a kitchen sink through 2 in past its arm of 1-1/2. Broken: through 1-1/2 in. Source: UPC Table 702.1, note.
    """
    yield from _plain(
        model,
        "drain-too-small-past-arm",
        "past the arm",
        "{what} takes the waste of {who} on past its trap arm in {size} in pipe; from there on it is at least {least} in.",
        "Make {what} {least} in.",
    )


def stack_too_long(model: Model) -> Iterator[Outcome]:
    """How tall an upright drain of one size may be.

    Holds: 65 ft of 1-1/2 in. Broken: a sixteenth more. Source: UPC Table 703.2; the IRC sets no height.
    """
    for element, pipes in drains(model).items():
        tall = [pipe for pipe in pipes if model.network.drain_sizes[pipe.id].kind == "vertical drain"]
        if not tall:
            yield DoesNotApply(element)
            continue
        heights = [(model.heights.get(pipe.start), model.heights.get(pipe.end)) for pipe in tall]
        size = min(pipe.size for pipe in tall)
        key = f"load.stack_length.{label(size)}"
        if any(top is None or foot is None for top, foot in heights):
            yield NotJudged(
                place(model, tall[0].end), (element,), f"{drained(model, element)}: its height is not known"
            )
            continue
        if not model.book.has(key):
            yield NotJudged(
                place(model, tall[0].end), (element,), f"the book gives no height for {label(size)} in pipe"
            )
            continue
        most = model.book.number(key)
        length = sum(top - foot for top, foot in heights if top is not None and foot is not None)
        if not over(length, most):
            yield Holds(element)
            continue
        text = f"{drained(model, element)} drains down {inches(length)} in in {label(size)} in pipe; {most:g} in is the most."
        at, cites = place(model, tall[0].end), model.book.cite(key)
        yield Finding(
            "stack-too-long", "stop", at, (element,), length, most, "in", text, cites, "Make it a size larger."
        )


_TABLES = ("load.branch", "load.stack")
RULES = (
    Rule(
        "drain-too-small",
        "A drain too small for its load",
        "sizes",
        "stop",
        _TABLES,
        drain_too_small,
        ("load.building_drain", "load.flat_share", "load.flat_under", "load.arms_counted", "dfu", "slope.least"),
    ),
    Rule(
        "drain-takes-too-many-fixtures",
        "A small drain with too many fixtures",
        "sizes",
        "stop",
        ("load.fixtures_most",),
        too_many_fixtures,
        ("load.building_drain.fixtures_most", "load.building_drain.pumped_most", "dfu.pumped"),
    ),
    Rule(
        "closet-drain-too-small",
        "A drain too small for a closet",
        "sizes",
        "stop",
        ("closet.least_drain",),
        closet_drain_too_small,
    ),
    Rule(
        "closets-too-many-on-drain",
        "Too many closets on a drain",
        "sizes",
        "stop",
        ("load.closets_most",),
        closets_too_many,
    ),
    Rule(
        "sink-on-small-stack",
        "A sink on upright pipe too small for it",
        "sizes",
        "stop",
        ("load.stack_sink_units", "load.stack_sink"),
        sink_on_small_stack,
    ),
    Rule(
        "large-fixture-on-small-drain",
        "A large fixture on a small drain",
        "sizes",
        "stop",
        ("load.large_fixture",),
        large_fixture_on_small_drain,
    ),
    Rule(
        "drain-too-small-past-arm",
        "A drain too small past its trap arm",
        "sizes",
        "stop",
        ("after_arm.least",),
        small_past_arm,
    ),
    Rule(
        "stack-too-long",
        "An upright drain too tall for its size",
        "sizes",
        "stop",
        ("load.stack_length",),
        stack_too_long,
    ),
)
