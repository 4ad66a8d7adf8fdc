"""`seambook show` as a process of its own, what it says, and what it answers."""

from __future__ import annotations

import http.client
import json
import os
import queue
import re
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple

from tests.site.building import ROOT

PATIENCE = 40.0


class Got(NamedTuple):
    """One answer."""

    status: int
    type: str
    body: bytes
    headers: dict[str, str]


class Shown:
    """A running `show`."""

    def __init__(self, folder: Path, words: Sequence[str], told: Mapping[str, str]) -> None:
        self.run = subprocess.Popen(
            (sys.executable, "-u", "-m", "builder", "show", *words), cwd=folder, stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE, stderr=subprocess.STDOUT, env={**os.environ, "PYTHONPATH": str(ROOT), **told},
            start_new_session=True,
        )  # fmt: skip
        self.lines: list[str] = []
        self._coming: queue.Queue[str | None] = queue.Queue()
        self._hearing = threading.Thread(target=self._hear, daemon=True)
        self._hearing.start()
        self.port = int(re.findall(r"http://127\.0\.0\.1:(\d+)/", self.wait_for(r"is served at"))[0])

    def _hear(self) -> None:
        assert self.run.stdout is not None
        for line in self.run.stdout:
            self._coming.put(line.decode("utf-8").rstrip("\n"))
        self._coming.put(None)

    def close(self) -> None:
        """End it, if it has not ended, and let go of what it says."""
        if self.run.poll() is None:
            self.stop()
        self._hearing.join(10)
        assert self.run.stdout is not None
        self.run.stdout.close()

    def wait_for(self, pattern: str) -> str:
        """The next line that holds this."""
        end = time.monotonic() + PATIENCE
        while True:
            line = self._coming.get(timeout=max(end - time.monotonic(), 0.01))
            assert line is not None, f"ended before {pattern!r}: {self.lines}"
            self.lines.append(line)
            if re.search(pattern, line):
                return line

    def unread(self) -> list[str]:
        """Lines that nobody has waited for."""
        found: list[str] = []
        while not self._coming.empty():
            found.append(self._coming.get() or "")
        return found

    def ask(self, target: str, method: str = "GET", host: str | None = None) -> Got:
        """Ask for a path as it stands, without a library's tidying."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=20)
        connection.putrequest(method, target, skip_host=True, skip_accept_encoding=True)
        connection.putheader("Host", host if host is not None else f"127.0.0.1:{self.port}")
        connection.endheaders()
        answer = connection.getresponse()
        got = Got(answer.status, answer.getheader("Content-Type") or "", answer.read(), dict(answer.getheaders()))
        connection.close()
        return got

    def news(self) -> Any:
        """What the pages are told."""
        script = self.ask("/_seambook/news.js").body.decode()
        found = re.fullmatch(r"window\.seambookNews = (\{.*\});\n", script)
        assert found is not None, script
        return json.loads(found[1])

    def stop(self, how: signal.Signals = signal.SIGINT) -> int:
        """End it as Ctrl-C does; return its exit code."""
        self.run.send_signal(how)
        return self.run.wait(20)


@contextmanager
def showing(folder: Path, *words: str, told: Mapping[str, str] | None = None) -> Iterator[Shown]:
    """Run it for the length of a block."""
    shown = Shown(folder, words, told or {})
    try:
        yield shown
    finally:
        shown.close()
