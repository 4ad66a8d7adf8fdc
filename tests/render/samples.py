"""Views made up for the tests of rendering."""

from __future__ import annotations

from typing import Any

from builder.model.drawings import DrawnSheet, DrawnWeld, Run, RunSegment, Section
from builder.model.point_views import EnteredPoint, PointEntry, PointHeads, PointResult, PointResults
from builder.model.reference import Ref
from builder.model.said import Said
from builder.model.views import (
    Ask,
    Block,
    Card,
    Cards,
    Caution,
    Facts,
    Figure,
    Form,
    Grid,
    Group,
    Groups,
    Html,
    Items,
    Link,
    Links,
    Option,
    Page,
    Phase,
    Prose,
    Row,
    Site,
    Step,
    Steps,
    Warning,
    Warnings,
    Worked,
)

NAMES = ("Rocker outer", "Hinge pillar foot reinforcement", "Rocker inner", "Floor pan edge", "Jacking bracket")
THICKNESSES = (0.8, 1.5, 1.2, 0.7, 2.0)


def said(millimetres: float) -> Said:
    """A length in mm, and in inches of 25.4 mm."""
    return Said(f"{millimetres:g} mm", f"{millimetres / 25.4:.3f} in")


def section(count: int, **changes: Any) -> Section:
    """A stack of `count` sheets with everything a section can show."""
    given: dict[str, Any] = {
        "id": "cut",
        "flange": 16.0,
        "flange_said": said(16.0),
        "sheets": tuple(
            DrawnSheet(name, thickness, said(thickness), "high-strength, galvannealed")
            for name, thickness in zip(NAMES[:count], THICKNESSES, strict=False)
        ),
        "weld": DrawnWeld("spot", Said("Spot weld, 3.6 mm at least", "Spot weld, 0.142 in at least"), 3.6),
        "film": "Weld-through primer on every mating face",
        "seal": Said("Half-round sealer, 6 mm", "Half-round sealer, 0.24 in"),
        "seal_profile": "half-round",
        "seal_size": 6.0,
        "thickness_scale": 5.0,
        "width_scale": 2.0,
    }
    return Section(**(given | changes))


def run(*lengths: float) -> Run:
    """A seam of segments of these lengths in mm."""
    return Run(
        "along",
        tuple(
            RunSegment(f"Segment {at} at the pillar", length, said(length), 2 + at % 3, 7)
            for at, length in enumerate(lengths)
        ),
        said(sum(lengths)),
    )


def site(mark: str = "") -> Site:
    """A book; `mark` is added to every text."""
    ways = ((f"Panels{mark}", "panels.html"),)
    return Site(f"Shop{mark}", f"Book{mark}", f"wexmarrow{mark}", (f"Ask the maker{mark}",), ways)


def page(*blocks: Block, mark: str = "") -> Page:
    """A page of these blocks; `mark` is added to its plain texts."""
    return Page(
        Ref("page", "sample"), "pages/sample.html", "../", f"Title{mark}", f"Kind{mark}", Html("<p>Lead.</p>"),
        f"Banner{mark}", blocks, (Items("Aside", (), f"None{mark}", "beside"),), ("assets/js/ticks.js",), (), (),
        f"Revision 3{mark}",
    )  # fmt: skip


def every_block(mark: str = "") -> tuple[Block, ...]:
    """One block of each form, with `mark` in every text that is no mark-up."""
    link, row = Link(f"Text{mark}", f"#{mark}", f"Note{mark}"), Row(f"Label{mark}", Html("<b>1</b>"), f"Note{mark}")
    caution = Caution("stop", Html("No."), True, Html("So."))
    worked = Worked(f"Worked{mark}", f"#{mark}", (row,), (row,), (caution,), f"Note{mark}", "worked")
    warning = Warning(f"WARNING{mark}", 2, Html("It burns."), Html("Keep off."), Html("Burns."), f"#{mark}", "fire")
    step = Step(
        1, "first-step", (warning,), Html("Do it."), Html("Here."), Html("So."), Html("That."), (link,), (link,),
        (link,), (row,), (row,), Html("Seen."), f"hold{mark}", f"lead{mark}", Html("Gap."), (row,),
        (Worked(f"Worked{mark}", "", (), (row,)),), (row,),
    )  # fmt: skip
    signs = Said(f"°C{mark}", f"°F{mark}")
    asks = (
        Ask("air", f"Air{mark}", signs, Said(f"20{mark}", f"68{mark}"), Html("0 to 60"), Html("Shade."), (), True),
        Ask("film", f"Film{mark}", Said(""), Said(""), Html(""), Html(""),
            (Option("wax", Said(f"Wax{mark}", f"Wax of old{mark}"), True),), True),
    )
    places = tuple(Said(f"{at}{mark}", f"{at} in inches{mark}") for at in range(3))
    heads = PointHeads(f"Point{mark}", f"Stated{mark}", f"Measured{mark}", f"Sound{mark}",
                       (f"x{mark}", f"y{mark}", f"z{mark}"), (f"name{mark}", "x"))  # fmt: skip
    entered = EnteredPoint(1, f"P{mark}", places, places, True)
    result = PointResult(f"P{mark}", True, places, places[0], Html("Within."), "within")
    return (
        PointEntry(f"Points{mark}", heads, signs, (entered,), "points"),
        PointResults(f"Deviations{mark}", heads, signs, (result,), "deviations"),
        Facts(f"Facts{mark}", (row,), "facts", True),
        Prose(f"Prose{mark}", Html("<p>Text.</p>"), "prose"),
        Items(f"Items{mark}", (Html("One."),), "", "items", True),
        Links(f"Links{mark}", (link,), "", "links"),
        Grid(f"Grid{mark}", (f"A{mark}", "B"), ((Html("1"), Html("2")),), Html("Note."), "grid", (False, True),
             (f"A in inches{mark}", "")),
        Cards(f"Cards{mark}", (Card(Html("It is."), (row,)),), "cards"),
        Figure(f"Cut{mark}", section(3, film=f"Film{mark}", seal=Said(f"Bead{mark}", f"Bead in inches{mark}")),
               Said(f"Words{mark}", f"In US units{mark}"), Html("Drawn."), "figure"),
        Figure(f"Run{mark}", run(900.0, 200.0), Said(f"Words{mark}")),
        Warnings(f"Dangers{mark}", (warning,), "", "dangers"),
        worked,
        Form("dew-point", asks, (row,), ("margin",), (signs,), (caution,), f"Form{mark}", "form"),
        Steps(f"Steps{mark}", (Phase(1, f"Phase{mark}", "phase-1", (step,)),)),
        Groups(f"Groups{mark}", (Group(f"Group{mark}", (link,), f"Lead{mark}"),), "groups"),
    )
