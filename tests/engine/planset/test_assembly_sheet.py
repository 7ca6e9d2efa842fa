"""The assembly order on paper: every step once with a box, none of its words lost, its dials and signs true."""

from __future__ import annotations

import io
import math
import re
from collections.abc import Callable
from pathlib import Path

import msgspec
import pdfplumber
import pytest
from pypdf import PdfReader

from engine.drawings import Fill, Text
from engine.drawings.dial import RADIUS, dial
from engine.drawings.signs import WIDTH, Sign, sign
from engine.plan.file import read
from engine.plan.records import Plan, Vent
from engine.planset.assembly_sheet import TITLE, assembly_order, left_long_pieces
from engine.planset.book import Book
from engine.planset.papers import PAPERS
from engine.planset.step_rows import signs_of, told, unbroken
from engine.planset.subassemblies import subassemblies
from engine.study import study
from engine.takeoff.assembling.words import turned
from engine.takeoff.assembly import Slide, Step, assembly

Floor = Callable[..., Plan]
SAMPLES = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))


def printed(plan: Plan) -> bytes:
    answer = study(plan)
    book = Book(plan, PAPERS["letter"], answer.model.book.short)
    return book.saved(assembly_order(book, answer))


def looped(plan: Plan) -> Plan:
    """The floor worked by hand with a second riser and a vent from riser to riser: a ring of pipe."""
    riser = msgspec.structs.replace(plan.risers[0], id="r2", at=(70.25, 40.0))
    lavatory = msgspec.structs.replace(plan.fixtures[1], id="lav2", at=(70.25, 40.0))
    drain = msgspec.structs.replace(plan.drains[1], id="d3", points=((70.25, 40.0), (36.0, 40.0)))
    main = msgspec.structs.replace(plan.drains[0], points=((36.0, 92.0), (36.0, 62.0), (36.0, 40.0), (36.0, 20.0)))
    return msgspec.structs.replace(
        plan,
        risers=(plan.risers[0], msgspec.structs.replace(riser, top="none")),
        fixtures=(*plan.fixtures, lavatory),
        drains=(main, plan.drains[1], drain),
        vents=(Vent(id="v1", points=((70.25, 40.0), (70.25, 69.0)), above_floor=60.0),),
    )


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_step_stands_once_in_its_order_in_one_group(path: Path) -> None:
    model = study(read(path)).model
    steps = assembly(model)
    groups = subassemblies(model, steps)
    assert [step for group in groups for step in group.steps] == list(steps)
    assert all(group.title for group in groups)


def test_the_groups_of_the_floor_worked_by_hand(hand_floor: Floor) -> None:
    model = study(hand_floor()).model
    assert [group.title for group in subassemblies(model, assembly(model))] == [
        "From exit x1: drain d1, to water closet (wc1)",
        "Drain d2 and riser r1, to lavatory (lav1)",
        "The test",
        "After the test",
        "Once the roof is covered",
        "Once the finish stands",
    ]


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_no_word_of_a_step_is_lost(path: Path) -> None:
    model = study(read(path)).model
    for step in assembly(model):
        parts = [f"{lead} {words}" for lead, words in told(model, step)]
        parts += [turned((turn,)) for turn in step.rotations]
        kept = " ".join(parts).replace("\u00a0", " ").split()
        for word in step.text.split():
            bare = word.strip(".;:,")
            assert any(bare == other.strip(".;:,") for other in kept), (step.number, word)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_checks_and_turns_stand_apart(path: Path) -> None:
    model = study(read(path)).model
    seen = 0
    for step in assembly(model):
        first, *rest = told(model, step)
        assert "Check" not in first[1]
        assert len(rest) == len(step.checks) + len(step.needs)
        if step.rotations and step.kind != "dry fit":
            seen += 1
            assert "degrees" not in first[1]
    assert seen


def test_the_printed_sheet(hand_floor: Floor) -> None:
    plan = hand_floor()
    model = study(plan).model
    steps = assembly(model)
    with pdfplumber.open(io.BytesIO(printed(plan))) as pdf:
        text = " ".join(" ".join((page.extract_text() or "").split()) for page in pdf.pages)
        boxes = [rect for page in pdf.pages for rect in page.rects if _is_box(rect)]
        numbers = [
            int(word["text"])
            for page in pdf.pages
            for word in page.extract_words(extra_attrs=["fontname", "size"])
            if "Semibold" in word["fontname"] and word["text"].isdigit() and 0.45 * 72 < word["x0"] < 1.2 * 72
        ]
    assert numbers == [step.number for step in steps]
    assert len(boxes) == len(steps)
    assert [str(entry.title) for entry in PdfReader(io.BytesIO(printed(plan))).outline] == [f"P-1  {TITLE}"]
    # the wye's branch lies level at 3 o'clock less the roll of its fall: atan(1/4 / 12) sqrt 2 less, 89.5 degrees
    assert "89.5°" in text
    for words in ("DRY-FIT", "LEAVE DRY", "LEVEL", "THREAD", "GLUE", "START"):
        assert words in text


