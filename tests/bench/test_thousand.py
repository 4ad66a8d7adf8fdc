"""A thousand copies of the procedure and its seam build in time and in memory."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.bench.__main__ import CONTENT, COPIES, MOST_MB, MOST_SECONDS
from tests.bench.generator import generate
from tests.bench.measure import build


@pytest.mark.slow
def test_a_thousand_procedures_build_in_time_and_memory(tmp_path: Path) -> None:
    content = generate(CONTENT, tmp_path / "content", COPIES)
    measured = build(content, tmp_path / "site")
    print(measured)
    assert len(list((tmp_path / "site" / "procedures").glob("*.html"))) >= COPIES
    assert measured.seconds < MOST_SECONDS
    assert measured.peak_mb < MOST_MB
