"""Cleanouts as they are drawn: how big they are, and how much room there is before them."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.cleanout_places import opening
from engine.checks.cleanout_room import Room, room_before
from engine.checks.model import Model
from engine.checks.outcomes import place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.checks.rodding import SUBJECT, WAYS_IN, WayIn
from engine.crossings.limits import short
from engine.lengths import inches
from engine.plan.records import Cleanout
from engine.trade.pipe import DRAIN_SIZES, label, nominal


def too_small(model: Model) -> Iterator[Outcome]:
    """Whether a cleanout is as big as the book wants for its pipe.

    One in a stack may be a size smaller where the book says so. Holds: the pipe's own size, which is taken where none
    is given. Broken: a size less than asked. Source: IRC P3005.2.5; UPC Table 707.1.
    """
    book = model.book
    for cleanout, found in opening(model):
        if found is None:
            yield DoesNotApply(cleanout.id)
            continue
        way, pipe = found
        key = f"cleanout.size.{label(pipe.size)}"
        if not book.has(key):
            yield NotJudged(
                place(model, way.node),
                (cleanout.id,),
                f"the book gives no cleanout's size for {label(pipe.size)} in pipe",
            )
            continue
        least = book.number(key)
        if cleanout.above_floor is not None and book.has("cleanout.stack_sizes_smaller"):
            ladder = [size for size in DRAIN_SIZES if size <= least]
            least = ladder[max(0, len(ladder) - 1 - int(book.number("cleanout.stack_sizes_smaller")))]
        size = pipe.size if cleanout.size is None else nominal(cleanout.size)
        if not short(size, least):
            yield Holds(cleanout.id)
            continue
        yield Finding(
            "cleanout-too-small",
            "stop",
            place(model, way.node),
            (cleanout.id, pipe.element),
            size,
            least,
            "in",
            f"Cleanout {cleanout.id} is {label(size)} in; for {label(pipe.size)} in pipe it must be at least "
            f"{label(least)} in.",
            book.cite(key),
            f"Make {cleanout.id} {label(least)} in, or leave its size to its pipe.",
        )


def without_room(model: Model) -> Iterator[Outcome]:
    """The clear room straight before a cleanout's opening, to get a wrench and a cable in.

    Under the floor against joists and rims that stand as high as it lies; in a wall against the other walls, and
    fixtures that stand on the floor there. Other pipes, foundations, cupboards and what hangs on a wall are not looked
    at. Holds: just the room asked. Broken: 1/16 in less. Not judged where no wood or no wall is drawn to measure
    against. Source: IRC P3005.2.9; UPC 707.9.
    """
    for cleanout, found in opening(model):
        if found is None:
            yield DoesNotApply(cleanout.id)
            continue
        way, pipe = found
        key = f"cleanout.clear.{label(pipe.size)}"
        if not model.book.has(key):
            yield NotJudged(
                place(model, way.node),
                (cleanout.id,),
                f"the book gives no clear room before {label(pipe.size)} in pipe",
            )
            continue
        least = model.book.number(key)
        room = room_before(model, cleanout, way, pipe, least)
        if isinstance(room, str):
            yield NotJudged(place(model, way.node), (cleanout.id,), room)
        elif room is None or not short(room.clear, least):
            yield Holds(cleanout.id)
        else:
            yield _cramped(model, cleanout, way, room, least, key)


def _cramped(model: Model, cleanout: Cleanout, way: WayIn, found: Room, least: float, key: str) -> Finding:
    return Finding(
        "cleanout-without-room",
        "stop",
        place(model, way.node),
        (cleanout.id, found.element),
        found.clear,
        least,
        "in",
        f"Before cleanout {cleanout.id} there are {inches(found.clear)} in to {found.words}; it needs {inches(least)} in.",
        model.book.cite(key),
        "Turn it or move it so that nothing stands before it, or bring it up into a riser or outdoors.",
    )


RULES: tuple[Rule, ...] = (
    Rule(
        "cleanout-too-small",
        "A cleanout too small for its pipe",
        SUBJECT,
        "stop",
        ("cleanout.size",),
        too_small,
        ("cleanout.stack_sizes_smaller", "cleanout.largest", *WAYS_IN),
    ),
    Rule(
        "cleanout-without-room",
        "No room before a cleanout",
        SUBJECT,
        "stop",
        ("cleanout.clear",),
        without_room,
        WAYS_IN,
    ),
)
