"""From the collected tests to their order, fast ones first and those in a browser last; and what several folders share.

The book and the browser are here, since calculators are asked in it as well as in Python.
"""

import gc
import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings
from playwright.sync_api import Browser, sync_playwright

from tests.site.shared import supplied_site
from tests.sweeps import first_of, is_soak
from tests.tools.browser import find_chromium, launch_options

# How long one example takes says nothing on a shared machine; each test has its own limit of time.
settings.register_profile("seambook", deadline=None)
settings.load_profile("seambook")

TESTS = Path(__file__).parent


def pytest_ignore_collect(collection_path: Path, config: pytest.Config) -> bool | None:
    """Where only what is measured alone is asked for, read no file that has nothing of it."""
    if config.option.markexpr != "alone" or not collection_path.match("test_*.py"):
        return None
    return True if "mark.alone" not in collection_path.read_text("utf-8") else None


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave out what only a soak goes through, and sort in place; within each group the order stays as collected."""
    left_out = _left_out(items)
    if left_out:
        config.hook.pytest_deselected(items=left_out)
        gone = set(map(id, left_out))
        items[:] = [item for item in items if id(item) not in gone]
    items.sort(key=_turn)


def pytest_collection_finish() -> None:
    """Let the cycle collector pass over all that was loaded and collected, which stays to the end.

    It would walk thousands of tests again and again; the program itself runs without it, so it comes seldom.
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(200_000, 20, 100)


def _left_out(items: list[pytest.Item]) -> list[pytest.Item]:
    by_test: dict[str, list[pytest.Item]] = {}
    soaks = []
    for item in items:
        if item.get_closest_marker("soak"):
            soaks.append(item)
        elif item.get_closest_marker("sweep"):  # a share of what is not left out anyway
            by_test.setdefault(item.nodeid.partition("[")[0], []).append(item)
    if is_soak():
        return []
    for name, found in by_test.items():
        marker = found[0].get_closest_marker("sweep")
        assert marker is not None
        every = int(marker.args[0])
        first = first_of(name, every, len(found))
        soaks += [item for at, item in enumerate(found) if at % every != first]
    return soaks


def _turn(item: pytest.Item) -> int:
    asked = getattr(item, "callspec", None)
    if (asked and asked.params.get("calc") == "Chromium") or "browser" in item.path.relative_to(TESTS).parts[:-1]:
        return 2
    return 1 if item.get_closest_marker("slow") else 0


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The supplied library, built where the browser can read it, once for all that test side by side."""
    return supplied_site(made_in(tmp_path_factory))


def made_in(factory: pytest.TempPathFactory) -> Path:
    """Return the folder for what is made once for all processes of this run of pytest, and none of them changes.

    `make test` runs it twice, and names a folder for both.
    """
    base = factory.getbasetemp()
    of_run = base.parent if "PYTEST_XDIST_WORKER" in os.environ else base
    return Path(os.environ.get("SEAMBOOK_MADE", of_run))


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    if "SEAMBOOK_CHROMIUM" not in os.environ:  # pytest alone; make test says which
        found = find_chromium(os.environ)
        assert found is not None, "make test brings Chromium"
        os.environ["SEAMBOOK_CHROMIUM"] = str(found)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(**launch_options())
        yield browser
        browser.close()
