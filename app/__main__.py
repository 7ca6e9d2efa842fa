"""`python -m app` and `joistway` are one program."""

import sys

from app.commands import main

if __name__ == "__main__":
    sys.exit(main())
