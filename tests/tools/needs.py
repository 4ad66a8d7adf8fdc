"""From this machine to what it lacks of the programs that the tests run, and the packages that bring them."""

import ctypes
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from tests.tools.browser import SHELL, find_chromium

OLDEST_NODE = 18
OLDEST_JAVA = 11
FONT_FOLDERS = ("/usr/share/fonts", "/usr/local/share/fonts", "~/.local/share/fonts", "~/.fonts", "~/Library/Fonts")
OS_RELEASE = Path("/etc/os-release")


@dataclass(frozen=True, slots=True)
class Need:
    """One thing that the tests cannot do without."""

    name: str
    lacks: Callable[[], str | None]
    """What is wrong, in a few words, or None when the need is met."""
    packages: tuple[str, ...]
    """Debian packages that meet it; none for a thing that this user named and that no package can bring."""
    is_optional: bool = False
    """Whether the tests only run faster with it: it is brought where it can be, and never missed."""


def all_needs() -> tuple[Need, ...]:
    """Every program the tests run beyond Python's own; in the order in which they are provided."""
    is_named = bool(os.environ.get("SEAMBOOK_CHROMIUM"))
    return (
        Need("Chromium without windows", _lacks_shell, () if is_named else (SHELL, "chromium-sandbox"), True),
        Need("Chromium", _lacks_chromium, () if is_named else chromium_packages(OS_RELEASE)),
        Need("libatomic", _lacks_libatomic, ("libatomic1",)),
        Need("DejaVu fonts", _lacks_fonts, ("fonts-dejavu-core",)),
        Need("pdftotext and pdftoppm", lambda: _lacks_programs("pdftotext", "pdftoppm"), ("poppler-utils",)),
        Need(f"Node {OLDEST_NODE} or newer with npm", _lacks_node, ("nodejs", "npm")),
        Need(f"Java {OLDEST_JAVA} or newer", _lacks_java, ("default-jre-headless",)),
    )


def chromium_packages(os_release: Path) -> tuple[str, ...]:
    """Debian's Chromium with its sandbox; Ubuntu's package of another name, which brings a snap."""
    try:
        lines = os_release.read_text(encoding="utf-8").splitlines()
    except OSError:
        lines = []
    return ("chromium-browser",) if "ID=ubuntu" in lines else ("chromium", "chromium-sandbox")


def first_number(text: str) -> int | None:
    """The leading part of the first version number in what a program says of itself; 8 for the old form 1.8."""
    found = re.search(r"(\d+)(?:\.(\d+))?", text)
    if found is None:
        return None
    return int(found[2]) if found[1] == "1" and found[2] else int(found[1])


def too_old(said: str | None, oldest: int) -> str | None:
    """Judge what a program says of its version; None stands for a program that is not there or does not run."""
    if said is None:
        return "not found"
    number = first_number(said)
    if number is None or number < oldest:
        return f"{said.splitlines()[0] if said else 'it does not say its version'}: too old"
    return None


def _lacks_shell() -> str | None:
    """Asked for where there is a Debian to give it; anywhere else another Chromium will do."""
    return None if os.environ.get("SEAMBOOK_CHROMIUM") or shutil.which(SHELL) else "not found"


def _lacks_chromium() -> str | None:
    named = os.environ.get("SEAMBOOK_CHROMIUM")
    if find_chromium(os.environ) is not None:
        return None
    return f"SEAMBOOK_CHROMIUM names {named}, which is no program" if named else "not found"


def _lacks_libatomic() -> str | None:
    """Playwright's own driver is linked with it, and a bare Linux has none."""
    if not sys.platform.startswith("linux"):
        return None
    try:
        ctypes.CDLL("libatomic.so.1")
    except OSError:
        return "not found"
    return None


def _lacks_fonts() -> str | None:
    folders = (Path(folder).expanduser() for folder in FONT_FOLDERS)
    there = any(next(folder.rglob("DejaVuSans.ttf"), None) for folder in folders if folder.is_dir())
    return None if there else "not found"


def _lacks_programs(*names: str) -> str | None:
    missing = [name for name in names if shutil.which(name) is None]
    return f"{' and '.join(missing)} not found" if missing else None


def _lacks_node() -> str | None:
    return too_old(_says("node", "--version"), OLDEST_NODE) or _lacks_programs("npm")


def _lacks_java() -> str | None:
    return too_old(_says("java", "-version"), OLDEST_JAVA)


def _says(program: str, question: str) -> str | None:
    """What a program prints about itself, wherever it prints it; None if it is not there or fails."""
    if shutil.which(program) is None:
        return None
    run = subprocess.run((program, question), stdin=subprocess.DEVNULL, capture_output=True, text=True, check=False)
    return (run.stdout + run.stderr).strip() if run.returncode == 0 else None
