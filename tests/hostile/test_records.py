"""Records that nobody means well with: each is one problem at its place, soon told, and takes no room."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from subprocess import PIPE

import pytest

from builder import pipeline
from builder.model.files import Layer
from builder.supplied import templates
from tests.books.laying import TINY, build
from tests.site.building import seambook

LAP, PAGE = "terms/lap.yaml", "pages/odd.md"
HEAD = "---\ntitle: Odd\n---\n"
MEGABYTE = 1024 * 1024
MOST = 500
"""Megabytes of memory."""
LONGEST = 30
"""Seconds that a book with such a record may take on a slow and busy machine; most take less than one."""
RUN = """
import gc, json, os, resource, signal, sys
gc.disable()
from pathlib import Path
from builder import pipeline
from builder.model.files import Layer
from builder.supplied import templates
for line in sys.stdin:
    content, site, most, longest = json.loads(line)
    child = os.fork()
    if child == 0:
        signal.alarm(longest)
        resource.setrlimit(resource.RLIMIT_DATA, (most, most))
        layer = Layer(Path(content), "content")
        outcome = pipeline.make(pipeline.Order((layer,), templates(), Path(site), processes=1))
        print(json.dumps([[one.code.id, one.span.file] for one in outcome.problems]), flush=True)
        os._exit(0)
    code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    print(f"ended {code}", flush=True)
