"""The source files of Seambook -> who imports whom, by name, however late and under whatever condition."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).parents[2]
BUILDER = ROOT / "builder"
TEMPLATES = ROOT / "templates"


class Import(NamedTuple):
    """One name taken in by one module."""

    module: str
    line: int
    taken: str
    """The module that is named, or the one that holds the name."""
    is_late: bool
    """Stands inside a function: it runs when the function does."""


def name_of(path: Path) -> str:
    """`builder/read/tree.py` -> `builder.read.tree`; a package goes by its folder."""
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


@cache
def modules() -> dict[str, Path]:
    """Every module of the builder by its name."""
    return {name_of(path): path for path in sorted(BUILDER.rglob("*.py"))}


@cache
def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text("utf-8"), str(path))


@cache
def imports() -> tuple[Import, ...]:
    """Every import of every module: at the top, in functions, and those for the type checker alone."""
    known = frozenset(modules())
    return tuple(one for name, path in modules().items() for one in imports_of(name, tree(path), known))


def imports_of(name: str, code: ast.AST, known: frozenset[str]) -> Iterator[Import]:
    """The imports in a tree; what is taken from a package is the module of that name, if there is one."""
    late = {
        inner
        for function in ast.walk(code)
        if isinstance(function, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda)
        for inner in ast.walk(function)
    }
    for node in ast.walk(code):
        if isinstance(node, ast.Import):
            for alias in node.names:
                yield Import(name, node.lineno, alias.name, node in late)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{name}:{node.lineno}: write the whole name of the module"
            assert node.module is not None
            for alias in node.names:
                whole = f"{node.module}.{alias.name}"
                yield Import(name, node.lineno, whole if whole in known else node.module, node in late)


def part_of(module: str) -> str:
    """The part of the builder a module belongs to: `read` for `builder.read.tree`, "" for `builder` itself."""
    return ([*module.split("."), ""])[1]


def cycle_in(graph: dict[str, set[str]]) -> list[str]:
    """A way that comes back to where it began; empty where there is none."""
    finished: set[str] = set()
    for start in sorted(graph):
        way: list[str] = []
        ahead = [iter([start])]
        while ahead:
            following = next(ahead[-1], None)
            if following is None:
                ahead.pop()
                if way:
                    finished.add(way.pop())
            elif following in way:
                return [*way[way.index(following):], following]
            elif following not in finished:
                way.append(following)
                ahead.append(iter(sorted(graph.get(following, ()))))
    return []
