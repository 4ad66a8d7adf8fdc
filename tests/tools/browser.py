"""From this machine to a Chromium that the tests may drive: which one, which folder it can read, how it is started.

The browser fixture starts it with `launch_options()`; nothing else decides about the sandbox.
"""

import os
import shutil
import subprocess
from collections.abc import Mapping
from pathlib import Path
from typing import TypedDict

SHELL = "chromium-headless-shell"
"""Chromium without windows, which opens a page in a third of the time."""
NAMES = (SHELL, "chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "/snap/bin/chromium")
SNAP_PLACES = ("/snap/", "/var/lib/snapd/", "/usr/bin/snap")
QUIET = (
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-gpu",
    "--disable-quic",
    "--disable-sync",
    "--no-first-run",
    "--renderer-process-limit=1",
)
"""Switches for a machine without a network: the browser asks nobody anything; and it begins no process that waits for a
page which may come."""


class LaunchOptions(TypedDict):
    """What Playwright's `chromium.launch(**options)` is given."""

    executable_path: str
    chromium_sandbox: bool
    args: list[str]


def launch_options() -> LaunchOptions:
    """Options for Playwright; SEAMBOOK_CHROMIUM must be set, as `make test` does.

    Playwright leaves the sandbox off unless told otherwise. We keep it on for everyone but root, whom Chromium
    refuses to serve with a sandbox.
    """
    return LaunchOptions(
        executable_path=os.environ["SEAMBOOK_CHROMIUM"],
        chromium_sandbox=not is_root(),
        args=list(QUIET),
    )


def is_root() -> bool:
    """Whether Chromium would refuse its sandbox to this user."""
    return os.geteuid() == 0


def find_chromium(environment: Mapping[str, str]) -> Path | None:
    """The browser named by SEAMBOOK_CHROMIUM, else one from PATH; a snap only when there is no other."""
    named = environment.get("SEAMBOOK_CHROMIUM")
    names = (named,) if named else NAMES
    found = [Path(path) for name in names if (path := shutil.which(name, path=environment.get("PATH")))]
    return min(found, key=is_snap, default=None)


def is_snap(browser: Path) -> bool:
    """Whether this is a snap or a script that starts one: such a browser sees neither /tmp nor hidden folders."""
    if any(place.as_posix().startswith(SNAP_PLACES) for place in (browser, browser.resolve())):
        return True
    with browser.open("rb") as program:
        head = program.read(8192)
    return head.startswith(b"#!") and b"/snap/bin/" in head


def scratch_parent(browser: Path, home: Path, temporary: Path) -> Path:
    """The folder in which a folder for profiles, built books and pictures is made, so that this browser reads it."""
    return home / "snap" / "chromium" / "common" if is_snap(browser) else temporary


def why_unusable(browser: Path, scratch: Path) -> str | None:
    """Open a page in the scratch folder and read it back; what went wrong in a few words, or None."""
    page = scratch / "probe.html"
    page.write_text("<!doctype html><title>probe</title><p id=probe>seambook can read this</p>\n", encoding="utf-8")
    sandbox = ("--no-sandbox",) if is_root() else ()
    profile = f"--user-data-dir={scratch / 'probe-profile'}"
    command = (str(browser), "--headless", *sandbox, *QUIET, profile, "--dump-dom", page.as_uri())
    try:
        run = subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, timeout=90, check=False)
    except (OSError, subprocess.TimeoutExpired) as trouble:
        return f"{browser} does not start: {trouble}"
    if b"seambook can read this" in run.stdout:
        return None
    if run.returncode == 0:
        return f"{browser} cannot read {scratch}"
    last = run.stderr.decode("utf-8", "replace").strip().splitlines()[-1:] or ["it says nothing"]
    return f"{browser} does not start: {last[0]}"
