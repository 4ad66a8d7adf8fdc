"""A folder with a book, and a board with news -> a server that shows the book and nothing beside it.

It reads files of that folder only: no listing, no hidden name, no way out of it, GET and HEAD alone. To each page it
adds the script that reloads it; the files on disk stay as they are.
"""

from __future__ import annotations

import ipaddress
import socket
import sys
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import NamedTuple
from urllib.parse import unquote, urlsplit

from builder.authoring.board import Board

OURS = "/_seambook/"
"""Where the script of the pages and the news are; no record kind begins with an underscore."""
WORKER = "worker.js"
"""Not the book's: whatever was kept from this address before must not hide what is written now."""
NO_BOOK = "the book has not been built yet"
_TYPES = {
    ".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8",
    ".svg": "image/svg+xml", ".png": "image/png", ".jpg": "image/jpeg", ".jpeg": "image/jpeg", ".webp": "image/webp",
    ".json": "application/json", ".webmanifest": "application/manifest+json", ".txt": "text/plain; charset=utf-8",
    ".ico": "image/x-icon", ".woff2": "font/woff2",
}  # fmt: skip
_POLICY = "default-src 'none'; script-src 'self'; style-src 'self'"
_EMPTY_PAGE = f"""<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<meta http-equiv="Content-Security-Policy" content="{_POLICY}"><title>Seambook</title>
</head><body><main><h1>Seambook</h1><p>Here {NO_BOOK}. This page reloads when it is.</p></main></body></html>
"""


class Answer(NamedTuple):
    """What is sent."""

    status: HTTPStatus
    type: str
    body: bytes


class BookServer(ThreadingHTTPServer):
    """Serves one book."""

    daemon_threads = True

    def __init__(self, address: tuple[str, int], book: Path, added: Path, board: Board) -> None:
        self.book = book
        self.board = board
        self.added = {name: (added / name).read_bytes() for name in ("preview.js", "preview.css", WORKER)}
        super().__init__(address, _Handler)

    def server_bind(self) -> None:
        """Bind without asking a name server what this computer is called."""
        self.socket.bind(self.server_address)
        self.server_address = self.socket.getsockname()
        self.server_name, self.server_port = self.server_address[:2]  # type: ignore[assignment]

    def handle_error(self, request: object, client_address: object) -> None:
        """A reader who goes away in the middle is nothing to be told of; what else goes wrong is printed."""
        if not isinstance(sys.exception(), ConnectionError | TimeoutError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]

    def answer(self, target: str) -> Answer:
        """Return what a request's target means."""
        path = unquote(target.partition("?")[0].partition("#")[0])
        if path.startswith(OURS):
            return self._ours(path.removeprefix(OURS))
        if path == f"/{WORKER}":
            return self._ours(WORKER)
        version = self.board.news.version  # before the file is read: a newer book makes the page reload once more
        file = find_file(self.book, path)
        if file is None:
            missing = not (self.book / "index.html").is_file()
            return self._page(_EMPTY_PAGE.encode(), version, HTTPStatus.SERVICE_UNAVAILABLE) if missing else \
                Answer(HTTPStatus.NOT_FOUND, _TYPES[".txt"], b"There is no such page in this book.\n")  # fmt: skip
        try:
            body = file.read_bytes()
        except OSError:
            return Answer(HTTPStatus.NOT_FOUND, _TYPES[".txt"], b"This page cannot be read.\n")
        if file.suffix == ".html":
            return self._page(body, version)
        return Answer(HTTPStatus.OK, _TYPES.get(file.suffix.lower(), "application/octet-stream"), body)

    def _ours(self, name: str) -> Answer:
        if name == "news.js":
            return Answer(HTTPStatus.OK, _TYPES[".js"], self.board.news.script().encode())
        if name in self.added:
            return Answer(HTTPStatus.OK, _TYPES[Path(name).suffix], self.added[name])
        return Answer(HTTPStatus.NOT_FOUND, _TYPES[".txt"], b"There is nothing here.\n")

    def _page(self, body: bytes, version: str, status: HTTPStatus = HTTPStatus.OK) -> Answer:
        added = f'<link rel="stylesheet" href="{OURS}preview.css">' \
                f'<script defer src="{OURS}preview.js" data-version="{version}"></script></head>'  # fmt: skip
        return Answer(status, _TYPES[".html"], body.replace(b"</head>", added.encode(), 1))


class _Handler(BaseHTTPRequestHandler):
    """One request."""

    server: BookServer
    server_version = "seambook"
    sys_version = ""
    timeout = 30

    def do_GET(self) -> None:
        """Send a file."""
        self._send(self._answer())

    def do_HEAD(self) -> None:
        """Send what `GET` would, without the file."""
        self._send(self._answer(), with_body=False)

    def refuse(self) -> None:
        """Nothing is changed from outside."""
        self._send(Answer(HTTPStatus.METHOD_NOT_ALLOWED, _TYPES[".txt"], b"Only GET and HEAD.\n"))

    do_POST = do_PUT = do_DELETE = do_PATCH = do_OPTIONS = refuse  # noqa: N815 - so the library names them

    def log_message(self, format: str, *args: object) -> None:
        """The terminal is for problems of the records."""

    def _answer(self) -> Answer:
        if not is_own_name(self.headers.get("Host", "")):
            return Answer(HTTPStatus.FORBIDDEN, _TYPES[".txt"], b"This book is not served under that name.\n")
        return self.server.answer(self.path)

    def _send(self, answer: Answer, with_body: bool = True) -> None:
        self.send_response(answer.status)
        self.send_header("Content-Type", answer.type)
        self.send_header("Content-Length", str(len(answer.body)))
        self.send_header("Cache-Control", "no-store")
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Referrer-Policy", "no-referrer")
        if answer.status is HTTPStatus.METHOD_NOT_ALLOWED:
            self.send_header("Allow", "GET, HEAD")
        self.end_headers()
        if with_body:
            self.wfile.write(answer.body)


def find_file(book: Path, path: str) -> Path | None:
    """Find the file a path of the address means; None where there is none, or it does not lie in the book."""
    parts = [part for part in path.split("/") if part]
    if any(part.startswith(".") or any(sign in part for sign in '\\:\0') for part in parts):
        return None
    try:
        file = book.joinpath(*parts)
        if path.endswith("/") or not parts:
            file /= "index.html"
        whole = file.resolve()
        return whole if whole.is_file() and whole.is_relative_to(book.resolve()) else None
    except (OSError, ValueError):
        return None


def is_own_name(host: str) -> bool:
    """Whether a request names this computer: a strange site's name that leads here must not read the book."""
    own = socket.gethostname().lower()
    try:
        name = (urlsplit(f"//{host}").hostname or "").rstrip(".")
        if name in ("localhost", own, f"{own}.local"):
            return True
        ipaddress.ip_address(name)
    except ValueError:
        return False
    return True
