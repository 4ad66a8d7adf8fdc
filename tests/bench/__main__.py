"""`make bench`: brings what the measuring needs, as `make test` does, and prints the table of `table.py`."""

from __future__ import annotations

import sys
from functools import partial

from tests.tools.provide import provide

if __name__ == "__main__":
    if missing := provide(partial(print, flush=True)):
        sys.exit("\n".join(missing))
    from tests.bench.table import main  # it reads what was only now brought

    main(sys.argv[1:])
