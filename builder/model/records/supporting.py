"""The smaller kinds: supply, tool, hazard, term, source and scale."""

from typing import Annotated

from builder.model.records.fields import (
    AnyQuantity,
    FigureId,
    Id,
    Length,
    Line,
    Name,
    Prose,
    SourceId,
    Stated,
    TermId,
    Word,
    record,
)


@record
class Fact:
    """One figure about a thing, with its source."""

    say: Name
    value: AnyQuantity
    source: SourceId


@record
class Supply:
    """Something that is used up."""

    title: Name
    was: tuple[Id, ...] = ()
    summary: Prose
    film: Length | None = None
    """Dry film as used, where it is a coating."""
    facts: Stated[Fact]
    cautions: Stated[Line]


@record
class Tool:
    """Something that is used again."""

    title: Name
    was: tuple[Id, ...] = ()
    summary: Prose
    facts: Stated[Fact]
    checks: Stated[Line]
    """What to look at before it is used."""
    figures: Stated[FigureId] = ()


@record
class Hazard:
    """A danger in the order a warning is read: what it is, how to avoid it, what it does."""

    title: Name
    was: tuple[Id, ...] = ()
    signal: Annotated[Id, Word("signal")]
    danger: Line
    avoid: Line
    consequence: Line
    protect: Stated[Line]
    signs: Stated[Line]
    figures: Stated[FigureId] = ()
    defer: Line
    """Whose instruction outranks this record."""
    source: SourceId


@record
class Term:
    """A word of the trade and what else it is called."""

    title: Name
    was: tuple[Id, ...] = ()
    means: Prose
    synonyms: Stated[Name]
    see: tuple[TermId, ...] = ()


@record
class Source:
    """Where a figure or a rule comes from, and how far it was checked."""

    title: Name
    was: tuple[Id, ...] = ()
    sort: Annotated[Id, Word("source-sort")]
    publisher: Name | None = None
    number: Name | None = None
    issued: Name | None = None
    seen: Line
    """How it was seen: the text itself, a page that quotes it, or from memory."""
    about: Prose | None = None


@record
class ScaleWord:
    """One word of a scale."""

    say: Name
    means: Line | None = None
    source: SourceId | None = None
    alone: Line | None = None
    """Of a sort of source: said at the head of a calculator for which it is the best that there is."""
    beside: Name | None = None
    """Of a sort of source: stands beside each value, table and proof that rests on it."""


@record
class Scale:
    """The words a field may hold, in order: mildest first, strictest last."""

    title: Name
    was: tuple[Id, ...] = ()
    summary: Prose
    words: dict[Id, ScaleWord]
