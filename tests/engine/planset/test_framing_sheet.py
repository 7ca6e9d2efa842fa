"""The sheets for the framer as a reader sees them: every corner and every stick from one datum."""

from __future__ import annotations

import io
from pathlib import Path

import msgspec
import pytest
from pypdf import PdfReader

from engine.lengths import feet_inches
from engine.plan.file import read
from engine.plan.records import Beam, DoubledJoist, Floor, FloorOpening, JoistField, Plan
from engine.planset.book import Book
from engine.planset.framing_sheet import TITLE, framing
from engine.planset.papers import PAPERS
from engine.study import study
from engine.takeoff.framing_rows import running

SAMPLES = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))


def printed(plan: Plan, paper: str = "letter") -> list[str]:
    answer = study(plan)
    book = Book(plan, PAPERS[paper], answer.model.book.short)
    raw = book.saved(framing(book, answer))
    return [" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(raw)).pages]


def ell() -> Plan:
    """20 by 10 ft, its north-east cut out from 14 ft on; a hatch, a girder, a row of blocks, joist 7 double."""
    return Plan(
        floor=Floor(
            outline=((0.0, 0.0), (240.0, 0.0), (240.0, 72.0), (168.0, 72.0), (168.0, 120.0), (0.0, 120.0)),
        ),
        fields=(
            JoistField("f1", (0.0, 0.0), (240.0, 120.0), doubled=(DoubledJoist(7),), blocking=(90.0,), to_outline=True),
        ),
        floor_openings=(FloorOpening("o1", (193.0, 20.0), (223.0, 44.0), name="crawl hatch"),),
        beams=(Beam("b1", (0.0, 60.0), (240.0, 60.0), name="girder"),),
    )


def test_an_ell_can_be_framed_from_the_sheet() -> None:
    plan, *lists = printed(ell())
    listed = " ".join(lists)
    assert TITLE in plan
    # the inner corner, and where it is drawn: 14'-0" at the foot, 6'-0" at the left
    assert "20'-0\" E 6'-0\" N; 14'-0\" E 6'-0\" N; 14'-0\" E 10'-0\" N" in listed
    assert "14'-0\"" in plan and "6'-0\"" in plan and "7'-6\"" in plan and "5'-0\"" in plan
    # 168 by 120: sqrt(42624) = 206.456, printed 17'-2 7/16
    assert "are 17'-2 7/16\" each" in listed and "17'-2 7/16\"" in plan
    assert "joist 7 9'-3 1/4\" 9'-4\" 9'-6 1/4\" west" in listed
    assert "2 plies, the second on its east side" in listed
    assert "outside faces of the west side joist and of the south rim" in listed
    # the girder 57-3/4 to 62-1/4, its top at the joists' underside
    assert "girder 4'-9 3/4\" 5'-0\" 5'-2 1/4\" south" in listed
    # the hatch: its headers and trimmers by name
    assert "south header: 2x10, 2'-6\"; north header: 2x10, 2'-6\"" in listed
    assert "west trimmer: 2x10, 5'-9\"; east trimmer: 2x10, 5'-9\"" in listed


def test_an_opening_of_a_second_field_keeps_its_members_names_and_the_floors_datum() -> None:
    plan = Plan(
        floor=Floor(outline=((0.0, 0.0), (240.0, 0.0), (240.0, 108.0), (0.0, 108.0))),
        fields=(JoistField("f1", (0.0, 0.0), (120.0, 108.0)), JoistField("f2", (120.0, 0.0), (120.0, 108.0))),
        floor_openings=(FloorOpening("o1", (153.0, 40.0), (183.0, 76.0), name="hatch"),),
    )
    listed = " ".join(printed(plan)[1:])
    assert "hatch 12'-9\" and 15'-3\" 3'-4\" and 6'-4\" south header: 2x10" in listed
    assert "f1.2 on the drawings is joist 2 of f1 in the lists." in listed
    assert "f2:" not in listed.replace("Joists of f2:", "")


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_stick_of_the_samples_has_its_row(path: Path, paper: str) -> None:
    plan = read(path)
    listed = " ".join(printed(plan, paper)[1:])
    rows = running(study(plan).model)
    assert rows
    for row in rows:
        assert f"{row.name} {feet_inches(row.near)} {feet_inches(row.mark)} {feet_inches(row.far)}" in listed


def test_no_sheet_without_joists() -> None:
    plan = msgspec.structs.replace(ell(), fields=(), floor_openings=(), beams=())
    answer = study(plan)
    assert framing(Book(plan, PAPERS["letter"], answer.model.book.short), answer) == []
