"""Recovery copies: unsaved work kept in the program's own folder, and found again after a crash.

Each run of the program is a *sitting* with a folder of its own: a lock that dies with the process, the plan
as last kept, where it came from, and what a crash wrote. A sitting whose lock nobody holds was cut short.
The person's own file is never touched from here.
"""

from __future__ import annotations

import faulthandler
import logging
import os
import secrets
import shutil
import tempfile
from datetime import datetime
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec
from PySide6.QtCore import QLockFile, QObject, QTimer

if TYPE_CHECKING:
    from app.document import Document
    from engine.plan.records import Plan

PLAN, ABOUT, LOCK, FAULTS = "plan.jway", "about.json", "lock", "faults.txt"

log = logging.getLogger(__name__)


class About(msgspec.Struct, frozen=True):
    """What a kept plan is: its name, the file it was opened from or saved to, and when it was kept."""

    name: str
    path: str | None
    kept_at: str


class CutShort(msgspec.Struct, frozen=True):
    """A sitting that ended without saying so: the unsaved plan it left, if any, and whether it crashed."""

    folder: Path
    about: About | None
    crashed: bool

    @property
    def plan_file(self) -> Path:
        """The recovery copy itself, an ordinary plan file."""
        return self.folder / PLAN


class Sitting:
    """One run of the program and the recovery copy that it keeps."""

    def __init__(self, state: Path) -> None:
        """Open a sitting under `state` and hold its lock. Raises OSError where nothing can be written."""
        stamp = datetime.now().strftime("%Y%m%d-%H%M%S")
        self.folder = state / "sittings" / f"{stamp}-{secrets.token_hex(3)}"
        self.folder.mkdir(parents=True)
        self._lock = _lock(self.folder)
        if not self._lock.tryLock(0):
            raise OSError(f"the recovery folder {self.folder} can't be locked")
        self._faults: TextIOWrapper | None = None

    def watch_for_crashes(self) -> None:
        """Have the interpreter write where it stood, should the process die."""
        self._faults = (self.folder / FAULTS).open("w", encoding="utf-8")
        faulthandler.enable(self._faults)

    def keep(self, plan: Plan, path: Path | None) -> None:
        """Write the recovery copy: whole or not at all. Raises OSError when the disk
        refuses, ValueError for a plan that no file can hold."""
        from engine.plan.file import dumps

        about = About(plan.name, str(path) if path else None, datetime.now().isoformat(" ", "minutes"))
        _write(self.folder / PLAN, dumps(plan))
        _write(self.folder / ABOUT, msgspec.json.encode(about))

    def drop(self) -> None:
        """The work is saved, or the person let it go: the copy has served."""
        (self.folder / ABOUT).unlink(missing_ok=True)
        (self.folder / PLAN).unlink(missing_ok=True)

    def end(self) -> None:
        """Close the sitting. Its folder goes too, unless a recovery copy is still in it."""
        if self._faults is not None:
            faulthandler.disable()
            self._faults.close()
            self._faults = None
        self._lock.unlock()
        if not (self.folder / PLAN).exists():
            shutil.rmtree(self.folder, ignore_errors=True)


def cut_short(state: Path) -> tuple[CutShort, ...]:
    """The sittings that no living program holds and that left something to tell, oldest first.

    Folders that hold neither a plan nor a crash are cleared away on the way.
    """
    found = []
    for folder in sorted((state / "sittings").glob("*/")):
        lock = _lock(folder)
        if not lock.tryLock(0):
            continue
        lock.unlock()
        crashed = (folder / FAULTS).exists() and (folder / FAULTS).stat().st_size > 0
        about = _about(folder)
        if about is None and not crashed:
            shutil.rmtree(folder, ignore_errors=True)
        else:
            found.append(CutShort(folder, about, crashed))
    return tuple(found)


def discard(left: CutShort) -> None:
    """The person has it back, or does not want it: clear the sitting's folder away."""
    shutil.rmtree(left.folder, ignore_errors=True)


def keep_fault_report(left: CutShort, state: Path) -> Path:
    """Move what a crash wrote next to the log, so that it is told once only, and say where it is now."""
    report = state / f"crash-{left.folder.name}.txt"
    (left.folder / FAULTS).replace(report)
    return report


class Autosave(QObject):
    """Keeps a recovery copy of a document some seconds after the last edit, while it differs from what is saved."""

    def __init__(self, document: Document, sitting: Sitting, seconds: float, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._sitting = sitting
        self._kept: Plan | None = None
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(round(seconds * 1000))
        self._timer.timeout.connect(self.keep_now)
        document.history_changed.connect(self._changed)

    def keep_now(self) -> bool:
        """Write or clear the copy at once, as the document stands; whether it is safe now. A refusal is logged."""
        self._timer.stop()
        document = self._document
        try:
            if not document.modified:
                self._sitting.drop()
                self._kept = None
            elif document.settled is not self._kept:
                self._sitting.keep(document.settled, document.path)
                self._kept = document.settled
        except (OSError, ValueError) as error:
            log.warning("no recovery copy could be written to %s: %s", self._sitting.folder, error)
            return False
        return True

    def stop(self) -> None:
        """End of the window: nothing is written any more."""
        self._timer.stop()
        self._document.history_changed.disconnect(self._changed)

    def _changed(self) -> None:
        if self._document.modified:
            self._timer.start()
        else:
            self.keep_now()


def _lock(folder: Path) -> QLockFile:
    lock = QLockFile(str(folder / LOCK))
    lock.setStaleLockTime(0)
    return lock


def _about(folder: Path) -> About | None:
    if not (folder / PLAN).is_file():
        return None
    try:
        return msgspec.json.decode((folder / ABOUT).read_bytes(), type=About)
    except (OSError, msgspec.MsgspecError, ValueError):
        return About("", None, "an unknown time")


def _write(path: Path, data: bytes) -> None:
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=path.name)
    with os.fdopen(handle, "wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())
    Path(name).replace(path)
