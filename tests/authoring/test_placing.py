"""Nothing is written outside the folder that was named, nor over what stands there."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from builder.authoring.placing import AuthoringError, place
from tests.site.building import files_of


@pytest.mark.parametrize("name", ["../x", "a/../../x", "/tmp/seambook-outside", "a/../../../x"])
def test_no_name_leads_out(tmp_path: Path, name: str) -> None:
    (tmp_path / "shop").mkdir()
    with pytest.raises(AuthoringError, match="leads elsewhere"):
        place(tmp_path / "shop", name, "x")
    assert files_of(tmp_path) == {}


def test_a_file_is_written_once(tmp_path: Path) -> None:
    path = place(tmp_path, "deep/er/x.yaml", "one\n")
    with pytest.raises(AuthoringError, match="is there already"):
        place(tmp_path, "deep/er/x.yaml", "two\n")
    assert path.read_bytes() == b"one\n"
    place(tmp_path, "deep/er/x.yaml", "three\n", over=True)
    assert path.read_bytes() == b"three\n"


@pytest.mark.parametrize("over", [False, True])
@pytest.mark.parametrize("target", ["file", "nowhere", "folder"])
def test_no_link_is_written_through(tmp_path: Path, target: str, over: bool) -> None:
    (tmp_path / "file").write_text("mine")
    (tmp_path / "folder").mkdir()
    (tmp_path / "shop").mkdir()
    (tmp_path / "shop/x").symlink_to(tmp_path / target)
    name = "x/y" if target == "folder" else "x"
    with pytest.raises(AuthoringError, match="leads elsewhere"):
        place(tmp_path / "shop", name, "x", over=over)
    assert (tmp_path / "file").read_text() == "mine"
    assert not os.path.lexists(tmp_path / "nowhere")
    assert list((tmp_path / "folder").iterdir()) == []


def test_a_link_that_stays_inside_is_followed(tmp_path: Path) -> None:
    (tmp_path / "panels").mkdir()
    (tmp_path / "ours").symlink_to(tmp_path / "panels")
    place(tmp_path, "ours/x.yaml", "x")
    assert (tmp_path / "panels/x.yaml").read_text() == "x"


def test_what_the_system_refuses_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises(AuthoringError, match=r"/file is there already"):
        place(tmp_path, "file/x", "x")
    with pytest.raises(AuthoringError, match="cannot write"):
        place(tmp_path, "x" * 300, "x")
