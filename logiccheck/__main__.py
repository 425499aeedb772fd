"""`python -m logiccheck`: the same as the command `logiccheck`."""

from __future__ import annotations

from logiccheck.cli.main import main

if __name__ == "__main__":
    raise SystemExit(main())
