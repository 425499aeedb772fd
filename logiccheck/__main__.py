"""`python -m logiccheck`: the same as the command `logiccheck`."""

from __future__ import annotations

import sys

from logiccheck.cli.main import main

if __name__ == "__main__":
    sys.exit(main())
