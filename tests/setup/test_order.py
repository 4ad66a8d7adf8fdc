"""Fast tests run first, slow ones next, those in a browser last."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
CONFTEST = ROOT / "tests" / "conftest.py"
ASKED = "import pytest\n@pytest.mark.parametrize('calc', ['Chromium', 'Python'])\ndef test_asked(calc): pass\n"


def test_fast_comes_before_slow_and_the_browser_last(tmp_path: Path) -> None:
    shutil.copy(CONFTEST, tmp_path)
    slow = "import pytest\n@pytest.mark.slow\ndef test_slow(): pass\n"
    files = {
        "browser/test_a.py": "def test_page(): pass\n" + slow,
        "read/test_b.py": slow + "def test_fast(): pass\n",
        "outside/test_d.py": ASKED,
        "read/test_c.py": "def test_fast(): pass\n",
        "pytest.ini": "[pytest]\naddopts = -q --import-mode=importlib\nmarkers = slow: slow\n",
    }
    for name, text in files.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(text, encoding="utf-8")
    command = (sys.executable, "-m", "pytest", "-p", "no:cacheprovider", "--collect-only")
    listed = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=True,
                            env={**os.environ, "PYTHONPATH": str(ROOT)}).stdout  # fmt: skip
    assert [line for line in listed.splitlines() if "::" in line] == [
        "outside/test_d.py::test_asked[Python]",
        "read/test_b.py::test_fast",
        "read/test_c.py::test_fast",
        "read/test_b.py::test_slow",
        "browser/test_a.py::test_page",
        "browser/test_a.py::test_slow",
        "outside/test_d.py::test_asked[Chromium]",
    ]
