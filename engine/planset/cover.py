"""The first sheets: what this is, how it was judged, what to beware of, and what could not be judged."""

from __future__ import annotations

from collections import Counter
from itertools import zip_longest
from typing import TYPE_CHECKING

from engine.checks import ALL_RULES
from engine.crossings.records import Window
from engine.drafting.finished import flooring_under
from engine.lengths import down, inches, up
from engine.plan.outline import called, describe, flooring_words, listed, made_of
from engine.plan.records import FlooringArea
from engine.planset.book import Book, Page
from engine.planset.cautions import CAUTIONS
from engine.planset.flow import GUTTER, Column, Spot, flowed, heading, note, table
from engine.planset.quantities import place, tape
from engine.study import Study
from engine.takeoff.local import amended_rows, local_words, ruling_rows
from engine.takeoff.naming import on_paper
from engine.takeoff.way_down import way_words

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

TITLE = "Cover"

_HAIR = 1.0 / 16.0

ABBREVIATIONS = (
    "SAN waste drain; V vent; CW cold water; HW hot water; VTR vent through the roof; AAV air admittance valve; IE invert; CO "
    "cleanout; DFU drainage fixture units; PEX crosslinked polyethylene tube; E, N east and north of the floor's south-west corner; "
    "DN down from the joists' top; O.C. on centre; WC water closet; LAV lavatory; SH shower; BT bathtub; KS kitchen sink; "
    "BS bar sink; LT laundry tub; DW dishwasher; FD floor drain; BD bidet; WM washer; WH water heater; REF refrigerator; "
    "HB hose bibb."
)


def cover(book: Book, study: Study, sheets: list[tuple[str, str]]) -> list[Page]:
    """The cover and what follows on it; `sheets` pairs each sheet's numbers with its title.

    It tells the book on which of its sheets the local amendments are listed, for the block of every sheet.
    """
    spot = Spot()
    size = book.paper.type_size
    half = (book.area().width - GUTTER) / 2.0
    story: list[Flowable | Spot] = [
        *_what(study, size),
        *_judged_by(study, size),
        *_sheet_list(sheets, half, size),
        *_exits(study, size),
        heading("Cautions", size * 1.3),
        *(note(words, size, lead=lead) for lead, words in CAUTIONS),
        *_amendments(study, size, spot),
        *_rulings(study, size),
        *_assumed(study, size),
        *_not_judged(study, half, size),
        heading("Abbreviations", size * 1.3),
        note(ABBREVIATIONS, size),
    ]
    pages = flowed(book, TITLE, story, columns=2)
    words = local_words(study.model)
    book.local = f"{words}: see P-{spot.page}" if words else ""
    return pages


def _what(study: Study, size: float) -> list[Flowable]:
    plan = study.plan
    weights = Counter(found.weight for found in study.findings)
    counts = (
        f"{weights['stop']} to stop for, {weights['look']} to look at, {weights['note']} to know; "
        f"{len(study.not_judged)} not judged."
    )
    lines = [
        heading(plan.name or "Floor without a name", size * 2.2),
        note(plan.place, size * 1.15) if plan.place else None,
        note(f"Drawn by {plan.drawn_by or '(not given)'}, {plan.drawn_on or 'no date given'}.", size),
        note("Plan of the pipes under the floor, with what to bore, cut, hang and buy.", size),
        note(counts, size, lead="Findings:"),
    ]
    return [line for line in lines if line is not None]


def _judged_by(study: Study, size: float) -> list[Flowable]:
    book = study.model.book
    return [
        heading("Judged by", size * 1.3),
        note(f"{book.title} ({book.short}). {book.notice}", size),
    ]


