"""A record and the one it takes the place of -> whether the latter has changed since the former was made from it.

A layer keeps a copy of each record that its own were made from, in a hidden folder. A copy, and not a hash: only so can
be shown what changed, and only so is a change of comments or of line ends told from a change of what is said.
"""

from __future__ import annotations

from collections.abc import Iterator
from difflib import SequenceMatcher

from builder.model.files import TAKEN_FROM, Layer, SourceFile
from builder.model.place import Span
from builder.model.problem import Problem, Related
from builder.model.records import KIND
from builder.read import codes
from builder.read.plain import parse_plain
from builder.read.text import read_text
from builder.read.within import leads_out

MOST = 6
"""So many changed places are shown."""
WIDEST = 90
"""A longer line is cut."""


def problems_of(replaced: SourceFile, own: SourceFile, layer: Layer) -> tuple[Problem, ...]:
    """Compare what `own` takes the place of with the copy that its layer keeps of it."""
    kind = KIND[own.ref.kind]
    path = layer.taken_from(own.ref, kind.folder, kind.ending)
    now, _ = read_text(replaced)
    if now is None:
        return ()  # told where it is read
    confirm = f"type: seambook confirm {own.ref.kind} {own.ref.id}"
    place = Span(own.shown, 1, 1, 2)
    if not path.is_file() or leads_out(path, layer.path):
        if not (layer.path / TAKEN_FROM).is_dir():
            return ()  # a layer that keeps no copies of anything has not asked to be told
        return (Problem(
            codes.OVERRIDE_UNNOTED, place,
            f"this takes the place of {replaced.shown}, and no copy tells when that one changes",
            f"compare the two, then {confirm}", level="warning",
        ),)  # fmt: skip
    taken, problems = read_text(SourceFile(path, f"{layer.label}/{path.relative_to(layer.path).as_posix()}", own.ref))
    if taken is None:
        return problems
    if _says_the_same(taken, now):
        return ()
    return (Problem(
        codes.OVERRIDE_MOVED, place, f"{replaced.shown} has changed since this was made from it",
        f"take over what fits, then {confirm}", see=tuple(_changes(taken, now, replaced.shown)), level="warning",
    ),)  # fmt: skip


def _says_the_same(taken: str, now: str) -> bool:
    if taken == now:
        return True
    before = parse_plain(taken)
    return before is not None and before == parse_plain(now)


def _changes(taken: str, now: str, shown: str) -> Iterator[Related]:
    """Each changed place of the record as it is now: what stands there, and what stood there."""
    old, new = taken.split("\n"), now.split("\n")
    changed = [code for code in SequenceMatcher(None, old, new, autojunk=False).get_opcodes() if code[0] != "equal"]
    for _, a, b, c, d in changed[:MOST]:
        line = min(c, len(new) - 1)
        was, is_ = _short(old[a:b]), _short(new[c:d])
        if not (was or is_):
            continue  # blank lines
        said = f"now {is_}; it was {was}" if was and is_ else f"now {is_}, which is new" if is_ else f"{was} is gone"
        yield Related(Span(shown, line + 1, 1, len(new[line]) + 1), said)
    if len(changed) > MOST:
        yield Related(Span(shown, 1, 1, 2), f"and {len(changed) - MOST} more places")


def _short(lines: list[str]) -> str:
    said = [line.strip() for line in lines if line.strip()]
    if not said:
        return ""
    first = said[0] if len(said[0]) <= WIDEST else f"{said[0][:WIDEST]}..."
    return f'"{first}"' + (f" and {len(said) - 1} more line{'s' * (len(said) > 2)}" if len(said) > 1 else "")
