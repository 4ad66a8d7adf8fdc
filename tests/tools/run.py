"""`make test`: provides what the tests need, runs every check and every test, and lets pytest have the last word."""

import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
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
    """Whether it runs some of the tests: those asked for may all be among the others. The rest run side by side."""


@dataclass(frozen=True, slots=True)
class Ran:
    """What came of one."""

    step: Step
    code: int
    seconds: float
    said: bytes = b""

    @property
    def is_clean(self) -> bool:
        """Whether it has nothing to object to."""
        return self.code == 0 or (self.step.is_of_tests and self.code == NO_TESTS)


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
    done = _read_alone([step for step in steps if not step.is_of_tests], environment)
    for step in steps:
        if step.is_of_tests:
            _say(f"== {step.name}")
            done.append(_run(step, environment, None))
            if step is not steps[-1]:
                _tell(done[-1])
    failed = [one.step.name for one in done if not one.is_clean]
    if not any(one.step.is_of_tests and one.code != NO_TESTS for one in done):
        failed.append("no test was run")
    if failed:
        _say(f"failed: {', '.join(failed)}")
    return 1 if failed else 0


def _read_alone(steps: Sequence[Step], environment: dict[str, str]) -> list[Ran]:
    """Run what only reads the sources side by side, and tell what each has said in its turn."""
    done = []
    with ThreadPoolExecutor(max_workers=max(1, len(steps))) as pool:
        for ran in pool.map(lambda step: _run(step, environment, subprocess.PIPE), steps):
            _say(f"== {ran.step.name}")
            sys.stdout.buffer.write(ran.said)
            _tell(ran)
            done.append(ran)
    return done


def _run(step: Step, environment: dict[str, str], output: int | None) -> Ran:
    started = time.monotonic()
    run = subprocess.run(
        step.command, cwd=ROOT, env=environment, stdin=subprocess.DEVNULL, check=False,
        stdout=output, stderr=output and subprocess.STDOUT,
    )  # fmt: skip
    return Ran(step, run.returncode, time.monotonic() - started, run.stdout or b"")


def _tell(ran: Ran) -> None:
    _say(f"{'clean' if ran.is_clean else 'failed'} ({ran.seconds:.1f} s)")


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
        Step("books that tests share", (python, "-m", "tests.site.shared")),
        Step("pytest, what is measured alone", alone, is_of_tests=True),
        Step("pytest", others, is_of_tests=True),
    )


def _side_by_side() -> tuple[str, ...]:
    """One process of tests for each core up to MOST_AT_ONCE; one that has none left takes over from the other."""
    count = min(os.cpu_count() or 1, MOST_AT_ONCE)
    return ("-n", str(count), "--dist", "worksteal") if count > 1 else ()


def _environment(scratch: Path) -> dict[str, str]:
    """What the tests are told; TMPDIR too, since Playwright makes the browser's profile there.

    Both runs of pytest share what is made once. Python may keep its bytecode, whatever the machine says: without it
    every process, of which there are hundreds, compiles Seambook anew, and pytest all tests.
    """
    browser = find_chromium(os.environ)
    assert browser is not None, "provide() has seen to it"
    told = {"SEAMBOOK_CHROMIUM": str(browser), "SEAMBOOK_SCRATCH": str(scratch), "TMPDIR": str(scratch),
            "SEAMBOOK_MADE": str(scratch / "made")}  # fmt: skip
    return {name: value for name, value in {**os.environ, **told}.items() if name != "PYTHONDONTWRITEBYTECODE"}


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
