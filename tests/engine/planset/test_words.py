"""What the user typed is printed as typed: never read as markup, never a picture, never a broken sheet."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path

import msgspec
import pytest
from pypdf import PdfReader

from engine.plan.records import Plan, Ruling
from engine.planset import write
from engine.planset.fonts import MISSING, REGULAR
from engine.planset.words import fitted, paragraph, plain
from engine.study import study

NASTY = {
    "comparison": "x<y and y>z",
    "tag": "<todo>",
    "picture": '<img src="/etc/hostname" width="10" height="10"/>',
    "bold": "<b>not bold</b> &amp; &#65; &lt;",
    "entity": "a & b; 100% <-- 'quoted' \"twice\"",
    "break": "</para><para>",
    "colour": '<font color="red">no</font>',
    "link": '<a href="file:///etc/hostname">here</a>',
}


def printed_text(text: str) -> str:
    from reportlab.pdfgen.canvas import Canvas
    from reportlab.platypus import Frame

    out = io.BytesIO()
    canvas = Canvas(out, pagesize=(612, 792), invariant=1)
    flowable = paragraph(text)
    Frame(36, 36, 540, 720).addFromList([flowable], canvas)
    canvas.save()
    return " ".join(PdfReader(out).pages[0].extract_text().split())


@pytest.mark.parametrize("text", NASTY.values(), ids=NASTY.keys())
def test_a_paragraph_prints_markup_as_typed(text: str) -> None:
    assert printed_text(text) == " ".join(text.split())


@pytest.mark.parametrize("text", NASTY.values(), ids=NASTY.keys())
def test_a_line_prints_markup_as_typed(text: str) -> None:
    assert plain(text) == " ".join(text.split())


def test_control_characters_are_gone_and_lines_kept() -> None:
    assert plain("a\x00b\x1b[31mc\x07") == "ab[31mc"
    assert plain("left\u202eright\u2066mark\u200b") == "leftrightmark"
    assert plain("two\nlines\tand a tab") == "two lines and a tab"
    assert printed_text("two\nlines") == "two lines"


def test_letters_are_composed() -> None:
    assert plain("Cafe\u0301") == "Caf\u00e9"


def test_a_letter_that_the_typeface_lacks_is_shown_as_one() -> None:
    assert plain("a \N{GRINNING FACE} b") == f"a {MISSING} b"
    assert plain("\u05e9\u05dc\u05d5\u05dd") == MISSING * 4
    assert MISSING in printed_text("\u65e5\u672c")


def test_what_is_too_wide_for_its_place_is_cut_off_visibly() -> None:
    from reportlab.pdfbase.pdfmetrics import stringWidth

    short = fitted("W" * 200, 100.0, REGULAR, 9.0)
    assert short.endswith("…")
    assert stringWidth(short, REGULAR, 9.0) <= 100.0
    assert fitted("short", 100.0, REGULAR, 9.0) == "short"


def test_ten_thousand_letters_flow() -> None:
    text = "word " * 2000
    assert plain(text).count("word") == 2000
    assert plain("x" * 50_000).endswith("(cut off here)")


@pytest.mark.parametrize(
    "text",
    [
        *NASTY.values(),
        "\N{GRINNING FACE}" * 30,
        "\u05e9\u05dc\u05d5\u05dd",
        "x" * 2000,
        "word " * 400,
        "a\x00\nb",
        "=1+1",
    ],
    ids=lambda text: repr(text[:12]),
)
def test_the_whole_set_takes_any_text(text: str, hand_floor: Callable[..., Plan], tmp_path: Path) -> None:
    plan = msgspec.structs.replace(
        hand_floor(),
        name=text,
        place=text,
        drawn_by=text,
        drawn_on=text,
        rulings=(Ruling(about="wc1", text=text, said_by=text, on=text),),
    )
    files = write(study(plan), tmp_path)
    reader = PdfReader(files[0])
    assert len(reader.pages) >= 8
    if len(text) < 40:
        cover = " ".join(reader.pages[0].extract_text().split())
        assert plain(text) in cover
