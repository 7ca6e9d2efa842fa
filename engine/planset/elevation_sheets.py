"""The sheets to be carried to the joists: how to mark and bore, then each cut joist from the side with its figures."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.drawings.elevations import (
    OVALS,
    Elevation,
    elevation_drawing,
    elevation_legend,
    elevations,
    parted,
    scales_for,
)
from engine.lengths import inches
from engine.planset.book import Book, Page
from engine.planset.flow import Column, flowed, heading, note, table
from engine.planset.quantities import tape
from engine.planset.stacked import FOOT, Stack, stacked
from engine.study import Study
from engine.takeoff.boring import hook, lines, walk
from engine.takeoff.joist_cuts import CutOfJoist, cut_rows
from engine.takeoff.naming import together, whole_words
from engine.trade.pipe import nominal

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

TITLE = "Joist elevations"

SHARE = 1.02
"""The figures' lettering beside that of the other drawings: they are read in a crawl space."""

CAUTION = (
    "Bore nothing that is marked NOT legal. No hole and no notch in an I-joist, a truss or laminated lumber without its "
    "maker's or an engineer's word in writing. Your local code and its official decide."
)


def elevation_sheets(book: Book, study: Study) -> list[Page]:
    """How to mark and bore with the lines to snap, then the elevations; no sheet where no joist is cut."""
    drawn = elevations(study)
    if not drawn:
        return []
    return [*flowed(book, TITLE, _how(book, study)), *_drawings(book, drawn)]


def _drawings(book: Book, drawn: tuple[Elevation, ...]) -> list[Page]:
    """The elevations at the largest scale that needs the fewest sheets, none of them split."""
    area, lettering = book.area(), book.paper.lettering * SHARE
    parts = [part for one in drawn for part in parted(one, area.width, lettering)]
    tried = [
        Stack(
            tuple(elevation_drawing(part, scales, area.width, lettering) for part in parts),
            scales.block,
            (CAUTION, scales.warning(OVALS)),
        )
        for scales in scales_for(parts, area.width, lettering)
    ]
    return stacked(book, TITLE, tried, elevation_legend(area.width, lettering * FOOT), lettering)


# how to mark and bore ----------------------------------------------------------------------------------------------


def _how(book: Book, study: Study) -> list[Flowable]:
    """In which order to work, what to hook on, the bits, and the lines that several joists share."""
    size, width = book.paper.type_size * 1.08, book.area().width
    story: list[Flowable] = [note(words, size, lead=lead) for lead, words in steps(study)]
    rows = cut_rows(study.model)
    story += [
        heading("Bits to bring", size * 1.2),
        note(f"{_bits(rows)} Those for the floor, plates and studs stand with them on the shopping list.", size),
    ]
    shared = [list(row) for row in line_rows(study)]
    story.append(heading("Lines to snap", size * 1.2))
    if not shared:
        story.append(note("No two joists have a cut at the same distance.", size))
        return story
    story.append(
        note(
            "Where joists have a cut at the same distance, mark the first and the last, snap a chalk line across all of "
            "them, and square it down each joist's face.",
            size,
        )
    )
    columns = (
        Column("Line at", 20),
        Column("Joists", 22),
        Column("Cuts", 20),
        Column("Runs", 12),
        Column("Bits", 14),
        Column("Down from top", 30),
    )
    story.append(table(columns, shared, width, size))
    return story


def steps(study: Study) -> list[tuple[str, str]]:
    """The order of the work: a few words that say it, and how (common practice, no source)."""
    depths = sorted({joist.depth for joist, _ in walk(study.model)})
    told = " or ".join(tape(depth) for depth in depths)
    butts = dict.fromkeys(
        f"the {held.end} end" + (f", which {held.stands}" if held.stands else "")
        for held in (hook(study.model, joist) for joist, _ in walk(study.model))
    )
    return [
        (
            "1. Measure the wood first.",
            f"These sheets are made for joists {told} deep. All tops lie flush, so the figures down from the top hold in every "
            "joist. One that is deeper or shallower than told has its bottom edge elsewhere: go by the top there, or add to the "
            "figure up from the bottom what it is deeper. A shallower one has that much less wood below, and its widest bore is "
            "less too: where the joist-cut list leaves it no such spare, write its real depth into the plan and print again "
            f"before it is bored. {_counting(study)}",
        ),
        (
            "2. Along the joist:",
            f"every distance runs from {'; or '.join(butts)}. Butt the tape there; before the rim stands, hook it on the "
            "joist's own end, which is the same place. Each figure runs from there to the middle of the hole: nothing is "
            "added, nothing taken off. The other end's figure is there to check by.",
        ),
        (
            "3. Up and down:",
            "hook the joist's top as long as the subfloor is off; once it is on, hook the bottom edge. Keep to one edge "
            "along a whole run: wood varies in depth, and a drain marked now from the top, now from the bottom loses its "
            "slope. Both figures are rounded to 1/16 in, so that the two may differ by that much.",
        ),
        (
            "4. Mark all, bore nothing yet.",
            "A cross at every middle, its number and its bit beside it. A hole at an angle gets its cross on each face.",
        ),
        (
            "5. Check.",
            "Tick every number on the joist-cut list. Look or stretch a string along each drain: its crosses must go down "
            "evenly toward the exit, from joist to joist. Look for nails, wires and pipes where the bit will come out.",
        ),
        (
            "6. Bore.",
            "Square to the face unless the sheet says at an angle; from one side until the point shows, then from the "
            "other. “+ foam”: the tube goes through joists in its sleeve, and the bit told is for both. A large bit that grips can break a wrist: use the side handle, brace yourself, and wear eye "
            "protection.",
        ),
    ]


def _counting(study: Study) -> str:
    """From which side joists are numbered, for who stands under them without a plan."""
    sides = dict.fromkeys("west" if field.direction == "north-south" else "south" for field in study.plan.fields)
    return f"Joists are counted from the {' or '.join(sides)}, from 1 on, the end joist left out."


def line_rows(study: Study) -> list[tuple[str, ...]]:
    """A row for each line across joists: where, which joists and cuts, whose runs, with which bits, how far down."""
    model = study.model
    rows: list[tuple[str, ...]] = []
    for line in lines(model):
        downs = [f'{inches(made.down_from_top)}"' for _, made in line.cuts]
        names = list(dict.fromkeys(whole_words(model, model.joists[made.joist]) for _, made in line.cuts))
        rows.append(
            (
                f"{tape(line.along)} from the {line.hook.end} end",
                together(names),
                ", ".join(str(number) for number, _ in line.cuts),
                ", ".join(dict.fromkeys(name for _, made in line.cuts for name in made.elements)),
                ", ".join(dict.fromkeys(f'{made.bit}"' if made.bit else made.kind for _, made in line.cuts)),
                f"all {downs[0]}" if len(set(downs)) == 1 else ", ".join(downs) + ", in that order",
            )
        )
    return rows


def _bits(rows: tuple[CutOfJoist, ...]) -> str:
    """Every bit with how many holes it makes; what has none is told apart."""
    counts: dict[str, int] = {}
    for row in rows:
        if row.bit:
            counts[row.bit] = counts.get(row.bit, 0) + 1
    parts = [f'{bit}" for {counts[bit]} hole{"s" if counts[bit] > 1 else ""}' for bit in sorted(counts, key=nominal)]
    notches = sum(row.depth is not None for row in rows)
    if notches:
        parts.append(f"a saw and a chisel for {notches} notch{'es' if notches > 1 else ''}")
    return ("; ".join(parts) or "None: no bit of the sizes needed is listed") + "."
