"""The worked example's take-off, worked out by hand: each supply with how much is used, how many packs, and why.

Lengths, old spots and sheets are the practice shell's, copied from the records of seams, boxes and panels; a test holds
the two together. Published: steel 7.85 g/cm³ and 90 percent of the wire that stays (`weld-metal-page`,
`deposition-rate-page`), gas at 9 to 14 L/min indoors (`gas-flow-page`), half of a sprayed coat that lands
(`transfer-efficiency-2012`), a tenth of sealer lost (`sealant-waste`), two spots a coupon (`spot-gun-manual`), least
pitch of spots (`rwma-spot-schedule`). All other figures, films and shares of solids among them, are common practice or
from memory, as their records say.
"""

from __future__ import annotations

from math import ceil, pi
from typing import NamedTuple

METRES = {
    "rocker-lower": 1.42, "rocker-upper": 1.28, "rocker-to-hinge-pillar": 0.23, "rocker-to-quarter": 0.15,
    "floor-edge": 1.02, "floor-patch-to-rocker": 0.42, "floor-patch-lap": 0.68, "hinge-pillar-foot": 0.23,
    "foot-patch-to-rocker": 0.23, "foot-patch-lap": 0.27, "wheel-housing-halves": 0.92, "arch-flange": 1.20,
    "wheel-housing-to-rocker": 0.16, "wheel-housing-to-trunk-side": 0.21, "quarter-to-lock-pillar": 0.78,
    "quarter-to-roof": 0.42, "quarter-to-rear-window": 0.57, "quarter-to-gutter": 0.73, "quarter-to-lamp-pocket": 0.50,
    "quarter-to-rear-panel": 0.28, "quarter-to-trunk-side": 0.33, "tail-corner": 0.125,
}  # fmt: skip
ELSEWHERE = "filler-pocket-to-quarter"
"""On the right side alone: the steps name it, and a job on the left takes nothing for it."""
ROCKER = METRES["rocker-lower"] + METRES["rocker-upper"] + METRES["rocker-to-hinge-pillar"]  # 2.93
LAP = METRES["rocker-to-quarter"]
FLOOR = METRES["floor-patch-to-rocker"] + METRES["floor-patch-lap"]  # 1.10
HOUSING = METRES["wheel-housing-halves"] + METRES["arch-flange"] + METRES["wheel-housing-to-rocker"] \
    + METRES["wheel-housing-to-trunk-side"]  # fmt: skip
ARCH = METRES["arch-flange"]
QUARTER = sum(length for name, length in METRES.items() if name.startswith("quarter-to-")) + METRES["tail-corner"]
# 3.735: what the quarter has beside the arch and the lap on the rocker
FOOT = METRES["foot-patch-to-rocker"] + METRES["foot-patch-lap"]  # 0.50


def coat(square_metres: float, micrometres: float, solids: float, lost: float) -> float:
    """1 m² at 1 µm is 1 mL of dry film; what does not stay and what does not land comes on top."""
    return square_metres * micrometres / solids / (1 - lost)


# Wire, in cubic millimetres of weld by 0.00785 g, a tenth more for spatter and ends.
GRAMS = 0.00785 / 0.9
CROWN = pi * 1 * (3 * 4**2 + 1**2) / 6  # a cap 1 mm high on a hole of 8 mm
THIN_PLUG = (pi / 4 * 8**2 * 0.8 + CROWN) * GRAMS  # 0.574 g
THICK_PLUG = (pi / 4 * 8**2 * 1.5 + CROWN) * GRAMS  # 0.881 g
SET_UPS = 5  # the set is changed to MAG in rocker, floor, housing, quarter and pillar foot
COUPONS = 2 + 2 + 2 + 7 + 2  # in the same order, one for each seam
# One plug for each old spot: rocker's front end 8 and lap 5; floor 9; housing's feet 5 and 6; behind the striker 8,
# gutter's lip 20, across the sail 7, tail corner 5, its lower end 3, hem 6. The hem's and the lip's are counted as of
# 8 mm, though they are drilled smaller: at most 10 g too much.
THIN = 8 + 5 + 9 + 5 + 6 + 8 + 20 + 7 + 5 + 3 + 6  # 82
THICK = 8  # the pillar's foot, in 1.5 mm
FILLET = 1.1 / 2  # half the leg squared, and a tenth for the dome
# Laps: tacks 30 mm apart between end distances of 10 mm, and a stitch between each two, so 2 n - 1 starts.
FLOOR_STARTS = (2 * 4 - 1) + (2 * 14 - 1) + (2 * 4 - 1)  # along 130, 420 and 130 mm
FOOT_STARTS = (2 * 2 - 1) + (2 * 5 - 1) + (2 * 2 - 1)  # along 60, 160 and 50 mm
LITRES = 12 / 60  # a second
ARC = 60 / 480  # seconds a millimetre

# Spots: a third more than the factory's for a portable gun, in whole spots, where the least pitch leaves room.
MORE = [ceil(1.3 * old - 1e-9) for old in (
    28, 10,  # rocker, lower flange
    26,  # rocker, under the door
    6, 18,  # halves of the housing
    7, 15, 7,  # arch
    9, 7,  # dogleg, and above the belt
    13, 8,  # side of the glass, over the door
    10, 7,  # lower tail, below the lamp
)]  # fmt: skip
# Three sheets want 30 percent more pitch. Behind the hinge pillar, governed by 1.2 mm: 260 mm less 11 mm at either end
# over 28.9 mm are 8 spaces, where 10 spots were wanted. At the window's corner, by 0.8 mm: 120 mm over 24.8 mm are 4.
CROWDED = [9, 5]


