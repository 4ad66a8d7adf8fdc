"""Each warning of the coating calculators and decisions on both sides of where it begins, its source beside it."""

from tests.outside.asking import Calc, warns
from tests.outside.test_decisions import FREE, JOIN, JUDGE

Case = tuple[str, dict[str, str], str, str, bool]

MIX = {"total": "500 ml", "part_a": "4", "part_b": "1", "density_a": "1.3 g/ml", "density_b": "1.05 g/ml"}
CURE = {
    "sheet_time": "12 h", "sheet_temperature": "20 degC", "shop_temperature": "20 degC", "factor": "2",
    "least_temperature": "10 degC",
}  # fmt: skip
WINDOW = {"applied_ago": "3 h", "least": "2 h", "most": "24 h"}
PAIR = {"metal_a": "copper", "metal_b": "brass", "place": "harsh"}
BOX = {"cavity": "12 liter", "density": "0.87 g/ml", "molar_mass": "106", "lower_limit": "1 percent"}
LAMP = {"distance": "10 m", "lamp_height": "700 mm", "aim": "1 percent"}
TOE = {"front": "1500 mm", "rear": "1500 mm", "width": "620 mm"}
HARD_BEHIND = {"strength": "unknown", "scrap_face_reach": "no"}

CASES: list[Case] = [
    # isocyanate: NIOSH, read; the rest of mixing is common practice, 5 percent is from memory
    ("mix", MIX, "care", "isocyanate", True),
    ("mix", MIX, "stop", "no hardener", False),
    ("mix", MIX | {"part_b": "0"}, "stop", "no hardener", True),
    ("mix", MIX | {"part_a": "0"}, "stop", "no A", True),
    ("mix", MIX | {"part_a": "0.1"}, "stop", "no A", False),
    ("mix", MIX | {"part_b": "4"}, "care", "More hardener", False),
    ("mix", MIX | {"part_b": "4.1"}, "care", "More hardener", True),
    ("mix", MIX | {"part_c": "1", "by": "weight"}, "stop", "needs its density", True),
    ("mix", MIX | {"part_c": "1", "by": "weight", "density_c": "0.9 g/ml"}, "stop", "needs its density", False),
    ("mix", MIX | {"part_c": "0", "by": "weight"}, "stop", "needs its density", False),
    ("mix", MIX | {"part_c": "1"}, "care", "not known", True),
    ("mix", MIX | {"total": "100 ml", "density_b": "1 g/ml"}, "care", "more than 5 percent", False),
    ("mix", MIX | {"total": "99 ml", "density_b": "1 g/ml"}, "care", "more than 5 percent", True),
    ("mix", MIX | {"part_c": "100", "third": "percent"}, "care", "prints parts", False),
    ("mix", MIX | {"part_c": "101", "third": "percent"}, "care", "prints parts", True),
    # the ten-degree rule, secondary: 0 to 50 degC, factors of 1.5 to 2.5; the least temperature is the sheet's
    ("cure-time", CURE | {"shop_temperature": "10 degC"}, "stop", "stops curing", False),
    ("cure-time", CURE | {"shop_temperature": "9.99 degC"}, "stop", "stops curing", True),
    ("cure-time", CURE | {"shop_temperature": "50 degC"}, "stop", "0 to 50", False),
    ("cure-time", CURE | {"shop_temperature": "50.1 degC"}, "stop", "0 to 50", True),
    ("cure-time", CURE | {"sheet_temperature": "60 degC"}, "stop", "0 to 50", True),
    ("cure-time", CURE | {"shop_temperature": "0 degC", "least_temperature": "0 degC"}, "stop", "0 to 50", False),
    ("cure-time", CURE | {"product": "waterborne"}, "stop", "Not by this rule", True),
    ("cure-time", CURE | {"product": "two-part"}, "stop", "Not by this rule", False),
    ("cure-time", CURE | {"factor": "1.5"}, "care", "1.5 and 2.5", False),
    ("cure-time", CURE | {"factor": "1.49"}, "care", "1.5 and 2.5", True),
    ("cure-time", CURE | {"factor": "2.5"}, "care", "1.5 and 2.5", False),
    ("cure-time", CURE | {"factor": "2.51"}, "care", "1.5 and 2.5", True),
    ("cure-time", CURE | {"shop_temperature": "21 degC"}, "care", "Mix less", True),
    ("cure-time", CURE, "care", "Mix less", False),
    ("recoat-window", WINDOW | {"applied_ago": "2 h"}, "stop", "Too early", False),
    ("recoat-window", WINDOW | {"applied_ago": "1.99 h"}, "stop", "Too early", True),
    ("recoat-window", WINDOW | {"applied_ago": "24 h"}, "stop", "closed", False),
    ("recoat-window", WINDOW | {"applied_ago": "24.01 h"}, "stop", "closed", True),
    ("recoat-window", WINDOW | {"shop_temperature": "10 degC"}, "stop", "hours do not count", False),
    ("recoat-window", WINDOW | {"shop_temperature": "9.9 degC"}, "stop", "hours do not count", True),
    ("recoat-window", WINDOW | {"shop_temperature": "50.1 degC"}, "stop", "0 to 50", True),
    ("recoat-window", WINDOW | {"most": "2 h", "applied_ago": "2 h"}, "stop", "before the earliest", False),
    ("recoat-window", WINDOW | {"most": "1.9 h"}, "stop", "before the earliest", True),
    ("recoat-window", WINDOW | {"shop_temperature": "10 degC", "most": "4 h"}, "stop", "No sure window", False),
    ("recoat-window", WINDOW | {"shop_temperature": "10 degC", "most": "3.9 h"}, "stop", "No sure window", True),
    ("recoat-window", WINDOW | {"most": "0 h", "least": "0 h", "applied_ago": "0 h"}, "stop", "is missing", True),
    ("recoat-window", WINDOW | {"shop_temperature": "21 degC"}, "care", "rule of thumb", True),
    ("recoat-window", WINDOW, "care", "rule of thumb", False),
    # handbook rule of 0.15, 0.25 and 0.50 V, secondary, met exactly passes
    ("galvanic-pair", PAIR | {"metal_b": "stainless-18cr"}, "stop", "Not metal to metal", False),
    ("galvanic-pair", PAIR | {"metal_b": "stainless-12cr"}, "stop", "Not metal to metal", True),
    ("galvanic-pair", PAIR | {"metal_b": "stainless-12cr", "place": "normal"}, "stop", "Not metal to metal", False),
    ("galvanic-pair", PAIR | {"metal_b": "carbon-steel", "place": "controlled"}, "stop", "Not metal", False),
    ("galvanic-pair", PAIR | {"metal_b": "aluminium-5000-6000", "place": "controlled"}, "stop", "Not metal", True),
    ("galvanic-pair", PAIR | {"metal_b": "magnesium"}, "care", "Magnesium", True),
    ("galvanic-pair", PAIR, "care", "Magnesium", False),
    # common practice
    ("free-welds", FREE | HARD_BEHIND, "stop", "no blind force", True),
    ("free-welds", FREE | {"strength": "unknown"}, "stop", "no blind force", False),
    ("free-welds", FREE | HARD_BEHIND | {"maker": "yes"}, "stop", "no blind force", False),
    ("free-welds", FREE | {"scrap_face_reach": "no", "edge_reach": "no"}, "stop", "Gain access", True),
    ("free-welds", FREE, "stop", "Gain access", False),
    ("free-welds", FREE | {"joint": "bond"}, "stop", "poison smoke", True),
    ("free-welds", FREE | {"joint": "rivet"}, "stop", "poison smoke", False),
    ("free-welds", FREE | {"kept": "middle"}, "stop", "no middle", True),
    ("free-welds", FREE | {"kept": "middle", "layers": "3"}, "stop", "no middle", False),
    ("free-welds", FREE | {"scrap_thickness": "0 mm"}, "stop", "Measure both", True),
    ("free-welds", FREE | {"scrap_thickness": "0.1 mm"}, "stop", "Measure both", False),
    ("free-welds", FREE | {"kept_thickness": "0.8 mm"}, "care", "thinner one", False),
    ("free-welds", FREE | {"kept_thickness": "0.79 mm"}, "care", "thinner one", True),
    ("repair-or-renew", JUDGE | {"zone": "mount", "shape": "kinked"}, "stop", "No patch, no heat", True),
    ("repair-or-renew", JUDGE | {"zone": "mount", "shape": "bent"}, "stop", "No patch, no heat", False),
    ("repair-or-renew", JUDGE | {"zone": "mount", "shape": "bent"}, "stop", "A bent mount", True),
    ("repair-or-renew", JUDGE | {"shape": "torn"}, "stop", "No row fits", True),
    ("repair-or-renew", JUDGE | {"metal": "perforated"}, "stop", "No row fits", False),
    ("repair-or-renew", JUDGE | {"metal": "scale"}, "care", "No encapsulator", True),
    ("repair-or-renew", JUDGE | {"metal": "scale", "faying": "no"}, "care", "No encapsulator", False),
    # strength lost at the lowest straightening heat: automakers' study, read
    ("repair-or-renew", JUDGE | {"strength": "unknown"}, "stop", "No heat", True),
    ("repair-or-renew", JUDGE | {"strength": "high-strength"}, "stop", "No heat", False),
    ("join-method", JOIN | {"strength": "unknown"}, "stop", "Hard or unknown", True),
    ("join-method", JOIN | {"strength": "high-strength"}, "stop", "Hard or unknown", False),
    ("join-method", JOIN | {"metals": "mixed"}, "stop", "Separate tools", True),
    ("join-method", JOIN, "stop", "Separate tools", False),
    ("join-method", JOIN | {"joint": "section"}, "stop", "No section joint", True),
    ("join-method", JOIN | {"joint": "section", "may_section": "yes"}, "stop", "No section joint", False),
    # 30 cm: British inspection, official appendix, opening read
    ("join-method", JOIN | {"joint": "patch", "to_mount": "30 cm"}, "stop", "No row fits", False),
    ("join-method", JOIN | {"joint": "patch", "to_mount": "30.1 cm"}, "stop", "No row fits", True),
    ("join-method", JOIN | {"joint": "patch", "to_mount": "30.1 cm"}, "care", "continuous seam", True),
    ("join-method", JOIN | {"layers": "2"}, "care", "Three sheets", False),
    ("join-method", JOIN | {"layers": "3"}, "care", "Three sheets", True),
    # a tenth of the limit: WAC 296-304-03009, read; any solvent at all stops
    ("vapour-limit", BOX | {"solvent": "0.001 ml"}, "stop", "however little", True),
    ("vapour-limit", BOX | {"solvent": "0 ml"}, "stop", "Do not weld", False),
    ("vapour-limit", BOX | {"solvent": "0.06 ml"}, "stop", "Over a tenth", False),
    ("vapour-limit", BOX | {"solvent": "0.061 ml"}, "stop", "Over a tenth", True),
    ("vapour-limit", BOX | {"solvent": "0.6 ml"}, "stop", "can explode", False),
    ("vapour-limit", BOX | {"solvent": "0.61 ml"}, "stop", "can explode", True),
    # the British band, read in a beam tester's manual
    ("lamp-drop", LAMP | {"aim": "0.5 percent"}, "care", "outside the band", False),
    ("lamp-drop", LAMP | {"aim": "0.49 percent"}, "care", "outside the band", True),
    ("lamp-drop", LAMP | {"aim": "2 percent"}, "care", "outside the band", False),
    ("lamp-drop", LAMP | {"aim": "2.01 percent"}, "care", "outside the band", True),
    ("lamp-drop", LAMP | {"lamp_height": "851 mm"}, "care", "outside the band", True),
    ("lamp-drop", LAMP | {"distance": "50 m", "aim": "1.4 percent"}, "stop", "meets the ground", True),
    ("lamp-drop", LAMP | {"distance": "50 m", "aim": "1.39 percent"}, "stop", "meets the ground", False),
    ("toe-tape", TOE | {"rear": "1502 mm"}, "care", "aligned", False),
    ("toe-tape", TOE | {"rear": "1502.1 mm"}, "care", "aligned", True),
    ("toe-tape", TOE | {"rear": "2120 mm"}, "stop", "one axle", True),
    ("toe-tape", TOE | {"rear": "2119 mm"}, "stop", "one axle", False),
]


def test_warnings(calc: Calc) -> None:
    assert [case for case in CASES if warns(calc, *case[:-1]) is not case[-1]] == []
