"""Files that documents and the main path name are there."""

from __future__ import annotations

import re

import pytest

from tests.shape_of_code.modules import BUILDER, ROOT


@pytest.mark.parametrize("name", ["builder/pipeline.py", "DEVELOPERS.md", "README.md"])
def test_every_file_that_is_named_is_there(name: str) -> None:
    text = (ROOT / name).read_text("utf-8")
    named = set(re.findall(r"`((?:[a-z_]+/)+[a-z_]*(?:[.](?:py|js|md|yaml|txt))?)`", text))
    assert len(named) > (10 if name != "README.md" else 0)
    folders = (ROOT, BUILDER, ROOT / "templates", ROOT / "templates" / "assets")
    missing = [one for one in sorted(named) if not any((folder / one).exists() for folder in folders)]
    assert missing == []
