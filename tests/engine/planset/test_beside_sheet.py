"""The sheets of a plan under another rule book."""

from __future__ import annotations

from pathlib import Path

import pytest
from pypdf import PdfReader

from engine.comparing import SameBookError, compare
from engine.plan import file
from engine.planset import write
from engine.study import study
from engine.takeoff.naming import on_paper

SAMPLE = Path(__file__).resolve().parents[3] / "samples" / "one-bath-cottage.jway"


def pages(path: Path) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in PdfReader(path).pages]


@pytest.fixture(scope="module")
def under(tmp_path_factory: pytest.TempPathFactory) -> str:
    plan = file.read(SAMPLE)
    sheets = pages(write(study(plan), tmp_path_factory.mktemp("set"), beside="upc-2021")[0])
    own = [text for text in sheets if "SHEET Under UPC 2021" in text]
    assert "Under UPC 2021" in sheets[0], "the cover lists it"
    assert own
    return " ".join(own)


def test_every_difference_stands_there_with_its_reason(under: str) -> None:
    comparison = compare(file.read(SAMPLE), "upc-2021")
    model = study(file.read(SAMPLE)).model
    assert len(comparison.findings) >= 5
    for one in comparison.findings:
        assert " ".join(on_paper(model, one.finding.text).split()) in under
        assert all(on_paper(model, why) in under for why in one.why)
    for trap in comparison.traps:
        assert all(on_paper(model, why) in under for why in trap.why)
    for rule in comparison.silent:
        assert f"{rule.title} " in under


def test_it_says_which_book_holds_nowhere_and_what_is_left_out(under: str) -> None:
    assert "This plan is drawn and judged by IRC 2021." in under
    assert "Uniform Plumbing Code, 2021 edition (UPC 2021)" in under
    assert "only your building department can say" in under
    assert "more values differ between the books and change nothing on this plan" in under


def test_a_set_without_it_is_as_before(tmp_path: Path) -> None:
    assert not any("Under UPC" in text for text in pages(write(study(file.read(SAMPLE)), tmp_path)[0]))


def test_the_plan_s_own_book_is_refused_before_anything_is_written(tmp_path: Path) -> None:
    with pytest.raises(SameBookError):
        write(study(file.read(SAMPLE)), tmp_path / "set", beside="irc-2021")
    assert not (tmp_path / "set").exists()
