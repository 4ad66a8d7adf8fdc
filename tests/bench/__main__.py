"""`make bench`: brings what the measuring needs, as `make test` does, and prints the table of `table.py`."""

from __future__ import annotations

import sys

from tests.tools.provide import provide


def _say(line: str) -> None:
    print(line, flush=True)


if __name__ == "__main__":
    if missing := provide(_say):
        sys.exit("\n".join(missing))
    from tests.bench.table import main  # it reads what was only now brought

    main(sys.argv[1:])
