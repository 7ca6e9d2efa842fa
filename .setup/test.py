"""Make the environment where needed, then run every check of the project; what is added goes on to pytest."""

import os
import subprocess
import sys

import environment


def main():
    """Run all steps, also after one that failed, and say which did. Returns the exit code."""
    python = str(environment.ready())
    _need_libraries(python)
    steps = (
        ("format", [python, "-m", "ruff", "format", "--check", "."]),
        ("lint", [python, "-m", "ruff", "check", "."]),
        ("types", [python, "-m", "mypy"]),
        ("layers", [str(environment.tool("lint-imports"))]),
        ("tests", [python, "-m", "pytest", *sys.argv[1:]]),
    )
    quiet = dict(os.environ, PYTHONDONTWRITEBYTECODE="1")
    failed = []
    for name, step in steps:
        print("\n== " + name + " ==", flush=True)
        if subprocess.call(step, cwd=str(environment.HOUSE), env=quiet) != 0:
            failed.append(name)
    if failed:
        print("\nNot in order: " + ", ".join(failed), file=sys.stderr)
    return 1 if failed else 0


def _need_libraries(python):
    if subprocess.call([python, "-m", "app.desktop"], cwd=str(environment.HOUSE)) != 0:
        sys.exit(2)


if __name__ == "__main__":
    sys.exit(main())
