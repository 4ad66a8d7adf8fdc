"""Templates as they were compiled, in memory and on the disk: compiling them takes longer than filling a small book's.

On the disk they lie where Python keeps this package's own modules, so whoever could change one could change the
program; where Python may keep none, neither do we. Each bears a mark of its text, of what it is compiled by and of the
Python it is for: one that differs in any of them is compiled anew.
"""

from __future__ import annotations

import marshal
import os
import sys
from contextlib import suppress
from functools import cache
from hashlib import blake2b
from importlib.metadata import version
from importlib.util import cache_from_source
from pathlib import Path
from types import CodeType

from jinja2 import BytecodeCache, Environment
from jinja2.bccache import Bucket

_MARK = 32
"""Bytes at the head of a file."""
_known: dict[bytes, CodeType] = {}
"""What this process has read or compiled, by its mark."""


class Compiled(BytecodeCache):
    """Keeps what one kind of environment makes of templates; `compiler` is the file that says how it does."""

    def __init__(self, compiler: Path) -> None:
        self.by = _marked(compiler)

    def get_bucket(self, environment: Environment, name: str, filename: str | None, source: str) -> Bucket:
        """Return the place of a template, with its code where there is one."""
        mark = blake2b(b"\0".join([self.by, name.encode(), source.encode()]), digest_size=_MARK)
        bucket = Bucket(environment, name, mark.hexdigest())
        code = _known.get(mark.digest()) or _read(_place(name), mark.digest())
        if code is not None:
            _known[mark.digest()] = code
            # A mistake is shown in the file that was read, not in one of the same text elsewhere.
            bucket.code = code.replace(co_filename=filename or code.co_filename)
        return bucket

    def set_bucket(self, bucket: Bucket) -> None:
        """Keep what has just been compiled."""
        assert bucket.code is not None
        mark = bytes.fromhex(bucket.checksum)
        _known[mark] = bucket.code
        _write(_place(bucket.key), mark, bucket.code)

    def load_bytecode(self, bucket: Bucket) -> None:
        """Do nothing: a place comes filled."""

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Do nothing: `set_bucket` keeps it."""


@cache
def _marked(compiler: Path) -> bytes:
    return blake2b(f"{sys.version} {version('jinja2')} ".encode() + compiler.read_bytes(), digest_size=_MARK).digest()


def _place(name: str) -> Path:
    """Return where Python would keep a module of this name beside this one."""
    return Path(cache_from_source(str(Path(__file__).with_name(f"template-{name.replace('/', '-')}.py"))))


def _read(path: Path, mark: bytes) -> CodeType | None:
    """Return the code; None where there is none of this mark, or it is damaged."""
    try:
        data = path.read_bytes()
        code = marshal.loads(data[_MARK:]) if data.startswith(mark) else None
    except (OSError, EOFError, ValueError, TypeError):
        return None
    return code if isinstance(code, CodeType) else None


def _write(path: Path, mark: bytes, code: CodeType) -> None:
    if sys.dont_write_bytecode:
        return
    beside = path.with_name(f"{path.name}.{os.getpid()}")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        beside.write_bytes(mark + marshal.dumps(code))
        beside.replace(path)
    except OSError:
        with suppress(OSError):
            beside.unlink()
