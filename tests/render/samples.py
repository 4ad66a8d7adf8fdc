"""Views made up for the tests of rendering."""

from __future__ import annotations

from typing import Any

from builder.model.drawings import DrawnSheet, DrawnWeld, Run, RunSegment, Section
from builder.model.laid import Laid, LaidSegment, WeldLayout
from builder.model.plan_views import (
    LengthAsk,
    PlanCaution,
    PlanFact,
    PlanGroup,
    PlanLink,
    PlannedMethod,
    PlannedSegment,
    PlanPart,
    PlanRow,
)
from builder.model.plots import Chart, Limit, Measure, Sketch, Trace
from builder.model.point_views import EnteredPoint, PointEntry, PointHeads, PointResult, PointResults
from builder.model.reference import Ref
from builder.model.said import Said
from builder.model.strip import Sheets, Strip
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
    Plotted,
    Prose,
    Row,
    Site,
    Step,
    Steps,
    UnitOption,
    Warning,
    Warnings,
    Worked,
)
from builder.model.work import WeldRow

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


def chart(mark: str = "", **changes: Any) -> Chart:
    """Two lines, one of them broken, with a limit and a value in hand."""
    given: dict[str, Any] = {
        "id": "chart_margin", "foot": f"Panel temperature, °C{mark}", "unit": "°C", "start": 0.0, "end": 40.0,
        "traces": (
            Trace(f"Margin{mark}", ((0.0, -12.0), (10.0, -2.0), (20.0, None), (30.0, 18.0), (40.0, 28.0)), 6.0, "6 °C"),
            Trace("Half of it", ((0.0, -6.0), (10.0, -1.0), (20.0, 4.0), (30.0, 9.0), (40.0, 14.0)), 3.0, "3 °C"),
        ),
        "limit": Limit(f"Limit: least{mark}", 3.0, "3 °C"), "here": 18.0, "here_said": f"18 °C{mark}",
    }  # fmt: skip
    return Chart(**(given | changes))


SKETCHES: dict[str, dict[str, tuple[float | None, str]]] = {
    "marks": {"count": (6.0, "6"), "length": (0.3, "300 mm"), "first": (0.025, "25 mm"), "spacing": (0.05, "50 mm")},
    "bend": {"angle": (1.5, "86°"), "radius": (0.002, "2 mm"), "thickness": (0.001, "1 mm"),
             "setback": (0.0028, "2.8 mm"), "allowance": (0.0036, "3.6 mm")},
    "channel": {"base": (0.05, "50 mm"), "left": (0.02, "20 mm"), "right": (0.03, "30 mm"),
                "thickness": (0.0015, "1.5 mm"), "radius": (0.002, "2 mm"), "blank": (0.09, "90 mm")},
    "opening": {"width": (0.9, "900 mm"), "height": (0.8, "800 mm"), "lean": (0.006, "6 mm"),
                "rising": (1.21, "1210 mm"), "falling": (1.2, "1200 mm")},
}  # fmt: skip
"""A value of each measure of each form, in base units, and what it says."""


def sketch(form: str, mark: str = "", **changes: tuple[float | None, str]) -> Sketch:
    """A sketch with everything that its form can show."""
    told = {**SKETCHES[form], **changes}
    measures = {name: Measure(f"{name}{mark}", value, f"{text}{mark}") for name, (value, text) in told.items()}
    return Sketch(f"sketch_{form}", form, measures, (1, 4, 2, 5, 3, 6) if form == "marks" else ())


def laid(mark: str = "") -> tuple[LaidSegment, ...]:
    """A segment with welds and one without."""
    row = WeldRow(300.0, 4, 15.0, 90.0, (1, 3, 4, 2))
    return (
        LaidSegment(f"Front{mark}", 300.0, said(300.0), 3, row, "", said(15.0), said(90.0)),
        LaidSegment(f"Rear{mark}", 200.0, said(200.0), None, None, f"Stopped{mark}"),
    )


def strip(mark: str = "") -> Strip:
    """A marking strip of two segments."""
    places = tuple(tuple(Said(f"{place:g}", f"{place / 25.4:.3f}") for place in one.weld_places) for one in laid())
    return Strip("strip", f"Flange{mark}", f"Spot{mark}", f"Shop{mark}", f"Book{mark}", Said("mm", "in"), True,
                 laid(mark), places)  # fmt: skip


def site(mark: str = "") -> Site:
    """A book; `mark` is added to every text."""
    ways = ((f"Panels{mark}", "panels.html"),)
    return Site(f"Shop{mark}", f"Book{mark}", f"wexmarrow{mark}", (f"Ask the maker{mark}",), ways)


def page(*blocks: Block, mark: str = "") -> Page:
    """A page of these blocks; `mark` is added to its plain texts."""
    return Page(
        Ref("page", "sample"), "pages/sample.html", "../", f"Title{mark}", f"Kind{mark}", Html("<p>Lead.</p>"),
        f"Banner{mark}", blocks, (Items("Aside", (), f"None{mark}", "beside"),), ("assets/js/procedure.js",), (), (),
        f"Revision 3{mark}",
    )  # fmt: skip


