"""What the trade knows lives in content/: neither code nor templates say a signal word or name a record of the library.

Ids of two words or more are looked for; a single word such as `lap` or `clean` is English as well.
"""

from __future__ import annotations

import re
from pathlib import Path

import yaml

from tests.shape_of_code.modules import BUILDER, ROOT, TEMPLATES

ADMITTED = {
    ("builder/cli.py", "dew-point"): "the example in the help of `calc`",
    ("builder/model/reference.py", "rocker-lower"): "an example of how a reference is written",
    ("builder/model/views.py", "rocker-lower"): "an example of a page's path",
    ("builder/shape/codes.py", "rocker-lower"): "the explanation shows how a reference is written",
    ("builder/shape/codes.py", "rocker-outer"): "the explanation shows how a reference is written",
    ("builder/read/codes.py", "rocker-lower"): "the explanation shows how a file is named",
    ("builder/model/records/body.py", "bead-profile"): "the scale whose words this field is written in",
    ("builder/model/records/supporting.py", "source-sort"): "the scale whose words this field is written in",
    ("builder/formula/facts.py", "bead-profile"): "the scale whose words the fact is one of",
    ("builder/view/seam.py", "bead-profile"): "the scale that says the field's words in full",
    ("builder/model/records/law.py", "close-out"): "the end of the job, by which something is owed",
    ("builder/view/procedure.py", "close-out"): "the end of the job, a part of the page",
    ("builder/model/standing.py", "source-sort"): "the scale that says how far a source may be trusted",
}
"""Where an id may stand, and why."""


def texts() -> dict[str, str]:
    """All that is code or template, by path; style sheets go by ranks and say nothing."""
    files = [path for folder in (BUILDER, TEMPLATES) for path in folder.rglob("*")]
    kept = sorted(path for path in files if path.suffix in (".py", ".js", ".html", ".css", ".svg", ".sh"))
    assert len(kept) > 120
    return {path.relative_to(ROOT).as_posix(): path.read_text("utf-8") for path in kept}


def library_ids() -> set[str]:
    found = {path.stem for path in (ROOT / "content").glob("*/*.yaml") if "-" in path.stem}
    assert len(found) > 100
    return found


def signal_words() -> list[str]:
    scale = yaml.load(Path(ROOT / "content/scales/signal.yaml").read_text("utf-8"), yaml.CSafeLoader)
    words = [word["say"] for word in scale["words"].values()]
    assert words == ["DANGER", "WARNING", "CAUTION", "NOTICE"]  # ANSI Z535.4
    return words


def test_no_signal_word_is_said_by_code_or_template() -> None:
    # Capitals: "warning" is also what a problem can be, and a name in code.
    any_word = re.compile(rf"\b(?:{'|'.join(signal_words())})\b")
    assert [(path, found[0]) for path, text in texts().items() for found in any_word.finditer(text)] == []


def test_no_record_is_known_by_name() -> None:
    ids = library_ids()
    found = {(path, one) for path, text in texts().items() for one in set(re.findall(r"[\w-]+", text)) & ids}
    assert found - ADMITTED.keys() == set()
    assert ADMITTED.keys() - found == set(), "these need no admission any more"


def test_no_name_of_the_shop_stands_in_code() -> None:
    book = yaml.load((ROOT / "content/book.yaml").read_text("utf-8"), yaml.CSafeLoader)
    names = {book["name"], book["id"], book["title"], *book["caution"], *book["authority"]}
    assert [(path, name) for path, text in texts().items() for name in names if name in text] == []
