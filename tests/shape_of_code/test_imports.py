"""The star: stages know the shared types and formulas, not each other; nothing goes round (DESIGN, section 4)."""

from __future__ import annotations

import ast
import subprocess
import sys

import pytest

from tests.shape_of_code.modules import BUILDER, ROOT, cycle_in, imports, imports_of, modules, part_of, tree

STAGES = {
    "read", "shape", "link", "check", "work", "style", "pictures", "view", "render", "search", "publish", "report",
    "delivery", "pocket", "keeping",
}  # fmt: skip
SHARED = {"model", "formula"}
BESIDE = {"authoring"}
"""Beside the way through: it takes the shared types and what the pipeline offers."""
WAY = {"pipeline", "passes", "drawing", "settings", "pocket_copy", "keeper", "putting", "shaping", "untouched",
       "loaded", "indexing", "carrying"}
"""The only modules that know stages."""
MODEL_MAY_TAKE = {"pydantic", "pydantic_core", *sys.stdlib_module_names}


def strangers(part: str, admitted: set[str]) -> list[str]:
    """Imports of a part that lie in Seambook and are not admitted."""
    return [
        f"{one.module}:{one.line} imports {one.taken}"
        for one in imports()
        if part_of(one.module) == part and one.taken.split(".")[0] == "builder" and part_of(one.taken) not in admitted
    ]


def takers(library: str) -> set[str]:
    return {part_of(one.module) for one in imports() if one.taken.split(".")[0] == library}


def test_every_folder_is_a_stage_or_shared() -> None:
    folders = {path.name for path in BUILDER.iterdir() if path.is_dir() and path.name != "__pycache__"}
    assert folders == STAGES | SHARED | BESIDE
    assert len(imports()) > 300


@pytest.mark.parametrize("stage", sorted(STAGES))
def test_a_stage_knows_only_the_shared_types_formulas_and_itself(stage: str) -> None:
    assert strangers(stage, {stage, *SHARED}) == []


def test_authoring_goes_by_the_pipeline() -> None:
    # supplied, layers, telling, crew and warm are the small modules beside the pipeline that the commands share
    beside = {"pipeline", "supplied", "layers", "telling", "crew", "warm"}
    assert strangers("authoring", {"authoring", *SHARED, *beside}) == []


def test_formula_knows_only_the_shared_types_and_itself() -> None:
    assert strangers("formula", {"formula", "model"}) == []


def test_the_shared_types_know_only_themselves_and_pydantic() -> None:
    assert strangers("model", {"model"}) == []
    others = {one.taken.split(".")[0] for one in imports() if part_of(one.module) == "model"} - {"builder"}
    assert others <= MODEL_MAY_TAKE


def test_only_the_way_through_knows_stages() -> None:
    knowing = {
        part_of(one.module) for one in imports()
        if one.taken.startswith("builder.") and part_of(one.taken) in STAGES and part_of(one.module) not in STAGES
    }  # fmt: skip
    assert knowing == WAY


def test_units_come_from_formula_alone_and_late() -> None:
    assert takers("pint") == {"formula"}
    early = [one for one in imports() if one.taken.split(".")[0] == "pint" and not one.is_late]
    assert not [one for one in early if not _is_for_types_only(one.module, one.line)]


def _is_for_types_only(module: str, line: int) -> bool:
    for node in ast.walk(tree(modules()[module])):
        if isinstance(node, ast.If) and ast.unparse(node.test).endswith("TYPE_CHECKING"):
            return node.lineno < line <= (node.end_lineno or 0)
    return False


def test_the_command_starts_without_what_it_may_not_need() -> None:
    asked = "import builder.cli, sys; print(sorted({'pint', 'rich', 'multiprocessing.pool'} & set(sys.modules)))"
    run = subprocess.run((sys.executable, "-c", asked), cwd=ROOT, capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"


def test_nothing_is_imported_by_a_name_made_up_at_run_time() -> None:
    for name, path in modules().items():
        for node in ast.walk(tree(path)):
            if isinstance(node, ast.Call):
                assert ast.unparse(node.func).split(".")[-1] not in ("__import__", "import_module"), name


def test_no_import_goes_round() -> None:
    graph: dict[str, set[str]] = {name: set() for name in modules()}
    for one in imports():
        if one.taken in graph and one.taken != one.module:
            graph[one.module].add(one.taken)
    assert cycle_in(graph) == []


def test_a_cycle_would_be_found() -> None:
    assert cycle_in({"a": {"b"}, "b": {"c", "d"}, "c": set(), "d": {"b"}}) == ["b", "d", "b"]
    assert cycle_in({"a": {"b", "c"}, "b": {"c"}, "c": set()}) == []


def test_a_late_import_and_one_for_types_would_be_found() -> None:
    code = ast.parse("if TYPE_CHECKING:\n    from a import b\ndef f():\n    import c.d\n")
    found = {(one.taken, one.is_late) for one in imports_of("x", code, frozenset({"a.b"}))}
    assert found == {("a.b", False), ("c.d", True)}
