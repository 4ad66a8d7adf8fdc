"""A folder of templates -> Jinja2 as pages use it. Taken late, since a book that is only checked has no pages."""

from __future__ import annotations

import re
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from jinja2.compiler import CodeGenerator, Frame
from jinja2.nodes import Getattr

from builder.render.compiled import Compiled


class _PlainAttributes(CodeGenerator):
    """Writes `step.key` of a template as just that.

    A view has every attribute a template names and is no mapping, so Jinja's search for items beside attributes would
    only cost time, a fifth of a page's; a name that no view has still raises an error.
    """

    def visit_Getattr(self, node: Getattr, frame: Frame) -> None:  # noqa: N802  # the library's own name
        self.visit(node.node, frame)
        self.write(f".{node.attr}")


_BLOCK = (
    r"(?:address|article|aside|body|dd|details|div|dl|dt|fieldset|figcaption|figure|footer|form|h[1-6]|head|header|html|"
    r"li|link|main|meta|nav|ol|p|script|section|summary|table|tbody|td|th|thead|title|tr|ul)\b"
)
_SAID = r"((?:\{[%#][^\n]*[%#]\}\n)*)"
"""Lines of a template that write nothing."""
_BEFORE_BLOCK = re.compile(rf"\n{_SAID}(?=</?{_BLOCK})")
_AFTER_BLOCK = re.compile(rf"(</?{_BLOCK}[^<>\n]*>)\n{_SAID}(?=<|\{{\{{)")
_ONE_WORD = re.compile(r' (aria-hidden|aria-pressed|class|decoding|loading|role|scope|type)="([\w-]+)"(?=[ >]|\{%)')


def lean_template(source: str) -> str:
    """Return a template whose pages hold no line ends that nobody sees, and no quotes that HTML does without.

    What it is made of when a page is filled is left alone; so it costs nothing then.
    """
    joined = _AFTER_BLOCK.sub(r"\1\2", _BEFORE_BLOCK.sub(r"\1", source))
    return _ONE_WORD.sub(r" \1=\2", joined)


class _Environment(Environment):
    code_generator_class = _PlainAttributes

    def preprocess(self, source: str, name: str | None = None, filename: str | None = None) -> str:
        """Read a template as it is used."""
        return lean_template(super().preprocess(source, name, filename))


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
        bytecode_cache=Compiled(Path(__file__)),
    )
