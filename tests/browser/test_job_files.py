"""A job's file: what is written is read again to the last key, and what is no such file is told with its place.

The page checks files by a form that the builder makes from the type of a job; `seambook schema` publishes the same.
Both are held together here, and with what the page itself writes.
"""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft7Validator
from playwright.sync_api import Page

from builder.model.forms.saved_file import job_file_schema
from tests.browser.watched import PHONE, Watched
from tests.site.building import seambook_here

pytestmark = pytest.mark.slow

READ = """(text) => {
  const found = seambook.jobFile.read(text, seambook.jobBook, "job-1");
  return found.fault ? {fault: found.fault} : {told: found.told, job: found.job,
    again: seambook.jobFile.write(found.job, seambook.jobBook)};
}"""
EXAMPLE = "() => seambook.jobLibrary.example('dented-cover')"



@pytest.fixture(scope="module")
def page(watched_tiny: Watched) -> Page:
    return watched_tiny.open("jobs.html", PHONE)


@pytest.fixture(scope="module")
def example(page: Page) -> dict[str, Any]:
    """The file of the tiny book's own job, which has every part that a job can have."""
    found: dict[str, Any] = page.evaluate(EXAMPLE)
    return found


@pytest.fixture(scope="module")
def published(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    folder = tmp_path_factory.mktemp("schemas")
    said = seambook_here("schema", str(folder / "schemas"), folder=folder)
    assert said.code == 0, said.err
    found: dict[str, Any] = json.loads((folder / "schemas" / "job-file.json").read_text("utf-8"))
    return found


def read(page: Page, given: object) -> dict[str, Any]:
    text = given if isinstance(given, str) else json.dumps(given)
    found: dict[str, Any] = page.evaluate(READ, text)
    return found


def changed(example: dict[str, Any], path: str, value: object) -> dict[str, Any]:
    """The file with one value put in another's place; `-` takes the key away."""
    made = copy.deepcopy(example)
    at: Any = made
    *way, last = path.split(".")
    for part in way:
        at = at[int(part)] if part.isdecimal() else at[part]
    if value == "-":
        del at[last]
    else:
        at[int(last) if last.isdecimal() else last] = value
    return made


def test_the_example_has_every_part(example: dict[str, Any]) -> None:
    schema = job_file_schema()["properties"]["job"]["properties"]
    assert set(schema) - set(example["job"]) == {"rust", "made", "changed"}
    empty = [key for key, value in example["job"].items() if value in ({}, [], "")]
    assert empty == []


def test_what_is_read_is_written_again(page: Page, example: dict[str, Any]) -> None:
    found = read(page, example)
    assert found["told"] == []
    written = json.loads(found["again"])
    assert written["format"] == 1
    for key, value in example["job"].items():
        if key not in ("runs", "findings"):
            assert written["job"][key] == value, key
    for run, kept in zip(example["job"]["runs"], written["job"]["runs"], strict=True):
        assert kept | run == kept
    assert read(page, found["again"])["again"] == found["again"]


def test_unknown_keys_are_told_kept_and_written_again(page: Page, example: dict[str, Any]) -> None:
    odd = changed(example, "job.colour", {"of": ["the", 7]})
    odd = changed(odd, "job.runs.0.wished", True)
    odd = changed(odd, "sender", "a later edition")
    found = read(page, odd)
    (told,) = found["told"]
    assert told["sort"] == "unknown"
    for place in ("sender", "job › colour", "job › runs[1] › wished"):
        assert place in told["say"]
    written = json.loads(found["again"])
    assert written["sender"] == "a later edition"
    assert written["job"]["colour"] == {"of": ["the", 7]}
    assert written["job"]["runs"][0]["wished"] is True


def test_the_published_schema_admits_what_the_page_writes(
    page: Page, example: dict[str, Any], published: dict[str, Any]
) -> None:
    Draft7Validator.check_schema(published)
    assert published["properties"]["format"]["enum"] == [1]
    validator = Draft7Validator(published)
    assert [error.message for error in validator.iter_errors(example)] == []
    assert [error.message for error in validator.iter_errors(json.loads(read(page, example)["again"]))] == []


WRONG: tuple[tuple[str, object, str], ...] = (
    ("job.hands", "many", "hands"),
    ("job.hands", 0, "hands"),
    ("job.hands", 2.5, "hands"),
    ("job.hands", 1e308, "hands"),
    ("job.hands", None, "hands"),
    ("job.title", 5, "title"),
    ("job.title", "x" * 121, "title"),
    ("job.runs", {}, "runs"),
    ("job.runs", [7], "runs[1]"),
    ("job.runs.0.procedure", "<b>", "runs[1] › procedure"),
    ("job.runs.0.side", "top", "side"),
    ("job.runs.0.procedure", "-", "procedure"),
    ("job.runs.0.fingerprint", "zz", "fingerprint"),
    ("job", [], "job"),
    ("job.start", "tomorrow", "start"),
    ("job.start", "-", "start"),
    ("job.hours.days", [0], "days[1]"),
    ("job.hours.opens", "25:00", "opens"),
    ("job.climate.temperature", -500, "temperature"),
    ("job.done", [], "done"),
    ("job.done", {"weld-cover": {"at": "2026-03-02T08:10"}}, "done › weld-cover"),
    ("job.done", {"a@left#b": 3}, "a@left#b"),
    ("job.readings", {"a@left#b/x": {"found": "wide", "unit": "mm"}}, "found"),
    ("job.findings.0.answer", "perhaps", "answer"),
    ("job.findings.0.make_safe", "yes", "make_safe"),
    ("job.findings.0.minutes", -1, "minutes"),
    ("job.order", ["x"], "order[1]"),
    ("job.photos", {"a@left#b": [{"at": "2026-03-02T08:10", "data": "javascript:alert(1)"}]}, "data"),
    ("job.photos", {"a@left#b": [{"at": "2026-03-02T08:10", "data": "data:image/svg+xml;base64,AAAA"}]}, "data"),
    ("job.prices.labour", "50", "labour"),
    ("job.batches", {"film-primer": {}}, "film-primer"),
    ("book", "-", "book"),
    ("book.id", "-", "id"),
    ("job.id", "../x", "id"),
    ("job.places", {"bench": 1.5}, "bench"),
)  # fmt: skip


@pytest.mark.parametrize(("path", "value", "place"), WRONG, ids=[f"{path}-{at}" for at, (path, *_) in enumerate(WRONG)])
def test_a_wrong_value_is_told_with_its_place(
    page: Page, example: dict[str, Any], published: dict[str, Any], path: str, value: object, place: str
) -> None:
    odd = changed(example, path, value)
    fault = read(page, odd)["fault"]
    assert place in fault.split("”")[0]
    assert "Mend it there, or take an earlier copy. Nothing was changed." in fault
    assert [*Draft7Validator(published).iter_errors(odd)] != []


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "It is empty"),
        ("{", "cut off or damaged"),
        ('{"format": 1', "cut off or damaged"),
        ("null", "does not say its format"),
        ("[]", "does not say its format"),
        ('"job"', "does not say its format"),
        ("7", "does not say its format"),
        ("{}", "does not say its format"),
        ('{"format": 1}', "“book”"),
        ('{"format": "1"}', "no format of a job's file"),
        ('{"format": 0}', "no format of a job's file"),
        ('{"format": 1e9}', "format 1000000000"),
        ("[" * 5000, "job's file"),
        ("[" * 90 + "]" * 90, "does not say its format"),
        ("\x00\x01PK", "job's file"),
        ("<html>", "job's file"),
    ],
)  # fmt: skip
def test_what_is_no_file_of_a_job_says_what_to_do(page: Page, text: str, said: str) -> None:
    assert said in read(page, text)["fault"]


