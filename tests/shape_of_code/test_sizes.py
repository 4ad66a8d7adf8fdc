"""Files of at most 350 lines, functions of at most 60, and no module that is a drawer for odds and ends."""

from __future__ import annotations

import ast
import json
import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

from tests.shape_of_code.modules import BUILDER, ROOT, TEMPLATES, modules, tree

LONGEST_FILE = 350
LONGEST_FUNCTION = 60
DRAWERS = {"utils", "util", "helpers", "helper", "common", "misc"}
FUNCTIONS = Path(__file__).with_name("functions.cjs")
WHERE_SCRIPTS_ARE = TEMPLATES / "assets" / "js"


def sources() -> list[Path]:
    found = [*BUILDER.rglob("*.py"), *BUILDER.rglob("*.js"), *TEMPLATES.rglob("*.js")]
    assert len(found) > 100
    return sorted(found)


def functions_in(code: ast.AST) -> Iterator[tuple[str, int]]:
    """Each function with the lines it takes, from `def` to its end."""
    for node in ast.walk(code):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            yield node.name, (node.end_lineno or 0) - node.lineno + 1


def test_no_file_is_too_long() -> None:
    lengths = {path.relative_to(ROOT).as_posix(): len(path.read_text("utf-8").splitlines()) for path in sources()}
    assert {path: length for path, length in lengths.items() if length > LONGEST_FILE} == {}


def test_no_python_function_is_too_long() -> None:
    found = [(name, *one) for name, path in modules().items() for one in functions_in(tree(path))]
    assert len(found) > 500
    assert [one for one in found if one[-1] > LONGEST_FUNCTION] == []


def test_no_script_function_is_too_long() -> None:
    """By the TypeScript parser; the function that wraps a whole script is the script."""
    scripts = sorted(WHERE_SCRIPTS_ARE.rglob("*.js"))
    run = subprocess.run(
        ("node", FUNCTIONS, *scripts), stdin=subprocess.DEVNULL, capture_output=True, text=True, check=True
    )
    found = [(Path(one["file"]).name, one["name"], one["lines"]) for one in json.loads(run.stdout)]
    assert len(found) > 100
    assert [one for one in found if one[-1] > LONGEST_FUNCTION] == []


def test_every_module_is_named_for_what_it_holds() -> None:
    folders = {path for source in sources() for path in source.relative_to(ROOT).parents}
    named = [*(path.relative_to(ROOT).with_suffix("") for path in sources()), *folders]
    assert [path for path in named if set(re.split(r"[-_]", path.name)) & DRAWERS] == []


def test_every_module_says_what_goes_in_and_what_comes_out() -> None:
    silent = [name for name, path in modules().items() if path.read_text("utf-8").strip() and not said(path)]
    assert silent == []


def said(path: Path) -> str:
    return (ast.get_docstring(tree(path)) or "").split("\n\n")[0]
