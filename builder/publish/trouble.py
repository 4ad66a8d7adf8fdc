"""An operating system's refusal in, a message a person can act on out."""

import errno
from collections.abc import Iterator
from contextlib import contextmanager

from builder.model.problem import OutsideError

_NO_ROOM = "free some space on this disk and build again"
_NO_RIGHT = "make the folder writable, close programs that have its files open, or name another folder with --out"
_NO_MOVE = "name another folder with --out, one that is no mount point"
_ADVICE = {
    errno.ENOSPC: _NO_ROOM,
    errno.EDQUOT: _NO_ROOM,
    errno.EACCES: _NO_RIGHT,
    errno.EPERM: _NO_RIGHT,
    errno.EROFS: _NO_RIGHT,
    errno.EXDEV: _NO_MOVE,
    errno.EBUSY: _NO_MOVE,
    errno.ENAMETOOLONG: "use a shorter id or a shorter output folder",
}
_OTHERWISE = "mend what the system complains of and build again"


class PublishError(OutsideError):
    """Output trouble: the book could not be published, and what stood there before still does.

    Both texts are passed on as `args`, so that the error survives the way back from a worker process.
    """

    def __init__(self, message: str, do: str) -> None:
        super().__init__(message, do)
        self.message = message
        """What went wrong, one line without a full stop."""
        self.do = do
        """What mends it, one line without a full stop."""

    def __str__(self) -> str:
        return f"{self.message}; {self.do}"


@contextmanager
def explaining(deed: str) -> Iterator[None]:
    """Raise PublishError for any OSError inside; `deed` completes the sentence "cannot ..."."""
    try:
        yield
    except OSError as error:
        reason = error.strerror or str(error)
        do = _ADVICE.get(error.errno or 0, _OTHERWISE)
        raise PublishError(f"cannot {deed}: {reason}", do) from error
