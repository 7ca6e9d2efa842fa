"""The workplace: puts the canvas and the panes into the window, follows the document and answers the menus."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, QTimer, Signal

from app.actions import make_actions
from app.canvas.view import PlanView
from app.dialogs.shown import Pages
from app.document import Document
from app.filing import Filing
from app.joblists import JobLists
from app.layout import Layout
from app.menus import Menus
from app.panels.caution import CautionLine
from app.panels.details import DetailsPane
from app.panels.exit_window import ExitWindowPane
from app.panels.findings import FindingsPane
from app.panels.outline import OutlinePane
from app.panels.paged import Paged
from app.panels.shelf import ShelfPane
from app.panels.statusline import StatusLine
from app.panels.toolstrip import ToolStrip
from app.panels.vents import VentsPane
from app.panering import PaneRing, Stop
from app.settings import SettingsFile
from app.stopwatch import Stopwatch
from app.strip.pane import FallPane
from app.tools.wording import named
from app.window import PROGRAM, MainWindow, to_text
from engine.plan.edits import EditError, delete
from engine.plan.records import Plan
from engine.study import Study

if TYPE_CHECKING:
    from app.isometric.window import IsometricWindow

ZOOM_STEP = 1.25

ISOMETRIC = "isometric"
"""Under this name the isometric window's place is kept among the panes' borders."""


class Workplace(QObject):
    """One document under work, with everything round it, in a window.

    `closed` tells that the person is done and that everything is let go of; `faulted(error)` hands on a fault of
    the program that came as an answer.
    """

    closed = Signal()
    faulted = Signal(object)

    def __init__(
        self, window: MainWindow, document: Document, settings: SettingsFile, watch: Stopwatch | None = None
    ) -> None:
        super().__init__(window)
        self.window = window
        self.document = document
        self.settings = settings
        self.filing = Filing(document, settings, window)
        self.joblists = JobLists(window, document, settings)
        self.pages = Pages(window)
        self._watch = watch
        self._let_go = False
        self.isometric: IsometricWindow | None = None
        self.view = PlanView(document)
        self.toolstrip = ToolStrip()
        self.shelf = ShelfPane()
        self.fall = FallPane(document)
        self.findings = FindingsPane(document)
        self.vents = VentsPane(document)
        self.told = Paged("Findings and vents", ("Findings", self.findings), ("Vents", self.vents))
        self.details = DetailsPane(document)
        self.exit_window = ExitWindowPane(document)
        self.outline = OutlinePane(document)
        self.caution = CautionLine()
        self.status = StatusLine()
        self.commands = make_actions(self._does(), window)
        window.addActions(list(self.commands.values()))
        self.findings.offer(self.commands["other_book"], "Another book…")
        self.menus = Menus(self.commands, self.toolstrip.actions_by_tool, lambda: settings.now.recent)
        self.ring = PaneRing(
            (
                Stop(self.view, lambda: self.view),
                Stop(self.toolstrip, self.toolstrip.home),
                Stop(self.shelf, self.shelf.home),
                Stop(self.fall, self.fall.home),
                Stop(self.findings, self.findings.home),
                Stop(self.vents, self.vents.home),
                Stop(self.details, self.details.home),
                Stop(self.exit_window, self.exit_window.home),
                Stop(self.outline, self.outline.home),
            )
        )
        self._layout = Layout(
            left=(self.toolstrip, self.shelf),
            middle=(self.view, self.fall, self.told),
            right=(self.details, self.exit_window, self.outline),
            foot=self.caution,
        )
        window.setCentralWidget(self._layout)
        window.setMenuBar(self.menus)
        window.setStatusBar(self.status)
        self._connect()
        self._layout.restore(settings.now.splits)
        self.menus.show_layers(settings.now.hidden_layers)
        self.commands["fall_strip"].setChecked(settings.now.fall_strip)
        self.show_fall()
        window.may_close = self._may_close
        self._on_history()
        self._on_path()
        self._on_selection()
        self._on_tool(self.view.tool_name)
        self.status.tell_hint(self.view.tool.hint)
        self.view.setFocus(Qt.FocusReason.OtherFocusReason)

    # putting together ------------------------------------------------------------------------------------------

    def _connect(self) -> None:
        document, view = self.document, self.view
        document.history_changed.connect(self._on_history)
        document.path_changed.connect(self._on_path)
        document.selection_changed.connect(self._on_selection)
        document.plan_changed.connect(self._on_plan)
        document.study_changed.connect(self._on_study)
        document.study_failed.connect(self._on_study_failed)
        view.tool_changed.connect(self._on_tool)
        view.pointer_at.connect(self.status.tell_pointer)
        view.pointer_at.connect(self.joblists.point_to)
        view.hint_changed.connect(self._on_words)
        view.edit_requested.connect(self._on_edit)
        view.field_requested.connect(self.details.go_to)
        self.toolstrip.taken.connect(self._take_tool)
        self.shelf.shelf.taken.connect(self._take_tool)
        self.findings.place_wanted.connect(view.show_place)
        self.vents.place_wanted.connect(view.show_place)
        self.findings.field_wanted.connect(self.details.go_to)
        self.findings.told.connect(self.status.tell)
        self.fall.told.connect(self.status.tell)
        self.exit_window.done.connect(self.status.tell)
        for desk in (self.findings.desk, self.exit_window.desk):
            desk.failed.connect(self.faulted)
        self.exit_window.place_wanted.connect(view.show_place)
        self.outline.edit_wanted.connect(self._on_edit)
        self.details.settings_wanted.connect(self.plan_settings)
        self.caution.opened.connect(self.pages.does()["cautions"])
        self.joblists.faulted.connect(self.faulted)
        self.joblists.place_wanted.connect(view.show_place)
        self.filing.began.connect(self._on_began)
        self.filing.settled.connect(self.status.tell)
        self.menus.recent_wanted.connect(self._on_recent)
        self.menus.layer_toggled.connect(view.set_layer_visible)

    def _does(self) -> dict[str, Callable[[], object]]:
        return {
            "new": self.new_floor,
            "open": self.filing.open,
            "save": self.filing.save,
            "save_as": self.filing.save_as,
            "print_set": self.print_set,
            "quit": self.window.close,
            "undo": self.document.undo,
            "redo": self.document.redo,
            "delete": self.delete,
            "select_all": self.select_all,
            "select_none": self.select_none,
            "details": self.go_to_details,
            "plan_settings": self.plan_settings,
            "frame_floor": self.view.frame_floor,
            "zoom_in": self.zoom_in,
            "zoom_out": self.zoom_out,
            "fall_strip": self.show_fall,
            "isometric": self.show_isometric,
            "next_pane": self.next_pane,
            "last_pane": self.last_pane,
            "next_finding": self.next_finding,
            "last_finding": self.last_finding,
            **self.joblists.does(),
            **self.pages.does(),
        }

    # commands --------------------------------------------------------------------------------------------------

    def new_floor(self) -> None:
        """Ask for a floor's measures and begin with it."""
        from app.dialogs.new_floor import NewFloorDialog

        if not self.filing.may_leave():
            return
        dialog = NewFloorDialog(self.window, self.joblists.measured_before())
        dialog.made.connect(self.filing.begin)
        dialog.open()

    def plan_settings(self) -> None:
        """Edit what holds for the whole plan."""
        from app.dialogs.plan_settings import PlanSettingsDialog

        dialog = PlanSettingsDialog(self.document.settled, self.window)
        dialog.made.connect(self._on_settings)
        dialog.open()

    def print_set(self) -> None:
        """Ask for folder and paper and write the plan set."""
        from app.dialogs.print_set import PrintSetDialog

        dialog = PrintSetDialog(self.document.settled, self.settings, self.window)
        dialog.faulted.connect(self.faulted)
        dialog.open()

    def delete(self) -> None:
        """Remove what is selected."""
        chosen = sorted(self.document.selection)
        if not chosen:
            return
        try:
            plan = delete(self.document.settled, *chosen)
        except EditError as fault:
            self.status.tell(str(fault))
            return
        self.document.commit(plan, f"delete {named(self.document.settled, chosen)}")

    def select_all(self) -> None:
        """Select everything."""
        self.document.select(self.document.elements)

    def select_none(self) -> None:
        """Let go of the selection."""
        self.document.select(())

    def go_to_details(self) -> None:
        """Move the keyboard to the properties."""
        self.details.home().setFocus(Qt.FocusReason.TabFocusReason)

    def zoom_in(self) -> None:
        """Come nearer."""
        self.view.zoom_by(ZOOM_STEP)

    def zoom_out(self) -> None:
        """Step back."""
        self.view.zoom_by(1.0 / ZOOM_STEP)

    def show_fall(self) -> None:
        """Show the fall strip where its command is ticked, hide it where not."""
        self.fall.setVisible(self.commands["fall_strip"].isChecked())

    def show_isometric(self) -> None:
        """Bring the isometric forward; from there, go back to the plan."""
        from app.isometric.window import SHARED, IsometricWindow

        if self.isometric is None:
            shared = [self.commands[name] for name in SHARED]
            self.isometric = IsometricWindow(self.document, shared, self.window)
            self.isometric.edit_wanted.connect(self._on_isometric_edit)
        if self.isometric.isActiveWindow():
            self.window.activateWindow()
            self.view.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.isometric.come_forward(self.settings.now.splits.get(ISOMETRIC, ""))

    def next_pane(self) -> None:
        """Move the keyboard one pane on."""
        self.ring.go(1)

    def last_pane(self) -> None:
        """Move the keyboard one pane back."""
        self.ring.go(-1)

    def next_finding(self) -> None:
        """Go to the next finding."""
        self.told.bring(self.findings)
        self.findings.step(1)

    def last_finding(self) -> None:
        """Go to the finding before."""
        self.told.bring(self.findings)
        self.findings.step(-1)

    # following the document ------------------------------------------------------------------------------------

    def _on_began(self) -> None:
        """Show the whole of another plan, once the panes have found their sizes; the canvas has the keyboard."""
        self.view.set_tool("choose")
        QTimer.singleShot(0, self.view.frame_floor)
        self.view.setFocus(Qt.FocusReason.OtherFocusReason)

    def _on_history(self) -> None:
        document = self.document
        self.status.forget_news()
        for name, can, label in (
            ("undo", document.can_undo, document.undo_label),
            ("redo", document.can_redo, document.redo_label),
        ):
            action = self.commands[name]
            action.setEnabled(can)
            action.setText(f"&{name.capitalize()} {label.replace('&', '&&')}".rstrip())
        self.window.setWindowModified(document.modified)

    def _on_path(self) -> None:
        self.window.setWindowTitle(f"{self.filing.plan_words}[*] - {PROGRAM}")
        path = self.document.path
        self.window.setWindowFilePath(str(path) if path is not None else "")

    def _on_plan(self, old: Plan, new: Plan) -> None:
        if old.name != new.name:
            self._on_path()

    def _on_selection(self) -> None:
        self.status.forget_news()
        some = bool(self.document.selection)
        self.commands["delete"].setEnabled(some)
        self.commands["select_none"].setEnabled(some)

    def _on_study(self, study: Study | None) -> None:
        seconds = self._watch.seconds if self._watch is not None and study is not None else None
        self.status.tell_study(seconds)

    def _on_study_failed(self, error: Exception) -> None:
        """A plan that no rule book fits is the plan's affair and told in the pane; all else is a fault of ours."""
        from engine.rulebooks import AmendmentError, RuleBookError

        if isinstance(error, AmendmentError | RuleBookError):
            self.findings.tell_refusal(f"The plan can't be judged: {error}.")
        else:
            self.findings.tell_refusal("The study failed: a fault of the program, not of the plan.")
            self.faulted.emit(error)

    def _on_words(self, words: str) -> None:
        """The tool's own hint stays, anything else that it says is news."""
        if words == self.view.tool.hint:
            self.status.tell_hint(words)
        else:
            self.status.tell(words)

    def _on_tool(self, name: str) -> None:
        self.toolstrip.point_to(name)
        self.shelf.point_to(name)

    def _take_tool(self, name: str) -> None:
        self.view.set_tool(name)
        self.view.setFocus(Qt.FocusReason.OtherFocusReason)

    def _on_edit(self, element_id: str) -> None:
        self.document.select((element_id,))
        self.go_to_details()

    def _on_isometric_edit(self, element_id: str) -> None:
        self.window.activateWindow()
        self._on_edit(element_id)

    def _on_settings(self, plan: Plan) -> None:
        self.document.commit(plan, "change the plan's settings")

    def _on_recent(self, path: Path) -> None:
        if self.filing.may_leave():
            self.filing.open_path(path)

    # beginning and end -----------------------------------------------------------------------------------------

    def _may_close(self) -> bool:
        """Ask about unsaved work, remember how the window stood, then let go of everything in order."""
        if self._let_go:
            return True
        if not self.filing.may_leave():
            return False
        self.settings.change(
            geometry=to_text(self.window.saveGeometry()),
            splits=self._splits(),
            hidden_layers=self.menus.hidden_layers,
            fall_strip=self.commands["fall_strip"].isChecked(),
        )
        self.let_go()
        self.closed.emit()
        return True

    def _splits(self) -> dict[str, str]:
        """Where the panes' borders stand, and where the isometric's window does or did."""
        place = self.isometric.place if self.isometric is not None else self.settings.now.splits.get(ISOMETRIC, "")
        return self._layout.splits() | ({ISOMETRIC: place} if place else {})

    def let_go(self) -> None:
        """Cancel the tool, let the canvas and the study go, and stop listening; once only."""
        if self._let_go:
            return
        self._let_go = True
        if self.isometric is not None:
            self.isometric.let_go()
        self.joblists.let_go()
        for desk in (self.findings.desk, self.exit_window.desk):
            desk.let_go()
        self.view.let_go()
        self.document.blockSignals(True)
        self.document.close()
