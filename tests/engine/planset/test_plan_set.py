"""The plan set as a reader sees it: sheets, numbers, tables, cautions; the same study gives the same bytes."""

from __future__ import annotations

import csv
import io
import re
import time
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import msgspec
import pdfplumber
import pytest
from pypdf import PdfReader

from engine.lengths import inches
from engine.plan.records import Amendment, Plan, Ruling
from engine.planset import PAPERS, PaperError, write
from engine.planset.cautions import CAUTIONS
from engine.study import study
from engine.takeoff.cutlist import cut_list

Floor = Callable[..., Plan]


def text_of(path: Path) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in PdfReader(path).pages]


def sheet(pages: list[str], title: str) -> str:
    """The text of the pages with a sheet title."""
    found = [page for page in pages if f"SHEET {title}" in page or f" {title} " in page[-260:]]
    assert found, title
    return " ".join(found)


def test_every_sheet_is_there_numbered_and_in_the_outline(printed: Path) -> None:
    reader = PdfReader(printed / "plan-set.pdf")
    count = len(reader.pages)
    for number, page in enumerate(reader.pages, 1):
        assert f"P-{number} of {count}" in page.extract_text()
    titles = [str(entry.title).split("  ", 1)[1] for entry in reader.outline if not isinstance(entry, list)]
    assert titles == [
        "Cover",
        "Floor plan",
        "Drains and vents",
        "Water",
        "Framing",
        "Setting out",
        "Drains and vents, isometric",
        "Water, isometric",
        "Findings",
        "Traps and their vents",
        "Fixture units and pipe sizes",
        "Joist cuts",
        "Joist elevations",
        "Plates and studs",
        "Walls with pipes",
        "Drains from the side",
        "Heights along the runs",
        "Gauge sheet",
        "Cut list",
        "Sticks to buy",
        "Shopping list",
        "Assembly order",
        "Supports",
        "Rules looked at",
    ]


def test_the_cover_lists_the_sheets_where_they_are(printed: Path) -> None:
    pages = text_of(printed / "plan-set.pdf")
    cover = next(page for page in pages if "Sheets" in page)
    found = re.search(r"P-(\d+) Joist cuts", cover)
    assert found is not None
    assert "Bits to bring" in pages[int(found[1]) - 1]


def test_a_small_job_without_water_has_one_plan_with_everything(hand_floor: Floor, tmp_path: Path) -> None:
    pages = text_of(write(study(hand_floor()), tmp_path)[0])
    plan = sheet(pages, "Floor plan")
    assert "EXIT x1" in plan
    assert '1/4" PER FT' in plan
    assert not any("Drains and vents" in page.replace("Drains and vents, isometric", "") for page in pages)


def test_the_cautions_stand_on_every_set(printed: Path) -> None:
    cover = " ".join(text_of(printed / "plan-set.pdf")[:2])
    for lead, words in CAUTIONS:
        assert lead in cover
        assert words[:40] in cover
    assert len(CAUTIONS) == 9


def test_the_code_its_edition_amendments_and_rulings_are_printed(hand_plan: Plan, tmp_path: Path) -> None:
    plan = msgspec.structs.replace(
        hand_plan,
        amendments=(Amendment(value="trap_arm.length.1-1/2", becomes=60.0, said_by="county office", on="2026-02-02"),),
        rulings=(Ruling(about="lav1", text="accepted as drawn", said_by="the inspector", on="2026-02-03"),),
    )
    cover = " ".join(text_of(write(study(plan), tmp_path)[0])[:2])
    assert "International Residential Code, 2021 edition (IRC 2021)" in cover
    amended = (
        "Farthest from a trap's weir to its vent (1-1/2 in): 60 in instead of 72 in, IRC 2021 Table P3105.1 (read)."
    )
    assert f"{amended} Said by: county office, 2026-02-02." in cover
    assert "lavatory lav1: accepted as drawn (the inspector, 2026-02-03)" in cover


