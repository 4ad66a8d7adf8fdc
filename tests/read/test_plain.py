"""The reader without places gives what the tree gives, or nothing where anything is odd."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from builder.model.tree import plain
from builder.read.plain import parse_plain
from builder.read.tree import parse

CONTENT = Path(__file__).resolve().parents[2] / "content"
_texts = st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"]), max_size=20)
_values = st.recursive(
    _texts, lambda inner: st.lists(inner, max_size=4) | st.dictionaries(_texts, inner, max_size=4), max_leaves=20
)  # fmt: skip


@given(st.dictionaries(_texts, _values, max_size=5))
def test_both_readers_agree_on_what_yaml_writes(value: dict[str, object]) -> None:
    text = yaml.safe_dump(value, allow_unicode=True)
    tree, problems = parse(text, "x.yaml")
    quick = parse_plain(text)
    if quick is not None:
        assert tree is not None
        assert not problems
        assert plain(tree) == quick
    else:
        assert problems


@given(st.text(st.sampled_from("ab:-[]{}&*!|>#'\"\n ?%@,"), max_size=60))
def test_both_readers_agree_on_anything(text: str) -> None:
    tree, problems = parse(text, "x.yaml")
    quick = parse_plain(text)
    assert (quick is None) == (tree is None or bool(problems))
    if quick is not None and tree is not None:
        assert plain(tree) == quick


FOLDERS = sorted({path.parent for path in CONTENT.rglob("*.yaml")})


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.relative_to(CONTENT).as_posix())
def test_every_supplied_record_is_read_the_short_way(folder: Path) -> None:
    for path in sorted(folder.glob("*.yaml")):
        tree, _ = parse(path.read_text("utf-8"), path.name)
        assert tree is not None, path
        assert parse_plain(path.read_text("utf-8")) == plain(tree), path
