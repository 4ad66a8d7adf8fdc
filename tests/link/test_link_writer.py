"""The two link writers: relative ways between pages that hold from any folder, and ids that are unique in one file."""

from __future__ import annotations

import posixpath
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.link import FolderLinks, SingleFileLinks
from builder.model.records import KIND, KINDS
from builder.model.reference import ID_PATTERN, Ref

FOLDER, SINGLE = FolderLinks(), SingleFileLinks()
_words = st.lists(st.text("abz019", min_size=1, max_size=4), min_size=1, max_size=3)
_ids = _words.map("-".join).filter(lambda text: re.fullmatch(ID_PATTERN, text) is not None)
_refs = st.builds(Ref, st.sampled_from(sorted(KIND)), _ids, st.one_of(st.just(""), _ids), st.just("this"))


@pytest.mark.parametrize(("page", "ref", "href"), [
    ("index.html", Ref("seam", "a"), "seams/a.html"),
    ("seams/a.html", Ref("seam", "b"), "b.html"),
    ("seams/a.html", Ref("panel", "b"), "../panels/b.html"),
    ("seams/a.html", Ref("seam", "a"), "#top"),
    ("procedures/p.html", Ref("procedure", "p", "prime"), "#prime"),
    ("seams/a.html", Ref("procedure", "p", "prime"), "../procedures/p.html#prime"),
    ("seams/a.html", Ref("body", "body"), "#top"),
    ("seams/a.html", Ref("seam", "b", "", "other"), "b.html"),
])  # fmt: skip
def test_ways_in_a_folder(page: str, ref: Ref, href: str) -> None:
    assert FOLDER.href(page, ref) == href


@given(_refs, st.one_of(st.just("index.html"), _refs.map(FOLDER.path)))
def test_a_way_in_a_folder_is_relative_and_arrives(ref: Ref, page: str) -> None:
    href = FOLDER.href(page, ref)
    assert not href.startswith("/")
    assert ":" not in href
    path, _, fragment = href.partition("#")
    assert posixpath.normpath(posixpath.join(posixpath.dirname(page), path)) == FOLDER.path(ref) if path else (
        page == FOLDER.path(ref)
    )
    assert fragment == ref.anchor or (fragment == "top" and not ref.anchor and not path)
    assert FOLDER.path(ref).endswith(".html")


@given(st.lists(_refs, unique=True, max_size=12))
def test_ids_in_one_file_are_unique_over_the_whole_book(refs: list[Ref]) -> None:
    hrefs = [SINGLE.href("anything", ref) for ref in refs]
    assert len(set(hrefs)) == len(refs)
    assert all(href.startswith("#") for href in hrefs)


def test_kinds_do_not_share_folders_or_names() -> None:
    assert len({kind.folder for kind in KINDS}) == len({kind.name for kind in KINDS}) == len(KINDS)


def test_a_step_and_a_record_whose_id_joins_both_words_are_apart() -> None:
    """Ids hold single hyphens only, so the double one before an anchor belongs to no id."""
    hrefs = [SINGLE.href("x", ref) for ref in (Ref("seam", "a-b"), Ref("seam", "a", "b"), Ref("seam", "a-b", "c"),
                                               Ref("seam", "a", "b-c"))]  # fmt: skip
    assert len(set(hrefs)) == len(hrefs)
