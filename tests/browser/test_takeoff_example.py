"""The take-off of the worked example as the page shows it, line by line beside sums made by hand.

`by_hand.py` holds the sums. Three lines are summed here from the records: of each bead the section times its length, of
each lap its faces, of each box its inside; each seam and box once, though two procedures of the job work on it.
"""

from __future__ import annotations

import csv
import io
import math
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from playwright.sync_api import Browser, Locator, Page

from tests.browser.by_hand import ELSEWHERE, HAND, METRES, Line
from tests.browser.watched import DESK, Watched

CONTENT = Path(__file__).parents[2] / "content"
EXAMPLE = "left-side-struck-and-rusted"
SUMMED_HERE = {"seam-sealer", "weld-through-primer", "cavity-wax"}
CALIBRATED = [
    "Calliper", "Contact thermometer", "Film gauge", "Mixing scales", "Thermometer and hygrometer", "Torque wrench",
    "Tyre gauge and air line", "Ultrasonic thickness gauge",
]  # fmt: skip
Record = dict[str, Any]
SECTIONS: dict[str, Callable[[float], float]] = {
    "half-round": lambda size: math.pi * (size / 2) ** 2 / 2, "fillet": lambda size: size**2 / 2,
}  # fmt: skip


def read(kind: str, name: str) -> Record:
    found: Record = yaml.load((CONTENT / kind / f"{name}.yaml").read_text("utf-8"), yaml.CBaseLoader)
    return found


def millimetres(text: str) -> float:
    number, unit = text.split()
    assert unit == "mm"
    return float(number)


def procedures() -> list[Record]:
    return [read("procedures", run["procedure"]) for run in read("jobs", EXAMPLE)["runs"]]


def steps() -> list[Record]:
    return [step for one in procedures() for phase in one["phases"] for step in phase["steps"]]


def subjects(act: str, kind: str, supply: str) -> list[str]:
    """The seams or boxes on which steps of an act use a supply in this job; each once."""
    found: dict[str, None] = {}
    for step in steps():
        on = step["on"] if isinstance(step["on"], list) else [step["on"]]
        if step["act"] == act and supply in step.get("supplies", ()):
            found.update(dict.fromkeys(one.split(":")[1] for one in on if one.startswith(f"{kind}:")))
    return [name for name in found if name != ELSEWHERE]


@pytest.fixture(scope="module")
def page(chromium: Browser, site: Path) -> Iterator[Page]:
    watched = Watched(chromium, site)
    page = watched.open(f"jobs.html#example={EXAMPLE}", DESK)
    page.get_by_role("link", name="Take-off").first.click()
    page.locator(".only-screen table.take-off").wait_for()
    page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
    yield page
    watched.close()
    assert watched.troubles == []


@pytest.fixture(scope="module")
def told(page: Page) -> list[list[str]]:
    """The rows of the file that the page saves."""
    with page.expect_download() as waiting:
        page.get_by_role("button", name="Save as CSV").click()
    return list(csv.reader(io.StringIO(Path(waiting.value.path()).read_text("utf-8-sig"), newline=""), strict=True))


@pytest.fixture(scope="module")
def lines(told: list[list[str]]) -> dict[str, dict[str, str]]:
    """The file's lines of supplies by their ids."""
    titles = {read("supplies", path.stem)["title"]: path.stem for path in (CONTENT / "supplies").glob("*.yaml")}
    return {titles[row[1]]: dict(zip(told[0], row, strict=True)) for row in told if row[0] == "supply"}


def test_the_hand_went_by_the_records() -> None:
    for name, metres in METRES.items():
        whole = sum(millimetres(segment["length"]) for segment in read("seams", name)["segments"])
        assert metres == pytest.approx(whole / 1000), name


def test_every_line_is_worked_by_hand(lines: dict[str, dict[str, str]]) -> None:
    assert set(lines) == {line.supply for line in HAND} | SUMMED_HERE


@pytest.mark.parametrize("line", HAND, ids=[line.supply for line in HAND])
def test_a_line_is_as_by_hand(lines: dict[str, dict[str, str]], line: Line) -> None:
    found = lines[line.supply]
    assert found["Packs"] == ("" if line.packs is None else str(line.packs))
    if line.needed is None:
        assert (found["Needed"], found["With waste"]) == ("", "")
    else:
        assert float(found["Needed"]) == pytest.approx(line.needed, abs=1e-4)
        assert float(found["With waste"]) == pytest.approx(line.needed * (1 + line.waste), abs=1e-4)


def test_the_sealer_is_one_cartridge(lines: dict[str, dict[str, str]]) -> None:
    """Eighteen seams, a tenth on top, of the 310 mL in a cartridge."""
    seams = [read("seams", name) for name in subjects("bead", "seam", "seam-sealer")]
    beads = [
        SECTIONS[seam["seal"]["profile"]](millimetres(seam["seal"]["size"])) * millimetres(segment["length"]) / 1000
        for seam in seams for segment in seam["segments"]
    ]  # fmt: skip
    assert len(seams) == 18
    assert float(lines["seam-sealer"]["Needed"]) == pytest.approx(sum(beads), abs=1e-3)
    assert float(lines["seam-sealer"]["With waste"]) == pytest.approx(sum(beads) * 1.1, abs=1e-3)
    assert lines["seam-sealer"]["Packs"] == "1"


