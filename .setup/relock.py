"""Remake the lock from pyproject.toml. Run by a developer who changed a dependency; needs uv on the path.

`--fork-strategy fewest` keeps one version of each package for every Python, so that a plan is answered by the same
code everywhere. Addresses are left out: where packages come from is the affair of each machine.
"""

import subprocess
import sys

import environment

if __name__ == "__main__":
    keep = [] if "--upgrade" not in sys.argv else ["--upgrade"]
    step = ["uv", "pip", "compile", "pyproject.toml", "--extra", "window", "--group", "dev", "--universal"]
    step += ["--fork-strategy", "fewest", "--python-version", "3.11", "--generate-hashes", "--only-binary", ":all:"]
    step += ["--no-header", "--no-annotate", "--no-emit-index-url", "--no-emit-find-links", "--quiet"]
    sys.exit(subprocess.call([*step, *keep, "-o", ".setup/lock.txt"], cwd=str(environment.HOUSE)))