def every_block(mark: str = "") -> tuple[Block, ...]:
    """One block of each form, with `mark` in every text that is no mark-up."""
    link, row = Link(f"Text{mark}", f"#{mark}", f"Note{mark}"), Row(f"Label{mark}", Html("<b>1</b>"), f"Note{mark}")
    caution = Caution("stop", Html("No."), True, Html("So."))
    worked = Worked(f"Worked{mark}", f"#{mark}", (row,), (row,), (caution,), f"Note{mark}", "worked")
    warning = Warning(
        f"WARNING{mark}", 2, Html("It burns."), Html("Keep off."), Html("Burns."), f"#{mark}", "fire", f"Fire{mark}"
    )
    brief = warning._replace(is_brief=True)
    step = Step(
        1, "first-step", (warning, brief), Html("Do it."), Html("Here."), Html("So."), Html("That."), (link,), (link,),
        (link,), (link,), (row,), (row,), Html("Seen."), f"hold{mark}", f"lead{mark}", Html("Gap."), (row,),
        (Worked(f"Worked{mark}", "", (), (row,)),), (row,),
    )  # fmt: skip
    signs = Said(f"°C{mark}", f"°F{mark}")
    asks = (
        Ask("air", f"Air{mark}", signs, Said(f"20{mark}", f"68{mark}"), Html("0 to 60"), Html("Shade."), (), True,
            (UnitOption(f"degC{mark}", f"°C{mark}", True, f"0 to 60{mark}"), UnitOption("degF", "°F", False))),
        Ask("film", f"Film{mark}", Said(""), Said(""), Html(""), Html(""),
            (Option("wax", Said(f"Wax{mark}", f"Wax of old{mark}"), True),), True),
    )
    places = tuple(Said(f"{at}{mark}", f"{at} in inches{mark}") for at in range(3))
    heads = PointHeads(f"Point{mark}", f"Stated{mark}", f"Measured{mark}", f"Sound{mark}",
                       (f"x{mark}", f"y{mark}", f"z{mark}"), (f"name{mark}", "x"))  # fmt: skip
    entered = EnteredPoint(1, f"P{mark}", places, places, True)
    result = PointResult(f"P{mark}", True, places, places[0], Html("Within."), "within")
    limit = PlanCaution("stop", Html("No."), Html("So."), True, 0)
    rows = (PlanRow(f"count{mark}", f"Count{mark}", Html("<b>1</b>"), signs, f"Note{mark}"),)
    group = PlanGroup(f"Group{mark}", (PlanPart(0, rows, (limit,)),), (PlanLink(0, f"Way{mark}", f"#{mark}"),))
    method = PlannedMethod(f"spot{mark}", f"Spot{mark}", f"#{mark}", f"plan-1-spot{mark}", "stop", (limit,), (group,))
    length = LengthAsk("length_1", f"Length{mark}", signs, Said(f"1{mark}", f"2{mark}"), Html("1 to 2"),
                       (UnitOption(f"mm{mark}", f"mm{mark}", True, f"1 to 2{mark}"),))  # fmt: skip
    return (
        PlannedSegment(f"Plan{mark}", f"seam{mark}", 1, (PlanFact(f"Length{mark}", Html("1"), True),),
                       (method, method._replace(anchor="plan-1-free", verdict="")), length, "plan-1"),
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
        Form("dew-point", asks, (row,), ("margin",), (signs,), (caution,), f"Form{mark}", "form",
             ((UnitOption(f"degC{mark}", f"°C{mark}", True),),)),
        Plotted(f"Chart{mark}", chart(mark), f"Words{mark}", (f"No answer{mark}.",), (f"Air{mark}", "Margin"),
                ((f"20{mark}", "6"),), "chart_margin"),
        *(Plotted(f"Sketch{mark}", sketch(form, mark), f"Words{mark}", (), ("Measure", "Value"), ((f"A{mark}", "1"),),
                  f"sketch_{form}") for form in SKETCHES),
        Steps(f"Steps{mark}", (Phase(1, f"Phase{mark}", "phase-1", (step,)),)),
        Laid(f"Layout{mark}", f"Spot{mark}", WeldLayout("layout-spot", "spot", laid(mark)), Said(f"Words{mark}"),
             (f"Segment{mark}", "Order"), ((Html("Front"), Html("1, 3")),), "layout", f'{{"a": "{mark}"}}',
             (f"Strip{mark}", f"#{mark}")),
        Sheets(f"Sheets{mark}", strip(mark), f'{{"a": "{mark}"}}', f"#{mark}"),
        Groups(f"Groups{mark}", (Group(f"Group{mark}", (link,), f"Lead{mark}"),), "groups"),
    )