def test_the_film_is_one_can(lines: dict[str, dict[str, str]]) -> None:
    """Two faces at each interface, 20 µm dry; 30 percent solids and a tenth lost."""
    faces = 0.0
    for name in subjects("prime-weld-through", "seam", "weld-through-primer"):
        for segment in read("seams", name)["segments"]:
            lap = millimetres(segment["length"]) * millimetres(segment["flange"])
            faces += lap * 2 * (len(segment["sheets"]) - 1)
    film = faces * 0.020 / 1000 / 0.3 / 0.9
    assert float(lines["weld-through-primer"]["Needed"]) == pytest.approx(film, abs=1e-3)
    assert lines["weld-through-primer"]["Packs"] == "1"


def test_the_wax_is_one_can_and_coats_each_box_once(lines: dict[str, dict[str, str]]) -> None:
    """Length times girth of each inside, 100 µm dry; 60 percent solids and 30 percent run out."""
    boxes = [read("cavities", name)["inside"] for name in subjects("wax-cavity", "cavity", "cavity-wax")]
    inside = sum(millimetres(one["length"]) * millimetres(one["girth"]) for one in boxes)
    assert float(lines["cavity-wax"]["Needed"]) == pytest.approx(inside * 0.100 / 1000 / 0.6 / 0.7, abs=1e-3)
    assert lines["cavity-wax"]["Packs"] == "1"


def test_parts_are_those_of_this_side_each_once(told: list[list[str]]) -> None:
    wanted = [part for one in procedures() for part in one["needs"]["parts"]]
    names = {part["name"] for part in wanted if part.get("only", "left") == "left"}
    shown = [row[1] for row in told if row[0] == "part"]
    assert sorted(shown) == sorted(f"{name}, left" for name in names)
    assert len(shown) == 21  # the brake fluid of two procedures is one
    assert {part["name"] for part in wanted if part.get("only") == "right"} == {
        "Filler boot", "Filler pocket", "Filler boot, hose clips and seals",
    }  # fmt: skip


def test_people_are_those_of_the_procedure_that_asks_for_most(told: list[list[str]]) -> None:
    most: dict[str, int] = {}
    for one in procedures():
        for person in one["needs"]["people"]:
            most[person["who"]] = max(most.get(person["who"], 0), int(person.get("count", 1)))
    assert {row[1]: int(row[2]) for row in told if row[0] == "people"} == most


def test_tools_are_all_that_a_step_lists_and_the_calibrated_come_first(told: list[list[str]]) -> None:
    listed = {tool for one in procedures() for tool in one["needs"]["tools"]}
    listed |= {tool for step in steps() for tool in step.get("tools", ())}
    records = [read("tools", name) for name in listed]
    shown = {row[1]: row[9] for row in told if row[0] == "tool"}
    assert list(shown)[: len(CALIBRATED)] == CALIBRATED
    assert set(shown) == {record["title"] for record in records}
    for record in records:
        said = shown[record["title"]]
        every = "calibrated every 12\u00a0months" if record.get("calibrated", {}).get("every") == "12 month" else ""
        assert said == every, record["title"]


def cells(table: Locator) -> list[list[str]]:
    """The rows of a table without what is folded away or stands below a title."""
    script = """table => [...table.tBodies[0].rows].map((row) => [...row.cells].map((cell) => {
      const copy = cell.cloneNode(true);
      for (const one of copy.querySelectorAll("details, .how")) one.remove();
      return copy.textContent.trim();
    }))"""
    found: list[list[str]] = table.evaluate(script)
    return found


def test_screen_paper_and_file_say_the_same(page: Page, told: list[list[str]]) -> None:
    screen, paper = (cells(page.locator(f"{where} table.take-off")) for where in (".only-screen", ".only-paper"))
    assert screen == paper
    file = [row for row in told if row[0] == "supply"]
    assert [row[0] for row in screen] == [row[1] for row in file]
    for shown, row in zip(screen, file, strict=True):
        for at in (2, 3):
            same(shown[at - 1], row[at])
        same(shown[3], row[5])
        for at in (7, 8):
            same(shown[at - 3], row[at])
    for at, text in ((-2, "Labour"), (-1, "Sum")):
        for where in (".only-screen", ".only-paper"):
            shown = next(one for one in cells(page.locator(where).get_by_role("table", include_hidden=True).last)
                         if one[0] == text)  # fmt: skip
            same(shown[2], told[at][8])
    listed = page.locator(".only-paper .tool-list li")
    assert listed.count() == sum(row[0] == "tool" for row in told)


def same(shown: str, kept: str) -> None:
    """What is shown is what the file keeps, to the last figure that is shown."""
    number = re.match(r"\d+(?:\.(\d+))?", shown)
    if number is None:
        assert (shown, kept) in (("–", ""), ("not counted", ""))
    else:
        assert float(number[0]) == pytest.approx(float(kept), abs=0.5000001 * 10 ** -len(number[1] or ""))
