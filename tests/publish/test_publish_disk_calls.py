"""The interpreter's own audit events show that only `disk` changes the disk, so stopping there stops everywhere."""

import os
import sys
from pathlib import Path
from typing import Any

import pytest

from builder.publish import disk, open_draft
from tests.publish.child import in_child

# The events by which CPython reports changes on a disk: docs.python.org/3/library/audit_events.html
CHANGING = {"os.chmod", "os.link", "os.mkdir", "os.remove", "os.rename", "os.rmdir", "os.symlink", "os.truncate"}


def build(target: Path, paths: list[str]) -> None:
    with open_draft(target, "watched-book") as draft:
        for path in paths:
            draft.desk.put(path, path.encode())
        draft.publish(paths)


def test_nothing_but_the_disk_module_changes_the_disk(tmp_path: Path) -> None:
    seen: set[str] = set()

    def hook(event: str, args: tuple[Any, ...]) -> None:
        is_write = event == "open" and isinstance(args[2], int) and args[2] & (os.O_ACCMODE | os.O_CREAT)
        if not is_write and event not in CHANGING:
            return
        seen.add(event)
        # One frame up, or two where pathlib passes the call on.
        callers = (sys._getframe(1).f_code.co_filename, sys._getframe(2).f_code.co_filename)
        if disk.__file__ not in callers:
            os.write(2, f"{event} {args} from {callers}\n".encode())
            os._exit(3)

    def audited() -> None:
        (tmp_path / "site").mkdir()
        (tmp_path / "site" / ".link").symlink_to("index.html")
        sys.addaudithook(hook)  # stays for the life of the process, hence the child
        build(tmp_path / "site", ["index.html", "old/page.html"])
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(disk, "exchange", lambda *_folders: False)
            build(tmp_path / "site", ["index.html", "new/page.html"])
        unseen = {*CHANGING, "open"} - seen
        assert unseen == {"os.chmod"}  # only for read-only files on Windows

    assert in_child(audited) == 0
