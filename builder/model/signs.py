"""Units and numbers -> the signs readers know them by."""

from __future__ import annotations

import re
from functools import lru_cache

NO_BREAK = "\u00a0"
SIGNS = {
    "degC": "°C", "degF": "°F", "delta_degC": "°C", "delta_degF": "°F", "degree": "°", "percent": "%",
    "month": "months", "ohm": "Ω", "microohm": "µΩ", "uH": "µH",
    "inch": "in", "um": "µm", "micrometer": "µm", "millimeter": "mm", "thou": "mil",
    "liter": "L", "litre": "L", "ml": "mL", "milliliter": "mL", "fluid_ounce": "fl oz", "gallon": "gal",
}  # fmt: skip
_RAISED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")
_POWER = re.compile(r"\*\*(-?\d+)")
_WORD = re.compile(r"[A-Za-z_]+")


@lru_cache(maxsize=512)
def sign(unit: str) -> str:
    """Return a unit's sign: `m**2/liter` is shown as m²/L."""
    text = _WORD.sub(lambda found: SIGNS.get(found[0], found[0]), unit)
    text = _POWER.sub(lambda found: found[1].translate(_RAISED), text)
    return text.replace("*", "·")


def with_sign(number: str, unit: str) -> str:
    """Return a number with its unit's sign, kept on one line; degrees of angle and per cent as they are set."""
    mark = sign(unit)
    return number if not mark else f"{number}{mark}" if mark == "°" else f"{number}{NO_BREAK}{mark}"
