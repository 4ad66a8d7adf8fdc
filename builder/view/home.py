"""The catalogue -> the first page: the body drawing, the same in words, and the other ways into the book."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.records import Record
from builder.model.records.calculator import Calculator
from builder.model.records.shell import Shell
from builder.model.reference import Ref
from builder.model.shelf import of_kind
from builder.model.views import Block, Group, Groups, Link, Links, Page
from builder.view import parts, stages
from builder.view.here import Book, Here
from builder.view.jobs import way_to_jobs
from builder.view.lists import AZ, HOME, LISTS, TRAINING, note_of, plain_page
from builder.view.moments import groups_of
from builder.view.shell import WORDS, in_words, unfold
from builder.view.training_data import in_turn

MOST = 24
"""Records of a kind that the page lists; the rest are a word away: a large book begins as lightly as a small one."""
MOST_PROCEDURES = 100
"""Procedures that the page lists whole."""
MOST_WORKED_OUT = 40
"""Calculators that the page lists, of each moment of the job its share."""


def home_page(book: Book, lead: str) -> Page:
    """Make the first page."""
    here = Here(book, HOME)
    refs: dict[str, list[Ref]] = {}
    for ref in book.catalogue.summaries:
        refs.setdefault(ref.kind, []).append(ref)
    drawings, words = _body(here, refs.get("panel", []))
    blocks = (
        *drawings,
        way_to_jobs(here),
        *_procedures(here, refs.get("procedure", [])),
        *words,
        *_calculators(here, refs.get("calculator", [])),
        *_learn(here, refs),
        Links("Everything else", (Link("From A to Z", AZ), Link("By kind", LISTS)), anchor="more"),
    )
    return plain_page(here, Ref("page", "home"), book.site.title, here.paragraphs(lead), blocks)


def _body(here: Here, panels: list[Ref]) -> tuple[tuple[Block, ...], tuple[Block, ...]]:
    """The drawing of each shell; and all panels in words, which are many, for below what is wanted most."""
    shells = [*of_kind(here.book.shelf, "shell", Shell)]
    drawings: list[Block] = []
    groups: list[Group] = []
    for at, (_, shell) in enumerate(shells, 1):
        title = "Find it on the body" if len(shells) == 1 else f"Find it on the body: {shell.title}"
        body = unfold(here, shell, title, "body" if at == 1 else f"body-{at}")
        drawings.append(body)
        groups += in_words(shell, body)
    drawn = {link.href for group in groups for link in group.links}
    others = [link for link in _sorted(here, panels) if link.href not in drawn]
    if others:
        groups.append(Group("Not on the drawing" if drawn else "", tuple(_first(others, "panel", "panels"))))
    words = (Groups("The panels in words" if drawings else "Panels", tuple(groups), WORDS),) if groups else ()
    return tuple(drawings), words


def _procedures(here: Here, refs: list[Ref]) -> tuple[Block, ...]:
    """The procedures by the stage of the job; of very many the first, and the way to the rest."""
    if len(refs) > MOST_PROCEDURES:
        groups: tuple[Group, ...] = (Group("", tuple(_first(_sorted(here, refs), "procedure", "procedures"))),)
    else:
        groups = stages.groups_of(here, [(ref, here.link_to(ref, note_of(here, ref))) for ref in refs])
    return (Groups("Procedures", groups, "procedure"),) if refs else ()


def _calculators(here: Here, refs: list[Ref]) -> tuple[Block, ...]:
    """The calculators by the moment of the job; of many the first few of each moment."""
    shown = [ref for ref in refs if _is_on_first_page(here.book.shelf.get(ref))]
    groups = groups_of(here, shown, LISTS, MOST_WORKED_OUT)
    return (Groups("Work something out", groups, "calculator"),) if shown else ()


def _is_on_first_page(record: Record | None) -> bool:
    return isinstance(record, Calculator) and record.on_first_page


def _learn(here: Here, refs: dict[str, list[Ref]]) -> tuple[Block, ...]:
    """Where somebody new begins: paths in their order, pages to read, lessons, and the words of the trade."""
    links = [here.link_to(ref, "a path of lessons") for ref, _ in in_turn(here.book)][:MOST]
    if refs.get("lesson"):
        links.append(Link("Training", TRAINING, "who learns here, and what each can do"))
    links += _first(_sorted(here, refs.get("page", [])), "page", "pages")
    links += _first(_sorted(here, refs.get("lesson", [])), "lesson", "lessons")
    if words := len(refs.get("term", ())):
        links.append(Link("Words of the trade", f"{LISTS}#term", f"{words} explained, with what else they are called"))
    return (Groups("New here", (Group("", tuple(links)),), "new-here"),) if links else ()


def _sorted(here: Here, refs: Iterable[Ref]) -> list[Link]:
    return parts.by_title([here.link_to(ref, note_of(here, ref)) for ref in refs])


def _first(links: list[Link], kind: str, plural: str) -> list[Link]:
    """The first of many, and the way to the rest."""
    if len(links) <= MOST:
        return [*links]
    return [*links[:MOST], Link(f"All {len(links)} {plural}", f"{LISTS}#{kind}")]
