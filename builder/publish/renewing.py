"""What was put and what stays in, one folder that holds exactly these files out.

It is the draft itself, with what stays linked into it; or, where most stays, the spare: the book before the last, of
whose files all but a few are those of today already. Which are is seen on the disk, file by file, and never guessed.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence, Set
from pathlib import Path, PurePosixPath
from typing import NamedTuple
from unicodedata import normalize

from builder.model.files import Published, Seen
from builder.model.look import Look, look
from builder.publish import disk, swap, trees
from builder.publish.desk import Desk
from builder.publish.target import MARK, is_ours
from builder.publish.trouble import PublishError

_SHOWN = 3


class Renewed(NamedTuple):
    """A folder that can be exchanged with the target, but for its mark and for what belongs to its owner."""

    folder: Path
    counts: Published


def renewed(desk: Desk, target: Path, paths: Sequence[str], seen: Look | None) -> Renewed:
    """Bring one folder to hold exactly `paths`; raises PublishError if that is not what was put and kept.

    `seen` is how the target's files were seen, if they were: what of them is gone by now cannot be linked, and what
    somebody has written into them since has been written into the spare's names of them.
    """
    spare = swap.take_spare(target)
    made, there = _names(look(desk.folder, is_ours)), _names(seen or look(target, is_ours))
    wanted = frozenset(map(_form, paths))
    _require_exactly(target, wanted, made.keys(), there.keys() & desk.kept)
    changed = sum(not trees.are_equal(desk.folder / path, target / path) for path in made)
    counts = Published(changed, len(paths) - changed, sum(path != MARK for path in there.keys() - wanted))
    whole = look(spare, is_ours) if spare is not None and 2 * len(made) < len(paths) else None
    if spare is None or whole is None or not whole.is_plain:
        for path in paths:
            if path not in made:
                trees.carry_deep(target / path, desk.folder, path)
        return Renewed(desk.folder, counts)
    _bring_up_to_date(spare, _names(whole), wanted, desk, made.keys(), there)
    return Renewed(spare, counts)


def _bring_up_to_date(
    spare: Path, held: Mapping[str, Seen], wanted: Set[str], desk: Desk, made: Set[str], there: Mapping[str, Seen]
) -> None:
    """Let the spare hold what is wanted: of what it holds already only what is no longer so is touched."""
    stale = [path for path in held if path not in wanted or path in made or held[path] != there[path]]
    for path in stale:
        disk.unlink(spare / path)
    for folder in _folders_of(stale):
        if not any((spare / folder).iterdir()):
            disk.rmdir(spare / folder)
    for path in sorted(made):
        trees.make_folders(spare, path)
        disk.replace(desk.folder / path, spare / path)
    for path in sorted(wanted - made):
        if held.get(path) != there[path]:
            trees.carry_deep(desk.published / path, spare, path)


def _folders_of(paths: Iterable[str]) -> list[str]:
    """Return the folders that these lie in, the deepest first."""
    found = {folder for path in paths for folder in PurePosixPath(path).parents[:-1]}
    return [folder.as_posix() for folder in sorted(found, key=lambda folder: -len(folder.parts))]


def _names(seen: Look) -> dict[str, Seen]:
    return {_form(path): one for path, one in seen.files.items()}


def _form(path: str) -> str:
    """Return a name in NFC, since some file systems give names back in another form."""
    return path if path.isascii() else normalize("NFC", path)


def _require_exactly(target: Path, wanted: Set[str], made: Set[str], kept: Set[str]) -> None:
    for these, fault in (
        (wanted - made - kept, "lacks files that it should hold"),
        (made - wanted, "holds files that it should not"),
    ):
        if these:
            shown = ", ".join(sorted(these)[:_SHOWN]) + (" ..." if len(these) > _SHOWN else "")
            raise PublishError(
                f"the draft of {target} {fault}: {shown}",
                "build again; if it comes back, this is a fault in Seambook",
            )