"""
"""Each book in a process of its own, forked where the program alone is loaded."""


@pytest.fixture
def content(tmp_path: Path) -> Path:
    shutil.copytree(TINY, tmp_path / "content")
    return tmp_path / "content"


def meaning(text: str) -> str:
    """A term that means this, line by line."""
    lines = "".join(f"  {line}\n" for line in text.split("\n"))
    return f"title: Lap\nmeans: |\n{lines}synonyms: none\n"


ALIASES = "a: &a [x, x, x, x, x, x, x, x]\n" + "".join(
    f"{chr(98 + at)}: &{chr(98 + at)} [{', '.join([f'*{chr(97 + at)}'] * 8)}]\n" for at in range(20)
)
FILES: dict[str, tuple[str, bytes | str, str]] = {
    "aliases that grow to a billion": (LAP, ALIASES, "R103"),
    "a hundred megabytes of blanks": (LAP, b" " * 100_000_000, "R105"),
    "a hundred megabytes of items": (LAP, b"title: x\nsynonyms:\n" + b"  - a\n" * 16_000_000, "R105"),
    "lists ten thousand deep": (LAP, "title: " + "[" * 10_000, "R104"),
    "mappings ten thousand deep": (LAP, "title: " + "{a: " * 10_000, "R104"),
    "a character without a letter": (LAP, b"title: a\0b\n", "R106"),
    "half a character": (LAP, b"title: a\xed\xa0\x80b\n", "R106"),
    "a character without a letter, written as an escape": (LAP, 'title: "a\\0b"\n', "R106"),
    "half a character, written as an escape": (LAP, 'title: "a\\ud800b"\n', "R101"),
    "what steers a terminal, written as an escape": (LAP, 'title: "a\\e[2Jb"\n', "R106"),
    "a key that holds a control character": (LAP, '"a\\x07b": c\n', "R106"),
    "a line's end that no editor knows": (LAP, "title: Lap\nmeans: a\u2028b\nsynonyms: none\n", "R106"),
    "a list where a word is to stand": (
        "states/clean.yaml", "title: Clean\nof:\n- seam\n- - []\nmeans: Bare.\n", "S203",
    ),
    "a mapping where a word is to stand": (
        "figures/bead-end.yaml", "title: A\nsort: {a: drawing}\nalt: A.\nby: B\nsources: none\n", "S203",
    ),
    "another encoding": (LAP, "title: Lap\n".encode("utf-16"), "R106"),
    "brackets that never close": (LAP, meaning("[" * 19_000), "S204"),
    "ways that never close": (LAP, meaning("[a](" * 4_500), "S204"),
    "marks of a page that never close": (LAP, meaning("<![CDATA[" * 2_000), "S204"),
    "lists in one line": (LAP, meaning("- " * 400 + "a"), "S204"),
    "lists set in": (LAP, meaning("\n".join(f"{' ' * 4 * at}- a" for at in range(60))), "S204"),
    "a page of a million brackets": (PAGE, HEAD + "[" * 1_000_000, "S204"),
    "a page without an end": (PAGE, HEAD + "a b\n" * 200_000, "S204"),
    "a page of headings": (PAGE, HEAD + "a\n=\n" * 9_000, "S204"),
}


@pytest.fixture(scope="module")
def builder() -> Iterator[subprocess.Popen[str]]:
    command = (sys.executable, "-c", RUN)
    with subprocess.Popen(command, stdin=PIPE, stdout=PIPE, stderr=subprocess.STDOUT, text=True) as run:
        yield run


@pytest.mark.parametrize("name", FILES)
def test_no_hostile_file_is_read_for_long_or_takes_half_a_gigabyte(
    tmp_path: Path, content: Path, builder: subprocess.Popen[str], name: str
) -> None:
    path, data, code = FILES[name]
    (content / path).write_bytes(data if isinstance(data, bytes) else data.encode())
    assert builder.stdin is not None
    assert builder.stdout is not None
    builder.stdin.write(json.dumps([str(content), str(tmp_path / "site"), MOST * MEGABYTE, LONGEST]) + "\n")
    builder.stdin.flush()
    said = ""
    while not re.search(r"^ended -?\d+\n", said, re.MULTILINE):
        line = builder.stdout.readline()
        assert line, said
        said += line
    assert said == f'[["{code}", "content/{path}"]]\nended 0\n'


@pytest.mark.sweep(2)
@pytest.mark.parametrize("text", [
    meaning("**a" * 6_000), meaning("&#" * 9_000), meaning("\\" * 19_000), meaning("`" * 19_000),
    meaning("<a " * 6_000),
    meaning("|a" * 9_000), meaning("a\n=\n" * 3_000), meaning("_a" * 9_000), meaning("> " * 30 + "a"),
])  # fmt: skip
def test_what_is_odd_and_no_more_than_that_is_shown_as_it_is(tmp_path: Path, content: Path, text: str) -> None:
    (content / LAP).write_text(text, "utf-8")
    outcome = build(content, tmp_path / "site")
    assert outcome.published is not None, outcome.problems


def _fifo(path: Path) -> None:
    os.mkfifo(path)


def _to(target: str) -> Callable[[Path], None]:
    return lambda path: path.symlink_to(target)


@pytest.mark.parametrize(("make", "said"), [
    (_fifo, "this is no ordinary file"),
    (Path.mkdir, "this is no ordinary file"),
    (_to("/dev/zero"), "this link leads out of its layer"),
    (_to("/etc/passwd"), "this link leads out of its layer"),
    (_to("../../../../etc/passwd"), "this link leads out of its layer"),
    (_to("odd.yaml"), "this file cannot be read: Too many levels of symbolic links"),
    (_to("gone.yaml"), "this file cannot be read: No such file or directory"),
])  # fmt: skip
def test_what_is_no_file_of_the_layer_is_not_read(content: Path, make: Callable[[Path], None], said: str) -> None:
    make(content / "terms" / "odd.yaml")
    [problem] = build(content).problems
    assert (problem.code.id, problem.span.file, problem.message) == ("R110", "content/terms/odd.yaml", said)


@pytest.mark.parametrize("what", ["terms", "book.yaml"])
def test_a_folder_or_settings_that_lie_elsewhere_are_not_read(tmp_path: Path, content: Path, what: str) -> None:
    (content / what).rename(tmp_path / what)
    (content / what).symlink_to(tmp_path / what)
    outcome = build(content, tmp_path / "site")
    assert outcome.published is None
    assert ("R110", f"content/{what}") in [(one.code.id, one.span.file) for one in outcome.problems]


def test_a_link_inside_the_layer_is_followed(tmp_path: Path, content: Path) -> None:
    (content / "terms" / "lap.yaml").rename(content / "terms" / ".lap")
    (content / "terms" / "lap.yaml").symlink_to(".lap")
    assert build(content, tmp_path / "site").published is not None


NAMES = (
    "con.yaml", "nul.yaml", "aux.yaml", "com1.yaml", "lpt9.yaml", "Lap2.yaml", "lap2.YAML", "\u00e9.yaml",
    "e\u0301.yaml", "a b.yaml", "a..yaml", "a_b.yaml", "-a.yaml", "a-.yaml", f"{'a' * 81}.yaml", "a\nb.yaml",
    "a:b.yaml", "a.yaml ",
)  # fmt: skip


def test_a_name_that_some_system_cannot_hold_or_tell_apart_is_refused(content: Path) -> None:
    for name in NAMES:
        shutil.copyfile(content / LAP, content / "terms" / name)
    found = sorted((one.code.id, one.span.file) for one in build(content).problems)
    assert found == sorted(("R109", f"content/terms/{name}") for name in NAMES)


@pytest.mark.parametrize("file", ["../../book.yaml", "/etc/passwd", "..", "a/../b", "C:\\x.png", "cover.jpg/../x.jpg",
                                  ".hidden.png", "nul.png", "\u202egnp.png", " x.png", "a" * 119 + ".png"])  # fmt: skip
def test_a_figure_leads_to_no_file_elsewhere(content: Path, file: str) -> None:
    path = next((content / "figures").glob("*.yaml"))
    path.write_text(f"{path.read_text('utf-8')}file: '{file}'\n", "utf-8")
    outcome = build(content)
    assert outcome.published is None
    found = {one.span.file for one in outcome.problems}
    assert f"content/figures/{path.name}" in found
    assert all(one.startswith("content/figures/") for one in found)  # the picture that is no longer named is told, too


def test_a_hidden_picture_may_lead_anywhere_and_is_not_taken(tmp_path: Path, content: Path) -> None:
    """What is hidden is not listed among the files of a layer, where each link is looked at."""
    (tmp_path / "secret.svg").write_bytes((content / "figures" / "bead-end.svg").read_bytes())
    (content / "figures" / "bead-end.svg").unlink()
    (content / "figures" / ".x.svg").symlink_to(tmp_path / "secret.svg")
    path = content / "figures" / "bead-end.yaml"
    path.write_text(f"{path.read_text('utf-8')}file: .x.svg\n", "utf-8")
    [problem] = build(content, tmp_path / "site").problems
    assert (problem.code.id, problem.message) == ("P601", '".x.svg" is no name of a picture file')


def test_what_a_record_was_taken_from_may_not_lie_elsewhere(tmp_path: Path, content: Path) -> None:
    """Its lines are told where they differ, so it is not read through a link."""
    own = tmp_path / "own"
    (own / "terms").mkdir(parents=True)
    shutil.copyfile(content / LAP, own / LAP)
    (own / ".taken-from" / "terms").mkdir(parents=True)
    (tmp_path / "secret").write_text("pass: word\n", "utf-8")
    (own / ".taken-from" / LAP).symlink_to(tmp_path / "secret")
    layers = (Layer(content, "content"), Layer(own, "own"))
    [problem] = pipeline.make(pipeline.Order(layers, templates(), processes=1)).problems
    assert (problem.code.name, problem.see) == ("override_unnoted", ())


def test_a_link_that_leads_out_is_told_without_a_line_of_what_it_leads_to(tmp_path: Path) -> None:
    shutil.copytree(TINY, tmp_path / "own")
    (tmp_path / "secret").write_text("pass: word\n", "utf-8")
    (tmp_path / "own" / "terms" / "odd.yaml").symlink_to(tmp_path / "secret")
    said = seambook("check", "--content", "own", folder=tmp_path)
    assert said.code == 1
    assert "own/terms/odd.yaml:1:1: error: this link leads out of its layer" in said.out + said.err
    assert "word" not in said.out + said.err


def test_a_file_that_goes_while_it_is_read_is_told(content: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from builder import shaping

    whole = shaping.shape_file

    def going(file, scales, how):  # type: ignore[no-untyped-def]
        if file.ref.id == "lap":
            file.path.unlink(missing_ok=True)
        return whole(file, scales, how)

    monkeypatch.setattr("builder.passes.shape_file", going)
    found = {(one.code.id, one.span.file) for one in build(content).problems}
    assert ("R110", "content/terms/lap.yaml") in found
