"""Where vents end over the roof: how high, how far from openings, and whether frost closes them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from engine.checks.model import Model, once_a_model
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import over, short
from engine.drafting.cells import by_place
from engine.lengths import feet_inches, inches
from engine.plan.axis import distance, foot
from engine.plan.outline import called, describe
from engine.plan.records import AirOpening, Riser
from engine.trade.pipe import label


class End(NamedTuple):
    """The open end of a vent over the roof: its riser, its height over the joists' top, inches, and its size."""

    riser: Riser
    z: float
    size: float

    @property
    def at(self) -> tuple[float, float, float]:
        """Its place."""
        return (*self.riser.at, self.z)


@once_a_model
def roof_ends(model: Model) -> tuple[End, ...]:
    """Every vent that ends over the roof, in the order of the risers."""
    tops: dict[str, tuple[float, float]] = {}
    for pipe in model.network.pipes:
        if pipe.system == "vent" and pipe.shape == "plumb":
            top = (max(pipe.start.level, pipe.end.level), pipe.size)
            tops[pipe.element] = max(top, tops.get(pipe.element, top))
    through = (riser for riser in model.plan.risers if riser.top == "roof" and riser.id in tops)
    return tuple(End(riser, *tops[riser.id]) for riser in through)


def too_low(model: Model) -> Iterator[Outcome]:
    """How high a vent ends over the roof, over the snow on it, and over a roof that people use.

    Reads ``vent.roof_above``, ``vent.roof_deck_above`` and, in frost, ``vent.frost_roof_above``. A riser is drawn to the
    first of them; what it has more it gets from a roof height of its own over the floor's. Holds: 6 in over the roof, 84
    in over a deck. Broken: 83 15/16 in over a deck; by the UPC 9 15/16 in over the roof at -1 deg F. Source: IRC
    P3103.1.1, P3103.1.2; UPC 906.1, 906.3, 906.7.
    """
    floor, book = model.plan.floor, model.book
    usual = book.number("vent.roof_above")
    needs = [(usual + floor.snow, "vent.roof_above")]
    if floor.roof_deck:
        needs.append((book.number("vent.roof_deck_above"), "vent.roof_deck_above"))
    if freezes(model) and book.has("vent.frost_roof_above"):
        needs.append((book.number("vent.frost_roof_above"), "vent.frost_roof_above"))
    need, key = max(needs)
    what = {"vent.roof_above": "the roof", "vent.roof_deck_above": "a roof that people use"}.get(
        key, "the roof in frost"
    )
    ends = roof_ends(model)
    if not ends:
        yield DoesNotApply()
    for end in ends:
        covering = floor.roof_above_floor if end.riser.above_floor is None else end.riser.above_floor
        stands = end.z - floor.finished_z - min(covering, floor.roof_above_floor)
        if not short(stands, need):
            yield Holds(end.riser.id)
            continue
        raised = floor.roof_above_floor + need - floor.snow - usual
        yield Finding(
            "roof-end-too-low",
            "stop",
            end.at,
            (end.riser.id,),
            stands,
            need,
            "in",
            f"The vent of {called(end.riser)} ends {inches(stands)} in over the roof; over {what} it must stand "
            f"{inches(need)} in.",
            book.cite(key),
            f"Let it end {feet_inches(need)} over the roof: give {end.riser.id} {feet_inches(raised)} as its own roof height.",
        )


def near_opening(model: Model) -> Iterator[Outcome]:
    """A vent's end is ten feet from every window, door and air intake, or three feet over its top.

    Reads ``vent.opening_sideways`` and ``vent.opening_above``. Holds: 120 in aside, or 36 in over the top. Broken: 119
    15/16 in aside with 35 15/16 in over it. Where no opening is drawn that is told once, and so is the distance from walls
    over the roof and from the lot line where the book asks for one: those cannot be drawn. Source: IRC P3103.5 (sources
    differ on the height: 2 or 3 ft); UPC 906.1, 906.2.
    """
    ends, book = roof_ends(model), model.book
    if not ends:
        yield DoesNotApply()
        return
    beside = {"vent.roof_wall_away": "walls over the roof", "vent.from_lot_line": "the lot line"}
    unseen = [f"{inches(book.number(key))} in from {words}" for key, words in beside.items() if book.has(key)]
    if unseen:
        words = " and ".join(unseen)
        yield NotJudged(ends[0].at, (), f"vents end {words}: neither can be drawn, so measure it on the roof")
    if not model.plan.air_openings:
        yield NotJudged(
            ends[0].at, (), "no window, door or air intake is drawn, so how far vents end from them is not known"
        )
        return
    reach, above = book.number("vent.opening_sideways"), book.number("vent.opening_above")
    cells = by_place(model.plan.air_openings)
    for end in ends:
        close = [_closeness(model, end, opening) for opening in cells.near(end.riser.at, reach)]
        bad = [(up, aside, one) for up, aside, one in close if short(aside, reach) and short(up, above)]
        if not bad:
            yield Holds(end.riser.id)
        for up, aside, opening in bad:
            yield _near(model, end, opening, up, aside)


