"""`make test`: provides what the tests need, runs every check and every test, and lets pytest have the last word."""

import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from tests.tools.browser import find_chromium, scratch_parent
from tests.tools.provide import NODE_MODULES, ROOT, TOOLS, provide, why_no_browser

NO_TESTS = 5
"""What pytest ends with where none of the tests asked for is one of its own."""
MOST_AT_ONCE = 4
"""Each brings a browser of its own, and up to half a gigabyte."""


@dataclass(frozen=True, slots=True)
class Step:
    """One program that judges the project."""

    name: str
    command: tuple[str, ...]
    is_of_tests: bool = False
    """Whether it runs some of the tests: those asked for may all be among the others."""


def main(pytest_arguments: Sequence[str]) -> int:
    """Run everything; 0 when all is well. Prints one line for each thing that is missing."""
    started = time.monotonic()
    if missing := provide(_say):
        return _refuse(missing)
    with _scratch() as scratch:
        if missing := why_no_browser(scratch):
            return _refuse(missing)
        _say(f"all that the tests need is there ({time.monotonic() - started:.0f} s)")
        return run_steps(_steps(scratch, pytest_arguments), _environment(scratch))


def run_steps(steps: Sequence[Step], environment: dict[str, str]) -> int:
    """Run every step, also after one that failed; nothing is printed after the last one unless something failed."""
    failed = []
    ran = False
    for step in steps:
        _say(f"== {step.name}")
        started = time.monotonic()
        run = subprocess.run(step.command, cwd=ROOT, env=environment, stdin=subprocess.DEVNULL, check=False)
        is_clean = run.returncode in ((0, NO_TESTS) if step.is_of_tests else (0,))
        ran = ran or (step.is_of_tests and run.returncode != NO_TESTS)
        if not is_clean:
            failed.append(step.name)
        if step is not steps[-1]:
            _say(f"{'clean' if is_clean else 'failed'} ({time.monotonic() - started:.1f} s)")
    if not ran:
        failed.append("no test was run")
    if failed:
        _say(f"failed: {', '.join(failed)}")
    return 1 if failed else 0


def _steps(scratch: Path, pytest_arguments: Sequence[str]) -> tuple[Step, ...]:
    python = sys.executable
    tsc = NODE_MODULES / "typescript" / "bin" / "tsc"
    pytest = (python, "-m", "pytest", *pytest_arguments)
    alone = (*pytest, f"--basetemp={scratch / 'alone'}", "-m", "alone")
    others = (*pytest, f"--basetemp={scratch / 'pytest'}", "-m", "not alone", *_side_by_side())
    return (
        Step("ruff", (python, "-m", "ruff", "check", ".")),
        Step("mypy", (python, "-m", "mypy")),
        Step("tsc", ("node", str(tsc), "--noEmit", "--checkJs", "--project", str(TOOLS / "tsconfig.json"))),
        Step("pytest, what is measured alone", alone, is_of_tests=True),
        Step("pytest", others, is_of_tests=True),
    )


def _side_by_side() -> tuple[str, ...]:
    """One process of tests for each core up to MOST_AT_ONCE; one that has none left takes over from the other."""
    count = min(os.cpu_count() or 1, MOST_AT_ONCE)
    return ("-n", str(count), "--dist", "worksteal") if count > 1 else ()


def _environment(scratch: Path) -> dict[str, str]:
    """What the tests are told; TMPDIR too, since Playwright makes the browser's profile there."""
    browser = find_chromium(os.environ)
    assert browser is not None, "provide() has seen to it"
    told = {"SEAMBOOK_CHROMIUM": str(browser), "SEAMBOOK_SCRATCH": str(scratch), "TMPDIR": str(scratch)}
    return {**os.environ, **told}


@contextmanager
def _scratch() -> Iterator[Path]:
    """A fresh folder that the browser can read, gone afterwards; inside SEAMBOOK_SCRATCH if that is set."""
    browser = find_chromium(os.environ)
    assert browser is not None, "provide() has seen to it"
    named = os.environ.get("SEAMBOOK_SCRATCH")
    parent = Path(named) if named else scratch_parent(browser, Path.home(), Path(tempfile.gettempdir()))
    parent.mkdir(parents=True, exist_ok=True)
    scratch = Path(tempfile.mkdtemp(prefix="seambook-", dir=parent))
    try:
        yield scratch
    finally:
        shutil.rmtree(scratch, ignore_errors=True)


def _refuse(missing: Sequence[str]) -> int:
    for line in missing:
        _say(line)
    _say("no test was run: everything they need must be there first")
    return 1


def _say(line: str) -> None:
    print(line, flush=True)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
