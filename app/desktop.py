"""What a window needs from the machine: libraries and a display. Knows no Qt, so it can speak before Qt fails."""

from __future__ import annotations

import ctypes
import importlib.util
import os
import socket
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple


class Library(NamedTuple):
    """A shared library by its file name, and the Debian package that brings it."""

    file: str
    package: str


TOOLKIT = (
    Library("libGL.so.1", "libgl1"),
    Library("libEGL.so.1", "libegl1"),
    Library("libxkbcommon.so.0", "libxkbcommon0"),
    Library("libfontconfig.so.1", "libfontconfig1"),
    Library("libglib-2.0.so.0", "libglib2.0-0"),
    Library("libdbus-1.so.3", "libdbus-1-3"),
)
"""What the window toolkit loads, with a screen or without."""

SCREEN = (
    Library("libxcb-cursor.so.0", "libxcb-cursor0"),
    Library("libxkbcommon-x11.so.0", "libxkbcommon-x11-0"),
    Library("libxcb-icccm.so.4", "libxcb-icccm4"),
    Library("libxcb-image.so.0", "libxcb-image0"),
    Library("libxcb-keysyms.so.1", "libxcb-keysyms1"),
    Library("libxcb-render-util.so.0", "libxcb-render-util0"),
    Library("libxcb-shape.so.0", "libxcb-shape0"),
)
"""What a window on an X display needs besides; without these the toolkit ends the process instead of saying so."""

NO_DISPLAY = (
    "there is no display to open a window on (DISPLAY and WAYLAND_DISPLAY are both empty); "
    "log in on a desktop, or make a virtual one:\n    sudo apt install xvfb xauth && xvfb-run -a joistway"
)


def why_no_window(environ: Mapping[str, str] = os.environ) -> str | None:
    """One sentence that says why no window can be opened here and what would mend it; None when one can."""
    if importlib.util.find_spec("PySide6") is None:
        return 'the window needs PySide6, which is not installed: pip install "joistway[window]"'
    if not sys.platform.startswith("linux"):
        return None
    platform = environ.get("QT_QPA_PLATFORM", "")
    on_screen = platform == "" or platform.split(":")[0].split(";")[0] in {"xcb", "wayland"}
    lacking = missing(TOOLKIT)
    if on_screen and not _wayland(environ):
        if not environ.get("DISPLAY"):
            return NO_DISPLAY
        lacking += missing(SCREEN)
        if not lacking and not _x_answers(environ["DISPLAY"]):
            return f"the display {environ['DISPLAY']!r} does not answer"
    return lacking_words(lacking) if lacking else None


def has_screen(environ: Mapping[str, str] = os.environ) -> bool:
    """Whether somebody could see a window here: a desktop, not an offscreen run."""
    platform = environ.get("QT_QPA_PLATFORM", "")
    if platform.startswith(("offscreen", "minimal", "vnc")):
        return False
    return not sys.platform.startswith("linux") or bool(environ.get("DISPLAY")) or _wayland(environ)


def missing(libraries: tuple[Library, ...]) -> tuple[Library, ...]:
    """Those of the libraries that this machine cannot load."""
    lacking = []
    for library in libraries:
        try:
            ctypes.CDLL(library.file)
        except OSError:
            lacking.append(library)
    return tuple(lacking)


def lacking_words(libraries: tuple[Library, ...]) -> str:
    """The sentence for missing libraries, with the line that installs them on Debian and its kin."""
    files = ", ".join(library.file for library in libraries)
    packages = " ".join(library.package for library in libraries)
    return f"the window needs system libraries that are missing here ({files}):\n    sudo apt install {packages}"


def _wayland(environ: Mapping[str, str]) -> bool:
    name = environ.get("WAYLAND_DISPLAY", "")
    if not name:
        return False
    path = Path(environ.get("XDG_RUNTIME_DIR", "/")) / name
    with socket.socket(socket.AF_UNIX) as door:
        try:
            door.connect(str(path))
        except OSError:
            return False
    return True


def _x_answers(display: str) -> bool:
    try:
        xcb = ctypes.CDLL("libxcb.so.1")
    except OSError:
        return True
    xcb.xcb_connect.restype = ctypes.c_void_p
    xcb.xcb_connect.argtypes = [ctypes.c_char_p, ctypes.c_void_p]
    xcb.xcb_connection_has_error.argtypes = [ctypes.c_void_p]
    xcb.xcb_disconnect.argtypes = [ctypes.c_void_p]
    connection = xcb.xcb_connect(display.encode(), None)
    answers = xcb.xcb_connection_has_error(connection) == 0
    xcb.xcb_disconnect(connection)
    return bool(answers)


def main() -> int:
    """Say what the toolkit misses here, as a program of its own: 0 when nothing, 2 when something."""
    lacking = missing(TOOLKIT) if sys.platform.startswith("linux") else ()
    if lacking:
        print(lacking_words(lacking), file=sys.stderr)
    return 2 if lacking else 0


if __name__ == "__main__":
    sys.exit(main())
