"""The samples' drawings can be read: no two texts lie on each other, at any paper's size."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path

import pytest

from engine.drawings import Drawing, Text, plan_drawing
from engine.drawings.labels import text_boxes
from engine.drawings.sheet import Content
from engine.plan.file import read
from engine.study import study

SAMPLES = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))


def overlap(drawing: Drawing) -> float:
    """How much of the paper two texts share, square inches."""
    laid = [(stroke, list(text_boxes(stroke))) for stroke in drawing.strokes if isinstance(stroke, Text)]
    return sum(a.overlap(b) for (_, one), (_, other) in combinations(laid, 2) for a in one for b in other)


def test_there_are_samples() -> None:
    assert SAMPLES


@pytest.mark.parametrize("content", ["overview", "drains", "water"])
@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_no_text_hides_another(path: Path, content: Content) -> None:
    assert overlap(plan_drawing(study(read(path)), 10.0, 6.3, content)) < 0.004


@pytest.mark.parametrize("size", [(10.0, 6.2), (7.2, 9.0), (15.8, 9.0), (3.0, 3.0)])
@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_label_is_on_the_paper(path: Path, size: tuple[float, float]) -> None:
    drawing = plan_drawing(study(read(path)), *size)
    for stroke in drawing.strokes:
        if isinstance(stroke, Text):
            assert -0.3 <= stroke.at[0] <= size[0] + 0.3
            assert -0.3 <= stroke.at[1] <= size[1] + 0.3
