"""The supplied library -> a big one: so many copies of a procedure and its seam, each with links of its own."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

PROCEDURE, SEAM, PANEL = "renew-rocker-outer", "rocker-lower", "rocker-outer"


def generate(content: Path, into: Path, copies: int, with_panels: bool = False) -> Path:
    """Copy a content folder and add `copies` procedures, each on a seam of its own; return the new folder.

    With panels each works on a panel of its own too. Else one panel is a sheet of a thousand seams, as no panel is, and
    what an act spoils on all seams of a panel would say more about the copies than about the rules.
    """
    shutil.copytree(content, into)
    procedure = (content / "procedures" / f"{PROCEDURE}.yaml").read_text("utf-8")
    seam = (content / "seams" / f"{SEAM}.yaml").read_text("utf-8")
    for number in range(1, copies + 1):
        tail = f"-{number:05d}"
        own = procedure.replace(f"seam:{SEAM}", f"seam:{SEAM}{tail}")
        own = own.replace(f"seam: {SEAM}\n", f"seam: {SEAM}{tail}\n")
        own_seam = seam
        if with_panels:
            own = own.replace(f"panel:{PANEL}", f"panel:{PANEL}{tail}")
            own_seam = seam.replace(f"panel: {PANEL},", f"panel: {PANEL}{tail},")
            panel = (content / "panels" / f"{PANEL}.yaml").read_text("utf-8")
            (into / "panels" / f"{PANEL}{tail}.yaml").write_text(_retitled(panel, number), "utf-8")
        (into / "procedures" / f"{PROCEDURE}{tail}.yaml").write_text(_retitled(own, number), "utf-8")
        (into / "seams" / f"{SEAM}{tail}.yaml").write_text(_retitled(own_seam, number), "utf-8")
    return into


def _retitled(text: str, number: int) -> str:
    return re.sub(r"^title: (.*)$", rf"title: \1, copy {number}", text, count=1, flags=re.MULTILINE)
