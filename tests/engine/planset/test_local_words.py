"""What the place has changed and decided stands on every sheet, in full on one of them, and in a list of its own."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import msgspec
import pytest
from pypdf import PdfReader

from engine.plan.records import Amendment, Plan, Ruling
from engine.planset import write
from engine.study import study
from engine.takeoff.local import amended_rows, local_words

SAID = {"said_by": "county office", "on": "2026-02-02"}
FEET = Amendment("trap_arm.length.2", "5 ft", **SAID)
VALVE = Amendment("valve.allowed", False)
WORD = Ruling("wc1", "accepted as drawn", "the inspector", "2026-02-03")
SECOND = Ruling("trap-too-far-from-vent", "look at it again in spring")


def pages(path: Path) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in PdfReader(path).pages]


def with_words(plan: Plan, amendments: tuple[Amendment, ...], rulings: tuple[Ruling, ...]) -> Plan:
    return msgspec.structs.replace(plan, amendments=amendments, rulings=rulings)


@pytest.mark.parametrize("paper", ["letter", "a3"])
def test_every_sheet_says_so_and_names_the_sheet_that_lists_them(hand_plan: Plan, tmp_path: Path, paper: str) -> None:
    found = study(with_words(hand_plan, (FEET, VALVE), (WORD, SECOND)))
    plan_set, templates, *_ = write(found, tmp_path, paper)
    sheets = pages(plan_set)
    listed = [n for n, text in enumerate(sheets, 1) if "60 in instead of 96 in" in text]
    assert len(listed) == 1
    note = f"Judged by IRC 2021 with 2 local amendments and 2 rulings: see P-{listed[0]}."
    assert all(note in text for text in sheets)
    assert all("IRC 2021, see note above" in text for text in sheets)
    short = "Judged by IRC 2021; 2 local amendments and 2 rulings: see the plan set"
    assert all(short in text for text in pages(templates))


def test_they_are_printed_in_full(hand_plan: Plan, tmp_path: Path) -> None:
    cover = " ".join(pages(write(study(with_words(hand_plan, (FEET, VALVE), (WORD, SECOND))), tmp_path)[0])[:3])
    assert (
        "Farthest from a trap's weir to its vent (2 in): 60 in instead of 96 in, IRC 2021 Table P3105.1 (read). "
        "Said by: county office, 2026-02-02." in cover
    )
    assert "Whether air admittance valves are accepted: no instead of yes, IRC 2021 P3114 (read). " in cover
    assert "Said by: no one is named." in cover
    assert "A trap too far from its vent: look at it again in spring (no one is named)" in cover


def test_a_plan_without_any_is_plain(hand_plan: Plan, tmp_path: Path) -> None:
    plan_set, templates, *_ = write(study(hand_plan), tmp_path)
    assert not any("Judged by IRC 2021 with" in text or "see note above" in text for text in pages(plan_set))
    assert all("Judged by IRC 2021" in text and "see the plan set" not in text for text in pages(templates))


def test_the_list_for_a_spreadsheet(hand_plan: Plan, tmp_path: Path) -> None:
    write(study(with_words(hand_plan, (FEET,), (WORD,))), tmp_path)
    rows = list(csv.DictReader(io.StringIO((tmp_path / "judged-by.csv").read_text(encoding="utf-8-sig"))))
    assert [row["kind"] for row in rows] == ["rule book", "amendment", "ruling"]
    assert (rows[0]["what"], rows[0]["section"]) == ("International Residential Code, 2021 edition", "IRC 2021")
    assert (rows[1]["becomes"], rows[1]["in the book"], rows[1]["how known"]) == ("60 in", "96 in", "read")
    assert (rows[1]["said by"], rows[1]["on"], rows[1]["name in the plan file"]) == (
        "county office",
        "2026-02-02",
        "trap_arm.length.2",
    )
    assert (rows[2]["what"], rows[2]["becomes"]) == ("water closet wc1", "accepted as drawn")


def test_the_last_word_on_a_value_is_the_one_that_counts(hand_plan: Plan) -> None:
    again = Amendment("trap_arm.length.2", 72.0, "the new official", "2026-05-01")
    model = study(with_words(hand_plan, (FEET, again), ())).model
    (row,) = amended_rows(model)
    assert (row.becomes, row.was, row.source) == ("72 in", "96 in", "the new official, 2026-05-01")
    assert local_words(model) == "1 local amendment"


def test_two_rulings_on_one_thing_both_stand_by_its_finding(hand_plan: Plan, tmp_path: Path) -> None:
    found = study(hand_plan)
    about = found.findings[0].elements[0]
    rulings = (Ruling(about, "first word", "the inspector", "2026-02-03"), Ruling(about, "second word"))
    sheet = next(
        text
        for text in pages(write(study(with_words(hand_plan, (), rulings)), tmp_path)[0])
        if "SHEET Findings" in text
    )
    assert "Ruling: first word (the inspector, 2026-02-03)" in sheet
    assert "Ruling: second word (no one is named)" in sheet
