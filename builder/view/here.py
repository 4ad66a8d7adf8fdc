"""Where a page is made: the book around it, its own path, and the small makers every page needs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache

from builder.model.ledger import Ledger, Remembered
from builder.model.links import Catalogue, Links
from builder.model.pictures import WebPicture
from builder.model.quantity import Quantity
from builder.model.records import KIND, Record
from builder.model.records.planning import Planning
from builder.model.records.settings import ShopSettings
from builder.model.records.supporting import Scale
from builder.model.records.training import Training
from builder.model.reference import LONE_SUBJECTS, Ref
from builder.model.said import Said, said
from builder.model.signs import NO_BREAK
from builder.model.views import Html, Link, Row, Site, Warning
from builder.view.prose import Prose
from builder.view.quantities import Units
from builder.view.status import standing

NOTHING = Html("")
LOOKED_UP = frozenset({"procedure", "seam", "calculator", "decision", "table", "lesson", "page", "method", "vehicle",
                       "path", "skill"})  # fmt: skip
"""Kinds whose title is written out on paper behind a way that is called something else."""


@dataclass(frozen=True)
class Book:
    """What pages are made from beside the record in hand."""

    catalogue: Catalogue
    links: Links
    shelf: Mapping[Ref, Record]
    site: Site
    prose: Prose
    pictures: Mapping[str, WebPicture] = field(default_factory=dict)
    """Of each figure, by its id."""
    units: Units = field(default_factory=Units)
    shop: ShopSettings | None = None
    """What the shop says of itself."""
    review: Mapping[str, int] = field(default_factory=dict)
    """After how many months a procedure is looked at again, by its status."""
    planning: Planning | None = None
    """How jobs are planned."""
    training: Training | None = None
    """How new people are taught."""
    fingerprint: str = ""
    """The same for two books that were made from the same records."""
    known_links: Remembered[tuple[str, Ref], Link] = field(default_factory=Remembered)
    """Links made before, by the folder they were made in: from every page of a folder the way is the same."""
    known_defects: Remembered[tuple[str, str], tuple[Ref, ...]] = field(default_factory=Remembered)
    """By act and method: the defects that show themselves with such steps."""
    known_traits: Remembered[str, tuple[str, ...]] = field(default_factory=Remembered)
    """By act: what goes on while it is done, as planning says."""
    known_warnings: Remembered[tuple[str, str], Warning | None] = field(default_factory=Remembered)
    """Safety messages made before, by folder and hazard."""

    def noting(self, ledger: Ledger) -> Book:
        """Return the same, its memories still empty, noting what they rest on."""
        return replace(
            self, known_links=Remembered(ledger), known_defects=Remembered(ledger), known_traits=Remembered(ledger),
            known_warnings=Remembered(ledger),
        )  # fmt: skip

    def word(self, scale: str, word: str) -> str:
        """Return a scale's word as readers see it."""
        record = self.shelf.get(Ref("scale", scale))
        return record.words[word].say if isinstance(record, Scale) and word in record.words else word

    def users(self, ref: Ref) -> dict[str, list[Ref]]:
        """Return the records that refer to a record, by kind in the order of the kinds."""
        found: dict[str, list[Ref]] = {}
        for other in self.catalogue.uses.get(ref, ()):
            if other != ref:
                found.setdefault(other.kind, []).append(other)
        return {kind: found[kind] for kind in KIND if kind in found}

    def rank(self, scale: str, word: str) -> int:
        """Return a word's place in its scale, counted from 1."""
        record = self.shelf.get(Ref("scale", scale))
        return list(record.words).index(word) + 1 if isinstance(record, Scale) and word in record.words else 1


