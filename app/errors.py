"""The program's own faults: logged, the work kept, the person told once, and the window goes on."""

from __future__ import annotations

import logging
import sys
import threading
from collections.abc import Callable
from pathlib import Path
from types import TracebackType

from PySide6.QtCore import QObject, Qt, Signal, Slot

LOG_NAME = "joistway.log"
LOG_BYTES = 512 * 1024

log = logging.getLogger(__name__)


class FaultDesk(QObject):
    """Takes every exception that nothing else caught, from any thread.

    `keep_work` is called first (it writes the recovery copy), then `tell` with one plain sentence and the log's
    path; the person is told once per sitting, later faults are only logged.
    """

    _reported = Signal(str)

    def __init__(
        self,
        log_path: Path,
        keep_work: Callable[[], None],
        tell: Callable[[str, Path], None],
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._log_path = log_path
        self._keep_work = keep_work
        self._tell = tell
        self._told = False
        self._reported.connect(self._handle, Qt.ConnectionType.AutoConnection)

    def install(self) -> None:
        """Take over the interpreter's hooks for exceptions that reach the top, here and in threads."""
        sys.excepthook = self.take
        threading.excepthook = self._take_from_thread

    def uninstall(self) -> None:
        """Give the hooks back, if they are still this desk's."""
        if sys.excepthook == self.take:
            sys.excepthook = sys.__excepthook__
        if threading.excepthook == self._take_from_thread:
            threading.excepthook = threading.__excepthook__

    def take(self, kind: type[BaseException], fault: BaseException, trace: TracebackType | None) -> None:
        """Log one exception and have it handled in the window's thread."""
        if issubclass(kind, KeyboardInterrupt):
            sys.__excepthook__(kind, fault, trace)
            return
        log.critical("a fault of the program's own", exc_info=(kind, fault, trace))
        self._reported.emit(f"{kind.__name__}: {fault}" if str(fault) else kind.__name__)

    def report(self, fault: BaseException) -> None:
        """Take an exception that came as an answer, such as a study that broke."""
        self.take(type(fault), fault, fault.__traceback__)

    def _take_from_thread(self, args: threading.ExceptHookArgs) -> None:
        if args.exc_value is not None:
            self.take(args.exc_type, args.exc_value, args.exc_traceback)

    @Slot(str)
    def _handle(self, fault: str) -> None:
        try:
            self._keep_work()
        except Exception:
            log.exception("the recovery copy could not be written either")
        if self._told:
            return
        self._told = True
        self._tell(fault, self._log_path)


def log_into(folder: Path) -> Path:
    """Send the program's warnings and faults to a log in `folder`, begun anew when it has grown long; gives its path."""
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / LOG_NAME
    if path.exists() and path.stat().st_size > LOG_BYTES:
        path.replace(path.with_name(f"{LOG_NAME}.old"))
    handler = logging.FileHandler(path, encoding="utf-8", delay=True)
    handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(name)s: %(message)s"))
    handler.setLevel(logging.WARNING)
    logging.getLogger().addHandler(handler)
    return path
