"""The sheets for the framer: the wood in plan from one datum, then every stick by its faces and ends."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from engine.drawings.framing import framing_drawing, framing_scale
from engine.lengths import feet_inches, inches
from engine.planset.block import Titled
from engine.planset.book import Area, Book, Page
from engine.planset.flow import Column, Group, flowed, heading, note, table
from engine.planset.quantities import tape
from engine.study import Study
from engine.takeoff.framing_rows import (
    BlockRow,
    Framed,
    bearing,
    block_rows,
    corners,
    crossing,
    datum,
    layout_words,
    running,
)
from engine.takeoff.naming import edges_of
from engine.takeoff.opening_rows import OpeningRow, opening_rows
from engine.takeoff.squareness import largest_rectangle

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

TITLE = "Framing"


def framing(book: Book, study: Study) -> list[Page]:
    """The wood in plan with its distances, then corners, diagonals and every stick; no sheet where no joists are drawn."""
    if not study.plan.fields:
        return []
    lettering = book.paper.lettering

    def ratio(landscape: bool) -> float:
        area = book.area(landscape)
        return framing_scale(study, area.width, area.height, lettering).ratio

    landscape = min((True, False), key=ratio)
    room = book.area(landscape)
    drawing = framing_drawing(study, room.width, room.height, lettering)

    def fill(_canvas: Any, area: Area) -> None:
        book.drawing(drawing, area.left, area.bottom)

    plan = book.page(Titled(TITLE, drawing.scale_name), fill, landscape)
    return [plan, *flowed(book, TITLE, _story(book, study))]


def _story(book: Book, study: Study) -> list[Flowable]:
    size, width = book.paper.type_size, book.area().width
    model = study.model
    west, south = edges_of(model)
    story: list[Flowable] = [
        note(
            f"The outside faces of the {west} and of the {south}, and the lines on which they run on. Every figure here counts "
            "from there, east or north; none is added to another. “N” is north of the south face, “E” east of the west face.",
            size,
            lead="Datum:",
        ),
        note(_corners(study), size, lead="Corners, outside to outside:"),
        note(_squared(study), size, lead="Square:"),
        *(
            note(
                layout_words(model, field),
                size,
                lead=f"Joists of {field.id}:" if len(model.plan.fields) > 1 else "Joists:",
            )
            for field in model.plan.fields
        ),
    ]
    if len(model.plan.fields) > 1:
        field = model.plan.fields[0].id
        story.append(note(f"{field}.2 on the drawings is joist 2 of {field} in the lists.", size, lead="Numbers:"))
    story.append(heading("Joists, rims and headers", size * 1.2))
    story.append(table(_COLUMNS, _sticks(study), width, size))
    rows = block_rows(model)
    if rows:
        story += [
            heading("Rows of blocks", size * 1.2),
            table(_BLOCKS, [_blocks(row) for row in rows], width, size),
        ]
    under = bearing(model)
    if under:
        story += [
            heading("Beams and bearing lines under the joists, and the walls on the floor", size * 1.2),
            table(_BEARING, [_bearing(one) for one in under], width, size),
        ]
    return [*story, *_openings(study, width, size)]


def _corners(study: Study) -> str:
    """The outline's corners in a row, round it."""
    told = "; ".join(f"{feet_inches(x)} E {feet_inches(y)} N" for x, y in corners(study.model))
    return f"{told}; and back to the first."


def _squared(study: Study) -> str:
    """Which diagonals to measure, and what they must be."""
    found = largest_rectangle(study.plan.floor.outline)
    if found is None:
        return "the floor's corners form no rectangle; measure from corner to corner by the figures above."
    west, south = datum(study.model)
    whole = set(found.corners) == set(study.plan.floor.outline)
    where = "from corner to corner of the floor"
    if not whole:
        spots = "; ".join(f"{feet_inches(x - west)} E {feet_inches(y - south)} N" for x, y in found.corners)
        where = f"of the rectangle {spots} (where none of these is a corner, mark it on the face first)"
    return (
        f"the two diagonals {where} are {feet_inches(found.diagonal)} each, outside to outside. Move the frame until both are "
        "the same, before anything is nailed for good."
    )


