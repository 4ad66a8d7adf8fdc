"""From package names to installed packages through apt-get, where this user may, or to the command that would."""

import os
import shutil
import subprocess
from dataclasses import dataclass
from typing import Self


@dataclass(frozen=True, slots=True)
class Apt:
    """How this user reaches apt-get."""

    present: bool
    """Whether the machine has apt-get at all."""
    prefix: tuple[str, ...] | None
    """What stands before apt-get: nothing for root, sudo where it asks for no password, None where neither."""

    @classmethod
    def here(cls) -> Self:
        """Look at this machine and this user."""
        present = shutil.which("apt-get") is not None
        if os.geteuid() == 0:
            return cls(present, ())
        sudo = shutil.which("sudo")
        asks_nothing = sudo is not None and _succeeds((sudo, "-n", "true"))
        return cls(present, ("sudo", "-n") if asks_nothing else None)

    @property
    def may_install(self) -> bool:
        """Whether `install` can do anything."""
        return self.present and self.prefix is not None

    def update(self) -> None:
        """Fetch the package lists; an old list may still do, so a failure shows only when a package is missing."""
        assert self.prefix is not None
        _succeeds((*self.prefix, "apt-get", "-q", "update"))

    def install(self, packages: tuple[str, ...]) -> str | None:
        """Install; apt-get's own last complaint if it failed, or None."""
        assert self.prefix is not None
        patience = ("-o", "DPkg::Lock::Timeout=300", "-o", "Acquire::Retries=3")
        apt_get = (*self.prefix, "env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "-q", "-y", *patience)
        run = subprocess.run(
            (*apt_get, "install", "--no-install-recommends", *packages),
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            errors="replace",
            check=False,
        )
        if run.returncode == 0:
            return None
        complaints = [line for line in run.stderr.splitlines() if line.startswith("E: ")]
        return complaints[-1] if complaints else f"apt-get ended with {run.returncode}"

    def command(self, packages: tuple[str, ...]) -> str:
        """What a person would type."""
        if not self.present:
            return f"this system's package manager (Debian's name for it: {' '.join(packages)})"
        as_root = "" if self.prefix == () else "sudo "
        return f"{as_root}apt-get install {' '.join(packages)}"


def _succeeds(command: tuple[str, ...]) -> bool:
    run = subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, check=False)
    return run.returncode == 0
