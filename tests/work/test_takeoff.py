"""What procedures take of supplies, against sums done by hand.

The figures they rest on: lengths, laps and counts are the practice shell's; bead sections, film and wire are geometry;
solids, losses and films stand in the records of methods and supplies, each with its source.
"""

from __future__ import annotations

from dataclasses import replace
from math import pi
from pathlib import Path

import pytest

from builder.model.files import Layer
from builder.model.jobs import Taken
from builder.model.ledger import Remembered
from builder.model.links import Catalogue
from builder.model.records.procedure import Procedure
from builder.model.reference import Ref
from builder.order import Order
from builder.passes import Way, unpack
from builder.work import Shop, take_off

CONTENT = Path(__file__).resolve().parents[2] / "content"
Rows = tuple[Taken, ...]


class Library:
    """The supplied library, with the take-off of each procedure asked for."""

    def __init__(self) -> None:
        way = Way(Order((Layer(CONTENT, "content"),)))
        self.gathered = way.gather(way.discover())
        self.catalogue = way.connect(self.gathered)
        self.shop = Shop(self.gathered.shelf, way.compile(self.gathered), self.gathered.scales)
        self.known: dict[str, Rows] = {}

    def rows(self, procedure: str) -> Rows:
        if procedure not in self.known:
            self.known[procedure] = self.over(procedure, self.catalogue)
        return self.known[procedure]

    def over(self, procedure: str, catalogue: Catalogue) -> Rows:
        ref = Ref("procedure", procedure)
        record = unpack(ref, self.gathered)
        assert isinstance(record, Procedure)
        # A shop keeps what it worked out for one book: another catalogue wants a shop of its own.
        shop = self.shop if catalogue is self.catalogue else replace(self.shop, known={}, uses=Remembered())
        return take_off(record, ref, catalogue, shop)

    def one(self, procedure: str, supply: str, subject: str) -> Taken:
        found = [one for one in self.rows(procedure)
                 if one.supply == supply and f"{one.once}|".startswith(f"{subject}|")]  # fmt: skip
        assert len(found) == 1, found
        return found[0]


@pytest.fixture(scope="module")
def library() -> Library:
    return Library()


def test_a_bead_is_its_section_times_its_length(library: Library) -> None:
    """Half round, 6 mm wide, along 1060 and 360 mm: pi x 3² / 2 = 14.137 mm², times 1420 mm is 20.07 ml."""
    row = library.one("renew-rocker-outer", "seam-sealer", "seam:rocker-lower")
    assert row.amount == pytest.approx(pi * 3**2 / 2 * 1420 / 1000, abs=1e-5)
    assert row.unit == "ml"
    assert row.step == "bead-seams"
    assert "1.06 m half round 6 mm = 15 mL" in row.how.replace("\u00a0", " ")
    assert row.how.replace("\u00a0", " ").endswith("together 20.1 mL")


def test_a_fillet_is_half_its_square(library: Library) -> None:
    """3 mm x 3 mm / 2 over 260 and 1020 mm: 4.5 mm² x 1280 mm = 5.76 ml."""
    assert library.one("renew-rocker-outer", "seam-sealer", "seam:rocker-upper").amount == pytest.approx(5.76)


def test_film_lies_on_both_faces_of_each_interface(library: Library) -> None:
    """16 mm of lap; two faces of 1060 mm, four of 360 mm (three sheets): 56 960 mm².

    20 µm dry is 1.1392 ml; at 30 percent solids, a tenth lost, 4.219 ml are taken.
    """
    row = library.one("renew-rocker-outer", "weld-through-primer", "seam:rocker-lower")
    assert row.amount == pytest.approx(56_960 * 0.020 / 1000 / 0.30 / 0.90, abs=1e-5)


def test_wire_fills_the_holes_and_their_crowns(library: Library) -> None:
    """Five holes of 8 mm in 0.8 mm with a crown 1 mm high: 5 x (40.21 + 25.66) mm³; a tenth of the wire is lost."""
    row = library.one("renew-rocker-outer", "mag-wire", "seam:rocker-to-quarter|this|mag-plug")
    plug = pi / 4 * 8**2 * 0.8 + pi * 1 * (3 * 4**2 + 1**2) / 6
    assert row.amount == pytest.approx(5 * plug / 0.90 * 7.85 / 1000, abs=1e-4)


def test_gas_flows_before_and_after_each_plug(library: Library) -> None:
    """2.5 s of arc and 1.5 s around it, five times, at 12 litres a minute: 4 litres."""
    row = library.one("renew-rocker-outer", "shielding-gas", "seam:rocker-to-quarter|this|mag-plug")
    assert row.amount == pytest.approx(5 * (2.5 + 1.5) / 60 * 12)


