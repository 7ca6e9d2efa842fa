"""The sheet of plates and studs: where each is bored, with which bit, and what is tied, shielded and sealed there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.checks.plate_cuts import TIES, tie_words
from engine.lengths import down, feet_inches, up
from engine.planset.book import Book, Page
from engine.planset.flow import Column, flowed, note, table
from engine.planset.quantities import tape
from engine.study import Study
from engine.takeoff.wall_holes import WallHole, shield_count, wall_holes

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

TITLE = "Plates and studs"


def plates_and_studs(book: Book, study: Study) -> list[Page]:
    """Every hole in a wall's wood; no sheet where no pipe passes any."""
    rows = wall_holes(study.model)
    if not rows:
        return []
    size, width = book.paper.type_size, book.area().width
    story: list[Flowable] = [
        note(
            "Along a wall each distance runs from the outside of the end stud named, across it from the studs' face named, to "
            "the hole's middle: bare wood, before any board. Bore the sole plate with the subfloor under it. Studs are laid out "
            "from the wall's drawn start: where yours stand otherwise, the pipe's place holds and the stud moves. The numbers are "
            "those of the walls' drawings on the next sheets.",
            size,
        ),
        *_notes(study, rows, size),
    ]
    columns = (
        Column("No.", 6),
        Column("Wall", 20),
        Column("Wood", 14),
        Column("Pipe", 18),
        Column("Along the wall", 22),
        Column("Across it", 20),
        Column("Over the subfloor", 13),
        Column("Hole", 20),
        Column("Tie", 6),
        Column("Shields", 15),
        Column("Legal?", 9),
    )
    story.append(table(columns, [_cells(row) for row in rows], width, size))
    return flowed(book, TITLE, story)


def _notes(study: Study, rows: tuple[WallHole, ...], size: float) -> list[Flowable]:
    book = study.model.book
    notes = []
    if any(row.tie for row in rows) and all(book.has(key) for key in TIES):
        notes.append(note(f"{tie_words(study.model)}: {book.cite('plate.cut_most')}.", size, lead="Tie:"))
    shields = shield_count(study.model)
    if shields:
        thick = f" {book.number('shield.thickness'):g} in thick" if book.has("shield.thickness") else ""
        words = f"steel{thick} over each face that nails reach, {shields} in all: {book.cite('shield.edge')}."
        notes.append(note(words, size, lead="Shields:"))
    if book.has("fireblock.round_pipes") and book.flag("fireblock.round_pipes"):
        words = f"the gap round each pipe in floor and plates, before the walls are closed: {book.cite('fireblock.round_pipes')}."
        notes.append(note(words, size, lead="Seal:"))
    return notes


def _cells(row: WallHole) -> list[str]:
    wood = row.part if row.stud is None else f"stud {row.stud}"
    hole = f'{row.bit}" bit' if row.bit else f"{tape(row.hole)} (no bit that size)"
    if row.deep is not None:
        hole = f"notch {tape(up(row.deep))} deep, {tape(row.hole)} tall"
    hole += f", breaks out of the {row.face} face" if row.breaks_out else ""
    return [
        str(row.number),
        row.wall,
        wood,
        f'{row.size}" {row.system}, {row.element}',
        f"{tape(row.from_end)} from {row.end} end",
        f"{tape(row.from_face)} from {row.face} face",
        "" if row.above_subfloor is None else feet_inches(down(row.above_subfloor)),
        hole,
        "tie" if row.tie else "",
        f"{row.shields}: {row.shield_faces}" if row.shields else "",
        {"yes": "yes", "no": "NO"}.get(row.verdict, row.verdict),
    ]