def _sheet_list(sheets: list[tuple[str, str]], width: float, size: float) -> list[Flowable]:
    half = -(-len(sheets) // 2)
    rows = [[*left, *right] for left, right in zip_longest(sheets[:half], sheets[half:], fillvalue=("", ""))]
    columns = (Column("Number", 16), Column("Sheet", 30), Column("Number", 16), Column("Sheet", 30))
    return [heading("Sheets", size * 1.3), table(columns, rows, width, size)]


def _exits(study: Study, size: float) -> list[Flowable]:
    windows = [window for window in study.model.windows if window.exit is not None]
    story: list[Flowable] = [heading("Height of the exit", size * 1.3)]
    if not windows:
        return [*story, note("No exit is drawn.", size)]
    told = way_words(study.model)
    for window in windows:
        way = told.get(window.exit or "", "")
        words = on_paper(study.model, _window(window)) + (f" {way[0].upper()}{way[1:]}." if way else "")
        story.append(note(words, size, lead=f"{window.exit}:"))
    return story


def _window(window: Window) -> str:
    """A window in words, its ends rounded inward; heights are the axis, down from the joists' top."""
    words = f"the axis lies {tape(-window.chosen)} down{', as pinned' if window.pinned else ''}. "
    low, high = window.low, window.high
    if low is not None and high is not None and low > high:
        return (
            words + f'No height serves everything: {window.low_set_by} asks for at most {inches(down(-low))}" down, '
            f'{window.high_set_by} for at least {inches(up(-high))}". They miss each other by {low - high:.2f} in.'
        )
    if low is not None and high is not None and high - low < _HAIR:
        return words + f"No other height serves: {window.low_set_by}."
    if high is not None:
        words += f'Not less than {inches(up(-high))}" down ({window.high_set_by}). '
    if low is not None:
        words += f'Not more than {inches(down(-low))}" down ({window.low_set_by}). '
    for z, why in window.others:
        words += f"Or exactly {tape(-z)} down, with {why}. "
    return words


def _amendments(study: Study, size: float, spot: Spot) -> list[Flowable | Spot]:
    story: list[Flowable | Spot] = [heading("Local amendments", size * 1.3), spot]
    rows = amended_rows(study.model)
    if not rows:
        return [*story, note("None are written into this plan. Ask your office what it changed.", size)]
    for row in rows:
        words = f"{row.becomes} instead of {row.was}, {row.section} ({row.known}). Said by: {row.source}."
        story.append(note(words, size, lead=f"{row.what[:1].upper()}{row.what[1:]}:"))
    return story


def _rulings(study: Study, size: float) -> list[Flowable]:
    rows = ruling_rows(study.model)
    if not rows:
        return []
    story: list[Flowable] = [heading("The official's rulings", size * 1.3)]
    story += [note(f"{row.becomes} ({row.source})", size, lead=f"{row.what}:") for row in rows]
    return story


def _assumed(study: Study, size: float) -> list[Flowable]:
    """What the heights of floor and finish rest on, since neither is there when the pipes go in."""
    floor = study.plan.floor
    elsewhere = "" if not study.plan.flooring_areas else ", save where another flooring lies"
    story: list[Flowable] = [
        heading("Floor and finish", size * 1.3),
        note(
            f"Subfloor {inches(floor.subfloor)} in{made_of(floor.subfloor_layers)} and finish {flooring_words(floor)} over the "
            f"joists, so the finished floor lies {inches(floor.finished_z)} in above the joists' top{elsewhere}. Neither is there "
            "when the pipes go in: all heights under the floor count down from the joists' top.",
            size,
        ),
    ]
    story += [
        note(
            f"finish {flooring_words(area)}, so the finished floor lies {inches(floor.subfloor + area.finish)} in above the "
            f"joists' top: {_stands_there(study, area)}.",
            size,
            lead=f"{describe(area)}:",
        )
        for area in study.plan.flooring_areas
    ]
    return story


def _stands_there(study: Study, area: FlooringArea) -> str:
    """What counts its heights from an area's flooring."""
    found = [called(one) for one in study.plan.fixtures if flooring_under(study.plan, one) is area]
    return f"{listed(found)} {'stands' if len(found) == 1 else 'stand'} on it" if found else "no fixture stands on it"


def _not_judged(study: Study, width: float, size: float) -> list[Flowable]:
    story: list[Flowable] = [heading("What could not be judged", size * 1.3)]
    if not study.not_judged:
        return [
            *story,
            note(
                "Every rule that applies had what it needed. Rules that are not on the last sheet were not looked at.",
                size,
            ),
        ]
    titles = {rule.id: rule.title for rule in ALL_RULES}
    rows = [
        [
            titles.get(rule, rule),
            *(on_paper(study.model, words) for words in (case.missing, ", ".join(case.elements))),
            place(case.at) if any(case.at) else "",
        ]
        for rule, case in study.not_judged
    ]
    columns = (Column("Rule", 24), Column("What is missing", 34), Column("Drawn as", 14), Column("Where", 20))
    return [*story, table(columns, rows, width, size * 0.94)]
