"""Putting bytes into a file whole or not at all, whatever happens on the way."""

from __future__ import annotations

import contextlib
import os
import secrets
import stat
from pathlib import Path

_PLAIN = 0o666


def store(raw: bytes, path: Path) -> None:
    """Replace what is at `path` by these bytes, in one step.

    The bytes go to a new file beside it, reach the disk, and take its place; the old file's mode is kept and a
    symbolic link is followed. Raises OSError when the system refuses; the old file is then as it was.
    """
    target = Path(os.path.realpath(path))
    mode = _mode(target)
    beside = target.with_name(f".{target.name[:100]}.{secrets.token_hex(6)}.part")
    handle = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), _PLAIN)
    try:
        with os.fdopen(handle, "wb") as file:
            if mode is not None and hasattr(os, "fchmod"):
                os.fchmod(file.fileno(), mode)
            file.write(raw)
            file.flush()
            os.fsync(file.fileno())
        os.replace(beside, target)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(beside)
        raise
    _settle(target.parent)


def _mode(target: Path) -> int | None:
    """The mode of the file that is replaced, None when there is none. OSError where no file may be replaced."""
    try:
        found = os.stat(target)
    except FileNotFoundError:
        return None
    if stat.S_ISDIR(found.st_mode):
        raise IsADirectoryError(21, "is a folder", str(target))
    if not stat.S_ISREG(found.st_mode):
        raise OSError(22, "is not an ordinary file", str(target))
    if not os.access(target, os.W_OK):
        raise PermissionError(13, "is write-protected", str(target))
    return stat.S_IMODE(found.st_mode)


def _settle(folder: Path) -> None:
    """Have the folder's own entry reach the disk, where the system can."""
    if not hasattr(os, "O_DIRECTORY"):
        return
    handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        with contextlib.suppress(OSError):
            os.fsync(handle)
    finally:
        os.close(handle)
