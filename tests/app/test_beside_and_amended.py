"""The command line under another book, and on plans that a place has amended."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from msgspec.structs import replace
from pypdf import PdfReader

from app.commands.program import main
from engine.plan import file
from engine.plan.records import Amendment, Ruling

SOUND = Path(__file__).resolve().parents[2] / "samples" / "one-bath-cottage.jway"


@pytest.fixture
def amended(tmp_path: Path) -> Path:
    path = tmp_path / "cottage.jway"
    plan = replace(
        file.read(SOUND),
        amendments=(Amendment("trap_arm.length.2", "12 in", "the county", "2026-03-02"),),
        rulings=(Ruling("sh1", "may stand as drawn", "the inspector", "2026-03-03"),),
    )
    file.save(plan, path)
    return path


def flat(text: str) -> str:
    return " ".join(text.split())


class TestBeside:
    def test_in_words(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["check", str(SOUND), "--beside", "upc-2021"]) == 0
        said = capsys.readouterr().out
        assert "FINDINGS THAT DIFFER" in said and "HOW EACH TRAP IS VENTED" in said
        assert (
            "Farthest from a trap's weir to its vent (2 in): 96 in by IRC 2021 Table P3105.1; "
            "60 in by UPC 2021 Table 1002.2." in flat(said)
        )
        assert max(map(len, said.splitlines())) <= 100

    def test_as_json_beside_the_plan_s_own_answer(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["check", str(SOUND), "--json"]) == 0
        own = json.loads(capsys.readouterr().out)
        assert main(["check", str(SOUND), "--json", "--beside", "upc-2021"]) == 0
        answer = json.loads(capsys.readouterr().out)
        beside = answer.pop("beside")
        assert answer == own
        assert (beside["here"]["name"], beside["there"]["name"]) == ("irc-2021", "upc-2021")
        assert beside["counts"]["to stop for"]["here"] == 0 < beside["counts"]["to stop for"]["there"]
        shower = next(trap for trap in beside["traps"] if trap["fixture"] == "sh1")
        assert (shower["here"]["limit"], shower["there"]["limit"], shower["differs"]) == (96.0, 60.0, True)
        values = {value["key"]: value for value in beside["values"]}
        assert values["trap_arm.length.2"]["tells"] is True

    def test_a_sheet_of_it(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["planset", str(SOUND), "--to", str(tmp_path / "set"), "--beside", "upc-2021"]) == 0
        texts = [flat(page.extract_text()) for page in PdfReader(tmp_path / "set" / "plan-set.pdf").pages]
        assert any("SHEET Under UPC 2021" in text for text in texts)

    @pytest.mark.parametrize(
        ("book", "why"),
        [("irc-2021", "judged by IRC 2021 already"), ("irc-1776", "no rule book 'irc-1776'; the books are irc-2021")],
    )
    @pytest.mark.parametrize("verb", ["check", "planset"])
    def test_a_book_that_can_not_stand_beside(
        self, verb: str, book: str, why: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        words = [verb, str(SOUND), "--beside", book, *(["--to", str(tmp_path / "set")] if verb == "planset" else [])]
        assert main(words) == 2
        said = capsys.readouterr()
        assert said.out == "" and why in said.err and said.err.count("\n") == 1
        assert not (tmp_path / "set").exists()


class TestAmended:
    def test_the_report_tells_every_local_word(self, amended: Path, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["check", str(amended)]) == 1
        said = flat(capsys.readouterr().out)
        assert "judged by IRC 2021 with 1 local amendment and 1 ruling" in said
        assert (
            "farthest from a trap's weir to its vent (2 in): 12 in instead of 96 in, IRC 2021 Table P3105.1 (read). "
            "Said by: the county, 2026-03-02." in said
        )
        assert "shower (sh1): may stand as drawn (the inspector, 2026-03-03)" in said

    def test_beside_its_own_book_as_printed(self, amended: Path, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["check", str(amended), "--beside", "irc-2021"]) == 1
        said = flat(capsys.readouterr().out)
        assert "by IRC 2021 as amended, beside itself by IRC 2021 as printed" in said
        assert "12 in by IRC 2021 Table P3105.1, amended; 96 in by IRC 2021 Table P3105.1." in said
        assert "LOCAL AMENDMENTS THAT ARE LEFT OUT" in said
