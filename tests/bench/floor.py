"""The floor: what the libraries alone take for the same input, so that a build is judged by a ratio."""

from __future__ import annotations

import time
from pathlib import Path

import jinja2
import yaml
from markdown import Markdown

_PAGE = "<!doctype html><title>{{ title }}</title>{% for part in parts %}<p>{{ part }}</p>{% endfor %}"


def floor(content: Path, out: Path) -> dict[str, float]:
    """Compose every YAML file, turn every text of a procedure into HTML, fill a bare template, write a file."""
    paths = sorted(content.rglob("*.yaml"))
    seconds: dict[str, float] = {}
    started = time.perf_counter()
    texts = [path.read_text("utf-8") for path in paths]
    trees = [yaml.load(text, Loader=yaml.CBaseLoader) for text in texts]
    seconds["yaml"] = time.perf_counter() - started

    started = time.perf_counter()
    machine = Markdown()
    pages = [[machine.reset().convert(text) for text in _lines(tree)] for tree in trees]
    seconds["markdown"] = time.perf_counter() - started

    started = time.perf_counter()
    template = jinja2.Environment(autoescape=True).from_string(_PAGE)
    made = [template.render(title="x", parts=page) for page in pages]
    seconds["jinja"] = time.perf_counter() - started

    started = time.perf_counter()
    out.mkdir(parents=True, exist_ok=True)
    for at, html in enumerate(made):
        (out / f"{at}.html").write_text(html, "utf-8")
    seconds["write"] = time.perf_counter() - started
    return seconds


def _lines(node: object) -> list[str]:
    if isinstance(node, dict):
        return [line for value in node.values() for line in _lines(value)]
    if isinstance(node, list):
        return [line for value in node for line in _lines(value)]
    return [str(node)] if " " in str(node) else []
