"""The book's own pages: from A to Z, about it, and what a problem means."""

from __future__ import annotations

import string
from pathlib import Path
from typing import get_type_hints

import pytest

from builder import pipeline
from builder.formula.functions import FUNCTIONS
from builder.model.files import Layer
from builder.model.records import KINDS, Kind
from builder.model.records.fields import alias_of
from builder.supplied import templates
from builder.view import letters
from tests.books.laying import TINY, edit, lay
from tests.site.building import CONTENT, page

TERM = "terms/lap.yaml"


def tiny(folder: Path, processes: int = 1) -> Path:
    """The tiny book built from `folder`/content, which is laid down if it is not there."""
    content = folder / "content"
    if not content.exists():
        lay(content, TINY)
    order = pipeline.Order((Layer(content, "content"),), templates(), folder / "site", processes=processes)
    outcome = pipeline.make(order)
    assert outcome.published is not None, outcome.problems
    return folder / "site"


def fingerprint(site: Path) -> str:
    rows = {dt.text: dt.find_next("dd") for dt in page(site, "about.html").select("#this_book dt")}
    said = rows["Fingerprint"]
    assert said is not None
    return said.get_text(" ", strip=True)


def links(site: Path, path: str) -> set[tuple[str, str]]:
    return {(a.get_text(strip=True), str(a["href"])) for a in page(site, path).select(".groups a")}


def test_a_to_z_leads_to_every_record_by_each_of_its_names(site: Path) -> None:
    listed = links(site, "a-z.html")
    folders = [site / kind.folder for kind in KINDS]
    records = {path.relative_to(site).as_posix() for folder in folders for path in folder.glob("*.html")}
    assert records <= {way for _, way in listed}
    assert ("sill", "terms/rocker.html") in listed
    heads = [head.text for head in page(site, "a-z.html").select(".groups h2")]
    assert heads == sorted(heads, key=lambda head: (head == letters.OTHER, head))
    assert set(heads) <= {*string.ascii_uppercase, letters.OTHER}


def test_a_name_stands_under_its_first_word_that_is_no_article(site: Path) -> None:
    for section in page(site, "a-z.html").select(".groups"):
        names = [a.get_text(strip=True).casefold() for a in section.select("a")]
        starts = {name.removeprefix("a ").removeprefix("an ").removeprefix("the ")[0].upper() for name in names}
        assert section.h2 is not None
        assert starts == {section.h2.text} or section.h2.text == letters.OTHER


def test_a_large_book_has_a_page_for_each_letter(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    whole = links(tiny(tmp_path), "a-z.html")
    monkeypatch.setattr(letters, "MOST_ON_ONE_PAGE", 20)
    site = tiny(tmp_path)
    ways = [str(a["href"]) for a in page(site, "a-z.html").select("#letters a")]
    assert len(ways) > 5
    assert set().union(*(links(site, path) for path in ways)) == whole


def test_every_code_is_explained_as_the_command_does(site: Path) -> None:
    soup = page(site, "codes.html")
    for code in pipeline.CODES:
        card = soup.find(id=f"code_{code.id.lower()}")
        assert card is not None, code.id
        assert " ".join(code.explanation.split()) in " ".join(card.get_text(" ").split())


def test_the_fingerprint_tells_what_is_written_and_nothing_else(tmp_path: Path) -> None:
    first = fingerprint(tiny(tmp_path / "one"))
    assert fingerprint(tiny(tmp_path / "another", processes=2)) == first
    edit(tmp_path / "one/content", TERM, ("title: Lap", "title: Laps"))
    changed = fingerprint(tiny(tmp_path / "one"))
    assert changed != first
    edit(tmp_path / "another/content", "book.yaml", ("title: ", "title: Our "))
    assert fingerprint(tiny(tmp_path / "another")) != first
    (tmp_path / "one/content" / TERM).rename(tmp_path / "one/content/terms/lapped.yaml")
    edit(tmp_path / "one/content", "terms/lapped.yaml", ("title: Laps", "title: Laps\nwas: [lap]"))
    assert fingerprint(tiny(tmp_path / "one")) not in (first, changed)


def test_sources_stand_in_the_order_of_trust_with_what_rests_on_each(site: Path) -> None:
    soup = page(site, "sources.html")
    heads = [head.text for head in soup.select(".groups h2")]
    assert heads.index("Law") < heads.index("Common practice") < heads.index("From memory")
    every = {str(a["href"]) for a in soup.select(".groups a")}
    assert every == {f"sources/{path.name}" for path in (site / "sources").glob("*.html")}
    practice = soup.select_one('a[href="sources/common-practice.html"]')
    assert practice is not None
    said = practice.find_next("span")
    assert said is not None
    users = {
        str(a["href"]) for path in ("sources/common-practice.html", "used/source-common-practice.html")
        for a in page(site, path).select("#rests a, .groups a") if not str(a["href"]).startswith("../used")
    }  # fmt: skip
    assert said.text == f"{len(users)} records rest on it"


def test_each_page_of_the_book_has_a_title_of_its_own(site: Path) -> None:
    paths = ["index.html", *sorted(path.name for path in site.glob("*.html") if path.name != "index.html")]
    titles = [soup.title.text for soup in (page(site, path) for path in paths) if soup.title]
    assert len(titles) == len(set(titles)) == len(paths)
    assert all(title.endswith(f"· {titles[0]}") for title in titles[1:])


def test_every_page_leads_to_them_at_its_foot(site: Path) -> None:
    for path in ("index.html", "terms/lap.html"):
        ways = {str(a["href"]).removeprefix("../") for a in page(site, path).select(".foot a")}
        assert {"a-z.html", "about.html", "codes.html", "sources.html"} <= ways


def test_what_comes_first_is_told_in_order(site: Path) -> None:
    said = [li.get_text(" ", strip=True) for li in page(site, "about.html").select("#authority li")]
    assert said[0].startswith("1. The vehicle maker")
    assert said[-1].startswith(f"{len(said)}. Memory")


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_the_guide_shows_each_kind_with_all_its_keys_and_a_record_as_it_is_written(site: Path, kind: Kind) -> None:
    soup = page(site, f"writing/{kind.name}.html")
    keys = [code.text for code in soup.select("#keys_0 h3 code")]
    assert keys == [alias_of(name, hint) for name, hint in get_type_hints(kind.type, include_extras=True).items()]
    link = soup.select_one("#example p a")
    shown = soup.select_one("#example pre")
    assert link is not None
    assert shown is not None
    record = Path(str(link["href"])).stem
    assert shown.text == (CONTENT / kind.folder / f"{record}{kind.ending}").read_text("utf-8")
    ways = {str(a["href"]) for a in soup.select(".cards a") if str(a["href"]).startswith("#")}
    assert ways <= {f"#{part['id']}" for part in soup.select(".cards")}


def test_the_guide_leads_to_every_kind_and_names_every_function(site: Path) -> None:
    soup = page(site, "writing.html")
    assert [str(a["href"]) for a in soup.select("#kinds a")] == [f"writing/{kind.name}.html" for kind in KINDS]
    assert [row.td.text for row in soup.select("#functions tbody tr") if row.td] == list(FUNCTIONS)
