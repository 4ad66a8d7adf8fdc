"""A shop's folder -> its book served for a look, built again at every change, until somebody stops it."""

from __future__ import annotations

import contextlib
import errno
import gc
import signal
import sys
import tempfile
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

from builder import layers
from builder.authoring import address
from builder.authoring.board import Board
from builder.authoring.building import Apart
from builder.authoring.placing import AuthoringError
from builder.authoring.serving import BookServer
from builder.authoring.watching import Watcher
from builder.supplied import templates

LOOPBACK, EVERYWHERE = "127.0.0.1", "0.0.0.0"
Say = Callable[[str], object]


class Wish(NamedTuple):
    """What is asked for."""

    contents: tuple[str, ...]
    folder: Path
    """The shop's."""
    out: Path | None
    """Where the book stays; None for a folder that goes when the server ends."""
    lan: bool
    port: int


def show(wish: Wish, say: Say) -> None:
    """Serve until interrupted; raises AuthoringError where the port is taken, LayerError where a layer is missing."""
    gc.enable()
    chosen = layers.choose(wish.contents, wish.folder)
    with contextlib.ExitStack() as stack:
        stack.enter_context(_ending_quietly(say))
        out = wish.out or Path(stack.enter_context(tempfile.TemporaryDirectory(prefix="seambook-"))) / "book"
        board = Board()
        server = stack.enter_context(_serving(wish, out, board))
        _say_where(server.server_port, wish.lan, say)
        apart = stack.enter_context(contextlib.closing(Apart()))
        watcher = stack.enter_context(contextlib.closing(Watcher(wish.folder, out)))
        watcher.look_at((*(layer.path for layer in chosen.layers), templates()))
        while True:
            _build(apart, wish, out, board, say)
            watcher.wait()
            _look_anew(wish, watcher)


def _build(apart: Apart, wish: Wish, out: Path, board: Board, say: Say) -> None:
    built = apart.build(wish.contents, wish.folder, out)
    for block in built.blocks:
        say(block)
    if built.published:
        board.pin(True, f"The book is built: {built.said}", built.blocks)
        say(f"built: {built.said}")
    else:
        stands = "the book below is the last good one" if (out / "index.html").is_file() else "there is no book yet"
        board.pin(False, f"Not built: {built.said}; {stands}", built.blocks or (built.said,))
        say(f"not built: {built.said}; {stands}")


def _look_anew(wish: Wish, watcher: Watcher) -> None:
    """The shop's file may name other layers now; where it cannot be read, the folders stay."""
    with contextlib.suppress(layers.LayerError):
        chosen = layers.choose(wish.contents, wish.folder)
        if not chosen.problems:
            watcher.look_at((*(layer.path for layer in chosen.layers), templates()))


@contextlib.contextmanager
def _serving(wish: Wish, out: Path, board: Board) -> Iterator[BookServer]:
    at = (EVERYWHERE if wish.lan else LOOPBACK, wish.port)
    try:
        server = BookServer(at, out, templates() / "show", board)
    except OSError as error:
        taken = error.errno in (errno.EADDRINUSE, errno.EACCES)
        raise AuthoringError(
            f"cannot serve at port {wish.port}: {error.strerror or error}",
            "name another with --port; --port 0 takes any that is free" if taken else "try again without --lan",
        ) from error
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.1}, daemon=True)
    thread.start()
    try:
        yield server
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


def _say_where(port: int, lan: bool, say: Say) -> None:
    say(f"The book is served at http://{LOOPBACK}:{port}/ until you press Ctrl-C.")
    if not lan:
        say("Only this computer can read it; --lan lets a phone look too.")
        return
    found = address.on_this_network()
    say("Anybody on this network can read it, too: there is no password, and what is read is not encrypted.")
    if found is None:
        say("This computer's own address on the network cannot be told; look it up in the settings of the network.")
        return
    url = f"http://{found}:{port}/"
    say(f"On a phone in the same network: {url}")
    if (getattr(sys.stdout, "encoding", "") or "").lower().replace("-", "") == "utf8":
        say(address.code(url))


@contextlib.contextmanager
def _ending_quietly(say: Say) -> Iterator[None]:
    """Ctrl-C, and the system's own word to end, are how this is meant to end."""
    def end(_signal: int, _frame: object) -> None:
        raise KeyboardInterrupt

    before = signal.signal(signal.SIGTERM, end)
    try:
        yield
    except KeyboardInterrupt:
        say("\nstopped")
    finally:
        signal.signal(signal.SIGTERM, before)
