"""Page views: everything a page says, complete before a template runs, shared by rendering and search.

What a page holds by the hundred is a named tuple, made and compared twice as fast; the rest are frozen dataclasses.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, NamedTuple

from builder.model.bay_views import Bay
from builder.model.calculation import WayThere
from builder.model.cards import Card as Card
from builder.model.cards import Cards as Cards
from builder.model.choosing import Choosing
from builder.model.device_view import DeviceDesk
from builder.model.drawings import Body, Drawing
from builder.model.grid import Grid as Grid
from builder.model.html import NO_HTML
from builder.model.html import Html as Html  # what makes views takes it from here
from builder.model.job_views import JobDesk
from builder.model.label_views import LabelDesk
from builder.model.labelled import Caution as Caution
from builder.model.labelled import Link as Link
from builder.model.labelled import Row as Row
from builder.model.laid import Laid
from builder.model.pictures import Picture, Pictures
from builder.model.plan_views import PlannedSegment
from builder.model.plotted import Plotted as Plotted
from builder.model.plotted import UnitOption as UnitOption
from builder.model.point_views import PointEntry, PointResults
from builder.model.reference import Ref
from builder.model.said import Said
from builder.model.strip import Sheets
from builder.model.training_views import TrainingDesk

DESKS = frozenset(one.form for one in (Bay, DeviceDesk, JobDesk, LabelDesk, Sheets, TrainingDesk))
"""Forms of block on which a script works in views of its own, or of which sheets of their own are printed."""


@dataclass(frozen=True, slots=True)
class Facts:
    """Labelled values, as on a drawing's title block."""

    form: ClassVar[str] = "facts"
    title: str
    rows: tuple[Row, ...]
    anchor: str = ""
    wide: bool = False
    """Laid out side by side as a title block, for the few facts a reader wants first."""


@dataclass(frozen=True, slots=True)
class Prose:
    """Paragraphs."""

    form: ClassVar[str] = "prose"
    title: str
    html: Html
    anchor: str = ""


@dataclass(frozen=True, slots=True)
class Items:
    """A list of short texts, or `empty` where there are none."""

    form: ClassVar[str] = "items"
    title: str
    items: tuple[Html, ...]
    empty: str = ""
    """What stands there when nothing is needed: none is said, never implied."""
    anchor: str = ""
    tick: bool = False
    """Each item is something to be ticked off on paper."""


@dataclass(frozen=True, slots=True)
class Links:
    """A list of links."""

    form: ClassVar[str] = "links"
    title: str
    links: tuple[Link, ...]
    empty: str = ""
    anchor: str = ""
    in_a_row: bool = False
    """Short ones, side by side."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing made from the record, with the same said in words."""

    form: ClassVar[str] = "figure"
    title: str
    drawing: Drawing
    words: Said
    """The text equivalent."""
    caption: Html = NO_HTML
    anchor: str = ""


class Warning(NamedTuple):
    """A safety message in the order it is read."""

    signal: str
    """The signal word, as the scale record says it."""
    rank: int
    """1 for the gravest; the style sheet's only handle."""
    danger: Html
    avoid: Html
    consequence: Html
    href: str
    key: str
    """The hazard's id, so that a gathered list shows each once."""
    title: str
    is_brief: bool = False
    """Said in full elsewhere on the page: here its signal word, its title and what to do."""


@dataclass(frozen=True, slots=True)
class Warnings:
    """Dangers, gathered from the steps or of one record."""

    form: ClassVar[str] = "warnings"
    title: str
    warnings: tuple[Warning, ...]
    empty: str = ""
    anchor: str = ""


@dataclass(frozen=True, slots=True)
class Worked:
    """A calculator's answers for one record, as a page prints them."""

    form: ClassVar[str] = "worked"
    title: str
    href: str
    """To the calculator, filled in the same way."""
    given: tuple[Row, ...]
    answers: tuple[Row, ...]
    cautions: tuple[Caution, ...] = ()
    note: str = ""
    anchor: str = ""


@dataclass(frozen=True, slots=True)
class Option:
    """One choice of an input."""

    id: str
    label: Said
    chosen: bool = False


@dataclass(frozen=True, slots=True)
class Ask:
    """One question of a calculator's form."""

    id: str
    label: str
    unit: Said
    """Unit as shown, or empty."""
    start: Said
    """Empty, or what stands in it at first."""
    limits: Html
    """Range admitted, in words."""
    help: Html
    options: tuple[Option, ...] = ()
    optional: bool = False
    units: tuple[UnitOption, ...] = ()
    """The units of which a reader may choose one for this field alone; empty where there is but one."""