class Line(NamedTuple):
    """A line of the take-off."""

    supply: str
    needed: float | None
    """None where nobody can say before the car is seen."""
    waste: float
    """On top, as a part of it."""
    packs: int | None
    why: str


HAND = (
    Line("abrasive-discs",
         ROCKER + ROCKER + LAP + METRES["rocker-to-hinge-pillar"] + LAP  # stubs, faces, plugs
         + METRES["floor-edge"] + FLOOR + METRES["floor-edge"] + FLOOR
         + 3 * HOUSING
         + 2 * (QUARTER + ARCH + LAP) + QUARTER - METRES["quarter-to-rear-window"] - METRES["quarter-to-lamp-pocket"]
         - METRES["quarter-to-trunk-side"] + LAP
         + METRES["hinge-pillar-foot"] + 2 * FOOT
         + 3, 0, 2, "One a metre; one each for rust in the housing, bared places and the hem. Boxes of 25."),
    Line("body-filler", 150, 0.10, 1, "The sail's trough. A tin of 1000 g."),
    Line("box-foam", None, 0, None, "As much as the factory had."),
    Line("colour-and-clear", coat(0.45 + 1.2 + ARCH * 0.150, 70, 0.35, 0.5), 0, 1, """\
        Rocker 0.45 m², quarter 1.2 m², and 150 mm along the lip of the arch when the housing is finished."""),
    Line("copper-tips", sum(MORE) + sum(CROWDED) + 2 * (2 + 2 + 6), 0, 1, """\
        243 spots, and two on a coupon of each seam: rocker 2, housing 2, quarter 6. A pair bears 330."""),
    Line("epoxy-primer",
         coat((ROCKER + LAP + METRES["floor-edge"] + FLOOR + HOUSING + QUARTER + METRES["foot-patch-lap"]) * 0.100,
              60, 0.55, 0.2)  # each joint once, 100 mm wide by brush
         + coat(METRES["quarter-to-gutter"] * 0.060, 60, 0.55, 0.2)  # back of the gutter's lip
         + coat(ARCH * 0.150, 60, 0.55, 0.5)  # the lip, sprayed
         + coat(0.420 * 0.520, 60, 0.55, 0.3)  # inside of the hinge pillar
         + coat(0.04, 60, 0.55, 0.5)  # back of its patch
         + 2 * 15, 0, 1, "And 15 mL where the quarter was lifted down, and at the lamp."),
    Line("fasteners", None, 0, None, "Screws that hold the floor patch, from the shop's set."),
    Line("glass-adhesive", 450, 0, 2, "One rear glass; cartridges of 310 mL."),
    Line("high-strength-sheet", None, 0, 1, "Cut by the card; the finding that brought the foot orders one sheet."),
    Line("line-caps", None, 0, 1, "The shop's own; the brake line that is made safe at once brings a set."),
    Line("mag-wire",
         SET_UPS * 5 + COUPONS * 15 + THIN * THIN_PLUG + THICK * THICK_PLUG
         + (0.8**2 * FILLET * 680 + 1.5**2 * FILLET * 270) * GRAMS, 0, 1,
         "5 g a set-up, 15 g a coupon, 90 plugs, and fillets of 680 and 270 mm. A reel of 5000 g."),
    Line("marking-set", 1, 0, 1, "Once a job."),
    Line("masking", 15 * 5 + 3 * 12, 0, 3, "15 m for each of five coats, 3 m at twelve steps; rolls of 50 m."),
    Line("panel-wipe",
         60 * (2 * (ROCKER + LAP)  # wiped before the weld, and before the epoxy
               + FLOOR + FLOOR + METRES["floor-edge"] + 2 * HOUSING
               + 2 * (QUARTER + ARCH + LAP) + METRES["quarter-to-rear-window"]  # its glass face once more
               + FOOT + METRES["foot-patch-lap"])
         + 4 * 100, 0, 1, "60 mL a metre; bared places, quarter, pillar and patch 100 mL each."),
    Line("primer-surfacer", coat(0.45 + 1.2, 100, 0.5, 0.5), 0, 1, "Rocker and quarter, under the colour."),
    Line("sheet-steel", None, 0, None, "Floor patch and lamp template, cut by the card."),
    Line("shielding-gas",
         SET_UPS * 10 + COUPONS * 10 + (THIN + THICK) * (2.5 + 1.5) * LITRES
         + (680 * ARC + FLOOR_STARTS * 1.5 + 270 * ARC + FOOT_STARTS * 1.5) * LITRES, 0, 1,
         "12 L/min: 2.5 s a plug, 480 mm/min along a lap, 1.5 s around each start. A bottle of 2000 L."),
    Line("sound-pad", None, 0, None, "As large as the old ones."),
    Line("stone-guard", coat(0.6 + 0.150 * (FLOOR + ARCH + METRES["quarter-to-trunk-side"] + LAP), 500, 0.6, 0.2), 0, 2,
         "Wheel side of the housing 0.6 m²; 150 mm along floor patch, arch, tail and lap. Bottles of 1000 mL."),
    Line("structural-adhesive", 5 + 2 * 500 * 9 * 0.25 / 1000, 0.15, 1, """\
        The coupon's hem, and both faces of a lip of 500 by 9 mm at 0.25 mm. A cartridge of 200 mL."""),
    Line("tags-and-bags", 27 * 5, 0, 2, "28 steps list them; belts off is done once for two of these. Boxes of 100."),
    Line("water-based-cleaner", 8 * 300, 0, 1, "Wax washed off five times, sealer twice, one look inside."),
)  # fmt: skip
