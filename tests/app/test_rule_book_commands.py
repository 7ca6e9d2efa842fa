"""The second rule book from the command line: its rules listed, and a plan that names it checked."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from app.commands.program import main
from engine.plan import file

SOUND = Path(__file__).resolve().parents[2] / "samples" / "one-bath-cottage.jway"


def test_every_rule_is_listed_with_the_uniform_code_s_section(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["rules", "--book", "upc-2021"]) == 0
    said = capsys.readouterr().out
    assert "UPC 2021 Table 1002.2" in said
    assert "IRC 2021 R502.8" in said, "wood goes by the building code"
    assert "IRC 2021 P" not in said
    assert "this code has no such rule" in said
    assert "this book has no" not in said


def test_a_plan_that_names_it_is_checked_by_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = tmp_path / "cottage.jway"
    text = file.dumps(file.read(SOUND)).decode()
    plan.write_text(text.replace('"plan": {', '"plan": {\n  "rulebook": "upc-2021",', 1), encoding="utf-8")
    assert main(["check", str(SOUND), "--json"]) == 0
    capsys.readouterr()
    assert main(["check", str(plan), "--json"]) == 1
    answer = json.loads(capsys.readouterr().out)
    assert answer["rulebook"] == "upc-2021"
    assert "UPC 2021 908.2" in {finding["cites"] for finding in answer["findings"]}
    assert {trap["fixture"]: trap["limit"] for trap in answer["traps"]} == {"wc1": 72, "lav1": 30, "sh1": 60}
