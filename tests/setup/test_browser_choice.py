"""Which Chromium is driven, how a snap is known, and what is said of one that does not work."""

import os
from pathlib import Path

import pytest

from tests.tools.browser import find_chromium, is_snap, launch_options, scratch_parent, why_unusable


def program(path: Path, text: str) -> Path:
    """An executable script at this place."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    path.chmod(0o755)
    return path


DEBIAN_SCRIPT = '#!/bin/sh\nexec /usr/lib/chromium/chromium "$@"\n'
UBUNTU_SCRIPT = '#!/bin/sh\nexec /snap/bin/chromium "$@"\n'


def test_debians_wrapper_is_no_snap(tmp_path: Path) -> None:
    assert not is_snap(program(tmp_path / "chromium", DEBIAN_SCRIPT))


def test_ubuntus_wrapper_starts_a_snap(tmp_path: Path) -> None:
    assert is_snap(program(tmp_path / "chromium-browser", UBUNTU_SCRIPT))


@pytest.mark.parametrize("target", ["/snap/bin/chromium", "/usr/bin/snap", "/var/lib/snapd/snap/bin/chromium"])
def test_a_link_to_a_snap_is_a_snap(tmp_path: Path, target: str) -> None:
    link = tmp_path / "chromium"
    link.symlink_to(target)
    assert is_snap(link)


def test_a_program_in_a_folder_of_that_name_is_no_snap(tmp_path: Path) -> None:
    assert not is_snap(program(tmp_path / "snap" / "chromium", DEBIAN_SCRIPT))


def test_a_snap_is_taken_only_when_there_is_no_other(tmp_path: Path) -> None:
    program(tmp_path / "bin" / "chromium", UBUNTU_SCRIPT)
    path = {"PATH": str(tmp_path / "bin")}
    assert find_chromium(path) == tmp_path / "bin" / "chromium"
    program(tmp_path / "bin" / "chromium-browser", DEBIAN_SCRIPT)
    assert find_chromium(path) == tmp_path / "bin" / "chromium-browser"


def test_the_browser_that_is_named_wins_and_is_never_replaced(tmp_path: Path) -> None:
    program(tmp_path / "bin" / "chromium", DEBIAN_SCRIPT)
    other = program(tmp_path / "other", UBUNTU_SCRIPT)
    path = {"PATH": str(tmp_path / "bin")}
    assert find_chromium({**path, "SEAMBOOK_CHROMIUM": str(other)}) == other
    assert find_chromium({**path, "SEAMBOOK_CHROMIUM": str(tmp_path / "none")}) is None


def test_a_snap_gets_its_scratch_folder_where_it_can_read(tmp_path: Path) -> None:
    home, temporary = Path("/home/ann"), Path("/tmp")
    debian = program(tmp_path / "one", DEBIAN_SCRIPT)
    ubuntu = program(tmp_path / "two", UBUNTU_SCRIPT)
    assert scratch_parent(debian, home, temporary) == temporary
    chosen = scratch_parent(ubuntu, home, temporary)
    assert chosen.is_relative_to(home)
    assert not any(part.startswith(".") for part in chosen.parts)


@pytest.mark.parametrize(("user", "sandbox"), [(0, False), (1000, True)])
def test_the_sandbox_is_off_for_root_only(monkeypatch: pytest.MonkeyPatch, user: int, sandbox: bool) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: user)
    monkeypatch.setenv("SEAMBOOK_CHROMIUM", "/usr/bin/chromium")
    options = launch_options()
    assert options["chromium_sandbox"] is sandbox
    assert "--no-sandbox" not in options["args"]  # Playwright adds it from chromium_sandbox


def test_a_browser_that_prints_the_page_is_usable(tmp_path: Path) -> None:
    reads = program(tmp_path / "reads", '#!/bin/sh\nfor url; do :; done\ncat "${url#file://}"\n')
    assert why_unusable(reads, tmp_path) is None


def test_a_browser_that_shows_another_page_cannot_read_the_folder(tmp_path: Path) -> None:
    blind = program(tmp_path / "blind", "#!/bin/sh\necho '<html>ERR_FILE_NOT_FOUND</html>'\n")
    assert why_unusable(blind, tmp_path) == f"{blind} cannot read {tmp_path}"


def test_a_browser_that_does_not_start_is_told_with_its_last_word(tmp_path: Path) -> None:
    broken = program(tmp_path / "broken", "#!/bin/sh\necho first >&2\necho no usable sandbox >&2\nexit 1\n")
    assert why_unusable(broken, tmp_path) == f"{broken} does not start: no usable sandbox"
