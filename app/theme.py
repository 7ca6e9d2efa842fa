"""The look of the window: colours, lettering and pictures.

One light theme for every platform: the warm grey of lime plaster, dark green-grey ink, pine for what is
chosen. No meaning rests on a colour alone; the weights of findings have shapes and words too.
"""

from __future__ import annotations

from importlib.util import find_spec
from pathlib import Path
from string import Template

from PySide6.QtGui import QColor, QFont, QFontDatabase, QIcon, QPalette
from PySide6.QtWidgets import QApplication

ASSETS = Path(__file__).resolve().parent.parent / "assets"
FAMILY = "Source Sans Pro"
TEXT_POINTS = 10.5

PLASTER = "#efece4"
SHEET = "#fbfaf6"
RAISED = "#ffffff"
INK = "#22302e"
QUIET = "#55625e"
LINE = "#d2ccbd"
PINE = "#245c50"
PINE_TINT = "#dbe8e2"
TIMBER = "#c7a674"
TIMBER_TINT = "#f3e9d8"
STOP = "#9c2f22"
LOOK = "#7a5200"
NOTE = "#2f5580"
UNJUDGED = "#5d5a66"

WEIGHT_INKS = {"stop": STOP, "look": LOOK, "note": NOTE, "not judged": UNJUDGED}
"""Ink for each weight of finding; the picture of the same name carries the weight by its shape."""

TEXT_PAIRS = (
    (INK, PLASTER),
    (INK, SHEET),
    (INK, RAISED),
    (INK, PINE_TINT),
    (INK, TIMBER_TINT),
    (QUIET, PLASTER),
    (QUIET, SHEET),
    (QUIET, PINE_TINT),
    (RAISED, PINE),
    *((ink, ground) for ink in WEIGHT_INKS.values() for ground in (SHEET, PLASTER, RAISED)),
)
"""Every ink with a ground that text is set on, so that its contrast can be measured."""


def dress(application: QApplication) -> None:
    """Give the whole program its style, lettering and colours."""
    application.setStyle("Fusion")
    _register_lettering()
    font = QFont(FAMILY)
    font.setPointSizeF(TEXT_POINTS)
    application.setFont(font)
    application.setPalette(_palette())
    application.setStyleSheet(Template((ASSETS / "window.qss").read_text("utf-8")).substitute(_names()))
    application.setWindowIcon(icon("joistway"))


def icon(name: str) -> QIcon:
    """The picture `name` of a tool or a sign, sharp at any scale of the screen."""
    return _picture(ASSETS / "icons" / f"{name}.svg")


def fixture_icon(kind: str) -> QIcon:
    """The picture of a kind of fixture, seen from above."""
    return _picture(ASSETS / "fixtures" / f"{kind}.svg")


def _picture(path: Path) -> QIcon:
    if not path.is_file():
        raise FileNotFoundError(f"the window's picture {path.name} is missing from {path.parent}")
    return QIcon(str(path))


def _register_lettering() -> None:
    """Register the packaged font by path; Qt falls back to the platform's sans serif where a file is missing."""
    spec = find_spec("font_source_sans_pro")
    for folder in (spec.submodule_search_locations or ()) if spec else ():
        for style in ("Regular", "Semibold", "It"):
            QFontDatabase.addApplicationFont(str(Path(folder) / "files" / f"SourceSansPro-{style}.ttf"))


def _palette() -> QPalette:
    palette = QPalette()
    role = QPalette.ColorRole
    for which, colour in (
        (role.Window, PLASTER),
        (role.WindowText, INK),
        (role.Base, SHEET),
        (role.AlternateBase, PLASTER),
        (role.Text, INK),
        (role.Button, PLASTER),
        (role.ButtonText, INK),
        (role.BrightText, RAISED),
        (role.Highlight, PINE),
        (role.HighlightedText, RAISED),
        (role.ToolTipBase, RAISED),
        (role.ToolTipText, INK),
        (role.PlaceholderText, QUIET),
        (role.Link, PINE),
        (role.LinkVisited, PINE),
        (role.Mid, LINE),
        (role.Accent, PINE),
    ):
        palette.setColor(which, QColor(colour))
    for which in (role.WindowText, role.Text, role.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, which, QColor("#8b938f"))
    return palette


def _names() -> dict[str, str]:
    """What the style sheet may name: the colours above, and where the pictures lie."""
    return {"PICTURES": (ASSETS / "icons").as_posix()} | {
        name: value for name, value in globals().items() if name.isupper() and isinstance(value, str)
    }
