"""Every test tool is pinned, and no lock file says where it came from."""

import json
import re
from pathlib import Path

TOOLS = Path(__file__).parents[1] / "tools"


def test_every_python_tool_is_pinned_to_one_version() -> None:
    lines = (TOOLS / "requirements.txt").read_text(encoding="utf-8").splitlines()
    wanted = [line for line in lines if line and not line.startswith("#")]
    assert len(wanted) > 10
    assert [line for line in wanted if not re.fullmatch(r"[\w.-]+==[\w.]+", line)] == []


def test_every_node_tool_is_pinned_to_one_version() -> None:
    wanted = json.loads((TOOLS / "package.json").read_text(encoding="utf-8"))["devDependencies"]
    locked = json.loads((TOOLS / "package-lock.json").read_text(encoding="utf-8"))["packages"]
    assert {name: locked[f"node_modules/{name}"]["version"] for name in wanted} == wanted


def test_no_lock_or_list_names_a_registry() -> None:
    for name in ("package-lock.json", "package.json", "requirements.txt", ".npmrc"):
        text = (TOOLS / name).read_text(encoding="utf-8")
        assert "://" not in text, name
        assert 'resolved":' not in text, name
