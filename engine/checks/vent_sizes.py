"""Sizes of vents: by the drain, by what they serve, and all together."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from engine.checks.main_vents import required_of
from engine.checks.model import Model, once_a_model
from engine.checks.outcomes import name, place
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.checks.vent_words import called
from engine.crossings.limits import short
from engine.piping.records import Pipe
from engine.piping.sizes import Ask, VentSize
from engine.piping.vent_areas import area, open_areas, valves
from engine.trade.pipe import label


@once_a_model
def vents(model: Model) -> dict[str, list[tuple[Pipe, VentSize]]]:
    """The dry pipes through which open air is reached, with what asks for their sizes, by the drawn thing they belong to."""
    found: dict[str, list[tuple[Pipe, VentSize]]] = {}
    for pipe in model.network.pipes:
        if pipe.system == "vent" and pipe.end in model.network.aired:
            found.setdefault(pipe.element, []).append((pipe, model.network.vent_sizes[pipe.id]))
    return found


class Small(NamedTuple):
    """A vent that is smaller than it is asked to be: its worst pipe, and the largest demand on that."""

    element: str
    pipe: Pipe
    sizing: VentSize
    ask: Ask


def _judged(model: Model, rule: str, kinds: tuple[str, ...], words: Callable[[Small], str]) -> Iterator[Outcome]:
    """Every vent against what is asked of it by these kinds of demand; `words` says what is wrong with a small one."""
    for element, found in vents(model).items():
        asks = [(pipe, sizing, ask) for pipe, sizing in found for ask in sizing.asks if ask.by in kinds]
        if not asks:
            yield DoesNotApply(element)
            continue
        pipe, sizing, ask = max(asks, key=lambda one: (one[2].size - one[0].size, one[2].size))
        if short(pipe.size, ask.size):
            yield _finding(model, rule, Small(element, pipe, sizing, ask), words)
        else:
            yield Holds(element)


def _finding(model: Model, rule: str, small: Small, words: Callable[[Small], str]) -> Finding:
    _, pipe, sizing, ask = small
    who = tuple(one for one in sizing.serves if one != pipe.element)
    return Finding(
        rule,
        "stop",
        place(model, pipe.start),
        (pipe.element, *who),
        pipe.size,
        ask.size,
        "in",
        words(small),
        model.book.cite(ask.key),
        f"Make the vent of {pipe.element} {label(ask.size)} in.",
    )


def vent_too_small_for_drain(model: Model) -> Iterator[Outcome]:
    """A vent's size by the drain that it serves: a share of what the book requires of that drain, and never under a least.

    Not the pipe that was bought counts but the one that is required: a lavatory on 3 in pipe is vented as on 1-1/2. A wet
    vent's dry vent goes by the wet part. Holds: 1-1/2 in for a closet's 3 in. Broken: 1-1/4 in for it. Source: IRC P3113.1,
    P3108.3; UPC 904.1.
    """

    def words(small: Small) -> str:
        size, least = label(small.pipe.size), label(small.ask.size)
        if small.ask.by != "drain served":
            return f"{called(model, small.element)}: its vent is {size} in; no vent is smaller than {least} in."
        return (
            f"{called(model, small.element)}: its vent is {size} in; the drain that it serves is "
            f"{label(small.sizing.drain)} in by the book and asks for {least}."
        )

    return _judged(model, "vent-too-small-for-drain", ("drain served", "least vent"), words)


def vent_too_small_for_load(model: Model) -> Iterator[Outcome]:
    """A vent's size by the fixture units that it serves.

    By the UPC each vent has its row in the table of loads. By the IRC a vent in which others join is half the drain branch
    that would carry all that they vent. Holds: 8 units on 1-1/2 in. Broken: 9 units. Source: UPC Table 703.2; IRC P3113.3
    (from memory).
    """
    return _judged(
        model,
        "vent-too-small-for-load",
        ("vented load",),
        lambda small: (
            f"{called(model, small.element)}: its vent is {label(small.pipe.size)} in and serves "
            f"{small.ask.load or 0.0:g} fixture units, which ask for {label(small.ask.size)} in."
        ),
    )


def closet_vent_too_small(model: Model) -> Iterator[Outcome]:
    """The least vent of a water closet, also where it is vented through another fixture's drain.

    Holds: 2 in. Broken: 1-1/2 in. Source: UPC Table 703.2, note; by the IRC a closet's vent is half its drain.
    """
    return _judged(
        model,
        "closet-vent-too-small",
        ("vent of a closet",),
        lambda small: (
            f"{called(model, small.element)}: its vent is {label(small.pipe.size)} in and serves "
            f"{name(model, small.ask.element)}; a closet's vent is at least {label(small.ask.size)} in."
        ),
    )


def vents_too_small_together(model: Model) -> Iterator[Outcome]:
    """All vents of a building drain against the building sewer that the tables require, by area.

    A vent counts at its smallest section, and only where it ends outdoors; counted is the sewer that is required, not the
    one that was bought. Holds: two of 2 in and one of 1-1/2 with a 3 in sewer, 8.05 of 7.07 sq in. Broken: two of 2 in,
    6.28. Source: UPC 904.1; the IRC asks for one vent outdoors, of no area.
    """
    key, network = "vent.area_covers_sewer", model.network
    found = open_areas(
        (pipe for pipe in network.pipes if pipe.system == "vent"),
        lambda pipe: pipe.size,
        network.aired,
        network.exit_of,
        valves(model.plan),
    )
    for exit_id, node in network.exits.items():
        vents_of = found.get(exit_id, {})
        sewer = required_of(model, node) or 0.0
        if not model.book.flag(key) or not vents_of or not sewer:
            yield DoesNotApply(exit_id)
            continue
        wide, want = sum(vents_of.values()), area(sewer)
        if not short(wide, want):
            yield Holds(exit_id)
            continue
        ends = [network.by_id[pipe].element for pipe in vents_of]
        parts = ", ".join(f"{element} {part:.2f}" for element, part in zip(ends, vents_of.values(), strict=True))
        yield Finding(
            "vents-too-small-together",
            "stop",
            place(model, node),
            (exit_id, *dict.fromkeys(ends)),
            wide,
            want,
            "sq in",
            f"The vents of {exit_id} are together {wide:.2f} sq in wide ({parts}); its drain is {label(sewer)} in by the book "
            f"and asks for {want:.2f} sq in, which is its own area.",
            model.book.cite(key),
            "Make a vent larger all the way to the open air, or take another one up.",
        )


RULES = (
    Rule(
        "vent-too-small-for-drain",
        "A vent too small for its drain",
        "venting",
        "stop",
        ("vent.fraction_of_drain", "vent.least"),
        vent_too_small_for_drain,
    ),
    Rule(
        "vent-too-small-for-load",
        "A vent too small for what it serves",
        "venting",
        "stop",
        (),
        vent_too_small_for_load,
        ("vent.load", "vent.branch_by_drain", "dfu"),
    ),
    Rule(
        "closet-vent-too-small",
        "A closet's vent too small",
        "venting",
        "stop",
        ("vent.closet_least",),
        closet_vent_too_small,
    ),
    Rule(
        "vents-too-small-together",
        "Vents too small all together",
        "venting",
        "stop",
        ("vent.area_covers_sewer",),
        vents_too_small_together,
    ),
)