def _closeness(model: Model, end: End, opening: AirOpening) -> tuple[float, float, AirOpening]:
    """How far a vent's end stands over an opening's top, and how far aside from it, inches."""
    at = end.riser.at
    aside = distance(at, foot(opening.start, opening.end, at))
    return end.z - model.plan.floor.finished_z - opening.top_above_floor, aside, opening


def _near(model: Model, end: End, opening: AirOpening, up: float, aside: float) -> Finding:
    value = model.book.value("vent.opening_above")
    least, reach = model.book.number("vent.opening_above"), model.book.number("vent.opening_sideways")
    doubt = f" Sources differ on that height: {value.note}." if value.standing == "conflict" else ""
    how = f"{inches(up)} in over" if up >= 0.0 else f"{inches(-up)} in under"
    return Finding(
        "vent-near-opening",
        "stop",
        end.at,
        (end.riser.id, opening.id),
        up,
        least,
        "in",
        f"The vent of {called(end.riser)} ends {feet_inches(aside)} from {called(opening)} and {how} its top; nearer than "
        f"{feet_inches(reach)} it must end {inches(least)} in over it.{doubt}",
        model.book.cite("vent.opening_above"),
        f"Move it {feet_inches(reach)} away from {opening.id}, or end it {inches(least - up)} in higher.",
    )


def freezes(model: Model) -> bool:
    """Whether the winter here is cold enough for the book's rule on frost; no where that is not known."""
    cold = model.plan.floor.design_temp
    if cold is None or not model.book.has("vent.frost_at"):
        return False
    at = model.book.number("vent.frost_at")
    return short(cold, at) or (not over(cold, at) and model.book.says("vent.frost_at_counts"))


def may_freeze(model: Model) -> Iterator[Outcome]:
    """Where winters are that cold a vent's end is wide enough not to be closed by frost.

    Reads ``vent.frost_at``, ``vent.frost_at_counts`` and ``vent.frost_least``. Holds: 3 in by the IRC, 2 in by the UPC.
    Broken: 2 in at 0 deg F by the IRC, 1-1/2 in at -1 by the UPC. In milder places it does not apply; not judged, and told
    once, where the design temperature is not known. Source: IRC P3103.2; UPC 906.7 (the temperature from memory).
    """
    ends, cold = roof_ends(model), model.plan.floor.design_temp
    if not ends:
        yield DoesNotApply()
        return
    if cold is None:
        words = "the winter design temperature is not given, so whether frost closes vents over the roof is not known"
        yield NotJudged(ends[0].at, (), f"{words}: it stands in the plan's settings")
        return
    least = model.book.number("vent.frost_least")
    for end in ends:
        if not freezes(model):
            yield DoesNotApply(end.riser.id)
        elif not short(end.size, least):
            yield Holds(end.riser.id)
        else:
            inside = model.book.number("vent.frost_inside") if model.book.has("vent.frost_inside") else 0.0
            yield Finding(
                "roof-end-may-freeze",
                "stop",
                end.at,
                (end.riser.id,),
                end.size,
                least,
                "in",
                f"{describe(end.riser)} goes through the roof at {label(end.size)} in; at {cold:g} °F frost closes it, and "
                f"{label(least)} in is the least there.",
                model.book.cite("vent.frost_least"),
                f"Widen it to {label(least)} in from {inches(inside)} in inside the warm space on, or make its whole vent so.",
            )


RULES: tuple[Rule, ...] = (
    Rule(
        "roof-end-too-low",
        "A vent that ends too low over the roof",
        "vents",
        "stop",
        ("vent.roof_above",),
        too_low,
        ("vent.roof_deck_above", "vent.frost_roof_above", "vent.frost_at", "vent.frost_at_counts"),
    ),
    Rule(
        "vent-near-opening",
        "A vent's end near a window, door or intake",
        "vents",
        "stop",
        ("vent.opening_sideways", "vent.opening_above"),
        near_opening,
        ("vent.roof_wall_away", "vent.from_lot_line"),
    ),
    Rule(
        "roof-end-may-freeze",
        "A vent that frost may close",
        "vents",
        "stop",
        ("vent.frost_at", "vent.frost_least"),
        may_freeze,
        ("vent.frost_at_counts", "vent.frost_inside"),
    ),
)
