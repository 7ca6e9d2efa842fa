"""Areas with a flooring of their own on the sheets: their edges and words, and heights told from what lies there."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from msgspec.structs import replace
from pypdf import PdfReader

from engine.drawings.flooring import SIDE
from engine.drawings.isometric import isometrics
from engine.drawings.legend import legend
from engine.drawings.plan import plan_drawing
from engine.drawings.strokes import Drawing, Line, Text
from engine.plan.records import FlooringArea, FloorLayer, Plan, Supply
from engine.planset import write
from engine.study import study
from tests.engine.drawings.isometric_reading import texts

HandFloor = Callable[..., Plan]
TILE = (FloorLayer(0.25, "backer board"), FloorLayer(0.375, "tile"))
BATH = FlooringArea("c1", (0.0, 65.0), (68.0, 108.0), 0.625, TILE, "tiled bath")


def tiled(plan: Plan) -> Plan:
    return replace(plan, flooring_areas=(BATH,))


def drawn(plan: Plan, content: str = "everything") -> Drawing:
    return plan_drawing(study(plan), 16.0, 10.0, content)  # type: ignore[arg-type]


def edges(drawing: Drawing) -> list[Line]:
    return [one for one in drawing.strokes if isinstance(one, Line) and one.dashes == SIDE]


def words(drawing: Drawing) -> list[str]:
    return [one.text for one in drawing.strokes if isinstance(one, Text)]


@pytest.mark.parametrize(("content", "shown"), [("everything", True), ("overview", True), ("drains", False)])
def test_its_edge_and_words_stand_where_all_trades_do(hand_floor: HandFloor, content: str, shown: bool) -> None:
    drawing = drawn(tiled(hand_floor()), content)
    assert ('TILED BATH, FINISH 5/8"' in words(drawing)) is shown
    assert len(edges(drawing)) == shown
    if shown:
        (edge,) = edges(drawing)
        (x0, y0), (x1, y1) = edge.points[0], edge.points[2]
        assert (x1 - x0, y1 - y0) == pytest.approx((68.0 / drawing.scale_ratio, 43.0 / drawing.scale_ratio))
    assert edges(drawn(hand_floor(), content)) == []


def test_the_legend_tells_the_edge() -> None:
    assert "edge of another flooring" in words(legend(10.0, 0.08, "overview"))
    assert len(edges(legend(10.0, 0.08, "overview"))) == 1


def test_heights_on_the_isometric_count_from_what_lies_there(hand_floor: HandFloor) -> None:
    """The lavatory's tee stands 18 in, its water 3/4 in less or more as the trade has it, over whichever floor."""
    plan = replace(hand_floor(), supplies=(Supply("s1", "cold", ((20.0, 20.0), (70.25, 73.0)), down=4.0),))
    for cover in ("drains", "water"):
        told = [
            sorted(
                text
                for text in texts(isometrics(study(one), cover, 10.0, 6.4))  # type: ignore[arg-type]
                if text.endswith("above floor") and not text.startswith("top")
            )
            for one in (plan, tiled(plan))
        ]
        assert told[0] == told[1] != []


def test_the_cover_names_each_area_and_what_stands_on_it(hand_floor: HandFloor, tmp_path: Path) -> None:
    sheets = [
        " ".join(page.extract_text().split())
        for page in PdfReader(write(study(tiled(hand_floor())), tmp_path)[0]).pages
    ]
    cover = " ".join(sheets[:3])
    assert (
        "Tiled bath c1: finish 5/8 in (1/4 in backer board and 3/8 in tile), so the finished floor lies 1 3/8 in above the "
        "joists' top: water closet wc1 and lavatory lav1 stand on it."
    ) in cover
    assert "1 in above the joists' top, save where another flooring lies." in cover
