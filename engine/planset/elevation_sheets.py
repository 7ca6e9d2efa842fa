"""The sheets to be carried to the joists: how to mark and bore, then each cut joist from the side with its figures."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from engine.drawings.elevations import (
    Elevation,
    Scales,
    elevation_drawing,
    elevation_legend,
    elevations,
    parted,
    scales_for,
)
from engine.drawings.strokes import Drawing, Text
from engine.drawings.templates import shift, wrapped
from engine.lengths import inches
from engine.planset.block import Titled
from engine.planset.book import Area, Book, Page
from engine.planset.flow import Column, flowed, heading, note, table
from engine.planset.quantities import tape
from engine.study import Study
from engine.takeoff.boring import hook, lines, walk
from engine.takeoff.joist_cuts import CutOfJoist, cut_rows
from engine.takeoff.naming import joist_words
from engine.trade.pipe import nominal

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

TITLE = "Joist elevations"

SHARE = 1.02
"""The figures' lettering beside that of the other drawings: they are read in a crawl space."""

_GAP = 0.2
_LEGEND = 0.86

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
    foot = _foot(area.width, lettering, "x" * 150)
    best: tuple[Scales, list[list[Drawing]]] | None = None
    for scales in scales_for(parts, area.width, lettering):
        made = [elevation_drawing(part, scales, area.width, lettering) for part in parts]
        packed = _packed(made, area.height - foot.height - _GAP)
        if best is None or len(packed) < len(best[1]):
            best = (scales, packed)
    assert best is not None
    foot = _foot(area.width, lettering, best[0].warning)
    return [_page(book, best[0], group, foot) for group in best[1]]


def _packed(drawings: list[Drawing], height: float) -> list[list[Drawing]]:
    """Drawings in their order on as few pages as they fill."""
    pages: list[list[Drawing]] = []
    free = 0.0
    for drawing in drawings:
        if not pages or drawing.height > free:
            pages.append([])
            free = height
        pages[-1].append(drawing)
        free -= drawing.height + _GAP
    return pages


def _page(book: Book, scales: Scales, group: list[Drawing], foot: Drawing) -> Page:
    def fill(_canvas: Any, area: Area) -> None:
        spare = area.height - foot.height - _GAP - sum(drawing.height for drawing in group)
        gap = min(spare / len(group), 2.0 * _GAP)
        top = area.bottom + area.height
        for drawing in group:
            book.drawing(drawing, area.left, top - drawing.height)
            top -= drawing.height + gap
        book.drawing(foot, area.left, area.bottom)

    return book.page(Titled(TITLE, "as noted" if scales.warning else scales.words), fill)


def _foot(width: float, lettering: float, warning: str) -> Drawing:
    """At the foot of every sheet: what the marks mean, what the two scales do, and what to beware of."""
    legend = elevation_legend(width, lettering * _LEGEND)
    size = lettering * _LEGEND
    said = [line for words in (CAUTION, warning) if words for line in wrapped(words, size, width)]
    step = size * 1.6
    low = len(said) * step
    texts = [Text((0.0, low - (n + 1) * step + size * 0.3), line, size) for n, line in enumerate(said)]
    strokes = [*texts, *(shift(stroke, 0.0, low) for stroke in legend.strokes)]
    return Drawing(tuple(strokes), width, legend.height + low, (0.0, 0.0, width, legend.height + low))


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
        f"the {held.end} end"
        + (f", which stands against the {held.other} face of {_the(held.against)}" if held.against else "")
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


def _the(member: str) -> str:
    """A member's name inside a sentence: a numbered one stands without an article."""
    return member if member.split()[0] in ("joist", "block") else f"the {member}"


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
        names = list(dict.fromkeys(joist_words(model, model.joists[made.joist]) for _, made in line.cuts))
        rows.append(
            (
                f"{tape(line.along)} from the {line.hook.end} end",
                _named(names),
                ", ".join(str(number) for number, _ in line.cuts),
                ", ".join(dict.fromkeys(made.element for _, made in line.cuts)),
                ", ".join(dict.fromkeys(f'{made.bit}"' if made.bit else made.kind for _, made in line.cuts)),
                f"all {downs[0]}" if len(set(downs)) == 1 else ", ".join(downs) + ", in that order",
            )
        )
    return rows


def _named(names: list[str]) -> str:
    """Joists' names with their common word said once."""
    heads, tails = zip(*(name.rpartition(" ")[::2] for name in names), strict=True)
    if len(names) > 1 and len(set(heads)) == 1 and heads[0] and all(tail.isdigit() for tail in tails):
        return f"{heads[0]}s {', '.join(tails)}"
    return ", ".join(names)


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
