"""The kinds a body is made of: panel, seam, cavity and opening."""

from typing import Annotated, Literal

from builder.model.records.fields import (
    Area,
    CavityId,
    Count,
    FigureId,
    Id,
    Length,
    LengthOrUnknown,
    Line,
    MethodId,
    Name,
    OpeningId,
    PanelId,
    Prose,
    SourceId,
    Stated,
    SupplyId,
    Word,
    YesNo,
    record,
)
from builder.model.records.shell import Drawn

Strength = Annotated[Id, Word("strength")]
Coating = Annotated[Id, Word("coating")]


@record
class Zone:
    """Where a panel may be cut and joined away from its factory seams."""

    where: Line
    because: Line
    source: SourceId


@record
class Face:
    """How large one face of a panel is, folded out."""

    area: Area
    source: SourceId


@record
class Panel:
    """One sheet-metal part."""

    title: Name
    was: tuple[Id, ...] = ()
    summary: Prose
    handed: YesNo
    only: Literal["left", "right"] | None = None
    """The side of a part that a car has on one side alone; nothing is ordered for it on the other."""
    strength: Strength
    load_bearing: YesNo
    skin: YesNo | None = None
    """Whether it is an outer skin: seen, and no wall of a structural section. Left out where nobody has said."""
    part: Literal["made", "donor", "none", "unknown"] = "unknown"
    """Whether a new part is still made, is only to be had from a donor car, or not at all."""
    bounds: Stated[OpeningId]
    """Openings whose edge it forms."""
    neighbours: Stated[PanelId]
    hidden_layers: Stated[Line]
    may_section: Stated[Zone]
    """`none` means at factory seams only."""
    drains: Stated[Line]
    service_part: Stated[Line]
    """What the part as bought lacks or gets wrong."""
    carries: Stated[Line] | None = None
    """Brackets, nuts, studs and clips on it that must come over to a new part; left out where nobody has looked."""
    face: Face | None = None
    """To reckon what coats it."""
    drawn: tuple[Drawn, ...] = ()
    """Where it is on the drawing of the shell; a handed panel is drawn on the left, and mirrored."""
    figures: Stated[FigureId] = ()
    notes: Prose | None = None
    sources: Stated[SourceId]


@record
class Sheet:
    """One sheet of a stack."""

    panel: PanelId
    thickness: LengthOrUnknown
    strength: Strength
    coating: Coating


@record
class Factory:
    """How the maker joined this segment."""

    method: MethodId
    count: Count | None = None


@record
class Reach:
    """What a tool can get at: one face or both, and how far from the flange's edge it must reach."""

    sides: Literal["one", "both", "unknown"]
    depth: LengthOrUnknown


@record
class Segment:
    """A length of seam over which the stack does not change; sheets outermost first."""

    name: Name | None = None
    length: Length
    flange: Length
    sheets: tuple[Sheet, ...]
    factory: Literal["none"] | Factory
    """How the factory joined it; `none` where the repair makes a joint that was not there."""
    reach: Reach

    def called(self, at: int, count: int) -> str:
        """Return its name, or its number of so many, counted from 1; the only one has neither."""
        return self.name or (f"segment {at}" if count > 1 else "")

    @property
    def factory_count(self) -> int | None:
        """How many welds the factory made, where that is known."""
        return None if self.factory == "none" else self.factory.count


@record
class Seal:
    """The sealer bead along a seam's edge."""

    profile: Annotated[Id, Word("bead-profile")]
    size: Length


@record
class Seam:
    """Where sheets join."""

    title: Name
    was: tuple[Id, ...] = ()
    summary: Prose
    joint: Annotated[Id, Word("joint")]
    segments: tuple[Segment, ...]
    methods: Stated[MethodId]
    """Allowed for the repair, best first."""
    closes: Stated[CavityId]
    openings: Stated[OpeningId] | None = None
    """Whose edges this seam is at, where it is not at all those that its panels bound."""
    film: Literal["none"] | SupplyId
    """What protects the mating faces, or `none`."""
    seal: Literal["none"] | Seal
    figures: Stated[FigureId] = ()
    notes: Prose | None = None
    sources: Stated[SourceId]


@record
class Hole:
    """A drain or a vent."""

    where: Line
    size: Length | None = None
    count: Count = 1


@record
class Entry:
    """Where a wax probe goes in."""

    where: Line
    reach: Length
    """How far the probe must go."""


@record
class Inside:
    """How large the inside of a cavity is, to reckon what coats it."""

    length: Length
    girth: Length
    """Once round the inside, in the middle of its length."""


@record
class Cavity:
    """An enclosed space."""

    title: Name
    was: tuple[Id, ...] = ()
    summary: Prose
    coating: Literal["none", "unknown"] | SupplyId
    drains: Stated[Hole]
    vents: Stated[Hole]
    wax_entries: Stated[Entry]
    inside: Inside | None = None
    lives_inside: Stated[Line]
    """Baffles, foam, reinforcements, nuts, tubes, wiring."""
    reachable_after_closing: Literal["yes", "no", "unknown"]
    notes: Prose | None = None
    sources: Stated[SourceId]


@record
class Dimension:
    """A check dimension of an opening."""

    name: Name
    between: Line
    size: LengthOrUnknown
    tolerance: Length
    source: SourceId


@record
class Station:
    """A place along an opening's gap where it is measured."""

    name: Name
    gap: Length
    tolerance: Length
    source: SourceId


@record
class Opening:
    """A door, lid, lamp or glass aperture."""

    title: Name
    was: tuple[Id, ...] = ()
    summary: Prose
    checks: Stated[Dimension]
    stations: Stated[Station]
    figures: Stated[FigureId] = ()
    notes: Prose | None = None
    sources: Stated[SourceId]
