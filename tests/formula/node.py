"""From a script its answer as data: one Node process with the book's plain scripts loaded, as a page loads them."""

import json
import subprocess
from collections.abc import Sequence
from pathlib import Path
from typing import Any

ASSETS = Path(__file__).resolve().parents[2] / "templates" / "assets" / "js"
SCRIPTS = tuple(ASSETS / f"{name}.js" for name in ("numbers", "formula", "answers"))


def run_node(body: str, scripts: Sequence[Path] = SCRIPTS, more: str = "") -> Any:
    """Run the body of a function after scripts, those for formulas unless told; what it returns comes back by JSON.

    `more` is the text of further scripts.

    A number comes back to the last bit; -0 comes back as 0.
    """
    loaded = "\n".join(path.read_text("utf-8") for path in scripts)
    script = f"globalThis.window = globalThis;\n{loaded}\n{more}\nconsole.log(JSON.stringify((() => {{ {body} }})()));"
    done = subprocess.run(["node", "-"], input=script, capture_output=True, text=True, encoding="utf-8", timeout=60)
    assert done.returncode == 0, done.stderr[-2000:]
    return json.loads(done.stdout, parse_int=float)
