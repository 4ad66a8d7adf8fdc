"""Fresh records: made from the types, so true of every kind; and where they may and may not be put."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from builder import pipeline
from builder.authoring.blank import blank
from builder.model.files import Layer, SourceFile
from builder.model.forms.docs import field_docs
from builder.model.forms.form import (
    Amount,
    Either,
    Form,
    Items,
    Named,
    Number,
    Part,
    Pointer,
    Scaled,
    Text,
    Words,
    form_of_record,
)
from builder.model.forms.wording import takes
from builder.model.outline import LINE_PATTERN
from builder.model.records import KIND, KINDS, Kind
from builder.model.records.body import Panel, Seam
from builder.model.records.fields import FILL_IN
from builder.model.reference import Ref
from builder.model.tree import plain
from builder.read.tree import parse
from builder.shape.shaper import shape
from tests.site.building import CONTENT, files_of, seambook_here, write

SCALES = {"strength": ("mild", "high-strength")}
every_kind = pytest.mark.parametrize(
    "kind", [kind for kind in KINDS if kind.ending == ".yaml"], ids=lambda kind: kind.name
)  # fmt: skip


def fresh(kind: Kind) -> str:
    return blank(kind, Ref(kind.name, "left-step"), SCALES)


def read(text: str) -> Any:
    tree, problems = parse(text, "x.yaml")
    assert problems == (), problems
    assert tree is not None
    return plain(tree)


def placeholders(value: Any) -> int:
    if isinstance(value, dict):
        return sum(placeholders(inner) for inner in value.values())
    return sum(placeholders(inner) for inner in value) if isinstance(value, list) else int(value == FILL_IN)


def taken_in(text: str) -> str:
    """The record with every key that may be left out taken in: its # away, and a placeholder that stood instead."""
    while "#" in text:
        lines = []
        for line in text.splitlines():
            found = re.fullmatch(r"( *)#(.*)", line)
            if found is None:
                lines.append(line)
            elif not re.match(r" \S| *$", found[2]):  # `# words` are an explanation
                lines.append(found[1] + found[2])
        if lines == text.splitlines():
            break
        text = "\n".join(lines) + "\n"
    return re.sub(rf"(?m)^( *)([\w-]+:) {FILL_IN}\n(?=\1 )", r"\1\2\n", text)


@every_kind
def test_a_fresh_record_is_read_and_has_just_the_keys_that_must_be_there(kind: Kind) -> None:
    found = read(fresh(kind))
    assert list(found) == [key.name for key in form_of_record(kind.type).keys if key.required]
    assert placeholders(found) >= 3


@every_kind
def test_check_tells_each_value_that_is_missing_and_nothing_else(kind: Kind) -> None:
    text = fresh(kind)
    tree, _ = parse(text, "x.yaml")
    assert tree is not None
    record, summary, problems = shape(SourceFile(Path("x.yaml"), "x.yaml", Ref(kind.name, "left-step")), tree, {})
    assert record is None
    assert summary is None
    assert {problem.code.name for problem in problems} == {"to_fill_in"}
    assert len(problems) == placeholders(read(text))
    lines = text.splitlines()
    for problem in problems:
        span = problem.span
        assert lines[span.line - 1][span.column - 1:span.end - 1] == FILL_IN
        key = re.findall(r"[\w-]+(?=:)", lines[span.line - 1])
        assert not key or f'"{key[-1]}" is still' in problem.message


@every_kind
def test_every_key_is_explained_and_one_that_may_be_left_out_is_commented_out(kind: Kind) -> None:
    lines = fresh(kind).splitlines()
    for key in form_of_record(kind.type).keys:
        [at] = [at for at, line in enumerate(lines) if re.match(rf"#?{re.escape(key.name)}:", line)]
        assert lines[at].startswith("#") is not key.required
        assert re.match(r"# \S", lines[at - 1])
        said = " ".join(line.removeprefix("# ") for line in comment_above(lines, at))
        assert key.doc in said
        assert takes(key.form, SCALES).casefold() in said.casefold()
        assert ("may be left out" in said) is not key.required


def comment_above(lines: list[str], at: int) -> list[str]:
    first = at
    while first > 0 and re.match(r"# \S", lines[first - 1]):
        first -= 1
    return lines[first:at]


@every_kind
def test_no_line_is_too_wide_and_none_ends_in_blanks(kind: Kind) -> None:
    lines = fresh(kind).splitlines()
    assert [line for line in lines if len(line) > 140 or line != line.rstrip()] == []


