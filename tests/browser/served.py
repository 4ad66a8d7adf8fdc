"""A folder on a web server that can be stopped, changed and made to answer badly; and a built folder sealed anew."""

from __future__ import annotations

import json
import os
import shutil
import threading
from collections import Counter
from collections.abc import Mapping
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

from builder.delivery.contents import CONTENTS
from builder.delivery.listing import LIST, edition_of, listed, read_listing
from builder.delivery.worker import WORKER, worker_of
from builder.supplied import templates


class Served:
    """One address; what lies there may be changed while it runs."""

    def __init__(self, root: Path, host: str = "127.0.0.1") -> None:
        self.root = root
        self.host = host
        self.asked: Counter[str] = Counter()
        """How often each path was answered with a file."""
        self.damage: Counter[str] = Counter()
        """So many answers of a path are spoiled yet."""
        self.left: int | None = None
        """So many files are given yet, then none; None gives all."""
        self.port = 0
        self._server: _Server | None = None
        self.start()

    def start(self) -> None:
        """Listen, again at the same address."""
        self._server = _Server((self.host, self.port), _Handler)
        self._server.served = self
        self.port = self._server.server_port
        threading.Thread(target=self._server.serve_forever, args=(0.05,), daemon=True).start()

    def stop(self) -> None:
        """Listen no more; connections that are open hear nothing either."""
        server, self._server = self._server, None
        if server is not None:
            server.shutdown()
            server.server_close()

    @property
    def is_open(self) -> bool:
        return self._server is not None

    def url(self, path: str) -> str:
        """The address of a page of the book."""
        return f"http://{self.host}:{self.port}/{path}"

    def takes(self, path: str) -> bool:
        """Whether this file is given; a stopped server, or one cut short, gives none."""
        if not self.is_open or self.left == 0:
            return False
        if self.left is not None:
            self.left -= 1
        self.asked[path] += 1
        return True


class _Server(ThreadingHTTPServer):
    daemon_threads = True
    request_queue_size = 64
    served: Served

    def handle_error(self, request: object, client_address: object) -> None:
        """A browser that goes away in the middle is nothing to be told of."""


class _Handler(SimpleHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    disable_nagle_algorithm = True
    wbufsize = -1
    server: _Server

    def do_GET(self) -> None:
        served = self.server.served
        name = self.path.partition("?")[0].lstrip("/") or "index.html"
        file = served.root / name
        if not served.takes(name):
            self.close_connection = True
            return
        if not file.is_file():
            self.send_error(404)
            return
        data = file.read_bytes()
        if served.damage[name] > 0:
            served.damage[name] -= 1
            data = data[:-1] + b"?"
        self.send_response(200)
        # A server that knows no types: the worker gives a book's files their own.
        is_known = name.endswith((".html", ".js", ".css"))
        self.send_header("Content-Type", self.guess_type(name) if is_known else "text/plain")
        self.send_header("Content-Length", str(len(data)))
        self.end_headers()
        self.wfile.write(data)

    def log_message(self, *_words: object) -> None:
        """Say nothing."""


def copied(site: Path, onto: Path, changes: Mapping[str, tuple[str, str]] | None = None, **told: Any) -> Path:
    """Make another edition of a built folder: words of files changed, what `delivery.json` tells set, sealed anew."""
    shutil.copytree(site, onto, copy_function=os.link)
    for name, (old, new) in (changes or {}).items():
        text = (onto / name).read_text("utf-8")
        assert old in text, name
        replace(onto / name, text.replace(old, new).encode())
    seal(onto, **told)
    return onto


def seal(folder: Path, **told: Any) -> None:
    """Write the list and the worker for the files as they lie there."""
    files = [path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()]
    others = [path for path in files if path not in (LIST, WORKER, CONTENTS) and path[0] != "."]
    listing = read_listing(folder.joinpath, others, {})
    contents = json.loads((folder / CONTENTS).read_bytes()) | told
    data = json.dumps(contents).encode()
    text = listed(listing, {CONTENTS: data})
    worker = worker_of(templates(), contents["book"], edition_of(text))
    for name, made in ((CONTENTS, data), (LIST, text), (WORKER, worker)):
        replace(folder / name, made)


def replace(file: Path, data: bytes) -> None:
    """Write a file anew; the other folder's, which it is linked with, stays."""
    file.unlink()
    file.write_bytes(data)
