"""Layers -> the layer that a shop writes in, and what it writes there: fresh records, and copies to be told by."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from builder import pipeline
from builder.authoring.blank import HEAD_LINE, PAGE_ENDING, blank
from builder.authoring.placing import AuthoringError, place
from builder.authoring.schemas import editor_line
from builder.model.files import Layer, SourceFile
from builder.model.records import Kind
from builder.model.reference import Ref

_EDITOR = "# yaml-language-server:"


class Written(NamedTuple):
    """A fresh record."""

    path: Path
    taken: str
    """The record it was made from, as problems name it; empty where it is a new one."""


def own_layer(layers: Sequence[Layer]) -> Layer:
    """Return the layer a shop's records go to: the last one, unless that is the supplied library."""
    if not layers or layers[-1].supplied:
        raise AuthoringError(
            "no folder of your own records is named here",
            "go to your shop's folder, or make one: seambook start DIR; or name one with --content",
        )  # fmt: skip
    return layers[-1]


def write_record(layers: Sequence[Layer], kind: Kind, id_: str, shop: Path) -> Written:
    """Put a fresh record into the shop's own layer; where a lower layer has one of that name, a copy of it."""
    layer, ref = own_layer(layers), Ref(kind.name, id_)
    path = layer.path / kind.folder / f"{id_}{kind.ending}"
    if path.is_symlink() or path.exists():
        raise AuthoringError(f"{path} is there already", "change that file, or choose another id")
    line = editor_line(shop, path, kind.name)
    below = _below(layers, ref)
    if below is None:
        text = line + blank(kind, ref, pipeline.scales(layers))
    else:
        kept = _text(below)
        place(layer.path, _name_of(layer, ref, kind), kept, over=True)
        said = f"# Takes the place of {below.shown}. What it was made from is kept, so you are told when it changes.\n"
        text = _headed(line + said, _without_editor_line(kept), kind)
    return Written(place(layer.path, f"{kind.folder}/{id_}{kind.ending}", text), below.shown if below else "")


def confirm(layers: Sequence[Layer], kind: Kind, id_: str) -> str:
    """Keep a copy of the record that the shop's own takes the place of, as it is now; return its place."""
    layer, ref = own_layer(layers), Ref(kind.name, id_)
    if not (layer.path / kind.folder / f"{id_}{kind.ending}").is_file():
        raise AuthoringError(f"your own records have no {ref}", f"make it first: seambook write {kind.name} {id_}")
    below = _below(layers, ref)
    if below is None:
        raise AuthoringError(f"{ref} takes the place of nothing", "nothing is to be confirmed")
    place(layer.path, _name_of(layer, ref, kind), _text(below), over=True)
    return below.shown


def _name_of(layer: Layer, ref: Ref, kind: Kind) -> str:
    return layer.taken_from(ref, kind.folder, kind.ending).relative_to(layer.path).as_posix()


def _below(layers: Sequence[Layer], ref: Ref) -> SourceFile | None:
    """Find the record as it would be without the shop's own layer."""
    found = pipeline.records(layers[:-1]).files
    return next((file for file in found if file.ref == ref), None)


def _text(file: SourceFile) -> str:
    text, problems = pipeline.read_text(file)
    if text is None:
        raise AuthoringError(f"{file.shown}: {problems[0].message}", problems[0].do)
    return text


def _headed(said: str, text: str, kind: Kind) -> str:
    """Put comments at the top of a record; of one with a head into that."""
    return text.replace(HEAD_LINE, HEAD_LINE + said, 1) if kind.ending == PAGE_ENDING else said + text


def _without_editor_line(text: str) -> str:
    """The copy has a way of its own to its schema."""
    return "".join(line for line in text.splitlines(keepends=True) if not line.startswith(_EDITOR))
