"""Prose: the short way past Markdown gives what Markdown gives, and nothing unsafe gets through."""

from __future__ import annotations

import re

import pytest
from bs4 import BeautifulSoup
from hypothesis import given, settings
from hypothesis import strategies as st
from markdown import Markdown

from builder.model.reference import Ref
from builder.view.prose import Prose, plain_text

PROSE = Prose()


def way(ref: Ref) -> str:
    return f"{ref.kind}/{ref.id}.html"


@settings(max_examples=400)
@given(st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"]), min_size=1, max_size=60))
def test_a_plain_paragraph_is_what_markdown_makes_of_it(text: str) -> None:
    bypassed = PROSE.paragraphs(text, way)
    if bypassed == f"<p>{text}</p>" and not re.search(r"[&<>]", text):
        assert Markdown(output_format="html").convert(text) == bypassed


@settings(max_examples=400)
@given(st.text(st.sampled_from("ab .,*_`[]()<>&#!|-+1:/\"'\\~="), min_size=1, max_size=40))
def test_a_line_is_never_a_block_and_never_holds_markup_of_the_authors_own(text: str) -> None:
    made = PROSE.line(text, way)
    soup = BeautifulSoup(f"<div>{made}</div>", "html.parser")
    assert {tag.name for tag in soup.find_all(True)} <= {"div", "a", "em", "strong", "code", "br"}


@pytest.mark.parametrize("text", [
    "1. Not a list", "# No heading", "- no list", "> no quotation", "+ no list", "* no list", "12) no list",
])  # fmt: skip
def test_a_line_keeps_its_first_characters(text: str) -> None:
    assert BeautifulSoup(PROSE.line(text, way), "html.parser").get_text() == text


def test_references_become_ways_and_other_schemes_lose_their_link() -> None:
    assert PROSE.line("see [the seam](seam:rocker-lower)", way) == 'see <a href="seam/rocker-lower.html">the seam</a>'
    for scheme in ("javascript:alert(1)", "JavaScript:alert(1)", "data:text/html,x", "vbscript:x", "file:///etc/passwd"):
        made = PROSE.line(f"[x]({scheme})", way)
        assert "href" not in made, made
    assert 'href="https://example.org/a"' in PROSE.line("[x](https://example.org/a)", way)


@pytest.mark.parametrize("text", [
    "<script>alert(1)</script>", "<img src=x onerror=alert(1)>", "![x](javascript:alert(1))", "a <b>bold</b> move",
    "<div markdown=1>x</div>", "[x](javascript&#58;alert(1))", "<javascript:alert(1)>", "&lt;script&gt;",
])  # fmt: skip
def test_raw_html_and_images_stay_text(text: str) -> None:
    for made in (PROSE.line(text, way), PROSE.paragraphs(text, way)):
        soup = BeautifulSoup(made, "html.parser")
        assert not soup.find_all(["script", "img", "b", "div", "iframe"])
        assert not [tag for tag in soup.find_all(True) if any(name.startswith("on") for name in tag.attrs)]
        ways = [str(tag.get("href")) for tag in soup.find_all(href=True)]
        assert not [href for href in ways if "script" in href.lower()]


def test_plain_text_drops_marks_and_keeps_words() -> None:
    assert plain_text("Use *the* [lower `flange`](seam:x), **twice**") == "Use the lower flange, twice"
