"""The parts of a page that every kind shares: identity, way to the root, and the list of where it is used."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.records import KIND
from builder.model.reference import Ref
from builder.model.views import Block, Group, Groups, Html, Links, Page, Passage, Warnings
from builder.view.here import Here
from builder.view.prose import plain_text
from builder.view.used import used_by

CODED = frozenset({"procedure", "seam", "lesson", "panel", "tool", "supply"})
"""Kinds that are printed or have labels: their first sheet carries a code; a calculator's stands on its slip. One takes
a hundredth of a second to make, so that others go without."""

OTHERS_USED = "Other records used"


def page(
    here: Here,
    ref: Ref,
    title: str,
    kind: str,
    lead: Html,
    main: tuple[Block, ...],
    aside: tuple[Block, ...] = (),
    *,
    texts: tuple[Passage, ...] = (),
    aliases: tuple[str, ...] = (),
    scripts: tuple[str, ...] = (),
    banner: str = "",
    edition: str = "",
    standing: str = "",
) -> Page:
    """Put a page together; empty blocks are left out of the margin, never out of the text."""
    used = used_by(here, ref)
    return Page(
        ref=ref, path=here.path, root=here.root, title=title, kind=kind, lead=lead, banner=banner,
        main=main, aside=(*aside, used) if used.groups else aside, scripts=scripts, aliases=aliases, passages=texts,
        edition=edition, address=here.address if ref.kind in CODED else "", standing=standing,
    )  # fmt: skip


def uses(here: Here, ref: Ref, anchor: str, lists: Sequence[Block]) -> Groups:
    """List the records that this one names, by kind, each once; words of scales are no records to look up.

    What stands in other lists of the page is not listed again.
    """
    listed = {link.href for block in lists if isinstance(block, Links) for link in block.links}
    listed |= {one.href for block in lists if isinstance(block, Warnings) for one in block.warnings}
    catalogue = here.book.catalogue
    named = dict.fromkeys(mention.ref.record for mention in catalogue.summaries[ref].mentions)
    found: dict[str, dict[Ref, None]] = {}
    for other in named:
        target = catalogue.moved.get(other, other)
        if target in catalogue.summaries and target.kind != "scale" and target != ref:
            found.setdefault(target.kind, {})[target] = None
    links = ((kind, tuple([here.link_to(other) for other in sorted(found[kind])])) for kind in KIND if kind in found)
    left = ((kind, tuple([link for link in of_kind if link.href not in listed])) for kind, of_kind in links)
    return Groups(OTHERS_USED, tuple(Group(KIND[kind].plural, of_kind) for kind, of_kind in left if of_kind), anchor)


def passage(anchor: str, heading: str, *texts: str | None, name: str = "") -> Passage:
    """Gather the words of a part of a page; it may be found by a name that is not shown."""
    return Passage(anchor, plain_text(heading), " ".join(plain_text(text) for text in texts if text), name)