def _is_box(rect: dict[str, float]) -> bool:
    return math.isclose(rect["width"], 0.13 * 72, abs_tol=0.2) and math.isclose(rect["height"], 0.13 * 72, abs_tol=0.2)


def test_what_is_sawn_long_stands_with_both_lengths(hand_floor: Floor) -> None:
    model = study(hand_floor()).model
    steps = assembly(model)
    stub, vent = left_long_pieces(model, steps)
    assert (stub.why, vent.why) == ("stub", "vent")
    assert stub.piece.pipes == ("wc1.drop",)
    assert stub.extra == 6.0  # common practice, no source
    text = " ".join(_words(printed(hand_floor())).split())
    # axis 6 11/16 less 1/2 of pipe stop and 3 1/16 of the bend: 3 1/8 in, 6 in more for the test
    assert f'{stub.piece.mark} 3 in waste {stub.set_in} 9 1/8" 3 1/8" {stub.cut_in}' in text
    cutting = next(step for step in steps if step.number == stub.cut_in)
    assert f"cut {stub.piece.mark} to its final 3 1/8 in" in cutting.text


def _words(raw: bytes) -> str:
    with pdfplumber.open(io.BytesIO(raw)) as pdf:
        return "\n".join(page.extract_text() or "" for page in pdf.pages)


def test_a_ring_has_its_closing_joint(hand_floor: Floor) -> None:
    plan = looped(hand_floor())
    model = study(plan).model
    steps = assembly(model)
    (closing,) = (step for step in steps if step.kind == "close")
    assert [group.title for group in subassemblies(model, steps)].count("Joints that close a ring") == 1
    text = " ".join(_words(printed(plan)).split())
    assert "CLOSING" in text
    assert "2 of repair coupling 1-1/2" in " ".join(words for _, words in told(model, closing))
    assert "2 of repair coupling 1-1/2" in text


@pytest.mark.parametrize(
    ("step", "want"),
    [
        (Step(1, "thread", "", slides=(Slide("D1", (), (None, None), "west"),)), ("thread", "leave dry")),
        (Step(1, "dry fit", ""), ("dry-fit", "leave dry")),
        (Step(1, "close", ""), ("closing",)),
        (Step(1, "stuck", ""), ("stop",)),
        (Step(1, "set", "", slides=(Slide("D1", (), (None, None), "west"),)), ("thread",)),
        (Step(1, "set", "", pieces=("D9",)), ("long",)),
        (Step(1, "test", ""), ("test",)),
        (Step(1, "roof", ""), ("roof",)),
    ],
)
def test_each_step_has_its_signs(step: Step, want: tuple[Sign, ...]) -> None:
    assert signs_of(step, frozenset({"D9"})) == want


@pytest.mark.parametrize("degrees", [0.0, 45.0, 88.8, 180.0, 271.2, 359.0])
def test_a_dial_points_where_a_clock_would(degrees: float) -> None:
    drawing = dial(degrees, plumb=False)
    (head,) = (stroke for stroke in drawing.strokes if isinstance(stroke, Fill))
    tip = head.points[0]
    middle = drawing.width / 2.0
    assert tip[0] - middle == pytest.approx(RADIUS * 0.98 * math.sin(math.radians(degrees)))
    assert tip[1] - middle == pytest.approx(RADIUS * 0.98 * math.cos(math.radians(degrees)))


def test_a_dial_says_what_is_at_its_top() -> None:
    for plumb, word in ((False, "12"), (True, "N")):
        assert word in {stroke.text for stroke in dial(10.0, plumb).strokes if isinstance(stroke, Text)}


@pytest.mark.parametrize(
    "kind",
    [
        "start", "glue", "thread", "dry-fit", "leave dry", "level", "closing", "stop", "long", "test", "untest",
        "roof", "finish", "loose",
    ],
)  # fmt: skip
def test_a_sign_has_its_word_and_stays_in_its_place(kind: Sign) -> None:
    drawing = sign(kind)
    assert drawing.width == WIDTH
    assert any(isinstance(stroke, Text) and re.search("[A-Z]{2}", stroke.text) for stroke in drawing.strokes)
    for stroke in drawing.strokes:
        for x, y in getattr(stroke, "points", ()):
            assert -1e-9 <= x <= WIDTH + 1e-9
            assert -1e-9 <= y <= drawing.height + 1e-9


def test_mixed_numbers_are_not_torn() -> None:
    assert unbroken("2 11/16 in and 3 in, step 4") == "2\u00a011/16 in and 3 in, step 4"


def test_with_nothing_to_put_together_it_says_so(hand_floor: Floor) -> None:
    base = hand_floor()
    text = _words(printed(msgspec.structs.replace(base, fixtures=(), drains=(), risers=(), exits=())))
    assert "There is no drain or vent to put together yet." in text
