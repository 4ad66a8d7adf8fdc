"""Pages as they leave the templates: what is escaped, what may never stand in one."""

from __future__ import annotations

import inspect
import re
from collections import Counter
from pathlib import Path
from typing import get_type_hints

import pytest
from bs4 import BeautifulSoup, Tag

from builder.model import views as view_models
from builder.model.views import Html, Items
from builder.render import Renderer, assets, open_renderer, sources
from tests.render.samples import every_block, page, site

TEMPLATES = Path(__file__).parents[2] / "templates"
HOSTILE = "\"'><script>alert(1)</script><img src=x onerror=alert(2)>{{ 7 * 7 }}"
# The policy of the design, word for word; another would be another promise.
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; "
    "manifest-src 'self'; worker-src 'self'; connect-src 'none'; base-uri 'none'; form-action 'none'; object-src 'none'"
)


@pytest.fixture(scope="module")
def renderer() -> Renderer:
    return open_renderer(TEMPLATES)


@pytest.fixture(scope="module")
def soup(renderer: Renderer) -> BeautifulSoup:
    return BeautifulSoup(renderer.render(page(*every_block()), site()), "html.parser")


@pytest.fixture(scope="module")
def attacked(renderer: Renderer) -> BeautifulSoup:
    return BeautifulSoup(renderer.render(page(*every_block(HOSTILE), mark=HOSTILE), site(HOSTILE)), "html.parser")


def tags(soup: BeautifulSoup) -> list[Tag]:
    return [tag for tag in soup.find_all(True) if isinstance(tag, Tag)]


def test_hostile_text_stays_text(soup: BeautifulSoup, attacked: BeautifulSoup) -> None:
    # Any text that reached the page as mark-up would add an element or an attribute that the harmless page lacks.
    for kind in ("script", "img"):
        assert len(attacked.find_all(kind)) == len(soup.find_all(kind))
    assert {name for tag in tags(attacked) for name in tag.attrs} <= {name for tag in tags(soup) for name in tag.attrs}
    # A drawing breaks a longer text into more lines, and clears the paper under one that crosses a line.
    admitted = Counter(text=99, path=9)
    assert Counter(tag.name for tag in tags(attacked)) - Counter(tag.name for tag in tags(soup)) <= admitted
    assert "{{ 7 * 7 }}" in attacked.get_text()


def test_a_busy_part_escapes_all_but_mark_up_and_numbers() -> None:
    """Where a template turns escaping off, it writes only what the views hold as `Html` or as a number unescaped."""
    classes = inspect.getmembers(view_models, inspect.isclass)
    views = [one for _, one in classes if one.__module__.startswith("builder.model.")]
    hints = [(name, hint) for one in views for name, hint in get_type_hints(one).items()]
    free = {name for name, hint in hints if hint in (Html, int)} - {name for name, hint in hints if hint is str}
    busy = [path for path in TEMPLATES.rglob("*.html") if "autoescape false" in path.read_text("utf-8")]
    assert len(busy) > 3
    for path in busy:
        for written in re.findall(r"\{\{ (.+?) -?\}\}", path.read_text("utf-8")):
            made_here = re.fullmatch(r"(one|message|values|chosen|all|picture|told|beside)\([a-z.]+\)", written)
            assert written.endswith("|e") or made_here or written.rpartition(".")[2] in free, (path.name, written)


def test_ids_are_unique_and_what_points_at_one_finds_it(soup: BeautifulSoup) -> None:
    ids = [str(tag["id"]) for tag in tags(soup) if tag.get("id")]
    assert [name for name, times in Counter(ids).items() if times > 1] == []
    for attribute in ("for", "aria-labelledby", "aria-describedby", "aria-controls"):
        named = [str(tag[attribute]).split() for tag in tags(soup) if tag.get(attribute)]
        assert {name for names in named for name in names} <= set(ids), attribute


def test_nothing_inline(soup: BeautifulSoup) -> None:
    assert not soup.find_all("style")
    for tag in tags(soup):
        assert not [name for name in tag.attrs if name == "style" or name.startswith("on")], tag
    for script in soup.find_all("script"):
        assert isinstance(script, Tag)
        assert script.get("src")
        assert "defer" in script.attrs
        assert script.get("type") is None
        assert not script.get_text()


def test_policy_comes_before_anything_it_governs(renderer: Renderer) -> None:
    text = renderer.render(page(), site()).decode()
    policy = re.search(r'<meta http-equiv="Content-Security-Policy" content="([^"]+)">', text)
    assert policy is not None
    assert policy[1] == POLICY
    assert policy.start() < min(text.index("<link"), text.index("<script"))


def test_what_needs_a_script_is_hidden_until_it_runs(soup: BeautifulSoup) -> None:
    for name in ("page_search", "page_theme", "tick_tools"):
        tag = soup.find(id=name)
        assert isinstance(tag, Tag)
        assert "hidden" in tag.attrs
    assert soup.select_one('a[href="../a-z.html"]')
    assert not soup.select("[data-tick]")  # ticks.js makes the buttons of steps
    assert "disabled" in soup.select("#ask_form fieldset")[0].attrs


def test_danger_is_read_before_the_action(soup: BeautifulSoup) -> None:
    body = soup.select_one("#first-step")
    assert body is not None
    inside = [child for child in body.find_all(True, recursive=False) if isinstance(child, Tag)]
    classes = [" ".join(str(name) for name in child.get_attribute_list("class")) for child in inside]
    assert classes.index("warning signal-2") < classes.index("do")


def test_an_empty_list_says_so(renderer: Renderer) -> None:
    text = renderer.render(page(Items("Parts", (), "None needed.")), site()).decode()
    assert "<p class=none>None needed.</p>" in text


def test_same_view_gives_same_bytes(renderer: Renderer) -> None:
    view = page(*every_block())
    assert renderer.render(view, site()) == open_renderer(TEMPLATES).render(view, site())


def test_mark_up_of_the_view_is_kept(renderer: Renderer) -> None:
    text = renderer.render(page(Items("Parts", (Html("<em>One</em>"),))), site()).decode()
    assert "<li><em>One</em></li>" in text


def test_assets_are_sorted_and_every_page_finds_its_own(soup: BeautifulSoup) -> None:
    shared = assets(sources(TEMPLATES))
    assert list(shared) == sorted(shared)
    wanted = {str(tag.get("src") or tag.get("href")) for tag in soup.select("script, head link[href]")}
    assert {path.removeprefix("../") for path in wanted} <= set(shared)
