"""write(study, folder): the whole plan set as one PDF, beside it the templates and the lists as CSV."""

from __future__ import annotations

from pathlib import Path

from engine.comparing import Comparison, compare
from engine.plan.storing import store
from engine.planset import carrying_lists, cover, isometrics, layout_lists, pipe_lists, plans, templates
from engine.planset.assembly_sheet import assembly_order
from engine.planset.beside_sheet import beside_sheet
from engine.planset.book import Book, Page
from engine.planset.elevation_sheets import elevation_sheets
from engine.planset.findings import findings
from engine.planset.framing_sheet import framing
from engine.planset.gauge_sheet import gauge_sheet
from engine.planset.line_sheets import line_sheets
from engine.planset.load_sheet import load_sheet
from engine.planset.papers import paper_named
from engine.planset.quantities import sheet_numbers
from engine.planset.rules_sheet import rules_looked_at
from engine.planset.setting_out import setting_out
from engine.planset.trip_sheet import shopping_list
from engine.planset.vent_sheet import vents
from engine.planset.wall_sheet import plates_and_studs
from engine.planset.wall_views import wall_sheets
from engine.study import Study
from engine.takeoff.schedules import TakenOff, as_csv, schedules, taken_off

PDF = "plan-set.pdf"
TEMPLATES = "templates.pdf"


def write(study: Study, folder: Path, paper: str = "letter", beside: str | None = None) -> tuple[Path, ...]:
    """Write plan set, templates and lists into a folder, which is made if need be; returns the files, the plan set first.

    `beside` names another rule book, under which the plan then stands on sheets of its own as well. Every file replaces
    its old self in one step. Raises PaperError for an unknown paper, PlanSetError for a text that fits no sheet,
    RuleBookError or SameBookError for a book that nothing can be set beside, and OSError when the system refuses.
    """
    taken = taken_off(study.model)
    comparison = None if beside is None else compare(study.plan, beside)
    files = {PDF: pdf(study, taken, paper, comparison), TEMPLATES: templates.pdf(study, paper)}
    for schedule in schedules(study, taken):
        files[f"{schedule.name}.csv"] = as_csv(schedule).encode("utf-8-sig")
    folder.mkdir(parents=True, exist_ok=True)
    written = []
    for name, raw in files.items():
        store(raw, folder / name)
        written.append(folder / name)
    return tuple(written)


def pdf(study: Study, taken: TakenOff, paper: str = "letter", comparison: Comparison | None = None) -> bytes:
    """The plan set as PDF bytes: the same study gives the same bytes. A comparison gets sheets of its own."""
    book = Book(study.plan, paper_named(paper), study.model.book.short)
    pages = [
        *plans.plan_sheets(book, study),
        *framing(book, study),
        *setting_out(book, study),
        *isometrics.isometric_sheets(book, study),
        *findings(book, study),
        *vents(book, study),
        *load_sheet(book, study),
        *(() if comparison is None else beside_sheet(book, study, comparison)),
        *layout_lists.joist_cuts(book, study),
        *elevation_sheets(book, study),
        *plates_and_studs(book, study),
        *wall_sheets(book, study),
        *line_sheets(book, study, taken),
        *carrying_lists.heights(book, study, taken),
        *gauge_sheet(book, study),
        *pipe_lists.cuts(book, study),
        *pipe_lists.sticks(book, study, taken),
        *shopping_list(book, study, taken),
        *assembly_order(book, study, taken.held),
        *carrying_lists.supports(book, study, taken),
        *rules_looked_at(book, study),
    ]
    first = _cover(book, study, pages)
    return book.saved([*first, *pages])


def _cover(book: Book, study: Study, pages: list[Page]) -> list[Page]:
    """The cover with its sheet list; it is laid out again when it takes another number of pages than thought."""
    count, tried = 1, 0
    while True:
        first = cover.cover(book, study, _sheet_list(count, pages))
        tried += 1
        if len(first) == count or tried == 3:
            return first
        count = len(first)


def _sheet_list(covers: int, pages: list[Page]) -> list[tuple[str, str]]:
    numbers: dict[str, list[int]] = {cover.TITLE: list(range(1, covers + 1))}
    for number, page in enumerate(pages, covers + 1):
        numbers.setdefault(page.titled.title, []).append(number)
    return [(sheet_numbers(found), title) for title, found in numbers.items()]