@dataclass(frozen=True)
class Here:
    """One page in the making."""

    book: Book
    path: str

    @cached_property
    def root(self) -> str:
        """The way from this page to the book's root."""
        return "../" * self.path.count("/")

    @cached_property
    def folder(self) -> str:
        """The folder this page is in."""
        return self.path.rpartition("/")[0]

    @property
    def address(self) -> str:
        """Where the page is to be had on the shop's server; empty where the book is on none."""
        base = self.book.site.base
        return f"{base}/{self.path}" if base else ""

    def href(self, ref: Ref) -> str:
        """Return the way to a record."""
        return self.book.links.href(self.path, ref)

    def link(self, kind: str, id_: str, note: str = "") -> Link:
        """Return a link to a record by its title."""
        return self.link_to(Ref(kind, id_), note)

    def link_to(self, ref: Ref, note: str = "") -> Link:
        """Return a link to a record by its title; the other side is said, and that a procedure is not issued."""
        known = self.book.known_links.get((self.folder, ref), lambda: self._link_to(ref))
        return Link(known.text, known.href, ", ".join(filter(None, (known.note, note)))) if note else known

    def _link_to(self, ref: Ref) -> Link:
        title = self.book.catalogue.title(ref)
        if ref.side == "other":
            title = f"{title}, other side"
        href = self.book.links.href(f"{self.folder}/", ref) if ref.kind not in LONE_SUBJECTS else ""
        return Link(title, href, standing(self.book.catalogue.status(ref)) if ref.kind == "procedure" else "")

    def links(self, kind: str, ids: Iterable[str]) -> tuple[Link, ...]:
        """Return links to several records of a kind."""
        return tuple([self.link_to(Ref(kind, id_)) for id_ in ids])

    def line(self, text: str | None) -> Html:
        """Return a one-line text as HTML; nothing stays nothing."""
        return self.book.prose.line(text, self.href) if text else NOTHING

    def text(self, text: str) -> Html:
        """Return plain text as HTML."""
        return Html(_escaped(text))

    def lines(self, texts: Iterable[str]) -> tuple[Html, ...]:
        """Return several one-line texts as HTML."""
        return tuple(self.line(text) for text in texts)

    def paragraphs(self, text: str | None) -> Html:
        """Return a text as block HTML; nothing stays nothing."""
        return self.book.prose.paragraphs(text, self.href, self.called) if text else Html("")

    def called(self, ref: Ref) -> str:
        """Return the title of a page that is looked up by it; what is no page to go and read says none."""
        return self.book.catalogue.title(ref.record) if ref.kind in LOOKED_UP else ""

    def anchor(self, link: Link) -> Html:
        """Return a link as HTML, for a cell or a value."""
        return Html(f'<a href="{link.href}">{_escaped(link.text)}</a>') if link.href else Html(_escaped(link.text))

    def anchors(self, links: Iterable[Link]) -> Html:
        """Return links as HTML, parted by commas."""
        return Html(", ".join(self.anchor(link) for link in links))

    def row(self, label: str, value: str | Said, note: str = "") -> Row:
        """Return a labelled value from plain text."""
        return Row(label, self.both(value) if isinstance(value, Said) else Html(_escaped(value)), note)

    def both(self, text: Said) -> Html:
        """Return a text that depends on the system of units as HTML: the page's script swaps what it shows."""
        return _both(text)

    def quantity(self, quantity: Quantity | None, *, before: str = "") -> Html:
        """Return a quantity as HTML."""
        return _both(said(before, self.shown(quantity)) if before else self.shown(quantity))

    def shown(self, quantity: Quantity | None) -> Said:
        """Say a quantity in both systems of units: `0.8 mm` and `0.031 in`."""
        return self.book.units.shown(quantity)


def base_of(shop: ShopSettings | None) -> str:
    """Return the address of the book on a server, without a slash at its end; empty where it is on none."""
    return (shop.base_address or "").rstrip("/") if shop else ""


def _escaped(text: str) -> str:
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")


@lru_cache(maxsize=8192)
def _both(text: Said) -> Html:
    if not text.other:
        return Html(_escaped(text.text))
    return Html(f'<span data-q="{_escaped(text.other)}">{_escaped(text.text)}</span>')


def minutes_shown(minutes: float) -> str:
    """Return a time of work as `6 h 40 min`."""
    whole = round(minutes)
    hours, rest = divmod(whole, 60)
    parts = [f"{hours}{NO_BREAK}h"] * bool(hours) + [f"{rest}{NO_BREAK}min"] * bool(rest or not hours)
    return " ".join(parts)
