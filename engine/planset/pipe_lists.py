"""The lists for the saw: cut list, and sticks to buy with their cutting plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.drawings.sawing import bar, scale_for
from engine.lengths import down, inches, up
from engine.planset.book import Book, Page
from engine.planset.figures import figure
from engine.planset.flow import Column, flowed, heading, note, table
from engine.planset.quantities import tape
from engine.study import Study
from engine.takeoff.cutlist import FREE_END, cut_list
from engine.takeoff.records import Bought, CutRow
from engine.takeoff.schedules import TakenOff
from engine.trade.facts import table as table_of
from engine.trade.pipe import label

if TYPE_CHECKING:
    from reportlab.platypus import Flowable


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
            tape(row.saw) if row.extra else "",
            f"{row.start} to {row.end}",
            row.lies,
            row.rests_on,
            _measure_first(row),
        ]
        for row in cut_list(study.model)
    ]
    story: list[Flowable] = [
        note(
            "Lengths to the nearest 1/16 in, from pipe stop to pipe stop. Marks as on the plan and the isometric. “Saw first” is "
            "the length of a stub or vent that is trimmed later: closet and shower stubs are capped for the test and cut to "
            "their length once the finish stands, vents once the roof is covered. Heights are from the joists' top. “Rests on” is the weakest take-off in the length: "
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
        Column("Saw first", 8.5, "RIGHT"),
        Column("Between", 31),
        Column("Where it lies", 30),
        Column("Rests on", 8),
        Column("Not measured yet", 17),
    )
    story.append(table(columns, rows, width, size))
    return flowed(book, "Cut list", story)


def sticks(book: Book, study: Study, taken: TakenOff) -> list[Page]:
    """Which sticks and coils to buy, each drawn to scale with the pieces to saw from it in their order."""
    size, width = book.paper.type_size, book.area().width
    facts = table_of("allowances")
    kerf, damaged = facts.number("cutting", "kerf"), facts.number("cutting", "damaged end")
    words = (
        f"Saw from the left, long pieces first. A kerf of {inches(kerf)} in is allowed for each cut"
        + (
            f" and {inches(damaged)} in for each stick's damaged end, hatched"
            if damaged
            else "; ends are used as they come"
        )
        + ". What is left is named where it is worth keeping. Stubs and vents are as long as they are first sawn. “Close”: "
        "once the fittings are measured the stick may be too short: measure before buying, or buy one more, since pipe has no spare. "
        "Lengths in inches."
    )
    story: list[Flowable] = [note(words, size)]
    if not taken.bought:
        story.append(note("There is no pipe to buy yet.", size))
        return flowed(book, "Sticks to buy", story)
    lettering = book.paper.lettering * 0.94
    give = {row.mark: row.tolerance for row in cut_list(study.model)}
    for tube in (False, True):
        entries = [entry for entry in taken.bought if (entry.material == "PEX") is tube]
        if not any(entry.plan.sticks or entry.plan.too_long for entry in entries):
            continue
        scale = scale_for(entries, width)
        story.append(note(f"{'Tube' if tube else 'Pipe'}, drawn to scale: {scale.words}.", size))
        for entry in entries:
            story.append(heading(f'{label(entry.size)}" {entry.material}: {_counts(entry)}', size * 1.1))
            story.append(
                note(
                    entry.plan.note + _close(entry, give),
                    size,
                    lead="Proven." if entry.plan.cheapest_proven else "Not proven.",
                )
            )
            story += [figure(bar(stick, entry, scale, width, lettering)) for stick in entry.plan.sticks]
    return flowed(book, "Sticks to buy", story)


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


def _close(entry: Bought, give: dict[str, float]) -> str:
    """The sticks that leave less than their pieces may grow by once their fittings are measured."""
    found = []
    for number, stick in enumerate(entry.plan.sticks, 1):
        grow = sum(give.get(cut.mark, 0.0) for cut in stick.cuts)
        if stick.left < grow:
            found.append(
                f"stick {number} leaves {inches(down(stick.left))} in, its pieces may grow {inches(up(grow))} in"
            )
    return f" Close: {'; '.join(found)}." if found else ""


def _counts(entry: Bought) -> str:
    """How many of which length to buy, with the price where it is known."""
    counted = ", ".join(f"{count} of {length / 12.0:g} ft" for length, count in entry.plan.counts)
    price = "" if entry.plan.price is None else f", {entry.plan.price:.2f} together"
    return f"buy {counted or 'nothing'}{price}"
