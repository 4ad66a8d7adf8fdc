"""From a machine with a ready .venv to one that can run every test, or to one line for each thing it still lacks."""

import hashlib
import importlib.util
import os
import shlex
import subprocess
import sys
from collections.abc import Callable, Iterable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from tests.sweeps import is_soak
from tests.tools.apt import Apt
from tests.tools.browser import find_chromium, is_snap, why_unusable
from tests.tools.needs import Need, all_needs

ROOT = Path(__file__).resolve().parents[2]
TOOLS = ROOT / "tests" / "tools"
NODE_MODULES = TOOLS / "node_modules"
PINS = TOOLS / "requirements.txt"
OPTIONAL = TOOLS / "optional.txt"
LOCK = TOOLS / "package-lock.json"

Say = Callable[[str], None]


def provide(say: Say) -> list[str]:
    """Install what may be installed; what is still missing comes back, one line each."""
    missing = provide_programs(all_needs(), Apt.here(), say)
    is_node_there = not any("Node" in line for line in missing)
    with ThreadPoolExecutor() as pool:  # both wait for the network most of the time
        python, node = pool.submit(provide_python_tools, say), is_node_there and pool.submit(provide_node_tools, say)
        missing += python.result() + (node.result() if node else [])
    if is_soak() and not missing:
        provide_fuzzer(say)
    return missing


def provide_programs(needs: Iterable[Need], apt: Apt, say: Say) -> list[str]:
    """Meet the needs through the system's package manager, where this user may use it."""
    lacking = [need for need in needs if need.lacks() is not None]
    to_install = [need for need in lacking if need.packages and apt.may_install]
    complaints: dict[str, str | None] = {}
    if to_install:
        apt.update()
    for need in to_install:
        if need.lacks() is None:  # what was brought before it will do
            continue
        say(f"installing {need.name}: {' '.join(need.packages)}")
        complaints[need.name] = apt.install(need.packages)
    return [
        _missing(need, complaints.get(need.name) or why, apt)
        for need in lacking if not need.is_optional and (why := need.lacks()) is not None
    ]


def _missing(need: Need, why: str, apt: Apt) -> str:
    remedy = f"; to install: {apt.command(need.packages)}" if need.packages else ""
    return f"missing: {need.name} ({why}){remedy}"


def provide_python_tools(say: Say) -> list[str]:
    """Install the pinned test requirements into .venv; what of them is ever read is compiled then, a small part."""
    pip = (sys.executable, "-m", "pip", "--disable-pip-version-check", "install", "--quiet", "--no-compile",
           "-r", str(PINS))  # fmt: skip
    stamp = Path(sys.prefix) / "seambook-tests.stamp"
    made_from = (PINS, ROOT / "pyproject.toml")
    return _install("Python test tools", pip, stamp, made_from, say)


def provide_fuzzer(say: Say) -> None:
    """Install atheris, which leads the long fuzzing by what is reached; where it has no wheel chance alone will do."""
    pip = (sys.executable, "-m", "pip", "--disable-pip-version-check", "install", "--quiet", "--only-binary", ":all:",
           "-r", str(OPTIONAL))  # fmt: skip
    if importlib.util.find_spec("atheris") is None and subprocess.run(
        pip, stdin=subprocess.DEVNULL, capture_output=True, cwd=ROOT, check=False
    ).returncode:
        say(f"there is no atheris for this Python ({shlex.join(pip)}): inputs are spoiled by chance alone")


def provide_node_tools(say: Say) -> list[str]:
    """Install the locked Node packages into tests/tools/node_modules; no package may run a script of its own."""
    npm = ("npm", "ci", "--prefix", str(TOOLS), "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error")
    return _install("Node test tools", npm, NODE_MODULES / "seambook.stamp", (LOCK,), say)


def why_no_browser(scratch: Path) -> list[str]:
    """Prove that the browser starts and reads the scratch folder; one line if not."""
    browser = find_chromium(os.environ)
    if browser is None or (why := why_unusable(browser, scratch)) is None:
        return []
    if is_snap(browser):
        return [f"missing: a usable Chromium ({why}, being a snap); set SEAMBOOK_SCRATCH to a folder it can read"]
    return [f"missing: a usable Chromium ({why}); mend it, or set SEAMBOOK_CHROMIUM to another one"]


def _install(name: str, command: tuple[str, ...], stamp: Path, made_from: tuple[Path, ...], say: Say) -> list[str]:
    """Run the command unless the stamp says that it ran for these very files."""
    key = hashlib.sha256(b"".join(path.read_bytes() for path in made_from) + str(ROOT).encode()).hexdigest()
    if stamp.is_file() and stamp.read_text(encoding="ascii") == key:
        return []
    say(f"installing {name}")
    if subprocess.run(command, stdin=subprocess.DEVNULL, cwd=ROOT, check=False).returncode != 0:
        return [f"missing: {name} (see above); to install: {shlex.join(command)}"]
    stamp.write_text(key, encoding="ascii")
    return []