@every_kind
def test_filled_in_by_what_the_form_says_it_is_a_record(kind: Kind) -> None:
    """The form, followed to the letter with the fewest and with all keys, gives what `shape` takes."""
    for every in (False, True):
        value = sample(form_of_record(kind.type), every)
        if kind.name == "rule":  # one consequence: the types cannot say it
            for key in ("owes", "forbids", "if-both-first", "asks"):
                value.pop(key, None)
            value.setdefault("needs", {"state": "some-id"})
        if kind.name == "procedure":  # two people, the newest first, one that is gone: the types cannot say it
            value["revision"] |= {"number": "2", "approver": "another person"}
            for earlier in value["revision"].get("earlier", ()):
                earlier["approver"] = "another person"
            value["status"] = "withdrawn" if "replaced_by" in value else value["status"]
        tree, problems = parse(json.dumps(value), "x.yaml")
        assert tree is not None, problems
        file = SourceFile(Path("x.yaml"), "x.yaml", Ref(kind.name, "x"))
        record, _, problems = shape(file, tree, {})
        assert problems == ()
        assert record is not None


WRITTEN = (
    "something", "2026-03-14", "2026-03-14T09:30", "09:30", "0123456789ab", "some-procedure@left#some-step",
    "some-procedure@left#some-step/Some measure", "data:image/png;base64,AAAA", "1 mm to 2 mm",
)  # fmt: skip
"""Texts, one of which fits any pattern that a form asks for."""


def sample(form: Form, every: bool) -> Any:
    match form:
        case Part():
            return {key.name: sample(key.form, every) for key in form.keys if every or key.required}
        case Items(none=True) | Named(none=True) if not every:
            return "none"
        case Items(single=True) if not every:
            return sample(form.of, every)
        case Items():
            return [sample(form.of, every)]
        case Named():
            return {sample(form.keys, every): sample(form.of, every)}
        case Either():
            return sample(form.forms[-1 if every else 0], every)
        case Words():
            return form.words[0]
        case Scaled():
            return "some-word"
        case Number():
            return str(int(form.least or 1))
        case Amount():
            return f"1 {form.example or 'mm'}"
        case Pointer():
            return "some-id" if len(form.kinds) == 1 else f"{form.kinds[0]}:some-id"
        case Text() if form.pattern == LINE_PATTERN:
            return "0 0; 9 0; 9 9"
        case Text():
            return next(text for text in WRITTEN if re.search(form.pattern, text))


@every_kind
def test_what_is_commented_out_fits_when_it_is_taken_in(kind: Kind) -> None:
    found = read(taken_in(fresh(kind)))
    assert list(found) == [key.name for key in form_of_record(kind.type).keys]
    assert list(unknown_keys(found, form_of_record(kind.type))) == []


def unknown_keys(value: Any, form: Form) -> Iterator[str]:
    if isinstance(form, Either):
        form = form.forms[-1]
    if isinstance(form, Part) and isinstance(value, dict):
        keys = {key.name: key.form for key in form.keys}
        assert set(keys) == set(value), "every key of the part stands there"
        for name, inner in value.items():
            yield from unknown_keys(inner, keys[name]) if name in keys else [name]
    elif isinstance(form, Items) and isinstance(value, list):
        for item in value:
            yield from unknown_keys(item, form.of)
    elif isinstance(form, Named) and isinstance(value, dict):
        for item in value.values():
            yield from unknown_keys(item, form.of)


def test_words_of_a_scale_and_docs_of_a_field_stand_in_the_comments() -> None:
    text = fresh(KIND["panel"])
    assert "# One of: mild, high-strength.\nstrength: FILL IN\n" in text
    assert "# Openings whose edge it forms." in text
    assert field_docs(Panel)["bounds"] == "Openings whose edge it forms."
    assert field_docs(Seam)["methods"] == "Allowed for the repair, best first."


def test_the_words_come_from_the_layers() -> None:
    assert pipeline.scales((Layer(CONTENT, "content"),))["joint"][:2] != ()


# The command.


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    write(tmp_path, {"shop.yaml": 'format: "1"\nlayers: [supplied, ours]\n'})
    (tmp_path / "ours").mkdir()
    return tmp_path


def test_it_lands_in_the_own_layer_and_check_says_what_is_missing(shop: Path) -> None:
    said = seambook_here("write", "panel", "left-step", folder=shop)
    assert (said.code, said.out) == (0, "ours/panels/left-step.yaml\n")
    checked = seambook_here("check", folder=shop)
    assert checked.code == 1
    assert 'ours/panels/left-step.yaml:6:8: error: "title" is still to be filled in (S211)\n' in checked.err
    assert checked.err.count("(S211)") == checked.err.count(": error: ") == 12