def test_what_could_not_be_judged_is_printed(hand_floor: Floor, tmp_path: Path) -> None:
    found = study(hand_floor())
    cover = " ".join(text_of(write(found, tmp_path)[0])[:2])
    assert found.not_judged
    for _, case in found.not_judged:
        assert case.missing in cover


def test_each_cut_of_a_joist_has_its_row(printed: Path) -> None:
    words = sheet(text_of(printed / "plan-set.pdf"), "Joist cuts")
    # joist 48 is the third: 67.5 in from its south end, so 37.5 from the north; axis 6.0021 down
    assert 'joist 3 1-1/2 in, d2 bore, 2-1/8" bit 3 1/16" 67 1/2" from south 37 1/2" from north 6" 3 1/4"' in words
    # joist 64 is the fourth: axis 5.6688 down
    assert '5 11/16" 3 9/16"' in words
    # 9.25 / 3 = 3.083, rounded down
    assert '3 1/16"' in words


def test_each_piece_has_its_row(printed: Path, hand_plan: Plan) -> None:
    words = sheet(text_of(printed / "plan-set.pdf"), "Cut list")
    for row in cut_list(study(hand_plan).model):
        assert f"{row.mark} {row.system} " in words
        assert f'{inches(row.length)}"' in words


def test_heights_are_listed_at_joists_fittings_and_ends(printed: Path) -> None:
    words = sheet(text_of(printed / "plan-set.pdf"), "Heights along the runs")
    # the wye at 30 in: axis 6.3125, underside 1-3/4 lower
    assert "wye 3x3x1-1/2" in words
    assert "wye 3x3x1-1/2 6 5/16 8 1/16" in words
    assert "joist 3" in words


def test_columns_stand_where_their_heads_stand(printed: Path) -> None:
    with pdfplumber.open(printed / "plan-set.pdf") as pdf:
        page = next(page for page in pdf.pages if "Bits to bring" in (page.extract_text() or ""))
        words = page.extract_words()
        right = page.width - 0.38 * 72
        assert all(word["x1"] <= right + 0.5 and word["x0"] >= 0.38 * 72 - 0.5 for word in words)
        head = next(word for word in words if word["text"] == "Joist")
        cells = [word for word in words if word["text"] == "joist" and word["top"] > head["top"]]
        assert cells
        assert all(abs(cell["x0"] - head["x0"]) < 1.0 for cell in cells if cell["x0"] < head["x0"] + 20)


def test_the_scale_bar_is_true(printed: Path) -> None:
    """The bar's first field is 1 ft at 1/2 in to the foot: 36 points."""
    with pdfplumber.open(printed / "plan-set.pdf") as pdf:
        page = next(page for page in pdf.pages if "SCALE 1/2" in (page.extract_text() or ""))
        feet = sorted(
            (
                word
                for word in page.extract_words()
                if re.fullmatch(r"\d+'?", word["text"]) and word["bottom"] > page.height * 0.6
            ),
            key=lambda word: word["x0"],
        )
        marks = [word for word in feet if word["text"] in ("0", "1'", "2'", "3'", "4'")]
        middles = [(word["x0"] + word["x1"]) / 2 for word in marks if abs(word["top"] - marks[0]["top"]) < 0.5]
    assert [b - a for a, b in pairwise(middles)] == pytest.approx([36.0] * 4, abs=0.6)


def test_the_title_block_says_what_and_when_and_never_the_clock(printed: Path) -> None:
    page = text_of(printed / "plan-set.pdf")[2]
    for words in ("Alder Bank", "Lot 7", "the owner", "2026-03-01", "IRC 2021", "PVC"):
        assert words in page
    reader = PdfReader(printed / "plan-set.pdf")
    assert str(reader.metadata["/CreationDate"]).startswith("D:2000")


def test_the_same_study_gives_the_same_bytes(hand_plan: Plan, tmp_path: Path) -> None:
    first = [path.read_bytes() for path in write(study(hand_plan), tmp_path / "a")]
    again = [path.read_bytes() for path in write(study(hand_plan), tmp_path / "b")]
    assert first == again


