"""Artifact paths in; a refusal out for each that some system, phone or USB stick could not hold."""

import unicodedata
from collections import Counter
from collections.abc import Iterator, Sequence

from builder.model.reference import DEVICES
from builder.publish.trouble import PublishError

_FORBIDDEN = frozenset('\\<>:"|?*') | {chr(code) for code in (*range(32), 127)}


def require_plain(path: str) -> None:
    """Raise PublishError unless `path` is relative, in posix form, and good on every system."""
    fault = _fault(path)
    if fault:
        raise PublishError(f"{path!r} cannot be the path of a page: {fault}", "rename the record it is made from")


def require_distinct(paths: Sequence[str]) -> None:
    """Raise PublishError if two paths, or two folders on their way, differ only in case or in Unicode form.

    Windows, macOS and most USB sticks take such names for one.
    """
    for path in (path for path, count in Counter(paths).items() if count > 1):
        raise PublishError(f"{path!r} is given twice", "rename one of the two records")
    spelled: dict[str, str] = {}
    folders: set[str] = set()
    for path in paths:
        folder = path.rpartition("/")[0]
        for prefix in (path,) if folder in folders else _prefixes(path):
            first = spelled.setdefault(_folded(prefix), prefix)
            if first != prefix:
                raise PublishError(
                    f"{first!r} and {prefix!r} are one name on Windows, macOS and USB sticks",
                    "rename one of the two records",
                )
        folders.add(folder)


def _folded(path: str) -> str:
    """The form in which two paths are equal if any system takes them for one."""
    if path.isascii():
        return path.lower()
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", path).casefold())


def _prefixes(path: str) -> Iterator[str]:
    parts = path.split("/")
    return ("/".join(parts[: end + 1]) for end in range(len(parts)))


def _fault(path: str) -> str:
    """What is wrong with a path, or nothing."""
    if path.startswith("/"):
        return "it starts at the root"
    if path.startswith("."):
        return "dot-files at the top belong to the owner of the folder"
    if _FORBIDDEN.intersection(path):
        return "it holds a character that Windows forbids"
    if any(0xD800 <= ord(char) <= 0xDFFF for char in path):
        return "it holds half a character"
    return next((fault for part in path.split("/") if (fault := _part_fault(part))), "")


def _part_fault(part: str) -> str:
    if part == "":
        return "a name is empty"
    if part in (".", ".."):
        return f"{part!r} is not a name"
    if part[-1] in ". ":
        return "Windows drops a dot or a space at the end of a name"
    if part.split(".")[0].rstrip(" ").upper() in DEVICES:
        return f"{part!r} is a device on Windows"
    return ""
