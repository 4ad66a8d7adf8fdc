"""A folder of templates -> Jinja2 as pages use it. Taken late, since a book that is only checked has no pages."""

from __future__ import annotations

from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from jinja2.compiler import CodeGenerator, Frame
from jinja2.nodes import Getattr


class _PlainAttributes(CodeGenerator):
    """Writes `step.key` of a template as just that.

    A view has every attribute a template names and is no mapping, so Jinja's search for items beside attributes would
    only cost time, a fifth of a page's; a name that no view has still raises an error.
    """

    def visit_Getattr(self, node: Getattr, frame: Frame) -> None:  # noqa: N802  # the library's own name
        self.visit(node.node, frame)
        self.write(f".{node.attr}")


class _Environment(Environment):
    code_generator_class = _PlainAttributes


def open_environment(templates: Path) -> Environment:
    """Read templates from a folder, once each; names that nothing has are errors."""
    return _Environment(
        loader=FileSystemLoader(templates),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
        cache_size=-1,
    )
