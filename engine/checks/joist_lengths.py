"""Joists longer than lumber is sold, and how two are joined over a bearing."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.floor_framing import SUBJECT, middle_of, running
from engine.checks.model import Model
from engine.checks.outcomes import COMMON
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.crossings.limits import over, short
from engine.framing.records import Joist
from engine.framing.telling import ends
from engine.lengths import down, feet_inches, inches, up
from engine.trade.stock import longest_joists

NAILS = "bearing.lap_nails"


def longer_than_sold(model: Model) -> Iterator[Outcome]:
    """A joist longer than its lumber is sold, which must be joined of two over a bearing.

    Holds: one as long as the longest that yards usually have. To look at: 1/16 in longer. Engineered members, which are sold
    longer, do not apply. Common practice, no source.
    """
    usual, anywhere = longest_joists()
    for field in model.plan.fields:
        longest = max(running(model).get(field.id, ()), key=lambda one: one.length, default=None)
        if field.member == "engineered" or longest is None:
            yield DoesNotApply(field.id)
            continue
        if not over(longest.length, usual):
            yield Holds(field.id)
            continue
        some = "" if over(longest.length, anywhere) else f", in some yards up to {feet_inches(anywhere)}"
        yield Finding(
            "joist-longer-than-sold",
            "look",
            middle_of(field),
            (field.id,),
            longest.length,
            usual,
            "in",
            f"Joist {longest.id} is {feet_inches(up(longest.length))} long; {field.lumber} is usually sold up to "
            f"{feet_inches(usual)}{some}. {_where(longest)}",
            COMMON,
            "Say over which bearing its joists lap, or draw a beam at their level that they hang on.",
        )


def _where(joist: Joist) -> str:
    """Where a joist could be joined: the middles of its bearings between its ends."""
    between = [(low + high) / 2.0 for low, high in joist.supports if low > 0.0 and high < joist.length]
    if not between:
        return "It has no bearing between its ends that two could be joined over."
    places = " and ".join(feet_inches(down(at)) for at in between)
    return f"Two can be joined over the bearing {places} from its {ends(joist)[0]} end."


def lap_too_short(model: Model) -> Iterator[Outcome]:
    """How far two joists lie beside each other where they lap over a bearing.

    Holds: as much as the book asks. Broken: 1/16 in less. Fields without laps do not apply. Source: IRC R502.6.1.
    """
    least = model.book.number("bearing.lap")
    nails = f" with {model.book.text(NAILS)} 10d nails" if model.book.has(NAILS) else ""
    for field in model.plan.fields:
        if not any(any(one.joined) for one in running(model).get(field.id, ())):
            yield DoesNotApply(field.id)
        elif not short(field.lap, least):
            yield Holds(field.id)
        else:
            yield Finding(
                "lap-too-short",
                "stop",
                middle_of(field),
                (field.id,),
                field.lap,
                least,
                "in",
                f"The joists of {field.id} lap {inches(down(field.lap))} in; {inches(least)} in are asked for, nailed face to "
                f"face{nails}, or a splice as strong.",
                model.book.cite("bearing.lap"),
                f"Lap them {inches(up(least))} in at least.",
            )


def joined_off_bearing(model: Model) -> Iterator[Outcome]:
    """How much of a joist rests on the bearing where it is lapped or spliced to the next.

    Measured is the least of them. Holds: as much as the book asks. Broken: 1/16 in less, or no bearing there. Fields without
    laps do not apply. Source: IRC R502.6.
    """
    least = model.book.number("bearing.wood")
    for field in model.plan.fields:
        rests = [
            (_rests(one, place, field.lap), one)
            for one in running(model).get(field.id, ())
            for place in (0, 1)
            if one.joined[place]
        ]
        if not rests:
            yield DoesNotApply(field.id)
            continue
        measured, joist = min(rests, key=lambda one: one[0])
        if not short(measured, least):
            yield Holds(field.id)
            continue
        on = f"rests on {inches(down(measured))} in of a bearing" if over(measured, 0.0) else "rests on no bearing"
        yield Finding(
            "joined-off-its-bearing",
            "stop",
            middle_of(field),
            (field.id,),
            measured,
            least,
            "in",
            f"Joist {joist.id} {on} where it is joined to the next; {inches(least)} in of wood or steel are asked for.",
            model.book.cite("bearing.wood"),
            "Join the joists over the middle of a bearing, or draw a bearing there.",
        )


def _rests(joist: Joist, place: int, lap: float) -> float:
    """How much of a joist rests on the bearing at its joined start (0) or end (1): one that its lap reaches."""
    if not joist.supports:
        return 0.0
    low, high = joist.supports[-place]
    reached = high >= joist.length - lap if place else low <= lap
    return high - low if reached else 0.0


RULES = (
    Rule("joist-longer-than-sold", "Joists longer than lumber is sold", SUBJECT, "look", (), longer_than_sold),
    Rule("lap-too-short", "Joists that lap too little", SUBJECT, "stop", ("bearing.lap",), lap_too_short, (NAILS,)),
    Rule(
        "joined-off-its-bearing", "Joists joined off a bearing", SUBJECT, "stop", ("bearing.wood",), joined_off_bearing
    ),
)
