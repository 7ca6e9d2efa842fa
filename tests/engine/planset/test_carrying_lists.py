"""The sheets that the pipes are hung by, as a reader sees them, and the columns of their CSV."""

from __future__ import annotations

import csv
from collections.abc import Callable
from pathlib import Path

import pdfplumber
import pytest
from msgspec.structs import replace

from engine.plan.records import Drain, Plan
from engine.planset import PAPERS, write
from engine.study import study
from tests.engine.planset.test_plan_set import sheet, text_of

Floor = Callable[..., Plan]
HEIGHTS, SUPPORTS = "Heights along the runs", "Supports"


def under(hand_floor: Floor) -> Plan:
    """A closet at (6, 92) whose 3 in drain goes 100 in east, 3 to 5 in under the 2x10s."""
    plan = hand_floor(lavatory=False, pinned=-14.0)
    return replace(
        plan,
        fixtures=(replace(plan.fixtures[0], at=(6.0, 92.0)),),
        drains=(Drain(id="d1", points=((6.0, 92.0), (106.0, 92.0)), size="3", passing="under"),),
        exits=(replace(plan.exits[0], at=(106.0, 92.0)),),
    )


@pytest.fixture
def hung(hand_floor: Floor, tmp_path: Path) -> Path:
    """The folder with its plan set."""
    write(study(under(hand_floor)), tmp_path)
    return tmp_path


def test_a_strap_from_its_joist_with_its_drop_and_its_length(hung: Path) -> None:
    # 42 in along: axis 14 - 58/48 = 12.7917 down, underside 14.5417, 5.2917 under the joists; the strap is
    # 2 x 3.5417 + 3.1416 x 1.75 + 4 = 16.5811, rounded up
    words = sheet(text_of(hung / "plan-set.pdf"), SUPPORTS)
    assert "S1 42 strap joist 3 1'-2 1/2\" from north 14 9/16 5 5/16 below 16 5/8 for the spacing" in words.replace(
        "\u00a0", " "
    )


def test_heights_under_the_joists_are_told_from_their_bottom_edge(hung: Path) -> None:
    words = sheet(text_of(hung / "plan-set.pdf"), HEIGHTS).replace("\u00a0", " ")
    # centre 12.7917, underside 14.5417; 3.5417 and 5.2917 under the 9.25 of the joist
    assert "d1 42 joist 3, strap 12 13/16 14 9/16 3 9/16 below 5 5/16 below" in words
    assert "falls 1/4 in to the foot" in words


def test_blocks_by_their_bay_and_joists_that_carry_in_one_row(printed: Path) -> None:
    words = sheet(text_of(printed / "plan-set.pdf"), SUPPORTS).replace("\u00a0", " ")
    assert "S1 36 block joists 2 and 3 4'-2 1/2\" from north 3 1/4 8 3/16 1 1/16 up 14 1/2" in words
    assert "6 1/4 to 22 1/4 bored joist joists 4, 3 the wood carries it" in words


@pytest.mark.parametrize("paper", sorted(PAPERS))
def test_no_cell_is_torn_or_runs_into_its_neighbour(hand_floor: Floor, tmp_path: Path, paper: str) -> None:
    write(study(under(hand_floor)), tmp_path, paper)
    with pdfplumber.open(tmp_path / "plan-set.pdf") as pdf:
        pages = [page for page in pdf.pages if "From edge:" in (page.extract_text() or "")]
        assert pages
        words = [word["text"] for page in pages for word in page.extract_words()]
        assert words.count("below") > 10
        # a word torn apart leaves its end, a torn fraction a part that ends in its line
        assert not {"w", "low", "elow", "belo", "/16", "1/", "15/", "15/1"} & set(words)


def test_the_csv_has_the_new_columns_beside_the_old(hung: Path) -> None:
    with (hung / "supports.csv").open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file))
    strap = next(row for row in rows if row["kind"] == "strap")
    assert (strap["joist"], strap["hangs"], strap["end"]) == ("f1.3", "joist 3", "north")
    assert (strap["from end, tape"], strap["below, tape"], strap["strap, tape"]) == ("14 1/2", "5 5/16", "16 5/8")
    with (hung / "heights.csv").open(encoding="utf-8-sig", newline="") as file:
        heights = list(csv.DictReader(file))
    row = next(row for row in heights if row["held"] == "strap")
    assert (row["centre down, tape"], row["centre below, tape"], row["bottom below, tape"]) == (
        "12 13/16",
        "3 9/16",
        "5 5/16",
    )
