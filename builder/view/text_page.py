"""A page of prose -> its page: what stands before the first heading as its lead, then a block a section."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.records.page import Page as PageRecord
from builder.model.reference import Ref
from builder.model.sections import Section, plain_heading, sections_of
from builder.model.views import Block, Html, Links, Page, Passage, Prose
from builder.view.here import Here
from builder.view.page import page, passage


def text_page(here: Here, ref: Ref, record: PageRecord) -> Page:
    """Make the page."""
    first, *sections = sections_of(record.text)
    main: list[Block] = list(_blocks(here, sections))
    if record.sources:
        main.append(Links("Sources", here.links("source", record.sources), anchor="part_sources"))
    return page(
        here, ref, record.title, "Page", here.paragraphs(_text(first).strip()), tuple(main), aliases=record.was,
        texts=(passage("", record.title, _text(first)), *_passages(sections)),
    )  # fmt: skip


def _blocks(here: Here, sections: Sequence[Section]) -> Iterator[Block]:
    """Each heading that is below no other begins a block; those below it stand inside."""
    title, anchor, parts = "", "", list[str]()
    for section in sections:
        if section.depth == 1:
            if anchor:
                yield Prose(title, Html("\n".join(parts)), anchor)
            title, anchor, parts = plain_heading(section.heading), section.anchor, []
        else:
            tag = f"h{min(section.depth + 1, 6)}"
            parts.append(f'<{tag} id="{section.anchor}">{here.line(section.heading)}</{tag}>')
        parts.append(here.paragraphs(_text(section).strip("\n")))
    if anchor:
        yield Prose(title, Html("\n".join(parts)), anchor)


def _passages(sections: Sequence[Section]) -> Iterator[Passage]:
    """A section is found by itself: its heading may be the very question. One with no text of its own only groups."""
    for section in sections:
        found = passage(section.anchor, plain_heading(section.heading), section.heading, _text(section))
        yield found._replace(is_alone=bool(_text(section).strip()))


def _text(section: Section) -> str:
    return "\n".join(section.lines)
