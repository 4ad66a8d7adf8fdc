"""Whatever tree stands in a file of whatever kind: it is a record, or there are problems at places in it."""

from __future__ import annotations

import time
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from builder import shape
from builder.model.files import SourceFile
from builder.model.records import KIND, Kind
from builder.model.records.planning import Planning
from builder.model.records.settings import BookSettings
from builder.model.records.style import HouseStyle
from builder.model.records.training import Training
from builder.model.records.units import UnitSettings
from builder.model.reference import Ref
from builder.model.tree import plain
from builder.read import read, read_at_once
from builder.shape.messages import keys_at
from tests.hostile.fuzzing.mutating import WORDS
from tests.hostile.fuzzing.targets import require_placed
from tests.sweeps import is_soak

EXAMPLES = 400 if is_soak() else 8
MOST_SECONDS = 5.0
KINDS = sorted(KIND)
SETTINGS = (BookSettings, UnitSettings, HouseStyle, Planning, Training)
KEYS = sorted({key for kind in KIND.values() for key in keys_at(kind.type, ())})
MARKS = "ab:- \n\r\t'\"[]{}#&*!|>?%@\\\u2028\x85"
texts = st.sampled_from([one for one in WORDS if one != "\ud800"]) | st.text(max_size=12)
trees = st.recursive(
    texts,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(KEYS) | texts, inner, max_size=4),
    max_leaves=12,
)  # fmt: skip


def records_of(kind: Kind) -> st.SearchStrategy[dict[str, Any]]:
    """Mappings that hold the keys of a kind, most of them, and another one at times."""
    own = keys_at(kind.type, ())
    return st.fixed_dictionaries({}, optional=dict.fromkeys((*own, "odd"), trees))


@pytest.mark.slow
@pytest.mark.parametrize("name", KINDS)
def test_any_tree_is_shaped_or_refused_with_a_place(name: str, tmp_path: Path) -> None:
    kind = KIND[name]
    source = SourceFile(tmp_path / f"x{kind.ending}", f"{kind.folder}/x{kind.ending}", Ref(name, "x"))

    @settings(max_examples=EXAMPLES)
    @given(records_of(kind))
    def shaped(value: dict[str, Any]) -> None:
        text = yaml.dump(value, Dumper=yaml.CSafeDumper, allow_unicode=True)
        hold(source, (text if kind.ending == ".yaml" else f"---\n{text}---\nwords\n").encode(errors="replace"))

    shaped()


@pytest.mark.parametrize("name", KINDS)
def test_any_bytes_are_read_or_refused_with_a_place(name: str, tmp_path: Path) -> None:
    kind = KIND[name]
    source = SourceFile(tmp_path / f"x{kind.ending}", f"{kind.folder}/x{kind.ending}", Ref(name, "x"))

    @settings(max_examples=EXAMPLES)
    @given(st.binary(max_size=80) | st.text(st.sampled_from(MARKS), max_size=80).map(str.encode))
    def shaped(data: bytes) -> None:
        hold(source, data)

    shaped()


def hold(source: SourceFile, data: bytes) -> None:
    """Read and shape one file; all that can be wrong is told, and soon."""
    source.path.write_bytes(data)
    started = time.process_time()
    tree, problems = read(source)
    value = read_at_once(source)
    require_placed(problems, source.shown, data)
    if tree is None or problems:
        assert problems
        assert value is None
        return
    record, summary, problems = shape.shape(source, tree, {})
    require_placed(problems, source.shown, data)
    assert (record is None) == (summary is None) == bool(problems)
    if value is not None:
        assert value == plain(tree)
        at_once = shape.shape_at_once(source, value, {})
        assert (at_once is None) == (record is None)
    assert time.process_time() - started < MOST_SECONDS


@pytest.mark.parametrize("type_", SETTINGS, ids=lambda one: one.__name__)
def test_any_tree_of_settings_is_shaped_or_refused_with_a_place(type_: type, tmp_path: Path) -> None:
    source = SourceFile(tmp_path / "x.yaml", "x.yaml", Ref("settings", "settings"))

    @settings(max_examples=EXAMPLES)
    @given(st.fixed_dictionaries({}, optional=dict.fromkeys((*keys_at(type_, ()), "odd"), trees)))
    def shaped(value: dict[str, Any]) -> None:
        data = yaml.dump(value, Dumper=yaml.CSafeDumper, allow_unicode=True).encode(errors="replace")
        source.path.write_bytes(data)
        tree, problems = read(source)
        if tree is None:
            assert problems
            return
        found, problems = shape.shape_settings(type_, tree, "x.yaml")
        require_placed(problems, "x.yaml", data)
        assert (found is None) == bool(problems)

    shaped()
