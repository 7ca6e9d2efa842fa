"""The project's own Python environment: makes .venv and keeps it in step with the committed lock.

Only the standard library, and only words that an old Python can read, so that the wrong Python is told so in a
sentence and not by a syntax error.
"""

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

HOUSE = Path(__file__).resolve().parent.parent
LOCK = HOUSE / ".setup" / "lock.txt"
VENV = HOUSE / ".venv"
STAMP = VENV / ".lock-stamp"
OLDEST, FIRST_TOO_NEW = (3, 11), (3, 15)


def ready():
    """Path of the environment's Python, made or brought up to date first where that is needed."""
    python = tool("python")
    base = _base_python()
    wanted = hashlib.sha256(LOCK.read_bytes() + _version_of(base).encode()).hexdigest()
    if _works(python) and STAMP.is_file() and STAMP.read_text() == wanted:
        return python
    if not _works(python) or _version_of(python) != _version_of(base):
        _make(base)
    _install(python)
    STAMP.write_text(wanted)
    return python


def tool(name):
    """Path of a program inside the environment."""
    folder = VENV / ("Scripts" if os.name == "nt" else "bin")
    return folder / (name + (".exe" if os.name == "nt" else ""))


def _base_python():
    if OLDEST <= sys.version_info[:2] < FIRST_TOO_NEW:
        return Path(sys.executable)
    for minor in range(FIRST_TOO_NEW[1] - 1, OLDEST[1] - 1, -1):
        found = shutil.which(f"python3.{minor}")
        if found:
            return Path(found)
    raise _stop(f"Joistway needs Python 3.11 to 3.14; this is {sys.version.split()[0]}, and the path holds no other.")


def _version_of(python):
    return subprocess.run(
        [str(python), "-c", "import sys; print(sys.version_info[:2])"], stdout=subprocess.PIPE, check=True
    ).stdout.decode()


def _works(python):
    if not python.exists():
        return False
    return subprocess.run([str(python), "-m", "pip", "--version"], stdout=subprocess.DEVNULL).returncode == 0


def _make(base):
    if subprocess.run([str(base), "-c", "import ensurepip, venv"], stderr=subprocess.DEVNULL).returncode != 0:
        raise _stop("This Python cannot make an environment of its own yet.\n    sudo apt install python3-venv")
    print("Making .venv ...", flush=True)
    if subprocess.run([str(base), "-m", "venv", "--clear", str(VENV)]).returncode != 0:
        raise _stop(f"The environment could not be made in {VENV}; the lines above say why.")


def _install(python):
    print("Installing what the lock names (once, some tens of seconds) ...", flush=True)
    step = [str(python), "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
    step += ["--require-hashes", "--only-binary", ":all:", "-r", str(LOCK)]
    if subprocess.run(step).returncode != 0:
        raise _stop("Installing failed; the lines above say why. Mend it and run the command again.")


def _stop(sentence):
    print(sentence, file=sys.stderr)
    return SystemExit(2)
