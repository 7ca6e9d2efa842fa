"""Whatever small bath is drawn, its setting out, templates and assembly order go on paper whole."""

from __future__ import annotations

import io

from hypothesis import HealthCheck, given, settings
from pypdf import PdfReader

from engine.drawings import Text
from engine.drawings.struck import setting
from engine.drawings.templates import opening_templates
from engine.drawings.tiling import tiles
from engine.plan.records import Plan
from engine.planset import templates
from engine.planset.assembly_sheet import assembly_order
from engine.planset.book import Book
from engine.planset.papers import PAPERS
from engine.planset.setting_out import setting_out
from engine.planset.subassemblies import subassemblies
from engine.planset.templates import window_of
from engine.study import study
from engine.takeoff.assembly import assembly
from tests.engine.takeoff.small_baths import small_baths

FEW = settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True)
MANY = settings(FEW, max_examples=60)


@FEW
@given(small_baths())
def test_the_sheets_are_laid_out(plan: Plan) -> None:
    answer = study(plan)
    book = Book(plan, PAPERS["letter"], answer.model.book.short)
    pages = [*setting_out(book, answer), *assembly_order(book, answer)]
    assert len(PdfReader(io.BytesIO(book.saved(pages))).pages) == len(pages)
    assert PdfReader(io.BytesIO(templates.pdf(answer))).pages


@MANY
@given(small_baths())
def test_groups_hold_every_step_and_marks_their_faces(plan: Plan) -> None:
    model = study(plan).model
    steps = assembly(model)
    assert [step for group in subassemblies(model, steps) for step in group.steps] == list(steps)
    marks = setting(model)
    assert [one.number for one in marks.struck] == list(range(1, len(marks.struck) + 1))
    for one in marks.struck:
        assert one.east in marks.letters
        assert one.north in marks.letters
        assert one.to != one.number


@MANY
@given(small_baths())
def test_no_text_of_a_template_is_lost_between_its_sheets(plan: Plan) -> None:
    window = window_of(PAPERS["letter"])
    for made in opening_templates(study(plan), window.width, window.height):
        shown = {
            stroke.text
            for tile in tiles(made.drawing, window.width, window.height)
            for stroke in tile.strokes
            if isinstance(stroke, Text)
        }
        assert {stroke.text for stroke in made.drawing.strokes if isinstance(stroke, Text)} <= shown
