"""The sheet for setting out as a reader sees it: numbers, faces, holes, finish, diagonals, and what is not marked."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path

import msgspec
import pytest
from pypdf import PdfReader

from engine.plan.file import read
from engine.plan.records import Fixture, FlooringArea, FloorLayer, Plan
from engine.planset.book import Book
from engine.planset.papers import PAPERS
from engine.planset.setting_out import TITLE, holes_words, setting_out
from engine.study import study
from engine.takeoff.marking import Hole, layout

Floor = Callable[..., Plan]
SAMPLES = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))


def printed(plan: Plan, paper: str = "letter") -> list[str]:
    answer = study(plan)
    book = Book(plan, PAPERS[paper], answer.model.book.short)
    raw = book.saved(setting_out(book, answer))
    return [" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(raw)).pages]


def test_the_floor_worked_by_hand(hand_floor: Floor) -> None:
    plan, listed = printed(hand_floor())
    assert TITLE in plan
    assert "SCALE 1/2" in plan
    # west end joist 36 and 70 1/4 in off, south rim 92 and 69 in off; 34 1/4 by 23 is 41 1/4
    assert "1 Centre of the flange of water closet (wc1) 3'-0\" 7'-8\"" in listed
    assert "2 Riser r1 5'-10 1/4\" 5'-9\"" in listed
    assert "to 2: 3'-5 1/4\"" in listed
    assert "A, the outside face of the west end joist; B, the outside face of the south rim." in listed
    # 120 by 108 in: 161.44 in corner to corner
    assert "13'-5 7/16\"" in listed


def test_holes_and_finish_are_told(hand_floor: Floor) -> None:
    _, listed = printed(hand_floor())
    assert '5" through subfloor, for the closet flange' in listed
    assert '2 1/8" through subfloor, sole plate, top plates and roof, for 1-1/2 in pipe' in listed
    assert (
        "12 in from the finished wall w1 behind it = 12 1/2 in from its studs (1/2 in of finish allowed for)" in listed
    )


def test_stubs_stand_over_the_subfloor_with_the_finish_allowed_for(hand_floor: Floor) -> None:
    _, listed = printed(hand_floor())
    # a lavatory's arm 18 in over the finished floor, 1/4 in of finish on the subfloor
    assert "2 Drain of lavatory (lav1) 1'-6 1/4\" 1/4 in west" in listed
    assert '1 Flange of water closet (wc1) 1/4" 1/4 in up' in listed
    raised = msgspec.structs.replace(hand_floor().fixtures[1], outlet_above_floor=20.0)
    own = msgspec.structs.replace(hand_floor(), fixtures=(hand_floor().fixtures[0], raised))
    assert "1'-8 1/4\" 1/4 in west as written into the plan" in printed(own)[-1]


def test_each_stub_names_the_finish_that_its_height_allows_for(hand_floor: Floor) -> None:
    """3/4 in of subfloor; 1/4 in of backer and 3/8 in of tile round the closet and before one lavatory, else 1/4 in."""
    tile = (FloorLayer(0.25, "backer board"), FloorLayer(0.375, "tile"))
    bath = FlooringArea("c1", (0.0, 65.0), (68.0, 108.0), 0.625, tile, "tiled bath")
    other = Fixture("lav2", "lavatory", (70.25, 69.0), turn=0.0, name="hall lavatory")
    plan = hand_floor()
    listed = printed(msgspec.structs.replace(plan, flooring_areas=(bath,), fixtures=(*plan.fixtures, other)))[-1]
    told = "5/8 in (1/4 in backer board and 3/8 in tile)"
    assert f'1 Flange of water closet (wc1) 5/8" {told} up' in listed
    assert f"2 Drain of lavatory (lav1) 1'-6 5/8\" {told} west" in listed
    assert "2 Drain of hall lavatory (lav2) 1'-6 5/8\" 5/8 in, the highest at its riser east" in listed


def test_water_stubs_have_rows_and_heights(hand_plan: Plan) -> None:
    listed = " ".join(printed(hand_plan)[1:])
    # 3/4 in holes for 1/2 in tube, 5/8 in outside
    assert "Cold water for water closet (wc1)" in listed
    assert '7/8" through subfloor' in listed


def test_what_cannot_be_marked_is_said(hand_floor: Floor) -> None:
    plan = msgspec.structs.replace(hand_floor(), fields=())
    answer = study(plan)
    missing = layout(answer.model).not_marked
    assert missing
    (only,) = printed(plan)
    assert "What could not be marked" in only
    for one in missing:
        assert one.why in only


def test_a_plan_without_pipes_says_so(hand_floor: Floor) -> None:
    base = hand_floor()
    (only,) = printed(msgspec.structs.replace(base, fixtures=(), drains=(), risers=(), exits=()))
    assert "No pipe that is drawn comes up through the floor or leaves it." in only


@pytest.mark.parametrize("paper", sorted(PAPERS))
@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_mark_of_the_samples_has_its_row(path: Path, paper: str) -> None:
    plan = read(path)
    listed = " ".join(printed(plan, paper)[1:])
    for number, mark in enumerate(layout(study(plan).model).marks, 1):
        assert f"{number} {mark.words[:1].upper()}{mark.words[1:]}" in listed


class TestHoles:
    def hole(self, through: str, diameter: float | None = 2.125, standing: str = "read") -> Hole:
        return Hole(through, diameter, "2-1/8 bit or hole saw", "1-1/2 in pipe", standing, "the source")  # type: ignore[arg-type]

    def test_alike_ones_are_told_together(self) -> None:
        holes = (self.hole("subfloor"), self.hole("sole plate"))
        assert holes_words(holes) == '2 1/8" through subfloor and sole plate, for 1-1/2 in pipe'

    def test_others_apart(self) -> None:
        holes = (self.hole("subfloor", 2.5625), self.hole("roof"))
        assert holes_words(holes).splitlines() == [
            '2 9/16" through subfloor, for 1-1/2 in pipe',
            '2 1/8" through roof, for 1-1/2 in pipe',
        ]

    def test_assumed_ones_say_why(self) -> None:
        assert holes_words((self.hole("subfloor", standing="assumed"),)).endswith("for 1-1/2 in pipe; the source")

    def test_unknown_ones_say_what_to_go_by(self) -> None:
        assert holes_words((self.hole("subfloor", None),)) == "subfloor: 2-1/8 bit or hole saw, for 1-1/2 in pipe"

    def test_none(self) -> None:
        assert holes_words(()) == "none"
