"""Each source's page says which values, limits and rules rest on it: compared with the records as plain YAML."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml

from builder.view import parts, used
from tests.site.building import CONTENT, build, page

Told = Counter[tuple[str, str]]
"""Name and the page it stands on, by how often."""


def records(folder: str) -> Iterator[tuple[str, Any]]:
    for path in sorted((CONTENT / folder).glob("*.yaml")):
        yield f"../{folder}/{path.stem}.html", yaml.load(path.read_text("utf-8"), Loader=yaml.CBaseLoader)


def sourced() -> dict[str, Told]:
    """What names a source of its own, by the source: fixed values, proofs, limits, rules, dangers, facts, measures."""
    found: dict[str, Told] = {}

    def take(source: str, name: str, where: str) -> None:
        found.setdefault(source, Counter())[name, where] += 1

    for where, one in records("calculators"):
        for name, fixed in one.get("fixed", {}).items():
            take(fixed["source"], name, f"{where}#fixed")
        for proof in one["proofs"]:
            take(proof["source"], "Proof", f"{where}#proofs")
    for where, one in records("methods"):
        for limit in one["limits"] if one["limits"] != "none" else ():
            take(limit["source"], "Limit", f"{where}#limits")
    for where, one in records("rules"):
        take(one["source"], "Rule", where)
    for where, one in records("procedures"):
        for step in (step for phase in one["phases"] for step in phase["steps"]):
            for measure in step.get("measure", ()):
                take(measure["source"], measure["name"], f"{where}#{step['key']}")
    for where, one in records("openings"):
        for check in one["checks"] if one["checks"] != "none" else ():
            take(check["source"], check["name"], f"{where}#checks")
    return found


def told(site: Path, source: str) -> Told:
    """All that a source's page says, or where that is cut short the pages beside it."""
    beside = sorted((site / "used").glob(f"source-{source}_values-*.html"))
    rows: Told = Counter()
    for path in beside or [site / "sources" / f"{source}.html"]:
        for row in page(site, path.relative_to(site).as_posix()).select("#values tbody tr"):
            name, _, where = row.select("td")
            rows[name.get_text(strip=True), str(where.select("a")[0]["href"])] += 1
    return rows


def test_all_that_names_a_source_stands_on_its_page(site: Path) -> None:
    wanted = sourced()
    assert len(wanted) > 20
    assert sum(rows.total() for rows in wanted.values()) > 100
    missing = {source: rows - told(site, source) for source, rows in wanted.items()}
    assert {source: rows for source, rows in missing.items() if rows} == {}


def test_what_stands_there_is_said_with_its_value(site: Path) -> None:
    shown = [row.select("td") for row in page(site, "sources/wmo-8.html").select("#values tbody tr")]
    rows = {name.text: value.text for name, value, _ in shown}
    fixed = yaml.load((CONTENT / "calculators/dew-point.yaml").read_text("utf-8"), Loader=yaml.CBaseLoader)["fixed"]
    own = {name: one["value"] for name, one in fixed.items() if one["source"] == "wmo-8"}
    assert own
    assert {name: rows[name].split("\u00a0")[0] for name in own} == own

@pytest.mark.soak

def test_a_long_table_is_cut_and_goes_on_beside_the_page(
    site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    own = page(site, "sources/common-practice.html")
    assert len(own.select("#values tbody tr")) == used.MOST
    every = told(site, "common-practice")
    assert own.select("#values .note a")[0].text == f"All {every.total()} values, limits and rules"
    monkeypatch.setattr(parts, "MOST_ON_ONE_PAGE", 20)
    build(tmp_path / "site", str(CONTENT))
    assert len(list((tmp_path / "site/used").glob("source-common-practice_values-*.html"))) == -(-every.total() // 20)
    assert told(tmp_path / "site", "common-practice") == every
