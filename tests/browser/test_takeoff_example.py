"""The take-off of the worked example, beside sums made from the records by hand and by nothing of the builder.

Of each bead the section times its length, of each lap its faces, of each box its inside; each seam and box once,
though two procedures of the job work on it. The figures beside them - film, solids, losses, waste, packs - stand in the
records of methods and supplies with their sources, and are written out here again.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from playwright.sync_api import Browser

from tests.browser.watched import PHONE, Watched

CONTENT = Path(__file__).parents[2] / "content"
EXAMPLE = "left-side-struck-and-rusted"
SUM = """() => {
  const { jobExamples, jobBook, jobProcedures, takeoff } = window.seambook;
  const [{ job }] = Object.values(jobExamples);
  return takeoff.sum(job, { book: jobBook, procedures: jobProcedures });
}"""
Record = dict[str, Any]
SECTIONS: dict[str, Callable[[float], float]] = {
    "half-round": lambda size: math.pi * (size / 2) ** 2 / 2, "fillet": lambda size: size**2 / 2,
}  # fmt: skip


def read(kind: str, name: str) -> Record:
    found: Record = yaml.load((CONTENT / kind / f"{name}.yaml").read_text("utf-8"), yaml.BaseLoader)
    return found


def millimetres(text: str) -> float:
    number, unit = text.split()
    assert unit == "mm"
    return float(number)


def subjects(act: str, kind: str, supply: str) -> list[str]:
    """The seams, boxes or panels on which steps of an act use a supply in this job; each once."""
    found: dict[str, None] = {}
    for run in read("jobs", EXAMPLE)["runs"]:
        for phase in read("procedures", run["procedure"])["phases"]:
            for step in phase["steps"]:
                on = step["on"] if isinstance(step["on"], list) else [step["on"]]
                if step["act"] == act and supply in step.get("supplies", ()):
                    found.update(dict.fromkeys(one.split(":")[1] for one in on if one.startswith(f"{kind}:")))
    return list(found)


@pytest.fixture(scope="module")
def supplies(chromium: Browser, site: Path) -> Iterator[dict[str, Record]]:
    watched = Watched(chromium, site)
    page = watched.blank(PHONE)
    page.goto("about:blank")
    data = site / "assets/job"
    scripts = [data / "book.js", *sorted((data / "procedure").glob("*.js")), data / "example" / f"{EXAMPLE}.js"]
    for script in (*scripts, site / "assets/js/job_kept.js", site / "assets/js/takeoff.js"):
        page.evaluate(script.read_text("utf-8"))
    yield {one["id"]: one for one in page.evaluate(SUM)["supplies"]}
    watched.close()
    assert watched.troubles == []


def test_the_sealer_is_one_cartridge(supplies: dict[str, Record]) -> None:
    """Nineteen seams, 133.8 ml; a tenth on top is 147.1 ml of the 310 in a cartridge."""
    seams = [read("seams", name) for name in subjects("bead", "seam", "seam-sealer")]
    beads = [
        SECTIONS[seam["seal"]["profile"]](millimetres(seam["seal"]["size"])) * millimetres(segment["length"]) / 1000
        for seam in seams for segment in seam["segments"]
    ]  # fmt: skip
    assert len(seams) == 19
    assert sum(beads) == pytest.approx(133.8, abs=0.05)
    assert supplies["seam-sealer"]["amount"] == pytest.approx(sum(beads), abs=1e-3)
    assert supplies["seam-sealer"]["withWaste"] == pytest.approx(147.1, abs=0.1)
    assert supplies["seam-sealer"]["packs"] == 1


def test_the_film_is_one_can(supplies: dict[str, Record]) -> None:
    """Two faces at each interface, 20 µm dry; 30 percent solids and a tenth lost."""
    faces = 0.0
    for name in subjects("prime-weld-through", "seam", "weld-through-primer"):
        for segment in read("seams", name)["segments"]:
            lap = millimetres(segment["length"]) * millimetres(segment["flange"])
            faces += lap * 2 * (len(segment["sheets"]) - 1)
    assert supplies["weld-through-primer"]["amount"] == pytest.approx(faces * 0.020 / 1000 / 0.3 / 0.9, abs=1e-3)
    assert supplies["weld-through-primer"]["packs"] == 1


def test_the_wax_is_one_can_and_coats_each_box_once(supplies: dict[str, Record]) -> None:
    """Length times girth of each inside, 100 µm dry; 60 percent solids and 30 percent run out."""
    boxes = [read("cavities", name)["inside"] for name in subjects("wax-cavity", "cavity", "cavity-wax")]
    inside = sum(millimetres(one["length"]) * millimetres(one["girth"]) for one in boxes)
    assert supplies["cavity-wax"]["amount"] == pytest.approx(inside * 0.100 / 1000 / 0.6 / 0.7, abs=1e-3)
    assert supplies["cavity-wax"]["packs"] == math.ceil(supplies["cavity-wax"]["amount"] / 1000)


def test_the_stone_guard_is_three_bottles(supplies: dict[str, Record]) -> None:
    """Quarter 1.2 m², housing 0.6 m², 150 mm along the patch's 420 and 680 mm; 500 µm dry, 60 percent, a fifth lost."""
    area = 1.2 + 0.6 + 0.150 * (0.420 + 0.680)
    assert supplies["stone-guard"]["amount"] == pytest.approx(area * 500 / 0.6 / 0.8, abs=0.01)
    assert supplies["stone-guard"]["packs"] == 3
