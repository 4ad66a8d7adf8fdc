"""What `make bench` prints: of 100 and 1,000 procedures, with `--large` of 10,000, each figure beside its bound.

Every figure of time stands beside the floor of the same run, what the libraries alone need for the same input, and
beside the last stored run as a ratio of such ratios, since machines and hours differ. `--store` stores this run.
"""

from __future__ import annotations

import json
import shutil
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from tests.bench.figure import Figure
from tests.bench.floor import floor
from tests.bench.generator import generate
from tests.bench.library import library, tail_of
from tests.bench.measure import build, cores, shown
from tests.bench.pages import loaded_by, ordinary
from tests.bench.paint import painted
from tests.bench.rate import rate
from tests.bench.searched import searched

CONTENT = Path(__file__).resolve().parents[2] / "content"
STORED = Path(__file__).with_name("stored.json")
SIZES, LARGE = (100, 1_000), 10_000
COPIES = 1_000
MOST_SECONDS = 8.0
"""Of a thousand copies of one procedure, whose floor `test_thousand` takes."""
LEAST_RATE = 100_000.0
"""Steps a second: of the supplied library once its steps are known, of the copies from the first pass on."""


def main(arguments: list[str]) -> None:
    """Measure, print, and exit 1 where a bound is missed."""
    stored = json.loads(STORED.read_text("utf-8")) if STORED.exists() else {}
    figures: list[Figure] = []
    print(f"{cores()} cores; a ratio above 1 in the last column is slower than the stored run, beside the floor")
    with tempfile.TemporaryDirectory(prefix="seambook-bench-") as folder:
        for one in _figures(Path(folder), (*SIZES, *((LARGE,) if "--large" in arguments else ()))):
            figures.append(one)
            _show(one, stored.get(one.name))
    if "--store" in arguments:
        STORED.write_text(json.dumps({one.name: _told(one) for one in figures}, indent=1) + "\n", "utf-8")
    missed = [one.name for one in figures if one.bound is not None and one.value > one.bound]
    print(f"{len(missed)} of {sum(one.bound is not None for one in figures)} bounds missed" if missed else "all kept")
    sys.exit(1 if missed else 0)


def _told(one: Figure) -> float:
    return round(one.value / one.floor if one.floor else one.value, 4)


def _show(one: Figure, stored: float | None) -> None:
    bound = f"bound {one.bound:9,.2f}" if one.bound is not None else ""
    beside = f"{_told(one) / stored:5.2f}" if stored else ""
    mark = "missed" if one.bound is not None and one.value > one.bound else ""
    print(f"  {one.name:<52} {one.value:11,.2f} {one.unit:<3} {bound:<15} {mark:<7}{beside}", flush=True)


def _figures(folder: Path, sizes: tuple[int, ...]) -> Iterator[Figure]:
    alone = build(CONTENT, folder / "alone", 2)
    yield Figure("supplied library", alone.seconds, "s", floor=sum(floor(CONTENT, folder / "floor").values()))
    each: list[float] = []
    for size in sizes:
        content = library(CONTENT, folder / f"content-{size}", size)
        for figure in _of_size(folder, content, size, alone.seconds):
            yield figure
            each += [figure.value] if figure.name.endswith("a procedure") else []
        shutil.rmtree(folder / f"site-{size}", ignore_errors=True)
    yield from searched(CONTENT, folder, sizes)
    yield Figure("cost of a procedure, largest by smallest library", max(each) / min(each), "", 1.2)
    yield from _rates(folder)


