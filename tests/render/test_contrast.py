"""Contrast of every text colour on its ground, worked out from the style sheet as WCAG 2.2 defines it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

TOKENS = (Path(__file__).parents[2] / "templates/assets/css/tokens.css").read_text()
# WCAG 2.2, success criterion 1.4.6 (contrast, enhanced).
ENHANCED = 7.0
# WCAG 2.2, success criterion 1.4.11 (non-text contrast).
LINES = 3.0
TEXTS = [("ink", "paper"), ("quiet", "paper"), ("accent", "paper"), ("fault", "paper"), ("on-accent", "accent"),
         ("paper", "ink"), ("ink", "pad")]  # fmt: skip
SIGNALS = [(f"on-signal-{rank}", f"signal-{rank}") for rank in (1, 2, 3, 4)]


def block(selector: str) -> dict[str, str]:
    """The custom properties of the first rule with this selector."""
    body = re.search(re.escape(selector) + r" \{(.*?)\}", TOKENS, re.DOTALL)
    assert body is not None, selector
    return dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6});", body[1]))


DAY = block("\n:root")
NIGHT = DAY | block(':root[data-theme="night"]')


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio, WCAG 2.2."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_black_on_white_is_twenty_one() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)


@pytest.mark.parametrize("theme", [DAY, NIGHT], ids=["day", "night"])
@pytest.mark.parametrize(("text", "ground"), TEXTS + SIGNALS)
def test_text_is_legible(theme: dict[str, str], text: str, ground: str) -> None:
    assert contrast(theme[text], theme[ground]) >= ENHANCED


@pytest.mark.parametrize("theme", [DAY, NIGHT], ids=["day", "night"])
def test_film_is_seen_on_metal(theme: dict[str, str]) -> None:
    assert contrast(theme["film"], theme["paper"]) >= LINES


def test_night_by_the_device_is_night_by_the_button() -> None:
    assert block(':root:not([data-theme="day"])') == block(':root[data-theme="night"]')