def test_a_file_cut_off_anywhere_is_refused_and_the_place_told(page: Page, example: dict[str, Any]) -> None:
    text = json.dumps(example, indent=1)
    for at in range(1, len(text) - 1, 97):
        assert "job's file" in read(page, text[:at])["fault"]


def test_a_later_format_is_left_to_a_later_book(page: Page, example: dict[str, Any]) -> None:
    fault = read(page, {**example, "format": 2, "job": {"anything": "else"}})["fault"]
    assert "format 2" in fault
    assert "newer edition" in fault
    assert "not changed" in fault


@pytest.mark.parametrize("key", ["__proto__", "constructor", "prototype"])
@pytest.mark.parametrize("where", ["top", "job", "done", "deep"])
def test_keys_that_are_no_data_are_refused(page: Page, example: dict[str, Any], key: str, where: str) -> None:
    odd = copy.deepcopy(example)
    at = {"top": odd, "job": odd["job"], "done": odd["job"]["done"], "deep": odd["job"]["runs"][0]}[where]
    at[key] = {"polluted": True}
    assert f"“{key}” cannot be the name" in read(page, odd)["fault"]
    assert page.evaluate("() => ({}).polluted === undefined && [].polluted === undefined")


def test_what_is_deep_or_endless_is_refused(page: Page, example: dict[str, Any]) -> None:
    nest: Any = "x"
    for _ in range(60):
        nest = [nest]
    assert "deep" in read(page, changed(example, "job.notes", nest))["fault"]
    assert "values" in read(page, changed(example, "job.more", [0] * 500_000))["fault"]
    assert "list of at most" in read(page, changed(example, "job.order", ["a@left#b"] * 20_001))["fault"]


