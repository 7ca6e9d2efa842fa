"""Every command of the window, declared once: its words, its keys, and what it is for.

Menus, the table of keys and the tests are all made from here. A command without a key says why.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import NamedTuple

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QWidget

from app.theme import icon


class Command(NamedTuple):
    """One command: permanent name, menu it stands in, words, keys, help line, and why it has no key if it has none.

    A `ticked` one is switched on and off, and its tick says which.
    """

    name: str
    menu: str
    words: str
    keys: str
    help: str
    no_key: str = ""
    picture: str = ""
    gap_before: bool = False
    ticked: bool = False


RARE = "used too seldom to be worth a key; the menu's own letter reaches it"

COMMANDS: tuple[Command, ...] = (
    Command("new", "File", "&New floor…", "Ctrl+N", "Begin with an empty floor of your measures"),
    Command("open", "File", "&Open…", "Ctrl+O", "Open a plan file"),
    Command("save", "File", "&Save", "Ctrl+S", "Write the plan to its file", gap_before=True),
    Command("save_as", "File", "Save &as…", "Ctrl+Shift+S", "Write the plan to another file and go on there"),
    Command(
        "print_set",
        "File",
        "&Write plan set…",
        "Ctrl+P",
        "Write the sheets and lists of this plan into a folder",
        picture="print",
        gap_before=True,
    ),
    Command("quit", "File", "&Quit", "Ctrl+Q", "Close the window", gap_before=True),
    Command("undo", "Edit", "&Undo", "Ctrl+Z", "Take the last step back", picture="undo"),
    Command("redo", "Edit", "&Redo", "Ctrl+Shift+Z", "Do again what was taken back", picture="redo"),
    Command("delete", "Edit", "&Delete", "Del", "Remove what is selected", gap_before=True),
    Command("select_all", "Edit", "Select &all", "Ctrl+A", "Select everything in the plan"),
    Command("select_none", "Edit", "Select &nothing", "Ctrl+Shift+A", "Let go of the selection"),
    Command("details", "Edit", "&Properties", "Ctrl+Return", "Go to the properties of what is selected"),
    Command(
        "plan_settings",
        "Edit",
        "Plan &settings…",
        "Ctrl+,",
        "Name, floor, pipe, rule book, sticks for sale, local amendments, rulings, measured take-offs",
        gap_before=True,
    ),
    Command(
        "measured_fittings",
        "Edit",
        "&Measured fittings…",
        "Ctrl+M",
        "Type in what a rule shows on your own fittings, and see every cut follow",
    ),
    Command("frame_floor", "View", "&Whole floor", "Ctrl+0", "Bring the whole floor into sight"),
    Command("zoom_in", "View", "Zoom &in", "Ctrl++", "Come nearer"),
    Command("zoom_out", "View", "Zoom &out", "Ctrl+-", "Step back"),
    Command(
        "fall_strip",
        "View",
        "Fall s&trip",
        "Ctrl+H",
        "Show or hide the selected line cut along its length under the plan, where its height is seen and set",
        gap_before=True,
        ticked=True,
    ),
    Command(
        "isometric",
        "View",
        "&Isometric",
        "Ctrl+I",
        "Show every pipe and part in a window of its own, as it stands in the building",
    ),
    Command(
        "elevations",
        "View",
        "&Joists and walls from the side",
        "Ctrl+J",
        "Show each cut joist and each wall with pipes from the side, every bore and notch measured from its ends and edges",
    ),
    Command(
        "shopping_list",
        "View",
        "&Shopping list",
        "Ctrl+L",
        "What to buy in the order in which a store is walked, with a box to tick for what is there",
    ),
    Command(
        "other_book",
        "View",
        "Under another rule &book",
        "Ctrl+B",
        "Judge this plan by another rule book as well, and see what changes and by which section",
    ),
    Command("next_pane", "View", "Next &pane", "F6", "Move the keyboard to the next pane", gap_before=True),
    Command("last_pane", "View", "P&revious pane", "Shift+F6", "Move the keyboard to the pane before"),
    Command("next_finding", "View", "Next &finding", "F4", "Go to the next thing to stop for or to look at"),
    Command("last_finding", "View", "Pre&vious finding", "Shift+F4", "Go to the finding before"),
    Command("guide", "Help", "How to &draw a floor", "F1", "The steps from an empty floor to a printed plan set"),
    Command("keys", "Help", "&Keys", "Ctrl+F1", "Every key of the window and the canvas"),
    Command("cautions", "Help", "&Cautions", "", "What this program can't know and does not promise", no_key=RARE),
    Command("about", "Help", "&About Joistway", "", "Version and licences", no_key=RARE, gap_before=True),
)

MENUS = ("File", "Edit", "Draw", "View", "Help")

CANVAS_KEYS: tuple[tuple[str, str], ...] = (
    ("Tab, Shift+Tab", "go through the plan's things in reading order"),
    ("arrows, Shift+arrows", "nudge what is selected by an inch, by a sixteenth"),
    ("T, Shift+T", "turn the selected fixture or cleanout by a quarter, counter-clockwise or clockwise"),
    ("A, Shift+A", "put a point into the selected run where the pointer is, or take the nearest out"),
    ("S, Shift+S", "part the selected run at its point nearest to the pointer, or make two selected runs one"),
    (
        "X, or the menu key",
        "choose one joist of the selected field, to double, move or measure it; so does a right click on it",
    ),
    ("Enter", "end the run being drawn, or go to the properties"),
    ("a length, then Enter", "set the next stretch of the run or wall being drawn"),
    ("Backspace", "take back the last point of the run being drawn, or delete what is selected"),
    ("[ and ]", "turn the fixture or cleanout being placed, clockwise or counter-clockwise"),
    ("Shift held", "keep a fixture in hand after it is placed"),
    ("Alt held", "leave the snaps out"),
    ("space held", "take the sheet in hand and drag it"),
    ("+ - F", "come nearer, step back, see the whole floor"),
    ("Esc", "give up what is under way, then the tool, then the selection"),
)
"""Keys that act only while the canvas has the focus, besides the tools' own letters."""

