"""What the first page leads to, and what it leaves to the lists."""

from __future__ import annotations

from pathlib import Path

from bs4 import BeautifulSoup

from tests.site.building import page


def test_a_calculator_apt_to_be_misread_is_listed_but_not_on_the_first_page(site: Path) -> None:
    # Common practice: the strength of one spot weld lets a man argue the count of welds down.
    assert "calculators/spot-strength.html" in hrefs(page(site, "lists.html"))
    first = hrefs(page(site, "index.html"))
    assert "calculators/spot-strength.html" not in first
    assert "calculators/time-estimate.html" in first


def hrefs(found: BeautifulSoup) -> set[str]:
    return {str(link["href"]) for link in found.select("a[href]")}