def _of_size(folder: Path, content: Path, size: int, alone: float) -> Iterator[Figure]:
    site, kept, name = folder / f"site-{size}", folder / f"kept-{size}", f"{size:,} procedures"
    least = floor(content, folder / "floor")
    whole = sum(least.values())
    for part, seconds in least.items():
        yield Figure(f"{name}: floor, {part}", seconds, "s")
    made = build(content, site, 2, kept)
    yield Figure(f"{name}: made on two processes", made.seconds, "s", floor=whole)
    yield Figure(f"{name}: more than the supplied, a procedure", 1000 * (made.seconds - alone) / size, "ms", 2.0, whole)
    yield Figure(f"{name}: of the floor, two processes", made.seconds / whole, "", 0.5)
    yield Figure(f"{name}: memory of all processes", made.peak_mb, "MB", 1_200.0)
    for stage, seconds in made.stages.items():
        yield Figure(f"{name}: {stage}", seconds, "s", floor=whole)
    if size < LARGE:
        one = build(content, folder / "one", 1)
        yield Figure(f"{name}: of the floor, one process", one.seconds / whole, "", 0.9)
        shutil.rmtree(folder / "one")
    yield from _kept(content, site, kept, name, whole)
    yield from _sizes(site, name)


def _kept(content: Path, site: Path, kept: Path, name: str, whole: float) -> Iterator[Figure]:
    """What a build takes that finds what the last one kept, from a cold start."""
    time.sleep(3)  # what was written a moment before a build is read again by the next
    build(content, site, 2, kept)
    yield Figure(f"{name}: nothing changed", build(content, site, 2, kept).seconds, "s", 1.5, whole)
    path = content / "procedures" / f"renew-rocker-outer{tail_of(2)}.yaml"
    text = path.read_text("utf-8")
    path.write_text(text.replace("purpose: |\n", "purpose: |\n  Changed.\n", 1), "utf-8")
    yield Figure(f"{name}: an edit that keeps ids", build(content, site, 2, kept).seconds, "s", 2.0, whole)
    yield Figure(f"{name}: an edit while it is shown", shown(content, site, kept, path), "s", 0.3, whole)
    new = path.with_name("renew-rocker-outer-once-more.yaml")
    new.write_text(text.replace("title: ", "title: Once more, ", 1), "utf-8")
    yield Figure(f"{name}: a record added", build(content, site, 2, kept).seconds, "s", 5.0, whole)
    other = new.with_name("renew-rocker-outer-yet-again.yaml")
    new.rename(other)
    yield Figure(f"{name}: a record renamed", build(content, site, 2, kept).seconds, "s", 5.0, whole)
    other.unlink()
    yield Figure(f"{name}: a record deleted", build(content, site, 2, kept).seconds, "s", 5.0, whole)


def _sizes(site: Path, name: str) -> Iterator[Figure]:
    search = sum(path.stat().st_size for path in (site / "assets" / "search").iterdir())
    yield Figure(f"{name}: the whole index", search / 1e6, "MB")
    page = ordinary(site)
    yield Figure(f"{name}: an ordinary procedure's page", page.stat().st_size / 1e3, "kB", 60.0)
    yield Figure(f"{name}: styles and scripts it loads", loaded_by(site, page) / 1e3, "kB", 120.0)
    shared = (path for path in (site / "assets").glob("*/*") if path.parent.name in ("css", "js"))
    yield Figure(f"{name}: all styles and scripts", sum(path.stat().st_size for path in shared) / 1e3, "kB", 120.0)
    yield from painted(page, f"{name}: that page")


def _rates(folder: Path) -> Iterator[Figure]:
    """Steps judged by the law in a second are told as microseconds a step, so that less is better."""
    supplied = rate(CONTENT)
    copied = rate(generate(CONTENT, folder / "apart", COPIES, with_panels=True))
    most = 1e6 / LEAST_RATE
    yield Figure("a step judged: supplied, first", 1e6 / supplied.first, "us")
    yield Figure("a step judged: supplied, again", 1e6 / supplied.again, "us", most)
    yield Figure("a step judged: copies, first", 1e6 / copied.first, "us", most)
    yield Figure("a step judged: copies, again", 1e6 / copied.again, "us", most)
    yield Figure("a step judged: floor, looked up once", 1e6 / copied.floor, "us")
