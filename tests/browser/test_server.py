"""The book had from a server: kept whole, read with the server gone, and never a mixture of two editions."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from builder.supplied import templates
from tests.bench.paint import WATCH
from tests.books.laying import build
from tests.browser.served import Served, copied, replace
from tests.browser.test_axe import looks_clean
from tests.browser.watched import one_of_each_kind
from tests.site.building import write
from tests.site.records import OUR_LAP
from tests.sweeps import is_soak

pytestmark = pytest.mark.slow
LONG = 100_000
"""Milliseconds that keeping a whole book may take beside other tests."""
HOME, TERM, PROCEDURE = "index.html", "terms/lap.html", "procedures/weld-cover.html"
OLD, NEW = "Words of the old edition.", "Words of the new edition."
HELD = """async () => {
  const stores = await Promise.all((await caches.keys()).map((name) => caches.open(name)));
  const all = await Promise.all(stores.map((store) => store.keys()));
  return all.flat().map((one) => new URL(one.url).pathname.slice(1));
}"""
"""The paths of the files that lie in any store."""
@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of a book that is kept: words, what they find first, and a calculator that warns."""

    words: str
    found: str
    warned: str


@dataclass(frozen=True, slots=True)
class Chosen:
    """Of a book above its limit: that limit, a procedure that is chosen and one that is not, with their titles."""

    most: int
    chosen: str
    title: str
    other: str
    other_title: str


SMALL = Asked("cover edge", "cover", "calculators/holes.html#in=length:30")
SUPPLIED = Asked("rocker seam", "rocker", "calculators/dew-point.html#in=air:30,humidity:95,surface:20")
OF_SMALL = Chosen(1_800_000, "weld-cover", "Weld the cover on", "look-again", "Look at the hatch again")
OF_SUPPLIED = Chosen(
    10_000_000, "dress-welds", "Dress welds without thinning the sheet", "hang-quarter-outer",
    "Hang and finish a new quarter",
)  # fmt: skip
Serve = Callable[[Path], Served]


@pytest.fixture(scope="module")
def tiny(editions: tuple[Path, Path]) -> Path:
    """A small book."""
    return editions[0]