STRIP_KEYS: tuple[tuple[str, str], ...] = (
    ("Up, Down", "raise or lower the pipe by a sixteenth of an inch"),
    ("Page Up, Page Down", "raise or lower it by half an inch"),
    ("Left, Right", "go to the next joist or fitting along the line and read its heights"),
    ("Home", "let the program choose the height again"),
    ("Enter, or a double click on the pipe", "type the height"),
    ("Shift held", "drag the pipe slowly, a thirty-second of an inch for each step of the pointer"),
    ("Esc", "give up a drag and put the pipe back"),
)
"""Keys that act while the fall strip has the focus."""

ISOMETRIC_KEYS: tuple[tuple[str, str], ...] = (
    ("T, Shift+T", "turn by a quarter, one way or the other"),
    ("+ - F", "come nearer, step back, see the whole"),
    ("arrows", "move the sheet; so does a drag with the mouse"),
    ("Tab, Shift+Tab", "go through the pieces and parts in reading order, and select what they belong to"),
    ("Enter", "go to the properties of what is selected"),
    ("Esc", "let go of the selection"),
    ("F6, Shift+F6", "go from the picture to the list, to the buttons, and round"),
)
"""Keys that act in the isometric's window, besides those of undo, redo and saving."""

ELEVATION_KEYS: tuple[tuple[str, str], ...] = (
    ("Page Down, Page Up", "go to the next cut joist or wall, or to the one before"),
    ("left and right arrow", "go through its cuts, and select the run of each on the plan"),
    ("Esc", "close the window"),
)
"""Keys that act in the window of joists and walls."""


def make_actions(does: Mapping[str, Callable[[], object]], parent: QWidget) -> dict[str, QAction]:
    """An action for each command, which calls what `does` names for it. KeyError when one does nothing."""
    return {command.name: _action(command, does[command.name], parent) for command in COMMANDS}


def _action(command: Command, does: Callable[[], object], parent: QWidget) -> QAction:
    action = QAction(command.words, parent)
    action.setObjectName(command.name)
    action.setStatusTip(command.help)
    action.setToolTip(f"{command.help} ({command.keys})" if command.keys else command.help)
    if command.keys:
        action.setShortcut(QKeySequence(command.keys))
    if command.picture:
        action.setIcon(icon(command.picture))
    action.setCheckable(command.ticked)
    action.triggered.connect(does)
    return action


def in_menu(menu: str) -> Iterable[Command]:
    """The commands of one menu, in its order."""
    return (command for command in COMMANDS if command.menu == menu)
