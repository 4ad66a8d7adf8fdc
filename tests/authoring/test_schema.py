"""Schemas for editors: what they accept of the shipped records as YAML 1.2 is read, and what they reject."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from builder import pipeline
from builder.authoring.placing import AuthoringError
from builder.authoring.schemas import editor_line, schema_files, write_schemas
from builder.model.files import Layer
from builder.model.records import KIND, KIND_OF_FOLDER
from tests.authoring.yaml12 import plain, read
from tests.books.laying import TINY
from tests.site.building import CONTENT, ROOT, seambook_here, write
from tests.sweeps import share

INVALID = ROOT / "tests" / "invalid"
SHIPPED = sorted(path for path in CONTENT.glob("*/*.yaml") if path.parent.name in KIND_OF_FOLDER)
FILES = {*KIND, "shop", "book", "units", "house-style", "planning", "training", "job-file", "training-file"} - {"page"}
"""Of a page only the head is YAML."""
SEEN_BY_AN_EDITOR = {
    "L201-wrong-kind", "L202-unknown-word", "S201-missing-key", "S202-unknown-key", "S203-wrong-form",
    "S204-no-line-of-points", "S204-step-without-a-side", "S204-wrong-value", "S204-wrong-word-of-status",
    "S205-bad-quantity", "S207-bad-reference", "S208-empty-list", "S210-no-consequence", "S210-two-consequences",
    "S211-to-fill-in",
}  # fmt: skip
"""Broken books whose mistake shows in one file by its form alone. What is no YAML at all (R) an editor tells without a
schema; units, formulas, links and the order of steps are told by `seambook check`."""


@pytest.fixture(scope="module")
def schemas() -> dict[str, jsonschema.Draft7Validator]:
    return validators(CONTENT)


def validators(content: Path) -> dict[str, jsonschema.Draft7Validator]:
    files = schema_files(pipeline.scales((Layer(content, "content"),)))
    found = {name.removesuffix(".json"): json.loads(text) for name, text in files.items()}
    for schema in found.values():
        jsonschema.Draft7Validator.check_schema(schema)
    return {name: jsonschema.Draft7Validator(schema) for name, schema in found.items()}


def complaints(schema: jsonschema.Draft7Validator, text: str) -> list[str]:
    return [f"{list(error.absolute_path)}: {error.message}" for error in schema.iter_errors(read(text))]


def test_there_is_a_schema_of_each_kind_and_of_all_settings(schemas: dict[str, Any]) -> None:
    assert set(schemas) == FILES


@pytest.mark.parametrize("folder", sorted({path.parent.name for path in SHIPPED}))
def test_shipped_records_are_accepted(folder: str, schemas: dict[str, Any]) -> None:
    """The first of each kind and every tenth after it; in a soak all."""
    schema = schemas[KIND_OF_FOLDER[folder].name]
    paths = share([path for path in SHIPPED if path.parent.name == folder], 10)
    assert {path.as_posix(): complaints(schema, path.read_text("utf-8")) for path in paths} == {
        path.as_posix(): [] for path in paths
    }


def test_the_settings_are_accepted(schemas: dict[str, Any]) -> None:
    assert complaints(schemas["book"], (CONTENT / "book.yaml").read_text("utf-8")) == []
    assert complaints(schemas["units"], (CONTENT / "units.yaml").read_text("utf-8")) == []
    assert complaints(schemas["house-style"], (CONTENT / "house-style.yaml").read_text("utf-8")) == []
    assert complaints(schemas["planning"], (CONTENT / "planning.yaml").read_text("utf-8")) == []
    assert complaints(schemas["training"], (TINY / "training.yaml").read_text("utf-8")) == []
    assert complaints(schemas["shop"], (CONTENT / ".start/shop.yaml").read_text("utf-8")) == []
    assert complaints(schemas["shop"], "format: 1\nlayers: [supplied]\n") == []


def test_a_yaml_1_2_reader_is_meant() -> None:
    # YAML 1.2.2, section 10.3.2, table of the core schema, and what 1.1 read otherwise
    seen = {text: plain(text) for text in ("12", "0o14", "0xC", "-1.5e3", "true", "yes", "no", "~", "1_000", "12:30")}
    assert seen == {
        "12": 12, "0o14": 12, "0xC": 12, "-1.5e3": -1500.0, "true": True, "yes": "yes", "no": "no", "~": None,
        "1_000": "1_000", "12:30": "12:30",
    }  # fmt: skip
    assert read("a: '12'\nb: [1, x]") == {"a": "12", "b": [1, "x"]}


def broken_files(case: str) -> Iterator[tuple[str, str]]:
    """The files of a broken book that its messages are about, by kind."""
    told = {line.split(":")[0] for line in (INVALID / case / "expected.txt").read_text("utf-8").splitlines()}
    for path in sorted((INVALID / case).glob("*/*.yaml")):
        if f"content/{path.parent.name}/{path.name}" in told and path.parent.name in KIND_OF_FOLDER:
            yield KIND_OF_FOLDER[path.parent.name].name, path.read_text("utf-8")


def rejected(case: str, found: dict[str, jsonschema.Draft7Validator]) -> bool:
    return any(complaints(found[kind], text) for kind, text in broken_files(case))


def test_what_an_editor_can_see_it_rejects_and_nothing_else() -> None:
    found = validators(TINY)
    cases = sorted(folder.name for folder in INVALID.iterdir() if folder.name[1:4].isdigit() and folder.name[0] != "R")
    assert len(cases) > 50
    assert {case for case in cases if rejected(case, found)} == SEEN_BY_AN_EDITOR


def test_a_key_says_what_it_is_for(schemas: dict[str, Any]) -> None:
    panel = schemas["panel"].schema
    assert panel["additionalProperties"] is False
    assert panel["properties"]["bounds"]["description"].startswith("Openings whose edge it forms.")
    assert "high-strength" in panel["properties"]["strength"]["enum"]
    assert panel["description"] == "One sheet-metal part."


@pytest.mark.parametrize("key", ["format", "name", "layers", "units", "people", "review", "base_address"])
def test_a_misspelt_key_of_the_shop_is_seen(key: str, schemas: dict[str, Any]) -> None:
    assert complaints(schemas["shop"], f"format: '1'\nlayers: [supplied]\n{key}x: 1\n") != []


def test_schemas_go_where_they_are_asked_and_over_themselves(tmp_path: Path) -> None:
    first = write_schemas(tmp_path / "schemas", {})
    assert write_schemas(tmp_path / "schemas", {}) == first
    assert {path.name for path in first} == {f"{name}.json" for name in FILES}


def test_a_strange_file_of_that_name_is_left_alone(tmp_path: Path) -> None:
    write(tmp_path, {"panel.json": '{"mine": true}'})
    with pytest.raises(AuthoringError, match=r"panel\.json is there already"):
        write_schemas(tmp_path, {})
    assert [path.name for path in tmp_path.iterdir()] == ["panel.json"]


def test_a_link_of_that_name_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "elsewhere.json").write_text("{}")
    (tmp_path / "s").mkdir()
    (tmp_path / "s/panel.json").symlink_to(tmp_path / "elsewhere.json")
    with pytest.raises(AuthoringError):
        write_schemas(tmp_path / "s", {})
    assert (tmp_path / "elsewhere.json").read_text() == "{}"


def test_the_line_leads_from_the_record_to_its_schema(tmp_path: Path) -> None:
    write_schemas(tmp_path / "schemas", {})
    record = tmp_path / "content/panels/x.yaml"
    record.parent.mkdir(parents=True)
    line = editor_line(tmp_path, record, "panel")
    way = line.removeprefix("# yaml-language-server: $schema=").strip()
    assert (record.parent / way).resolve() == tmp_path / "schemas/panel.json"
    assert editor_line(tmp_path / "content", record, "panel") == ""


def test_the_command(tmp_path: Path) -> None:
    said = seambook_here("schema", "out", folder=tmp_path)
    assert (said.code, said.out) == (0, "")
    strength = json.loads((tmp_path / "out/panel.json").read_text("utf-8"))["properties"]["strength"]
    assert "mild" in strength["enum"]
    assert [path.name for path in tmp_path.iterdir()] == ["out"]
