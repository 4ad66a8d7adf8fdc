"""Compiled templates as they are kept: taken where they are of this very text, else compiled anew."""

from __future__ import annotations

import marshal
import sys
from pathlib import Path

import pytest
from jinja2 import TemplateSyntaxError

from builder.render import compiled
from builder.render.environment import open_environment

NAME, TEXT, OTHER = "parts/said.html", "<p>{{ said }}</p>", "<p>not {{ said }}</p>"


class Folder:
    """A folder with one template, and where its code is kept."""

    def __init__(self, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.templates, self.cache = folder / "templates", folder / "cache"
        (self.templates / "parts").mkdir(parents=True)
        self.compiled = 0
        self.monkeypatch = monkeypatch
        monkeypatch.setattr(sys, "pycache_prefix", str(self.cache))
        monkeypatch.setattr(sys, "dont_write_bytecode", False)
        self.as_a_new_process()

    def as_a_new_process(self) -> None:
        self.monkeypatch.setattr(compiled, "_known", {})

    def says(self, text: str) -> str:
        """Write the template and fill it in."""
        (self.templates / NAME).write_text(text, "utf-8")
        environment = open_environment(self.templates)
        compiles = environment.compile

        def counted(*given: object) -> object:
            self.compiled += 1
            return compiles(*given)  # type: ignore[call-overload]

        self.monkeypatch.setattr(environment, "compile", counted)
        return environment.get_template(NAME).render(said="so")

    def kept(self) -> list[Path]:
        return sorted(path for path in self.cache.rglob("template-*") if path.is_file())


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Folder:
    return Folder(tmp_path, monkeypatch)


@pytest.mark.parametrize("is_new_process", [False, True])
def test_what_was_compiled_once_is_taken_and_another_text_is_not(folder: Folder, is_new_process: bool) -> None:
    said = {TEXT: "<p>so</p>", OTHER: "<p>not so</p>"}
    for count, text in enumerate((TEXT, OTHER), 1):
        for _ in range(2):
            if is_new_process:
                folder.as_a_new_process()
            assert folder.says(text) == said[text]
            assert folder.compiled == count
    assert len(folder.kept()) == 1


@pytest.mark.parametrize("damage", [b"", b"x", None])
def test_what_is_damaged_or_of_something_else_is_compiled_anew(folder: Folder, damage: bytes | None) -> None:
    folder.says(TEXT)
    (kept,) = folder.kept()
    mark = kept.read_bytes()[:compiled._MARK]
    kept.write_bytes(marshal.dumps("no code") if damage is None else mark + damage)
    folder.as_a_new_process()
    assert folder.says(TEXT) == "<p>so</p>"
    assert folder.compiled == 2
    folder.as_a_new_process()
    assert folder.says(TEXT) == "<p>so</p>"
    assert folder.compiled == 2


def test_nothing_is_kept_where_python_keeps_nothing(folder: Folder, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    assert folder.says(TEXT) == "<p>so</p>"
    assert folder.kept() == []


def test_where_nothing_can_be_written_it_is_compiled_all_the_same(folder: Folder) -> None:
    place = compiled._place(NAME)
    place.mkdir(parents=True)
    assert folder.says(TEXT) == "<p>so</p>"
    assert folder.kept() == []


def test_a_mistake_is_shown_in_the_file_that_was_read(folder: Folder, tmp_path: Path) -> None:
    """The same text was compiled in another folder before."""
    other = Folder(tmp_path / "other", folder.monkeypatch)
    for one in (other, folder):
        with pytest.raises(Exception, match="'unsaid' is undefined") as found:
            one.says("<p>{{ unsaid }}</p>")
        assert str(one.templates / NAME) in [str(entry.path) for entry in found.traceback]
    with pytest.raises(TemplateSyntaxError):
        folder.says("{% if %}")