@pytest.fixture(scope="module")
def leaf(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book of one term: the fewer files there are, the sooner all are kept."""
    folder = tmp_path_factory.mktemp("leaf")
    write(folder / "content", OUR_LAP)
    assert build(folder / "content", folder / "book").published is not None
    return folder / "book"


@pytest.fixture(scope="module")
def two(leaf: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """Two editions of it, which differ in the first page and in the term's."""
    folder = tmp_path_factory.mktemp("two")
    first, second = folder / "first", folder / "second"
    for edition, words in ((first, OLD), (second, NEW)):
        mark = ("</main>", f'<p class="edition-word">{words}</p></main>')
        copied(leaf, edition, {HOME: mark, TERM: mark})
    return first, second


@pytest.fixture
def serve() -> Iterator[Serve]:
    running: list[Served] = []

    def start(root: Path) -> Served:
        running.append(Served(root))
        return running[-1]

    yield start
    for served in running:
        served.stop()


@pytest.fixture
def profile(chromium: Browser) -> Iterator[BrowserContext]:
    """A phone's browser with nothing in it; its pages may complain of nothing but a server that is gone."""
    context = chromium.new_context(viewport={"width": 360, "height": 740}, locale="en-GB", has_touch=True)
    context.set_default_timeout(15_000)
    troubles: list[str] = []
    context.on("weberror", lambda found: troubles.append(str(found.error)))
    context.on("console", lambda said: troubles.append(said.text) if "Failed to load" not in said.text else None)
    yield context
    context.close()
    assert troubles == []


def keep(profile: BrowserContext, served: Served, patience: float = 30_000) -> Page:
    """Open the page about this device, and wait until all that is to be kept is."""
    page = profile.new_page()
    page.goto(served.url("device.html"))
    expect(page.locator("#device_standing")).not_to_contain_text("Not all", timeout=patience)
    return page


def word(page: Page) -> str:
    return page.locator(".edition-word").inner_text()


def test_the_whole_book_reads_with_the_server_gone(
    serve: Serve, profile: BrowserContext, tiny: Path, request: pytest.FixtureRequest
) -> None:
    """The small book; in a soak the supplied one."""
    asked = SUPPLIED if is_soak() else SMALL
    served = serve(request.getfixturevalue("site") if is_soak() else tiny)
    page = keep(profile, served, LONG)
    expect(page.locator("#device_standing")).to_contain_text("The whole book is kept on this device")
    assert page.evaluate("document.querySelector('link[rel=manifest]').href") == served.url("seambook.webmanifest")
    served.stop()
    failed: list[str] = []
    page.on("requestfailed", lambda request: failed.append(f"{request.url} {request.failure}"))
    on_the_way = "net::ERR_ABORTED"  # of a page that is left while it loads
    kinds = list(one_of_each_kind(served.root))
    assert len(kinds) > 15
    for path in kinds:
        answer = page.goto(served.url(path))
        assert answer is not None
        assert (answer.status, answer.from_service_worker, page.url) == (200, True, served.url(path))
        assert page.locator("main h1").count() == 1
    page.locator("#page_search-words").fill(asked.words)
    page.locator("#page_search-found ol a").first.click()
    expect(page.locator("main h1")).to_contain_text(re.compile(asked.found, re.IGNORECASE))
    page.goto(served.url(asked.warned))
    expect(page.locator("#answer_cautions li").first).to_be_visible()
    page.goto(served.url("jobs.html"))
    page.locator("#job_examples").get_by_role("link").first.click()
    expect(page.locator(".job-head h2")).to_be_visible(timeout=60_000)
    assert [one for one in failed if not one.endswith(on_the_way)] == []


def test_a_new_edition_waits_for_the_pages_of_the_old(
    serve: Serve, profile: BrowserContext, two: tuple[Path, Path]
) -> None:
    served = serve(two[0])
    page = keep(profile, served)
    page.goto(served.url(HOME))
    page.wait_for_timeout(2500)  # an edition that comes within two seconds of the first is not told of by Chromium
    served.root, before = two[1], served.asked.copy()
    page.reload()  # by which the browser looks for a new worker
    bar = page.locator("#page_edition")
    expect(bar).to_contain_text("A new edition of this book is here")
    fetched = served.asked - before
    same = "what is the same in both is not sent again"
    assert set(fetched) == {HOME, TERM, "files.sha256", "worker.js"}, same
    assert word(page) == OLD
    page.goto(served.url(TERM))
    assert word(page) == OLD
    page.goto(served.url("bay.html"))
    page.wait_for_timeout(500)
    assert page.locator("#page_edition").count() == 0, "nothing lies over a step in the bay"
    page.goto(served.url("device.html"))
    expect(page.locator("#device_waiting")).to_be_visible()
    expect(bar).to_be_visible()
    looks_clean(page, "a new edition waits")
    other = profile.new_page()
    other.goto(served.url(TERM))
    assert word(other) == OLD
    other.get_by_role("button", name="Use it now").tap()
    expect(other.locator("#page_edition")).to_contain_text("One more page of this book is open. Close it")
    assert word(other) == OLD
    page.close()
    other.get_by_role("button", name="Use it now").tap()
    expect(other.locator(".edition-word")).to_have_text(NEW)
    expect(other.locator("#page_edition")).to_have_count(0)
    served.stop()
    other.goto(served.url(HOME))
    assert word(other) == NEW
    stores = other.evaluate("caches.keys()")
    assert len([name for name in stores if not name.endswith("choice")]) == 1, "the old edition is cleared away"


def test_when_its_last_page_is_closed_the_next_start_has_the_new_edition(
    serve: Serve, profile: BrowserContext, two: tuple[Path, Path]
) -> None:
    served = serve(two[0])
    page = keep(profile, served)
    page.wait_for_timeout(2500)
    served.root = two[1]
    page.goto(served.url(HOME))
    expect(page.locator("#page_edition")).to_be_visible()
    page.get_by_role("button", name="Later").tap()
    page.goto(served.url(TERM))
    page.wait_for_timeout(300)
    assert page.locator("#page_edition").count() == 0
    page.goto(served.url(HOME))
    page.close()
    served.stop()
    began = profile.new_page()
    for _ in range(20):  # the browser takes a moment to see that nobody uses the old one
        began.wait_for_timeout(250)
        began.goto(served.url(TERM))
        if word(began) == NEW:
            break
        began.goto("about:blank")
    assert word(began) == NEW
    began.goto(served.url(HOME))
    assert word(began) == NEW


def test_what_was_cut_short_goes_on_where_it_stopped(serve: Serve, profile: BrowserContext, leaf: Path) -> None:
    served = serve(leaf)
    served.left = 70
    page = profile.new_page()
    page.goto(served.url("device.html"))
    expect(page.locator(".device-fault")).to_contain_text("goes on when the network is back")
    had = set(page.evaluate(HELD))
    assert len(had) > 20
    served.left, served.asked = None, type(served.asked)()
    page.locator("#device_again").tap()
    expect(page.locator("#device_standing")).to_contain_text("The whole book is kept", timeout=30_000)
    assert had & set(served.asked) == set()
    assert len(served.asked) > 50


def test_a_damaged_file_is_asked_for_again_then_refused(
    serve: Serve, profile: BrowserContext, two: tuple[Path, Path]
) -> None:
    served = serve(two[0])
    served.damage["lists.html"] = 1
    page = keep(profile, served)
    assert served.asked["lists.html"] == 2
    page.goto(served.url("lists.html"))
    expect(page.get_by_role("heading", level=1)).to_have_text("Everything in this book")
    page.wait_for_timeout(2500)
    served.root = two[1]
    served.damage[TERM] = 1000
    page.goto(served.url("device.html"))
    expect(page.locator(".device-fault")).to_contain_text(f"{TERM} came damaged, twice")
    expect(page.locator("#device_standing")).to_contain_text("The whole book is kept")
    page.goto(served.url(TERM))
    assert word(page) == OLD
    assert page.locator("#page_edition").count() == 0
    served.damage.clear()
    page.goto(served.url("device.html"))
    expect(page.locator("#device_waiting")).to_be_visible()


def test_a_list_of_another_edition_is_not_used(serve: Serve, profile: BrowserContext, two: tuple[Path, Path]) -> None:
    served = serve(two[0])
    served.damage["files.sha256"] = 2
    page = profile.new_page()
    page.goto(served.url("device.html"))
    expect(page.locator(".device-fault")).to_contain_text("is just being given another edition")
    assert served.asked["delivery.json"] == 0


def test_of_a_book_above_its_limit_chosen_procedures_are_kept(
    serve: Serve, profile: BrowserContext, editions: tuple[Path, Path], tmp_path: Path,
    request: pytest.FixtureRequest,
) -> None:  # fmt: skip
    """The small book; in a soak the supplied one."""
    book = request.getfixturevalue("site") if is_soak() else editions[1]
    asked = OF_SUPPLIED if is_soak() else OF_SMALL
    served = serve(copied(book, tmp_path / "limited", most=asked.most))
    page = keep(profile, served, LONG)
    expect(page.locator("#device_standing")).to_contain_text("the procedures that you choose")
    first = served.asked.copy()
    assert not any(path.startswith(("procedures/", "seams/")) for path in first)
    chosen, other = asked.chosen, asked.other
    row = page.locator(f"#device_keep-{chosen}")
    row.tap()
    expect(row).to_have_attribute("aria-pressed", "true", timeout=LONG)
    looks_clean(page, "what is kept and what is not")
    # From the server, since it is there and of this edition; at its foot, where a button comes late.
    page.goto(served.url(f"procedures/{other}.html#page_keep-said"))
    expect(page.locator("#page_keep")).to_be_visible()
    expect(page.locator("#page_keep")).to_be_in_viewport()
    assert moved_by_coming(page, "#page_keep") == [], "the button pushes nothing away"
    expect(page.locator("#page_keep")).to_have_attribute("aria-pressed", "false")
    page.goto(served.url(f"procedures/{chosen}.html"))
    expect(page.locator("#page_keep")).to_have_attribute("aria-pressed", "true")
    assert served.asked[f"procedures/{chosen}.html"] == 1
    reads_with_all_it_leads_to(page, served, asked)
    page.goto(served.url(f"procedures/{other}.html"))
    expect(page.locator(".device-missing")).to_contain_text(f"“{asked.other_title}” cannot be shown")
    expect(page.locator(".device-missing")).to_contain_text("the server cannot be reached")
    looks_clean(page, "a page that is not kept")
    served.root = copied(book, tmp_path / "next", {f"procedures/{other}.html": ("</main>", "<p>Next.</p></main>")},
                         most=asked.most - 100_000)  # fmt: skip
    (served.root / "worker.js").unlink()  # the new edition is on its way, and not here yet
    served.start()
    page.goto(served.url(f"procedures/{other}.html"))
    expect(page.locator(".device-missing")).to_contain_text("the server has another edition")
    page.locator(f"#device_keep-{chosen}").tap()
    expect(page.locator(f"#device_keep-{chosen}")).to_have_attribute("aria-pressed", "false")
    served.stop()
    page.goto(served.url(f"procedures/{chosen}.html"))
    expect(page.locator(".device-missing")).to_contain_text(f"“{asked.title}” cannot be shown")


def moved_by_coming(page: Page, found: str) -> list[float]:
    """Take away what came late and let it come again: what a page moves by while it is read is no part of it."""
    late = page.locator(found)
    late.evaluate("(one) => { one.hidden = true; }")
    page.evaluate(WATCH)
    page.wait_for_timeout(100)
    page.evaluate("window.shifts.length = 0")
    late.evaluate("(one) => { one.hidden = false; }")
    page.wait_for_timeout(100)
    shifts: list[float] = page.evaluate("window.shifts")
    return shifts


def reads_with_all_it_leads_to(page: Page, served: Served, asked: Chosen) -> None:
    """Open a procedure with the server gone, and each record that its steps name."""
    served.stop()
    page.goto(served.url(f"procedures/{asked.chosen}.html"))
    assert page.url.endswith(f"procedures/{asked.chosen}.html")
    page.goto(served.url(f"bay.html#procedure={asked.chosen}"))
    expect(page.locator("#bay")).to_contain_text(asked.title)
    page.goto(served.url(f"procedures/{asked.chosen}.html"))
    ways = page.locator("main .step a").evaluate_all("(all) => [...new Set(all.map((one) => one.href.split('#')[0]))]")
    led = [way for way in ways if re.search("/(tools|panels|hazards|calculators|terms|supplies)/", way)]
    assert len(led) > 3
    for way in led[:8]:
        page.goto(way)
        assert page.url == way


def test_a_look_at_a_book_in_the_making_clears_what_was_kept_from_its_address(
    serve: Serve, profile: BrowserContext, leaf: Path, tmp_path: Path
) -> None:
    served = serve(leaf)
    page = keep(profile, served)
    shown = copied(leaf, tmp_path / "shown", {HOME: ("</main>", "<p class=edition-word>Just written.</p></main>")})
    replace(shown / "worker.js", (templates() / "show" / "worker.js").read_bytes())
    page.wait_for_timeout(2500)
    served.root = shown
    page.goto(served.url(HOME))
    expect(page.locator(".edition-word")).to_have_text("Just written.")
    assert page.evaluate("caches.keys()") == []


def test_a_device_that_has_no_room_says_so(serve: Serve, profile: BrowserContext, tiny: Path) -> None:
    served = serve(tiny)
    page = profile.new_page()
    limit = {"origin": served.url("").rstrip("/"), "quotaSize": 300_000}
    profile.new_cdp_session(page).send("Storage.overrideQuotaForOrigin", limit)
    page.goto(served.url("device.html"))
    expect(page.locator(".device-fault")).to_contain_text("no room for it, or refuses to keep it")
    page.goto(served.url(PROCEDURE))
    expect(page.locator("main h1")).to_be_visible()


def test_a_browser_that_refuses_says_so(serve: Serve, profile: BrowserContext, tiny: Path) -> None:
    page = profile.new_page()
    page.add_init_script("navigator.serviceWorker.register = () => Promise.reject(new DOMException('not here'))")
    page.goto(serve(tiny).url("device.html"))
    expect(page.locator(".device-fault")).to_contain_text("The browser refuses to keep the book")


def test_no_worker_and_no_manifest_where_the_book_is_no_servers(
    profile: BrowserContext, tiny: Path, tmp_path: Path
) -> None:
    copy = ("<body ", '<body data-copy="pocket" ')
    pocket = copied(tiny, tmp_path / "pocket", {"device.html": copy})
    plain, whole = Served(tiny, "127.0.0.2"), Served(pocket)
    page = profile.new_page()
    says = {
        (tiny / "device.html").as_uri(): "was opened from a folder", plain.url("device.html"): "comes over http",
        whole.url("device.html"): "is a pocket copy",
    }  # fmt: skip
    try:
        for address, words in says.items():
            page.goto(address)
            expect(page.locator("#device_desk")).to_contain_text(words)
            assert page.locator("link[rel=manifest]").count() == 0
            page.wait_for_timeout(200)
        assert (plain.asked["worker.js"], whole.asked["worker.js"]) == (0, 0)
    finally:
        plain.stop()
        whole.stop()