def test_spots_are_counted_for_the_tips(library: Library) -> None:
    """The factory's 28 and 10 with nearly a third on top, 37 and 13, as the plan of the seam lays them out."""
    row = library.one("renew-rocker-outer", "copper-tips", "seam:rocker-lower")
    assert row.amount == 50
    assert row.unit == "spots"


def test_wax_coats_the_inside_of_the_cavity_once(library: Library) -> None:
    """1400 x 480 mm, 100 µm dry, 60 percent solids, 30 percent run out: 67.2 / 0.6 / 0.7 = 160 ml."""
    row = library.one("finish-rocker-outer", "cavity-wax", "cavity:rocker-cavity")
    assert row.amount == pytest.approx(1.4 * 0.48 * 100 / 0.6 / 0.7)
    assert row.once == library.one("patch-floor-edge", "cavity-wax", "cavity:rocker-cavity").once


def test_paint_covers_one_face(library: Library) -> None:
    """0.45 m², 70 µm dry, 35 percent solids, half of it lands: 31.5 / 0.35 / 0.5 = 180 ml."""
    row = library.one("finish-rocker-outer", "colour-and-clear", "panel:rocker-outer")
    assert row.amount == pytest.approx(0.45 * 70 / 0.35 / 0.5)


def test_discs_go_by_the_metre_of_seam(library: Library) -> None:
    rows = [one for one in library.rows("renew-rocker-outer")
            if one.supply == "abrasive-discs" and one.step == "dress-stubs"]  # fmt: skip
    assert [one.amount for one in rows] == pytest.approx([1.42, 1.28, 0.23])
    assert all(not one.once for one in rows)  # stubs and welds of one seam wear discs each


def test_a_seam_of_two_procedures_is_named_alike(library: Library) -> None:
    first = library.one("hang-quarter-outer", "seam-sealer", "seam:arch-flange")
    again = library.one("finish-wheel-housing", "seam-sealer", "seam:arch-flange")
    assert (first.once, first.amount, first.sided) == (again.once, again.amount, True)


def test_a_seam_joined_in_two_ways_counts_each_length_once(library: Library) -> None:
    """The dogleg is reached from both faces and is spotted; behind striker and belt only plugs are possible."""
    spots = library.one("hang-quarter-outer", "copper-tips", "seam:quarter-to-lock-pillar")
    plugs = library.one("hang-quarter-outer", "mag-wire", "seam:quarter-to-lock-pillar|this|mag-plug")
    assert "Dogleg" in spots.how
    assert "Dogleg" not in plugs.how
    assert "Behind the striker" in plugs.how


def test_each_coat_of_a_box_counts_again(library: Library) -> None:
    coats = [one for one in library.rows("coat-before-closing")
             if one.supply == "epoxy-primer" and one.how.startswith("Quarter pocket")]  # fmt: skip
    assert [one.step for one in coats] == ["coat-pocket", "second-coat"]
    assert all(one.amount == pytest.approx(1.15 * 0.84 * 60 / 0.55 / 0.7) and not one.once for one in coats)


def test_an_unknown_thickness_gives_no_amount_and_says_so(library: Library) -> None:
    seam = Ref("seam", "rocker-to-quarter")
    summary = library.catalogue.summaries[seam]
    facts = tuple({**one, "sheet_1": None, "governing": None, "thinnest": None} for one in summary.facts)
    changed = replace(library.catalogue, summaries={**library.catalogue.summaries, seam: summary._replace(facts=facts)})
    rows = [one for one in library.over("renew-rocker-outer", changed)
            if one.supply == "mag-wire" and one.step == "plug-ends"]  # fmt: skip
    unknown = next(one for one in rows if one.once.startswith("seam:rocker-to-quarter"))
    assert unknown.amount is None
    assert "no amount" in unknown.how
    assert "unknown" in unknown.how
    assert next(one for one in rows if one is not unknown).amount == pytest.approx(8 * 0.574521, abs=1e-3)


def test_every_supply_that_a_step_lists_is_accounted_for(library: Library) -> None:
    procedures = sorted(ref.id for ref in library.gathered.summaries if ref.kind == "procedure")
    rows = [(id_, row) for id_ in procedures for row in library.rows(id_)]
    assert len(rows) > 1000
    assert [(id_, row.step, row.supply) for id_, row in rows if "nothing says" in row.how] == []
    assert all(row.unit and row.how for _, row in rows)
    assert all(row.amount is None or row.amount > 0 for _, row in rows)
    assert all(("no amount" in row.how) == (row.amount is None) for _, row in rows)