_COLUMNS = (
    Column("Stick", 22),
    Column("First face", 10, "RIGHT"),
    Column("Mark: centre of the ply laid out", 13, "RIGHT"),
    Column("Second face", 10, "RIGHT"),
    Column("Counted from", 9),
    Column("Reaches from", 11, "RIGHT"),
    Column("to", 11, "RIGHT"),
    Column("Length", 10, "RIGHT"),
    Column("Depth", 8, "RIGHT"),
    Column("Of note", 36),
)


def _sticks(study: Study) -> list[list[str] | Group]:
    """Running sticks, then those across them, each group under its own words where there are several."""
    rows: list[list[str] | Group] = []
    for words, sticks in (
        ("The joists' way", running(study.model)),
        ("Across them", crossing(study.model)),
    ):
        if sticks:
            rows.append(Group(words))
            rows += [_stick(one) for one in sticks]
    return rows


def _stick(one: Framed) -> list[str]:
    return [
        one.name,
        *_across(one),
        feet_inches(one.first),
        feet_inches(one.last) + (" N" if one.northward else " E"),
        feet_inches(one.length),
        tape(one.depth),
        one.remark,
    ]


def _across(one: Framed) -> list[str]:
    """Both faces and the mark, and from which side they count; for one that lies aslant its centre line's ends."""
    if one.aslant:
        return ["aslant", "", "", "see its corners"]
    side = "west" if one.northward else "south"
    return [feet_inches(one.near), feet_inches(one.mark), feet_inches(one.far), side]


_BLOCKS = (
    Column("Row", 14),
    Column("First face", 10, "RIGHT"),
    Column("Centre", 10, "RIGHT"),
    Column("Second face", 10, "RIGHT"),
    Column("Counted from", 9),
    Column("Cut to, and which (block 1 is the westmost or southmost)", 87),
)


def _blocks(row: BlockRow) -> list[str]:
    cut = "; ".join(
        f"{inches(length)} in: {len(names)} ({'block ' if len(names) == 1 else 'blocks '}{', '.join(names)})"
        for length, names in row.blocks
    )
    return [
        row.name,
        feet_inches(row.near),
        feet_inches((row.near + row.far) / 2.0),
        feet_inches(row.far),
        "west" if row.northward else "south",
        cut,
    ]


_BEARING = (
    Column("What", 22),
    Column("First face", 10, "RIGHT"),
    Column("Centre line", 13, "RIGHT"),
    Column("Second face", 10, "RIGHT"),
    Column("Counted from", 9),
    Column("Reaches from", 11, "RIGHT"),
    Column("to", 11, "RIGHT"),
    Column("Depth", 8, "RIGHT"),
    Column("Its top under the joists' top", 13, "RIGHT"),
    Column("Of note", 33),
)


def _bearing(one: Framed) -> list[str]:
    return [
        one.name,
        *_across(one),
        feet_inches(one.first),
        feet_inches(one.last) + (" N" if one.northward else " E"),
        tape(one.depth),
        tape(one.top),
        one.remark,
    ]


def _openings(study: Study, width: float, size: float) -> list[Flowable]:
    """The openings to be framed: their clear ways from the datum, and the wood round them."""
    rows = opening_rows(study.model)
    if not rows:
        return []
    columns = (
        Column("Opening", 14),
        Column("From the west: first and second face", 18),
        Column("From the south: first and second face", 18),
        Column("Headers", 30),
        Column("Trimmers", 30),
        Column("Joists cut back", 30),
    )
    return [
        heading("Openings to frame", size * 1.2),
        note(
            "To the faces of the wood that bounds the clear way. Frame them before the joists about them are bored.",
            size,
        ),
        table(columns, [_opening(row) for row in rows], width, size),
    ]


def _opening(row: OpeningRow) -> list[str]:
    return [
        row.name,
        f"{feet_inches(row.west)} and {feet_inches(row.east)}",
        f"{feet_inches(row.south)} and {feet_inches(row.north)}",
        _wood(row.lumber, "header", row.headers),
        _wood(row.lumber, "trimmer", row.trimmers),
        "; ".join(f"{words}: {feet_inches(length)}" for words, length in row.tails) or "none",
    ]


def _wood(lumber: str, what: str, sticks: tuple[tuple[str, int, float], ...]) -> str:
    """Sticks by side: ``south header: double 2x10, 2'-6"``; where the floor's own rim or end joist does, none."""
    plies = {1: "", 2: "double ", 3: "triple "}
    return (
        "; ".join(f"{side} {what}: {plies[count]}{lumber}, {feet_inches(length)}" for side, count, length in sticks)
        or "none"
    )
