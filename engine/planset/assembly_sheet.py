"""The sheet of the assembly order: every step from the exit upstream, to be ticked off as it is done."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from engine.checks.model import Model
from engine.joinery.records import Piece
from engine.lengths import inches
from engine.planset.book import Book, Page
from engine.planset.flow import Column, flowed, heading, note, table
from engine.planset.holding_notes import beside_groups, of_tubes
from engine.planset.step_rows import rows
from engine.planset.subassemblies import subassemblies
from engine.study import Study
from engine.takeoff.assembling.words import long_stub, long_vent
from engine.takeoff.assembly import Step, assembly
from engine.takeoff.records import Support
from engine.takeoff.supports import supports
from engine.takeoff.trimming import trims
from engine.trade.pipe import label

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

TITLE = "Assembly order"


class LeftLong(NamedTuple):
    """One piece that is cut twice: long when it is set (step `set_in`), to its final length in step `cut_in`.

    `extra` is how much longer it is at first, inches; `cut_in` is None where no step cuts it.
    """

    piece: Piece
    why: str
    extra: float
    set_in: int
    cut_in: int | None


def assembly_order(book: Book, study: Study, held: tuple[Support, ...] | None = None) -> list[Page]:
    """The pieces that are sawn long at first, then the steps in their groups, with signs and dials; last the water tube's.

    `held` are the model's supports where they are known already.
    """
    size, width = book.paper.type_size, book.area().width
    steps = assembly(study.model)
    held = supports(study.model) if held is None else held
    if not steps:
        none = note("There is no drain or vent to put together yet.", size)
        return flowed(book, TITLE, [none, *_tubes(study, held, size)])
    long = left_long_pieces(study.model, steps)
    marks = frozenset(one.piece.mark for one in long)
    story: list[Flowable] = [note(words, size, lead=lead) for lead, words in HOW]
    story += _long_table(long, width, size)
    groups = subassemblies(study.model, steps)
    for group, beside in zip(groups, beside_groups(study.model, groups, held), strict=True):
        story += rows(study.model, group, marks, width, size, beside)
    return flowed(book, TITLE, [*story, *_tubes(study, held, size)])


def _tubes(study: Study, held: tuple[Support, ...], size: float) -> list[Flowable]:
    """Where elbows turn the water lines, and when their strips and hooks go in."""
    said = of_tubes(study.model, held)
    if not said:
        return []
    return [
        heading("Water tube: where elbows turn it, and what holds it", size * 1.15),
        *(note(words, size, lead=lead) for lead, words in said),
    ]


HOW = (
    (
        "Work from the exit upstream",
        "in the order of the numbers, and tick each step. D and V are the pieces of the cut list. A step's first words say "
        "what is put where; what the level must show follows.",
    ),
    (
        "A dial shows which way a leg looks.",
        "On level pipe 12 is the pipe's top, on plumb pipe N is north as seen from above; from where to look stands beside "
        "it. Degrees run clockwise and count the small roll in that a branch's own fall takes.",
    ),
    (
        "S marks are supports.",
        "The sheet of supports tells where each stands and what to cut for it. Under a group's title stand those of its pipes: "
        "what has to be under the pipe before it is glued, and what goes on once it lies.",
    ),
    (
        "Dry fits are for angles only:",
        "a dry joint stops short of its full depth, so take no length from it. Glue nothing that a later step calls dry.",
    ),
)
"""How the sheet is read."""

WHY = {
    "stub": "stands up for the cap of the test; its final height hangs on the finish, which is not there yet",
    "vent": "the roof's covering, from which its height counts, is not there yet",
}
"""Why a piece is sawn long."""


def left_long_pieces(model: Model, steps: tuple[Step, ...]) -> tuple[LeftLong, ...]:
    """The stubs and vents that the steps leave long, in the order in which they are set."""
    pieces, longer = {piece.mark: piece for piece in model.joinery.pieces}, trims(model)
    found = []
    for step in steps:
        for mark in step.pieces:
            if mark not in longer:
                continue
            piece, extra = pieces[mark], longer[mark].extra
            words = {"stub": long_stub(piece, extra), "vent": long_vent(piece, extra)}
            kind = next((kind for kind, text in words.items() if text in step.text), None)
            if kind is not None:
                cut_in = next((s.number for s in steps if s.kind in ("roof", "finish") and mark in s.onto), None)
                found.append(LeftLong(piece, kind, extra, step.number, cut_in))
    return tuple(found)


def _long_table(long: tuple[LeftLong, ...], width: float, size: float) -> list[Flowable]:
    if not long:
        return []
    columns = (
        Column("Piece", 8),
        Column("Pipe", 11),
        Column("Set in step", 10, "RIGHT"),
        Column("Saw it at first", 14, "RIGHT"),
        Column("Final length", 12, "RIGHT"),
        Column("Cut to it in step", 12, "RIGHT"),
        Column("Why", 60),
    )
    data = [
        [
            one.piece.mark,
            f"{label(one.piece.size)} in {one.piece.system}",
            str(one.set_in),
            f'{inches(one.piece.cut + one.extra)}"',
            f'{inches(one.piece.cut)}"',
            str(one.cut_in) if one.cut_in is not None else "–",
            WHY[one.why],
        ]
        for one in long
    ]
    return [
        heading("Saw these longer than the cut list says, and cut them to it later", size * 1.15),
        table(columns, data, width, size),
    ]
