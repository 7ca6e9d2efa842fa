"""What the program remembers about how a person likes to work: every setting with its type, default and meaning.

Kept as JSON text in the person's own configuration folder. A file that can't be read is put aside, never a
reason not to start.
"""

from __future__ import annotations

import logging
import os
import tempfile
from pathlib import Path
from typing import Annotated, Any, Literal, cast

import msgspec
from PySide6.QtCore import QStandardPaths

Paper = Literal["letter", "tabloid", "a4", "a3"]

HOME = "JOISTWAY_HOME"
"""Environment variable: one folder to keep settings and recovery files in, instead of the platform's own."""

RECENT_AT_MOST = 8

log = logging.getLogger(__name__)


class Settings(msgspec.Struct, frozen=True, omit_defaults=True):
    """Every setting; the text beside each is what the manual prints."""

    recent: Annotated[tuple[str, ...], msgspec.Meta(description="plans opened or saved last, newest first")] = ()
    plan_folder: Annotated[str, msgspec.Meta(description="folder the open and save dialogs start in")] = ""
    print_folder: Annotated[str, msgspec.Meta(description="folder the last plan set was printed into")] = ""
    paper: Annotated[Paper, msgspec.Meta(description="paper the last plan set was printed on")] = "letter"
    printed_on: Annotated[
        dict[str, Paper], msgspec.Meta(description="paper that the plan set in each folder was printed on last")
    ] = {}
    cautions_read: Annotated[bool, msgspec.Meta(description="the cautions were shown at first start")] = False
    autosave_seconds: Annotated[
        float, msgspec.Meta(ge=1.0, le=600.0, description="rest after an edit before a recovery copy is written")
    ] = 3.0
    hidden_layers: Annotated[tuple[str, ...], msgspec.Meta(description="layers of the drawing switched off")] = ()
    fall_strip: Annotated[bool, msgspec.Meta(description="the fall strip stands under the drawing")] = True
    geometry: Annotated[str, msgspec.Meta(description="the window's place and size, as the toolkit writes it")] = ""
    splits: Annotated[dict[str, str], msgspec.Meta(description="how the panes share the window")] = {}


class SettingsFile:
    """The settings in force and the file they live in; `change` writes at once."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.now = _read(path)

    def change(self, **fields: object) -> None:
        """Set some of the settings by name and write them. A disk that refuses is logged, not fatal."""
        changed = msgspec.structs.replace(self.now, **cast("dict[str, Any]", fields))
        self.now = msgspec.convert(msgspec.to_builtins(changed), Settings)
        try:
            _write(self.path, msgspec.json.format(msgspec.json.encode(self.now), indent=2))
        except OSError as error:
            log.warning("the settings could not be written to %s: %s", self.path, error)

    def remember_plan(self, path: Path) -> None:
        """Put a plan at the head of the recent ones and start the next dialog beside it."""
        name = str(path.absolute())
        others = tuple(known for known in self.now.recent if known != name)
        self.change(recent=(name, *others)[:RECENT_AT_MOST], plan_folder=str(path.absolute().parent))

    def remember_print(self, folder: Path, paper: Paper) -> None:
        """Remember that the plan set in a folder is on this paper."""
        name = str(folder.absolute())
        others = {known: on for known, on in self.now.printed_on.items() if known != name}
        latest = dict([*others.items(), (name, paper)][-RECENT_AT_MOST:])
        self.change(print_folder=str(folder), paper=paper, printed_on=latest)

    def printed_paper(self, folder: Path) -> Paper | None:
        """The paper that the plan set in a folder was printed on last, as far as is remembered."""
        return self.now.printed_on.get(str(folder.absolute()))

    @property
    def folder_to_start_in(self) -> str:
        """Where a dialog about plans starts: the folder used last while it is there, else the person's documents."""
        used = self.now.plan_folder
        return used if used and Path(used).is_dir() else documents()

    def forget_plan(self, path: Path) -> None:
        """Take a plan that is no longer there off the recent ones."""
        name = str(path.absolute())
        self.change(recent=tuple(known for known in self.now.recent if known != name))


def documents() -> str:
    """The person's documents folder, or the home folder where the platform has none."""
    found = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
    return found if found and Path(found).is_dir() else str(Path.home())


def settings_file() -> SettingsFile:
    """The person's own settings, from the platform's configuration folder or from `JOISTWAY_HOME`."""
    return SettingsFile(_folder(QStandardPaths.StandardLocation.GenericConfigLocation, "config") / "settings.json")


def state_folder() -> Path:
    """Where recovery copies and the log lie: never beside the person's plans."""
    return _folder(QStandardPaths.StandardLocation.GenericStateLocation, "state")


def _folder(location: QStandardPaths.StandardLocation, under_home: str) -> Path:
    if home := os.environ.get(HOME):
        return Path(home) / under_home
    return Path(QStandardPaths.writableLocation(location)) / "joistway"


def _read(path: Path) -> Settings:
    try:
        return msgspec.json.decode(path.read_bytes(), type=Settings)
    except FileNotFoundError:
        return Settings()
    except (OSError, msgspec.MsgspecError, ValueError) as error:
        log.warning("the settings in %s can't be read (%s); starting with the usual ones", path, error)
        _put_aside(path)
        return Settings()


def _put_aside(path: Path) -> None:
    try:
        path.replace(path.with_suffix(".unreadable.json"))
    except OSError as error:
        log.warning("%s could not be put aside: %s", path, error)


def _write(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=path.name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        Path(name).replace(path)
    except OSError:
        Path(name).unlink(missing_ok=True)
        raise