def test_texts_of_a_file_stay_texts_on_the_page(watched_tiny: Watched, example: dict[str, Any], tmp_path: Path) -> None:
    bad = '<img src=x onerror="window.hit = 1"><script>window.hit = 1</script>'
    odd = changed(changed(changed(example, "job.title", bad), "job.car", bad), "job.number", bad)
    odd = changed(odd, "job.runs.0.title", bad)
    odd["job"]["runs"].append({"procedure": "gone-from-here", "title": bad})
    file = tmp_path / "x.json"
    file.write_text(json.dumps(odd), "utf-8")
    page = watched_tiny.open("jobs.html", PHONE)
    page.locator("#job_file").set_input_files(file)
    page.locator("#job_place").wait_for()
    assert bad in page.locator("#job_called").inner_text()
    page.locator("#job_back").click()
    page.locator(".job-kept").wait_for()
    assert page.locator(".job-desk img, .job-desk script").count() == 0
    assert page.evaluate("() => window.hit") is None


@pytest.mark.parametrize(
    ("number", "name"),
    [
        ("26-041", "26-041.seambook-job.json"),
        ("../../etc/x", "etc-x.seambook-job.json"),
        ("", "job.seambook-job.json"),
        ("Nº 7 / Ä", "Nº 7 - Ä.seambook-job.json"),
        ("con:|?*", "con-.seambook-job.json"),
        ("x" * 200, f"{'x' * 60}.seambook-job.json"),
    ],
)  # fmt: skip
def test_a_file_is_named_for_its_job(page: Page, number: str, name: str) -> None:
    assert page.evaluate("(number) => seambook.jobFile.nameOf({number, title: ''})", number) == name


def test_photographs_are_made_small(page: Page) -> None:
    found = page.evaluate("""async () => {
      const canvas = Object.assign(document.createElement("canvas"), {width: 3200, height: 2000});
      const pen = canvas.getContext("2d");
      for (let at = 0; at < 400; at += 1) {
        pen.fillStyle = `hsl(${(at * 37) % 360} 80% 50%)`;
        pen.fillRect((at % 20) * 160, Math.floor(at / 20) * 100, 160, 100);
      }
      const file = await new Promise((done) => canvas.toBlob(done, "image/png"));
      const text = await seambook.jobPhoto.take(file);
      const picture = new Image();
      picture.src = text;
      await picture.decode();
      return {size: [picture.naturalWidth, picture.naturalHeight], head: text.slice(0, 23), long: text.length};
    }""")
    assert found["size"] == [1600, 1000]
    assert found["head"] == "data:image/jpeg;base64,"
    assert found["long"] < 1_000_000
    assert page.evaluate("() => seambook.jobPhoto.kept(640, 480)") == [640, 480]
