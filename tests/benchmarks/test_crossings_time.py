"""How long it takes to find where pipe passes through wood: a big floor, beside one bare query of a tree."""

from __future__ import annotations

import random

import shapely
from timing import best_ms, exponent

from engine.crossings.find import find, lines_under
from engine.crossings.stretches import stretches
from engine.framing.layout import lay_out
from engine.framing.records import Framing
from engine.piping.records import Network
from engine.plan.records import Floor, JoistField, Plan, Supply
from engine.rulebooks import load

BOOK = load("irc-2021")
COTTAGE_MS = 2.0
TIMES_THE_QUERY = 2.5
WHOLE = 5.0
"""The whole search with its records, against one bare query of the same lines."""
GROWTH = 1.15


def floors(count: int, pipes: int, seed: int = 7) -> tuple[Plan, Framing]:
    """So many fields of 20 joists side by side, and so many pipes over them, square, along and at any angle."""
    chance = random.Random(seed)
    columns = max(1, round(count**0.5))
    step_x, step_y = 12.0 * 17.0 + 24.0, 132.0
    fields = [
        JoistField(f"F{n}", (n % columns * step_x, n // columns * step_y), (12.0 * 17.0 + 3.0, 108.0), spacing=12.0)
        for n in range(count)
    ]
    supplies = []
    for n in range(pipes):
        field = fields[n % count]
        x, y = field.corner[0] + chance.uniform(5.0, 200.0), field.corner[1] + chance.uniform(5.0, 100.0)
        to = (
            field.corner[0] + chance.uniform(5.0, 200.0),
            y if n % 3 else field.corner[1] + chance.uniform(5.0, 100.0),
        )
        supplies.append(Supply(f"s{n}", "cold", ((x, y), to), insulation=0.0))
    plan = Plan(
        floor=Floor(outline=((0.0, 0.0), (1.0, 0.0), (0.0, 1.0))), fields=tuple(fields), supplies=tuple(supplies)
    )
    return plan, lay_out(plan)


def test_a_cottages_crossings_cost_next_to_nothing(say) -> None:
    plan, framing = floors(1, 47)
    spent = best_ms(lambda: find(Network(), plan, framing, BOOK), 100)
    found = len(find(Network(), plan, framing, BOOK))
    say(f"47 pipes, {len(framing.joists)} joists, {found} crossings: {spent:.2f} ms (at most {COTTAGE_MS})")
    assert spent <= COTTAGE_MS


def test_a_big_floor_beside_one_bare_query(say) -> None:
    plan, framing = floors(50, 2000)
    lines = lines_under(Network(), plan)
    boxes = shapely.box(
        *zip(
            *(
                (min(j.start[0], j.end[0]) - 0.75, j.start[1], max(j.start[0], j.end[0]) + 0.75, j.end[1])
                for j in framing.joists
            ),
            strict=True,
        )
    )
    axes = shapely.linestrings([[line.start[:2], line.end[:2]] for line in lines])
    bare = best_ms(lambda: shapely.STRtree(boxes).query(axes, predicate="intersects"), 20)
    geometry = best_ms(lambda: stretches(lines, framing.joists), 20)
    whole = best_ms(lambda: find(Network(), plan, framing, BOOK), 10)
    found = len(find(Network(), plan, framing, BOOK))
    say(
        f"{len(lines)} pipes, {len(framing.joists)} joists, {found} crossings: bare query {bare:.1f} ms, "
        f"stretches {geometry:.1f} ms = {geometry / bare:.2f}x (at most {TIMES_THE_QUERY}), with records {whole:.1f} ms "
        f"= {whole / bare:.2f}x (at most {WHOLE})"
    )
    assert geometry / bare <= TIMES_THE_QUERY
    assert whole / bare <= WHOLE


def test_time_grows_in_step_with_the_floor(say) -> None:
    counts = (1, 4, 16, 64)
    plans = [floors(count, 47 * count) for count in counts]
    times = [
        best_ms(lambda plan=plan, framing=framing: find(Network(), plan, framing, BOOK), max(4, 60 // count))
        for count, (plan, framing) in zip(counts, plans, strict=True)
    ]
    found = [len(find(Network(), plan, framing, BOOK)) for plan, framing in plans]
    growth = exponent(
        found, times
    )  # what is found grows a little faster than the floor: fewer pipes lie past its edges
    say(
        ", ".join(f"{count}x {spent:.1f} ms" for count, spent in zip(counts, times, strict=True))
        + f": exponent {growth:.3f}"
    )
    assert growth <= GROWTH
