"""Every record type and the words of the scales -> schema files in a folder, for an editor to complete and check by."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from pathlib import Path

from builder.authoring.placing import AuthoringError, place
from builder.authoring.schema import DRAFT, MADE_BY, schema_of
from builder.model.forms.form import form_of_record
from builder.model.forms.saved_file import job_file_schema, training_file_schema
from builder.model.forms.wording import Scales
from builder.model.near import a
from builder.model.records import KINDS
from builder.model.records.planning import Planning
from builder.model.records.settings import BookSettings, ShopSettings
from builder.model.records.style import HouseStyle
from builder.model.records.training import Training
from builder.model.records.units import UnitSettings

FOLDER = "schemas"
"""Where a shop keeps them."""
SETTINGS = {"shop": ShopSettings, "book": BookSettings, "units": UnitSettings, "house-style": HouseStyle,
            "planning": Planning, "training": Training}  # fmt: skip
JOB_FILE, TRAINING_FILE = "job-file", "training-file"
"""A job and people's training as pages save them; no files of a shop's own folder."""
EXACTLY_ONE = {"rule": ("needs", "owes", "forbids", "if-both-first", "asks")}
"""Keys of which a record has one and no other; the types cannot say it, `shape` tells it as S210."""


def schema_files(scales: Scales) -> Mapping[str, str]:
    """Return the text of each schema by its file's name."""
    # An editor checks whole files; of a page only the head is YAML.
    titles = {kind.name: (kind.type, f"Seambook: {a(kind.name)}") for kind in KINDS if kind.ending == ".yaml"}
    titles |= {name: (settings, f"Seambook: {name}.yaml") for name, settings in SETTINGS.items()}
    found = {name: schema_of(form_of_record(type_), title, scales) for name, (type_, title) in titles.items()}
    found[JOB_FILE] = {"$schema": DRAFT, "$comment": MADE_BY, "title": "Seambook: a job's file", **job_file_schema()}
    found[TRAINING_FILE] = {"$schema": DRAFT, "$comment": MADE_BY, "title": "Seambook: a file of training",
                            **training_file_schema()}
    for name, keys in EXACTLY_ONE.items():
        found[name]["oneOf"] = [{"required": [key]} for key in keys]
    return {f"{name}.json": json.dumps(one, indent=1, ensure_ascii=False) + "\n" for name, one in found.items()}


def write_schemas(folder: Path, scales: Scales) -> tuple[Path, ...]:
    """Put the schemas down; a file of such a name that is not ours is left alone and told."""
    files = schema_files(scales)
    for name in files:
        _refuse_strange(folder / name)
    return tuple(place(folder, name, text, over=True) for name, text in files.items())


def _refuse_strange(path: Path) -> None:
    if not os.path.lexists(path):
        return
    if path.is_symlink() or not path.is_file() or MADE_BY not in path.read_text("utf-8", errors="replace")[:1000]:
        raise AuthoringError(f"{path} is there already and is no schema of Seambook", "name another folder")


def editor_line(shop: Path, file: Path, name: str) -> str:
    """Return the line that tells an editor the schema of a file, or nothing where the shop has no schemas."""
    schema = shop / FOLDER / f"{name}.json"
    if not schema.is_file():
        return ""
    way = os.path.relpath(schema.resolve(), file.parent.resolve()).replace(os.sep, "/")
    return f"# yaml-language-server: $schema={way}\n"
