"""How far the work is -> a bar on a terminal, nothing elsewhere."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TextIO

STEP = 25
"""The bar moves once in so many records."""


@contextmanager
def progress_to(stream: TextIO) -> Iterator[Callable[[str, int, int], None]]:
    """Show a bar while the block runs. It has no thread of its own, since processes are forked meanwhile."""
    if not stream.isatty():
        yield lambda _what, _done, _of: None
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(file=stream), auto_refresh=False, transient=True) as bar:
        tasks: dict[str, int] = {}

        def tell(what: str, done: int, of: int) -> None:
            if what not in tasks:
                tasks[what] = bar.add_task(what, total=of)
            if done % STEP == 0 or done == of:
                bar.update(tasks[what], completed=done)  # type: ignore[arg-type]
                bar.refresh()

        yield tell
