"""Standpipes: how high over their traps, where a washer's trap stands, and a laundry tub that drains into one."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import fixtures, name
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.crossings.limits import over, short
from engine.drafting.finished import outlet_up, under_fixture
from engine.lengths import inches
from engine.plan.records import Fixture
from engine.trade import fixtures as trade

KIND = "washer_standpipe"
ALL_KINDS, OVER_TUB = "standpipe.of_any_machine", "standpipe.over_tub_rim"


def _stands(model: Model, fixture: Fixture, any_machine: bool = False) -> bool:
    """Whether a fixture's waste comes by a standpipe of its own that the book's numbers are for."""
    if fixture.through is not None or trade.fixture(fixture.kind).comes_by != "standpipe":
        return False
    return fixture.kind == KIND or (any_machine and model.book.says(ALL_KINDS))


def _standpipes(model: Model, any_machine: bool = False) -> Iterator[tuple[Fixture, float, float]]:
    """Every standpipe with its trap's weir and its own top, inches over the floor that it stands on."""
    for fixture in model.plan.fixtures:
        if not _stands(model, fixture, any_machine):
            continue
        weir, top = outlet_up(model.plan, fixture), trade.rim_of(fixture)
        if weir is not None and top is not None:
            yield fixture, weir, top


def _beside(model: Model, any_machine: bool = False) -> Iterator[Outcome]:
    for fixture in model.plan.fixtures:
        if not _stands(model, fixture, any_machine):
            yield DoesNotApply(fixture.id)


def _finding(
    model: Model, rule: str, fixture: Fixture, measured: float, limit: float, text: str, key: str, mend: str
) -> Finding:
    at = (*fixture.at, 0.0)
    return Finding(rule, "stop", at, (fixture.id,), measured, limit, "in", text, model.book.cite(key), mend)


def height(model: Model) -> Iterator[Outcome]:
    """How high a standpipe's top stands over its trap's weir.

    Holds: 18 in; 42 by the IRC, 30 by the UPC. Broken: 16 in over a weir at 6; 42 1/16 (IRC), 30 1/16 (UPC). Where a
    laundry tub drains into it the IRC asks for more, and it judges that of a dishwasher alike. Source: IRC P2706.1.2,
    P2706.1.2.1; UPC 804.1.
    """
    low, high, with_tub = "standpipe.above_weir_least", "standpipe.above_weir_most", "standpipe.with_laundry_tub_least"
    fed = {other.through for other in model.plan.fixtures if other.kind == "laundry_tub"}
    for fixture, weir, top in _standpipes(model, any_machine=True):
        key = with_tub if fixture.id in fed and model.book.has(with_tub) else low
        rise, least, most = top - weir, model.book.number(key), model.book.number(high)
        words = name(model, fixture.id)
        if short(rise, least):
            yield _finding(
                model,
                "standpipe-too-short",
                fixture,
                rise,
                least,
                f"The standpipe of {words} rises {inches(rise)} in over its trap's weir; {least:g} in is the least, or "
                "the machine's pump throws over its top.",
                key,
                f"Raise its top to {inches(weir + least)} in above the floor, or lower the trap where it may stand lower. "
                "Check the machine's own least drain height too.",
            )
        elif over(rise, most):
            yield _finding(
                model,
                "standpipe-too-short",
                fixture,
                rise,
                most,
                f"The standpipe of {words} rises {inches(rise)} in over its trap's weir; {most:g} in is the most.",
                high,
                f"Lower its top to {inches(weir + most)} in above the floor, or raise the trap.",
            )
        else:
            yield Holds(fixture.id)
    yield from _beside(model, any_machine=True)


def trap_height(model: Model) -> Iterator[Outcome]:
    """How high over the floor a standpipe's trap stands, where the book says so.

    Holds: 6 in; 18 in. Broken: 5 15/16, 18 1/16; a trap below the floor. Source: UPC 804.1; the IRC sets none.
    """
    low, high = "standpipe.trap_above_floor_least", "standpipe.trap_above_floor_most"
    for fixture, weir, _ in _standpipes(model):
        least, most = model.book.number(low), model.book.number(high)
        if not short(weir, least) and not over(weir, most):
            yield Holds(fixture.id)
            continue
        limit, key = (least, low) if short(weir, least) else (most, high)
        side = "least" if key == low else "most"
        yield _finding(
            model,
            "standpipe-trap-height",
            fixture,
            weir,
            limit,
            f"The trap of {name(model, fixture.id)} stands {inches(weir)} in above the floor; {limit:g} in is the {side}.",
            key,
            f"Set its outlet {least:g} to {most:g} in above the floor.",
        )
    yield from _beside(model)


