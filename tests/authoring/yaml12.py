"""YAML text -> what a reader of YAML 1.2 makes of it: numbers, truth values and nothings by the core schema.

The rules are those of the YAML specification 1.2.2, section 10.3.2, tag resolution of the core schema.
"""

from __future__ import annotations

import re
from typing import Any

import yaml

NULL = re.compile(r"null|Null|NULL|~|")
TRUTH = re.compile(r"true|True|TRUE|false|False|FALSE")
WHOLE = re.compile(r"[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+")
BROKEN = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")
ENDLESS = re.compile(r"[-+]?(\.inf|\.Inf|\.INF)|\.nan|\.NaN|\.NAN")


def read(text: str) -> Any:
    return value(yaml.compose(text, Loader=yaml.BaseLoader))


def value(node: yaml.Node | None) -> Any:
    if isinstance(node, yaml.MappingNode):
        return {key.value: value(inner) for key, inner in node.value}  # JSON's keys are texts
    if isinstance(node, yaml.SequenceNode):
        return [value(inner) for inner in node.value]
    assert isinstance(node, yaml.ScalarNode)
    return plain(node.value) if node.style is None else node.value


def plain(text: str) -> object:
    if NULL.fullmatch(text):
        return None
    if TRUTH.fullmatch(text):
        return text.lower() == "true"
    if WHOLE.fullmatch(text):
        return int(text, 0 if text[:2] in ("0o", "0x") else 10)
    if BROKEN.fullmatch(text) or ENDLESS.fullmatch(text):
        return float(text.replace(".inf", "inf").replace(".Inf", "inf").replace(".INF", "inf").replace(".nan", "nan"))
    return text
