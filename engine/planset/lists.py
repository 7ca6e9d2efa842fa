"""The sheets that are lists: findings, joist cuts, heights, cut list, sticks, shopping list and supports."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from engine.drawings.marks import Kind, badge
from engine.drawings.strokes import Drawing
from engine.lengths import down, feet_inches, inches
from engine.plan.records import Point
from engine.planset import ink
from engine.planset.book import Book, Page
from engine.planset.flow import Column, flowed, heading, note, table
from engine.planset.papers import POINTS
from engine.planset.quantities import WEIGHTS, place, quantity, tape
from engine.study import Study
from engine.takeoff.cutlist import FREE_END, cut_list
from engine.takeoff.heights import height_table
from engine.takeoff.joist_cuts import cut_rows
from engine.takeoff.naming import joist_words
from engine.takeoff.records import CutRow
from engine.takeoff.schedules import TakenOff, sawing_order
from engine.takeoff.shopping import not_counted
from engine.trade.pipe import label, nominal

if TYPE_CHECKING:
    from reportlab.platypus import Flowable


def findings(book: Book, study: Study) -> list[Page]:
    """Every finding with its mark on the plan, what was measured, the limit, where that stands, and what mends it."""
    size, width = book.paper.type_size, book.area().width
    story: list[Flowable] = [
        note(
            "The numbers are those of the marks on the floor plan. Places are east (E) and north (N) of the framing's "
            "outside south-west corner, heights down from the joists' top.",
            size,
        )
    ]
    if not study.findings:
        story.append(
            note("Nothing was found among what was judged. See the first sheets for what was not judged.", size)
        )
        return flowed(book, "Findings", story)
    rulings = {ruling.about: ruling for ruling in study.plan.rulings}
    rows: list[list[Any]] = []
    for number, found in enumerate(study.findings, 1):
        words = found.text + (f"\nMend: {found.mend}" if found.mend else "")
        for about in (found.rule, *found.elements):
            if about in rulings:
                ruling = rulings[about]
                words += f"\nRuling: {ruling.text} ({', '.join(part for part in (ruling.said_by, ruling.on) if part)})"
        rows.append(
            [
                mark(found.weight, str(number), size),
                WEIGHTS[found.weight],
                words,
                ", ".join(found.elements),
                place(found.at),
                quantity(found.measured, found.unit),
                quantity(found.limit, found.unit),
                found.cites,
            ]
        )
    columns = (
        Column("No.", 4.4, "CENTER"),
        Column("Weight", 5.0),
        Column("What was found, and what mends it", 46),
        Column("Drawn as", 8),
        Column("Where", 16),
        Column("Measured", 9),
        Column("Limit", 9),
        Column("Rests on", 14),
    )
    story.append(table(columns, rows, width, size))
    return flowed(book, "Findings", story)


def joist_cuts(book: Book, study: Study) -> list[Page]:
    """Every bore and notch: which joist, from which end, how far down, with which bit, and whether it is legal."""
    size, width = book.paper.type_size, book.area().width
    rows: list[list[Any]] = []
    for row in cut_rows(study.model):
        kinds: dict[str, Kind] = {"yes": "legal cut", "no": "illegal cut", "not judged": "unjudged cut"}
        if row.depth is not None and row.length is not None:
            what = f"{row.kind}, {tape(row.depth)} deep, {tape(row.length)} long"
        else:
            what = f'bore, {row.bit}" bit' if row.bit else f"bore, {tape(row.diameter)} (no bit that size)"
        rows.append(
            [
                mark(kinds[row.verdict], str(row.number), size * 0.9),
                row.joist,
                row.pipe,
                what,
                f"{tape(row.from_end)} from {row.end}",
                tape(row.down_from_top),
                tape(row.up_from_bottom),
                f"{tape(down(row.wood_above))} / {tape(down(row.wood_below))}",
                f'{inches(down(row.limit))}"' if row.limit else "none",
                row.verdict,
                row.faults,
            ]
        )
    story: list[Flowable] = [
        note(
            "Numbers as on the drawings. Distances along a joist run from its own end, which is the rim's inside face, to "
            "the cut's middle. Down and up are the bore's middle, from the joist's top and from its bottom edge. Limits "
            "are rounded down. Measure each joist's real depth before boring.",
            size,
        )
    ]
    if not rows:
        story.append(note("No pipe that is drawn cuts a joist.", size))
        return flowed(book, "Joist cuts", story)
    bits = sorted({row.bit for row in cut_rows(study.model) if row.bit}, key=nominal)
    if bits:
        story.append(note(", ".join(f'{bit}"' for bit in bits), size, lead="Bits to bring:"))
    columns = (
        Column("No.", 4.6, "CENTER"),
        Column("Joist", 12),
        Column("Pipe", 10),
        Column("Cut", 17),
        Column("Along the joist", 17),
        Column("Down from top", 9, "RIGHT"),
        Column("Up from bottom", 9, "RIGHT"),
        Column("Wood left above / below", 17, "RIGHT"),
        Column("Limit", 8, "RIGHT"),
        Column("Legal", 8),
        Column("What is wrong", 25),
    )
    story.append(table(columns, rows, width, size))
    return flowed(book, "Joist cuts", story)


def heights(book: Book, study: Study) -> list[Page]:
    """The height of every pipe at each joist, fitting and end."""
    size, width = book.paper.type_size, book.area().width
    rows: list[list[Any]] = []
    last = ""
    for row in height_table(study.model):
        first = row.element != last
        last = row.element
        rows.append(
            [
                f'{row.element}, {label(row.size)}" {row.system}' if first else row.element,
                tape(row.along),
                row.what,
                _place(row.at),
                tape(row.centre_down),
                tape(row.bottom_down),
            ]
        )
    story: list[Flowable] = [
        note(
            "Hook the tape on the joists' top. A run is listed from its upper end down; “along” counts from there. The "
            "bottom is the outside of the pipe, where a block or strap goes; water tube without its sleeve.",
            size,
        )
    ]
    if not rows:
        story.append(note("No pipe is drawn under the floor.", size))
        return flowed(book, "Heights along the runs", story)
    columns = (
        Column("Run", 17),
        Column("Along", 13, "RIGHT"),
        Column("What is there", 30),
        Column("Place", 27),
        Column("Centre down", 11.5, "RIGHT"),
        Column("Bottom down", 11.5, "RIGHT"),
    )
    half = (width - 0.3) / 2.0
    story.append(table(columns, rows, half, size * 0.94))
    return flowed(book, "Heights along the runs", story, columns=2)


def cuts(book: Book, study: Study) -> list[Page]:
    """The cut list."""
    size, width = book.paper.type_size, book.area().width
    rows = [
        [
            row.mark,
            row.system,
            f'{label(row.size)}" {row.material}',
            tape(row.length),
            f"± {tape(row.tolerance)}",
            f"{row.start} to {row.end}",
            row.lies,
            row.rests_on,
            _measure_first(row),
        ]
        for row in cut_list(study.model)
    ]
    story: list[Flowable] = [
        note(
            "Lengths to the nearest 1/16 in, from pipe stop to pipe stop. “Rests on” is the weakest take-off in the length: "
            "measured on the fitting in hand, published, derived from published, from memory, an estimate, or assumed. "
            "Fittings differ from maker to maker: a length that rests on a fitting not measured yet is to be checked on the "
            "fitting before sawing. Write what you measure into the plan and print again.",
            size,
        )
    ]
    if not rows:
        story.append(note("There is no pipe to cut yet.", size))
        return flowed(book, "Cut list", story)
    columns = (
        Column("Mark", 5.5),
        Column("System", 6.5),
        Column("Pipe", 9),
        Column("Cut to", 8.5, "RIGHT"),
        Column("Give or take", 7.5, "RIGHT"),
        Column("Between", 33),
        Column("Where it lies", 30),
        Column("Rests on", 8),
        Column("Not measured yet", 17),
    )
    story.append(table(columns, rows, width, size))
    return flowed(book, "Cut list", story)


def sticks(book: Book, taken: TakenOff) -> list[Page]:
    """Which sticks and coils to buy, and what to saw from each."""
    size, width = book.paper.type_size, book.area().width
    story: list[Flowable] = [
        note("Saw in the order given, long pieces first. A kerf of 1/8 in is allowed for each cut.", size)
    ]
    if not taken.bought:
        story.append(note("There is no pipe to buy yet.", size))
        return flowed(book, "Sticks to buy", story)
    rows: list[list[Any]] = []
    for bought in taken.bought:
        for n, stick in enumerate(bought.plan.sticks):
            rows.append(
                [
                    f'{label(bought.size)}" {bought.material}' if n == 0 else "",
                    f"{stick.length / 12.0:g} ft",
                    sawing_order(stick),
                    tape(stick.left),
                ]
            )
        rows.append(["", "", f"{_counts(bought.plan.counts)}. {bought.plan.note}", ""])
    columns = (
        Column("Pipe", 14),
        Column("Stick or coil", 11),
        Column("Pieces in sawing order, inches", 75),
        Column("Left over", 11, "RIGHT"),
    )
    story.append(table(columns, rows, width, size))
    return flowed(book, "Sticks to buy", story)


def shopping_list(book: Book, study: Study, taken: TakenOff) -> list[Page]:
    """Every part to buy besides pipe and tube, with the arithmetic and source."""
    size, width = book.paper.type_size, book.area().width
    rows = [
        [str(line.count), line.unit, line.part, line.size, line.system, line.why, line.source] for line in taken.lines
    ]
    story: list[Flowable] = [note("Pipe and tube are on the sheet of sticks.", size)]
    if rows:
        columns = (
            Column("Count", 6, "RIGHT"),
            Column("Unit", 12),
            Column("Part", 34),
            Column("Size", 12),
            Column("System", 8),
            Column("Why, and what for", 50),
            Column("Rests on", 34),
        )
        story.append(table(columns, rows, width, size))
    else:
        story.append(note("There is nothing to buy yet.", size))
    story.append(heading("Not counted", size * 1.2))
    story += [note(words, size) for words in not_counted(study.model)]
    return flowed(book, "Parts to buy", story)


def supports(book: Book, study: Study, taken: TakenOff) -> list[Page]:
    """Where every pipe is held."""
    size, width = book.paper.type_size, book.area().width
    rows: list[list[Any]] = []
    last = ""
    for held in taken.held:
        first, last = held.element != last, held.element
        joist = study.model.joists.get(held.joist or "")
        rows.append(
            [
                f'{held.element}, {label(held.size)}" {held.system}' if first else held.element,
                held.kind if joist is None else f"{held.kind} ({joist_words(study.model, joist)})",
                tape(held.along),
                _place(held.at),
                _height(held.down),
                inches(held.limit) if first else "",
            ]
        )
    story: list[Flowable] = [
        note(
            "“Along” counts from a run's upper end, from a supply's first end, or up from a riser's foot. A block's or "
            "strap's height is the pipe's underside, others' the axis; down from the joists' top. “Apart” is the "
            "greatest spacing allowed, inches"
            + "".join(f"; {cites}" for cites in dict.fromkeys(held.cites for held in taken.held))
            + ".",
            size,
        )
    ]
    if not rows:
        story.append(note("No pipe is drawn that needs holding.", size))
        return flowed(book, "Supports", story)
    columns = (
        Column("Run", 18),
        Column("Held by", 25),
        Column("Along", 13, "RIGHT"),
        Column("Place", 26),
        Column("Down", 17, "RIGHT"),
        Column("Apart", 8, "RIGHT"),
    )
    half = (width - 0.3) / 2.0
    story.append(table(columns, rows, half, size * 0.94))
    return flowed(book, "Supports", story, columns=2)


def mark(kind: Kind, number: str, size: float) -> Flowable:
    """A numbered mark as on the drawings, for a table's cell."""
    from reportlab.platypus import Flowable as Base

    height = size * 0.66 / POINTS
    strokes = badge(kind, (0.0, 0.0), number, height)

    class Mark(Base):
        def wrap(self, available: float, _height: float) -> tuple[float, float]:
            self.width, self.height = available, size * 1.5
            return self.width, self.height

        def draw(self) -> None:
            drawing = Drawing(strokes, 0.0, 0.0, (0.0, 0.0, 0.0, 0.0))
            ink.draw(self.canv, drawing, self.width / 2.0 / POINTS, self.height / 2.0 / POINTS)

    return Mark()


def _measure_first(row: CutRow) -> str:
    """Which of a piece's fittings to measure, in few words, and what else to know of it."""
    ends = [end for end in dict.fromkeys((row.start, row.end)) if end != FREE_END]
    if row.unmeasured and len(row.unmeasured) == len(ends):
        words = (
            "either fitting"
            if len(ends) == 2
            else "the fitting"
            if FREE_END in (row.start, row.end)
            else "both fittings"
        )
    else:
        words = ", ".join(row.unmeasured)
    return "; ".join(part for part in (words, row.note) if part)


def _place(at: Point) -> str:
    return f"{feet_inches(at[0])} E, {feet_inches(at[1])} N"


def _height(value: float | None) -> str:
    if value is None:
        return "–"
    return tape(value) if value >= 0.0 else f"{tape(-value)} up"


def _counts(counts: tuple[tuple[float, int], ...]) -> str:
    return "Buy " + ", ".join(f"{count} of {length / 12.0:g} ft" for length, count in counts)