def test_a_page_is_begun_in_markdown_and_check_says_what_is_missing(shop: Path) -> None:
    said = seambook_here("write", "page", "our-hours", folder=shop)
    assert (said.code, said.out) == (0, "ours/pages/our-hours.md\n")
    checked = seambook_here("check", folder=shop)
    assert 'ours/pages/our-hours.md:6:8: error: "title" is still to be filled in (S211)\n' in checked.err
    assert '"text" is still to be filled in (S211)\n' in checked.err
    assert checked.err.count("(S211)") == checked.err.count(": error: ") == 2
    path = shop / "ours/pages/our-hours.md"
    text = path.read_text("utf-8").replace("title: FILL IN", "title: Our hours")
    text = text.replace("\nFILL IN\n", "\nSeven to four.\n")
    path.write_text(text.replace("#was:\n#  - FILL IN", "was:\n  - hours"), "utf-8")
    assert seambook_here("check", "--strict", folder=shop).code == 0


def test_a_supplied_page_is_copied_with_its_head_first(shop: Path) -> None:
    supplied = sorted((CONTENT / "pages").glob("*.md"))[0]
    assert seambook_here("write", "page", supplied.stem, folder=shop).code == 0
    own = (shop / "ours/pages" / supplied.name).read_text("utf-8")
    assert own.startswith("---\n# Takes the place of ")
    assert (shop / "ours/.taken-from/pages" / supplied.name).read_text("utf-8") == supplied.read_text("utf-8")
    assert seambook_here("check", "--strict", folder=shop).code == 0


def test_nothing_is_overwritten(shop: Path) -> None:
    assert seambook_here("write", "term", "left-step", folder=shop).code == 0
    write(shop, {"ours/terms/left-step.yaml": "title: My work of a morning\n"})
    before = files_of(shop)
    said = seambook_here("write", "term", "left-step", folder=shop)
    assert said.code == 3
    assert "ours/terms/left-step.yaml is there already" in said.err
    assert files_of(shop) == before


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("pannel", "x"), "write panel, the nearest name"),
        (("poem", "x"), "use one of: act, calculator, cavity"),
        (("panel", "Left Step"), "lower-case words joined by hyphens"),
        (("panel", "../../x"), "is no id"),
        (("panel", "/etc/x"), "is no id"),
        (("panel", "x\n"), "is no id"),
        (("panel", ".hidden"), "is no id"),
        (("panel", "x" * 81), "80 characters"),
        (("panel", "-x"), "No such option"),
        (("panel",), "Missing argument 'ID'"),
    ],
)
def test_wrong_words_are_told(shop: Path, words: tuple[str, ...], told: str) -> None:
    before = files_of(shop)
    said = seambook_here("write", *words, folder=shop)
    assert (said.code, said.out) == (2, "")
    assert told in said.err
    assert files_of(shop) == before


def test_without_a_shop_it_says_where_to_go(tmp_path: Path) -> None:
    said = seambook_here("write", "panel", "x", folder=tmp_path)
    assert said.code == 3
    assert "seambook start DIR" in said.err
    assert list(tmp_path.iterdir()) == []


def test_a_link_in_the_layer_does_not_lead_it_out(shop: Path, tmp_path: Path) -> None:
    (tmp_path / "outside").mkdir()
    (shop / "ours/panels").symlink_to(tmp_path / "outside")
    said = seambook_here("write", "panel", "left-step", folder=shop)
    assert said.code == 3
    assert "leads elsewhere" in said.err
    assert list((tmp_path / "outside").iterdir()) == []


def test_a_link_for_a_file_is_not_written_through(shop: Path, tmp_path: Path) -> None:
    (shop / "ours/panels").mkdir()
    (shop / "ours/panels/left-step.yaml").symlink_to(tmp_path / "nowhere.yaml")
    assert seambook_here("write", "panel", "left-step", folder=shop).code == 3
    assert not (tmp_path / "nowhere.yaml").exists()


def test_a_mistake_in_shop_yaml_is_told(tmp_path: Path) -> None:
    write(tmp_path, {"shop.yaml": 'format: "1"\nlayer: [supplied]\n'})
    said = seambook_here("write", "panel", "x", folder=tmp_path)
    assert said.code == 1
    assert "shop.yaml:2:1: error: " in said.err
