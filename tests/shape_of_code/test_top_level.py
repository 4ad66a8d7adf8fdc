"""What lies at the top of the project, what a wheel is told to hold, and that the two guides name every command."""

from __future__ import annotations

import fnmatch
import re
import shutil
import subprocess
import tomllib

import pytest

from builder.cli import commands
from tests.shape_of_code.modules import BUILDER, ROOT, name_of

TOP = {
    "README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", "Makefile",
    "builder", "content", "templates", "tests", "site",
}  # fmt: skip


def files() -> list[str]:
    """What belongs to the project; where there is no git to ask, all that .gitignore does not leave out."""
    if shutil.which("git") and (ROOT / ".git").exists():
        command = ("git", "-c", f"safe.directory={ROOT}", "ls-files", "-z")
        run = subprocess.run(command, cwd=ROOT, capture_output=True, check=True)
        return run.stdout.decode("utf-8").rstrip("\0").split("\0")
    ignored = [line.strip("/") for line in (ROOT / ".gitignore").read_text("utf-8").splitlines() if line[:1] != "#"]
    return [path.name for path in ROOT.iterdir() if not any(fnmatch.fnmatch(path.name, one) for one in ignored if one)]


def test_the_top_holds_what_was_agreed_and_nothing_else() -> None:
    assert {name.partition("/")[0] for name in files() if not name.startswith(".")} == TOP


def test_the_site_is_output_only() -> None:
    assert {name for name in files() if name.startswith("site/")} <= {"site/.gitignore"}


def test_the_wheel_is_told_of_every_package() -> None:
    told = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["setuptools"]["packages"]
    found = {name_of(path) for path in BUILDER.rglob("__init__.py")}
    assert set(told) == found | {"builder.content", "builder.templates"}
    assert len(told) == len(set(told))


@pytest.mark.parametrize("guide", ["README.md", "DEVELOPERS.md"])
def test_a_guide_names_every_command(guide: str) -> None:
    text = (ROOT / guide).read_text("utf-8")
    assert len(commands.commands) >= 4
    missing = [name for name in commands.commands if not re.search(rf"\b(?:seambook|builder) {name}\b", text)]
    assert missing == []


def test_a_guide_names_no_option_that_is_not_there() -> None:
    known = {word for command in commands.commands.values() for option in command.params for word in option.opts}
    for guide in ("README.md", "DEVELOPERS.md"):
        text = (ROOT / guide).read_text("utf-8")
        lines = [line for line in text.splitlines() if re.search(r"\b(?:seambook|python -m builder) [a-z]", line)]
        named = {word for line in lines for word in re.findall(r"(?<=\s)--[a-z-]+", line)}
        assert named - known - {"--help", "--version"} == set(), guide
