"""The look: text that can be read on its ground, pictures for everything, lettering by path."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest
from PySide6.QtGui import QColor, QFontDatabase

from app import theme
from app.panels.verdict import WEIGHTS
from app.tools import TOOLS
from engine.trade.fixtures import KINDS

LEAST_CONTRAST = 4.5
"""WCAG 2.1, success criterion 1.4.3: text against its ground."""


def luminance(colour: str) -> float:
    """WCAG 2.1, relative luminance."""
    parts = (QColor(colour).redF(), QColor(colour).greenF(), QColor(colour).blueF())
    r, g, b = (c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


@pytest.mark.parametrize("pair", theme.TEXT_PAIRS, ids=lambda pair: " on ".join(pair))
def test_text_stands_out_from_its_ground(pair: tuple[str, str]) -> None:
    light, dark = sorted(map(luminance, pair), reverse=True)
    assert (light + 0.05) / (dark + 0.05) >= LEAST_CONTRAST


@pytest.mark.parametrize("name", [*TOOLS, *(weight.replace(" ", "_") for weight in WEIGHTS), "calm", "joistway"])
def test_every_tool_and_weight_has_a_picture(qapp, name: str) -> None:
    assert not theme.icon(name).pixmap(24, 24).isNull()


@pytest.mark.parametrize("kind", KINDS)
def test_every_fixture_has_a_picture(qapp, kind: str) -> None:
    assert not theme.fixture_icon(kind).pixmap(64, 48).isNull()


def test_a_missing_picture_is_named(qapp) -> None:
    with pytest.raises(FileNotFoundError, match=r"no_such\.svg"):
        theme.icon("no_such")


@pytest.mark.parametrize("path", sorted(theme.ASSETS.glob("*/*.svg")), ids=lambda path: path.stem)
def test_a_picture_is_a_few_plain_shapes(path) -> None:
    """Drawn by hand: no raster, no text, no script, nothing fetched from elsewhere."""
    tree = ElementTree.parse(path)
    names = {element.tag.rpartition("}")[2] for element in tree.iter()}
    assert names <= {"svg", "path", "rect", "circle", "ellipse"}
    assert path.stat().st_size < 2000


def test_the_lettering_is_the_packaged_one(qapp) -> None:
    assert theme.FAMILY in QFontDatabase.families()
    assert qapp.font().family() == theme.FAMILY
    assert {"Regular", "Semibold", "Italic"} <= set(QFontDatabase.styles(theme.FAMILY))
