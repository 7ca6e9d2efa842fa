"""The pages of the Help menu: how to draw a floor, the keys, the cautions, what the program is made of."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from html import escape

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QTextBrowser, QVBoxLayout, QWidget

from app.actions import CANVAS_KEYS, COMMANDS, ELEVATION_KEYS, ISOMETRIC_KEYS, MENUS, STRIP_KEYS, in_menu
from app.cautions import CAUTIONS
from app.theme import INK, QUIET
from app.tools import TOOLS

STEPS: tuple[tuple[str, str], ...] = (
    (
        "The floor",
        "File, New floor: give its outside width and length, the joists' lumber, spacing and direction, and what lies "
        "on them. The joists lay themselves out; their field can be dragged, and its bearings edited, afterwards. A floor that is no rectangle: Floor edge draws its "
        "corners, by the outside of the framing.",
    ),
    (
        "What carries it",
        "Beam draws a girder or a steel member; Floor opening an opening with its headers and trimmers, for a closet that would "
        "land on a joist or for a ladder. The joists' properties take measured depths, joists doubled or moved, bearings "
        "between the ends, overhangs, rows of blocks and the lumber's species, by which spans are judged. Right click a joist, "
        "or press X, to double, move or measure that one.",
    ),
    (
        "The walls",
        "Take the wall tool and draw each wall along its centre line. The pointer holds on to corners, wall lines and "
        "the middle of joist bays; a number typed and Enter sets the length.",
    ),
    (
        "The fixtures",
        "Drag them from the shelf, or click one there and then its place. The dot is where the drain starts: a closet's "
        "outlet belongs in a bay, clear of the joists. [ and ] turn a fixture while it is being placed; T and Shift+T, "
        "or its round handle, turn it once it stands.",
    ),
    (
        "The exit",
        "Put the exit where the building drain leaves the floor, inside the rim if it turns down there. The exit "
        "window shows between which heights it may lie, and what sets each end.",
    ),
    (
        "The drains",
        "Draw each run from the outlet toward the exit, along the bays where you can. A click on the main ends it there: "
        "a pipe joins at 45 degrees by a wye, or square by a combination. A number typed sets the next stretch. A run has "
        "one size, one slope and one way past the joists; the properties pane changes them. A double click puts a point "
        "into a run that is there.",
    ),
    (
        "The fall",
        "The strip under the plan shows the line of what you select, cut along its length: the pipe, the joists that it "
        "passes with the wood that must stay, and between which heights it may lie. Drag the pipe up or down there, or "
        "type its height; the findings follow. Without a hand in it the program chooses.",
    ),
    (
        "The vents",
        "A lavatory, a sink or a washer brings its riser; put others into walls and bring the arms to them, or draw "
        "overhead runs. Every trap must reach its vent within its distance; the findings tell which does not.",
    ),
    (
        "The water",
        "Put the inlet, then draw cold and hot runs to the fixtures: each shows a C and an H where its water comes up.",
    ),
    (
        "Read the findings",
        "They renew while you draw. Choose one to go to its place and to read what was measured, what the limit is, "
        "which section it rests on and what would mend it.",
    ),
    (
        "Measure and buy",
        "Edit, Measured fittings: type in what a rule shows on your own fittings, and every cut follows. View, Shopping "
        "list: tick what is there already; the rest is what to buy.",
    ),
    (
        "Print",
        "File, Write plan set: the sheets, the bores by joist, the cut list and the lists to buy by, in one folder.",
    ),
)


class Page(QDialog):
    """A page to read, in a window of its own beside the drawing."""

    def __init__(self, title: str, body: str, size: QSize, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setObjectName("page")
        self.setWindowTitle(title)
        self.resize(size)
        self.text = QTextBrowser()
        self.text.setAccessibleName(title)
        self.text.setOpenExternalLinks(False)
        self.text.document().setDocumentMargin(16)
        self.text.setHtml(f"<style>{_STYLE}</style>{body}")
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.addWidget(self.text)
        column.addWidget(buttons)


_STYLE = (
    f"h3 {{ color: {INK}; margin-top: 14px; margin-bottom: 2px; }} p {{ margin-top: 0; }} .quiet {{ color: {QUIET}; }}"
)


def guide(parent: QWidget) -> Page:
    """From an empty floor to a printed plan set."""
    steps = "".join(
        f"<h3>{number}. {escape(title)}</h3><p>{escape(text)}</p>" for number, (title, text) in enumerate(STEPS, 1)
    )
    return Page("How to draw a floor", steps, QSize(560, 640), parent)


def cautions(parent: QWidget) -> Page:
    """All cautions."""
    body = "".join(f"<h3>{escape(caution.title)}</h3><p>{escape(caution.text)}</p>" for caution in CAUTIONS)
    return Page("Cautions", body, QSize(580, 680), parent)


def keys(parent: QWidget) -> Page:
    """Every key of the window and of the canvas."""
    menus = "".join(
        _table(menu, ((command.keys, _plain(command.words), command.help) for command in in_menu(menu) if command.keys))
        for menu in MENUS
        if any(command.keys for command in COMMANDS if command.menu == menu)
    )
    tools = _table("Tools, wherever no text is being typed", ((t.key, t.title, t.hint) for t in TOOLS.values()))
    canvas = _table("On the canvas", ((key, "", does) for key, does in CANVAS_KEYS))
    strip = _table("In the fall strip", ((key, "", does) for key, does in STRIP_KEYS))
    isometric = _table("In the isometric", ((key, "", does) for key, does in ISOMETRIC_KEYS))
    elevation = _table("In the window of joists and walls", ((key, "", does) for key, does in ELEVATION_KEYS))
    return Page("Keys", tools + canvas + strip + isometric + elevation + menus, QSize(660, 640), parent)


def about(parent: QWidget) -> Page:
    """Version, and what the program is made of."""
    from importlib.metadata import PackageNotFoundError, version

    try:
        number = version("joistway")
    except PackageNotFoundError:
        from engine.plan.writing import PROGRAM as number
    body = (
        f"<h3>Joistway {escape(number)}</h3>"
        "<p>Plan every pipe under a small floor before the sheathing closes it.</p>"
        "<p>The window is made with Qt for Python (LGPL), the pipe graph with networkx, the geometry with shapely, the "
        "sheets with reportlab; the lettering is Source Sans Pro (SIL Open Font License). The pictures were drawn for "
        "this program.</p>"
    )
    return Page("About Joistway", body, QSize(460, 300), parent)


def _table(title: str, rows: Iterable[tuple[str, str, str]]) -> str:
    lines = "".join(
        f"<tr><td><b>{escape(key)}</b></td><td>&nbsp;&nbsp;{escape(words)}&nbsp;&nbsp;</td>"
        f"<td class='quiet'>{escape(does)}</td></tr>"
        for key, words, does in rows
    )
    return f"<h3>{escape(title)}</h3><table cellspacing='3'>{lines}</table>"


def _plain(words: str) -> str:
    return words.replace("&", "").removesuffix("…")


PAGES: dict[str, Callable[[QWidget], Page]] = {"guide": guide, "keys": keys, "cautions": cautions, "about": about}
"""The pages by the command that shows them."""