def tub_aside(model: Model) -> Iterator[Outcome]:
    """How far sideways a laundry tub may stand from the standpipe that it drains into.

    Holds: 30 in. Broken: 30 1/16 in. Measured in plan between the two outlets. Source: IRC P2706.1.2.1.
    """
    key = "standpipe.laundry_tub_sideways_most"
    for fixture in model.plan.fixtures:
        host = fixtures(model).get(fixture.through or "")
        if fixture.kind != "laundry_tub" or host is None or host.kind != KIND:
            yield DoesNotApply(fixture.id)
            continue
        dx, dy = fixture.at[0] - host.at[0], fixture.at[1] - host.at[1]
        aside, most = (dx * dx + dy * dy) ** 0.5, model.book.number(key)
        if not over(aside, most):
            yield Holds(fixture.id)
            continue
        text = (
            f"{name(model, fixture.id)} stands {inches(aside)} in beside the standpipe of {name(model, host.id)} that it "
            f"drains into; {most:g} in is the most."
        )
        mend = "Set it nearer, or give it a trap of its own."
        yield _finding(model, "laundry-tub-too-far", fixture, aside, most, text, key, mend)


def under_the_tub(model: Model) -> Iterator[Outcome]:
    """A standpipe into which a laundry tub drains ends over the tub's rim, or it spills before the tub is full.

    Both count from the floor under the standpipe.
    Holds: a top at 34 1/16 in beside a tub with its rim at 34. Broken: 34 in. Source: IRC P2706.1.2.1 (from memory).
    """
    floors = {fixture.id: under_fixture(model.plan, fixture) for fixture in model.plan.fixtures}
    standing = {fixture.id: top for fixture, _, top in _standpipes(model)}
    for fixture in model.plan.fixtures:
        top = standing.get(fixture.through or "")
        rim = trade.rim_of(fixture)
        if top is not None and rim is not None:
            rim += floors[fixture.id] - floors[fixture.through or ""]
        if fixture.kind != "laundry_tub" or top is None or rim is None or not model.book.says(OVER_TUB):
            yield DoesNotApply(fixture.id)
        elif over(top, rim):
            yield Holds(fixture.id)
        else:
            host = fixture.through or ""
            yield Finding(
                "standpipe-under-the-tub",
                "stop",
                (*fixture.at, 0.0),
                (fixture.id, host),
                top,
                rim,
                "in",
                f"The standpipe of {name(model, host)} ends {inches(top)} in above the floor, and the rim of "
                f"{name(model, fixture.id)} that drains into it stands at {inches(rim)} in: it spills before the tub is full.",
                model.book.cite(OVER_TUB),
                "Raise its top over the tub's rim.",
            )


RULES = (
    Rule(
        "standpipe-too-short",
        "A standpipe too short or too tall",
        "traps",
        "stop",
        ("standpipe.above_weir_least", "standpipe.above_weir_most"),
        height,
        ("standpipe.with_laundry_tub_least", ALL_KINDS),
    ),
    Rule(
        "standpipe-trap-height",
        "A standpipe's trap at the wrong height",
        "traps",
        "stop",
        ("standpipe.trap_above_floor_least", "standpipe.trap_above_floor_most"),
        trap_height,
    ),
    Rule(
        "laundry-tub-too-far",
        "A laundry tub too far from the standpipe it drains into",
        "traps",
        "stop",
        ("standpipe.laundry_tub_sideways_most",),
        tub_aside,
    ),
    Rule(
        "standpipe-under-the-tub",
        "A standpipe that ends under the tub's rim",
        "traps",
        "stop",
        (OVER_TUB,),
        under_the_tub,
    ),
)