def test_the_typeface_is_embedded_and_alone(printed: Path) -> None:
    names = set()
    for page in PdfReader(printed / "plan-set.pdf").pages:
        for font in page["/Resources"]["/Font"].values():
            made = font.get_object()
            names.add(str(made["/BaseFont"]))
            if "SourceSansPro" in str(made["/BaseFont"]):
                assert "/FontFile2" in made["/FontDescriptor"].get_object()
    used = {name for name in names if "SourceSansPro" in name}
    assert used
    assert names - used <= {"/Helvetica"}  # named by the PDF library on every page, used on none


@pytest.mark.parametrize("paper", sorted(PAPERS))
def test_every_paper(paper: str, hand_plan: Plan, tmp_path: Path) -> None:
    reader = PdfReader(write(study(hand_plan), tmp_path, paper)[0])
    want = pytest.approx((PAPERS[paper].short * 72, PAPERS[paper].long * 72), abs=0.1)
    for page in reader.pages:
        assert tuple(sorted((float(page.mediabox.width), float(page.mediabox.height)))) == want


def test_an_unknown_paper_is_named(hand_plan: Plan, tmp_path: Path) -> None:
    with pytest.raises(PaperError, match="papyrus"):
        write(study(hand_plan), tmp_path, "papyrus")
    assert list(tmp_path.iterdir()) == []


def test_an_empty_floor_prints(hand_floor: Floor, tmp_path: Path) -> None:
    pages = text_of(write(study(Plan(floor=hand_floor().floor)), tmp_path)[0])
    assert any("No exit is drawn" in page for page in pages)
    assert any("There is no pipe to cut yet" in page for page in pages)


def test_the_lists_lie_beside_it_as_csv(printed: Path, hand_plan: Plan) -> None:
    names = {path.name for path in printed.iterdir()}
    assert {
        "plan-set.pdf",
        "templates.pdf",
        "joist-cuts.csv",
        "heights.csv",
        "cut-list.csv",
        "shopping-list.csv",
        "sticks.csv",
    } <= names
    rows = list(csv.DictReader(io.StringIO((printed / "cut-list.csv").read_text(encoding="utf-8-sig"))))
    assert [row["mark"] for row in rows] == [row.mark for row in cut_list(study(hand_plan).model)]
    cuts = list(csv.DictReader(io.StringIO((printed / "joist-cuts.csv").read_text(encoding="utf-8-sig"))))
    third = next(row for row in cuts if row["joist"] == "joist 3")
    assert float(third["down from top"]) == pytest.approx(6.0021, abs=5e-5)
    assert (third["down from top, tape"], third["end"], third["legal"]) == ("6", "south", "yes")


def test_a_spreadsheet_takes_no_cell_for_a_sum(hand_floor: Floor, tmp_path: Path) -> None:
    from engine.takeoff.schedules import Schedule, as_csv

    assert as_csv(Schedule("x", ("a",), (("=1+1",), ("-2",), (-2.0,)))) == "a\r\n'=1+1\r\n'-2\r\n-2.0\r\n"


def test_the_folder_is_made_and_old_files_replaced(hand_plan: Plan, tmp_path: Path) -> None:
    folder = tmp_path / "new" / "sheets"
    folder.mkdir(parents=True)
    (folder / "plan-set.pdf").write_bytes(b"old")
    files = write(study(hand_plan), folder)
    assert files[0].read_bytes().startswith(b"%PDF")
    assert {path.parent for path in files} == {folder}
    assert {path.suffix for path in folder.iterdir()} == {".pdf", ".csv"}


def test_it_is_quick(hand_plan: Plan, tmp_path: Path) -> None:
    found = study(hand_plan)
    begun = time.perf_counter()
    write(found, tmp_path)
    assert time.perf_counter() - begun < 3.0
