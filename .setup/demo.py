"""Make the environment where needed, then run the demo: a sample's plan set and answers, and the editor."""

import subprocess
import sys

import environment

if __name__ == "__main__":
    python = environment.ready()
    sys.exit(subprocess.call([str(python), "-m", "app", "demo", *sys.argv[1:]], cwd=str(environment.HOUSE)))