@dataclass(frozen=True, slots=True)
class Form:
    """A live calculator; its answers for the starting values are printed for readers without JavaScript."""

    form: ClassVar[str] = "calculator"
    id: str
    asks: tuple[Ask, ...]
    answers: tuple[Row, ...]
    """For the starting values, in the order of the outputs."""
    answer_ids: tuple[str, ...]
    answer_signs: tuple[Said, ...]
    """What stands behind each answer's number."""
    cautions: tuple[Caution, ...]
    title: str = ""
    anchor: str = ""
    answer_units: tuple[tuple[UnitOption, ...], ...] = ()
    """Of each answer the units it may be shown in; empty where there is but one."""


class Step(NamedTuple):
    """One step as it is read in the bay."""

    number: int
    key: str
    """Its anchor on the page."""
    warnings: tuple[Warning, ...]
    do: Html
    key_point: Html
    why: Html
    expect: Html
    subjects: tuple[Link, ...]
    supplies: tuple[Link, ...]
    tools: tuple[Link, ...]
    defects: tuple[Link, ...]
    """What may go wrong with it."""
    timing: tuple[Row, ...]
    measures: tuple[Row, ...]
    hold: Html
    """What releases it, or empty."""
    hold_sort: str
    hold_by: str
    photo: Html
    choices: tuple[Row, ...]
    worked: tuple[Worked, ...]
    exemptions: tuple[Row, ...]
    pictures: tuple[Picture, ...] = ()
    choosing: tuple[Choosing, ...] = ()


@dataclass(frozen=True, slots=True)
class Phase:
    """Steps that belong together."""

    number: int
    title: str
    anchor: str
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Steps:
    """The phases of a procedure."""

    form: ClassVar[str] = "steps"
    title: str
    phases: tuple[Phase, ...]
    anchor: str = "steps"


@dataclass(frozen=True, slots=True)
class Group:
    """Links under a heading, for the home page and the lists."""

    title: str
    links: tuple[Link, ...]
    lead: str = ""
    anchor: str = ""


@dataclass(frozen=True, slots=True)
class Groups:
    """Several headed lists."""

    form: ClassVar[str] = "groups"
    title: str
    groups: tuple[Group, ...]
    anchor: str = ""


Block = (
    Facts | Prose | Items | Links | Grid | Cards | Figure | Pictures | Warnings | Worked | Form | Plotted | Steps
    | Groups | Body | Laid | Sheets | PointEntry | PointResults | WayThere | Choosing | PlannedSegment | JobDesk
    | DeviceDesk | Bay | LabelDesk | TrainingDesk
)  # fmt: skip


class Passage(NamedTuple):
    """Words the search finds this page by, and where on it they stand."""

    anchor: str
    heading: str
    text: str
    name: str = ""
    """What else it may be called; it counts as the heading does, and is not shown."""
    is_alone: bool = False
    """Whether it answers by itself, and is found as a page named by its heading."""


@dataclass(frozen=True, slots=True)
class Site:
    """What every page shows of the book it belongs to."""

    name: str
    title: str
    book_id: str
    cautions: tuple[str, ...]
    navigation: tuple[tuple[str, str], ...]
    """Label and path from the book's root."""
    units: str = "metric"
    """The units a page shows first: metric or us."""
    foot: tuple[tuple[str, str], ...] = ()
    """Label and path of what the foot leads to."""
    base: str = ""
    """Where the book is to be had on a server, without a slash at its end; or empty."""
    paper: str = "A4"
    """What pages are printed on first: A4 or Letter."""


@dataclass(frozen=True, slots=True)
class Page:
    """One page."""

    ref: Ref
    path: str
    """From the book's root, with forward slashes: `seams/rocker-lower.html`."""
    root: str
    """From this page to the book's root: empty, or `../`."""
    title: str
    kind: str
    """The kind in words, above the title; empty on the home page."""
    lead: Html
    banner: str
    """A full-width notice, such as that a procedure is withdrawn; or empty."""
    main: tuple[Block, ...]
    aside: tuple[Block, ...]
    scripts: tuple[str, ...]
    """Paths from the root of scripts this page needs beside the common ones."""
    aliases: tuple[str, ...]
    passages: tuple[Passage, ...]
    edition: str = ""
    """Which issue of the record this is, such as `Revision 3, 2 October 2026`: the running head on paper says it."""
    is_bare: bool = False
    """Whether it has the screen to itself, without the search."""
    address: str = ""
    """Where the page is to be had, for the code on its first sheet of paper; empty where it has none."""
    standing: str = ""
    """Of a procedure that is not issued the word for it, which the search shows."""

    @property
    def has_desk(self) -> bool:
        """Whether it has styles of its own that other pages have no use for."""
        return any(block.form in DESKS for block in self.main)
