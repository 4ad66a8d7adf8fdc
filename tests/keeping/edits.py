"""A book and chance -> edits such as authors make, one after the other; some of them break the book.

Texts, numbers and comments are changed, records deleted, copied and renamed (some keep their old name alive), settings
and templates changed. Nothing here knows what an edit means: whatever comes of it, a build that takes kept results must
say and publish the same as one that makes everything anew.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from pathlib import Path

ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_WORD = re.compile(r"(?<=[a-z] )([a-z]{3,})(?= [a-z])")
_NUMBER = re.compile(r"\b(\d+)(?= (?:mm|min|degC|percent|h)\b)")


class Edits:
    """Edits of one book; the same seed makes the same ones."""

    def __init__(self, content: Path, templates: Path, seed: int) -> None:
        self.content, self.templates = content, templates
        self.chance = random.Random(seed)
        self.count = 0

    def one(self) -> str:
        """Make one edit; return what it was, for the message of a test that fails."""
        self.count += 1
        deeds: list[tuple[int, Callable[[], str]]] = [
            (10, self.word), (4, self.number), (3, self.title), (2, self.comment), (2, self.again), (3, self.copy),
            (3, self.delete), (2, self.rename), (2, self.move_with_all_that_name_it), (1, self.setting),
            (1, self.template), (1, self.style),
        ]  # fmt: skip
        weights = [weight for weight, _ in deeds]
        return self.chance.choices([deed for _, deed in deeds], weights)[0]()

    def records(self) -> list[Path]:
        """Every record's file, sorted."""
        return sorted(path for path in self.content.glob("*/*") if path.suffix in (".yaml", ".md"))

    def any_record(self) -> Path:
        """One of them; each kind is as likely as another."""
        folder = self.chance.choice(sorted({path.parent for path in self.records()}))
        return self.chance.choice(sorted(path for path in folder.iterdir() if path.suffix in (".yaml", ".md")))

    def word(self) -> str:
        """Put another word in a text."""
        return self._changed(self.any_record(), _WORD, f"word{self.count}")

    def number(self) -> str:
        """Change a length, a time or a temperature by a little."""
        return self._changed(self.any_record(), _NUMBER, None)

    def title(self) -> str:
        """Give a record another title."""
        return self._changed(self.any_record(), re.compile(r"(?<=^title: )(.+)$", re.MULTILINE), f"Title {self.count}")

    def comment(self) -> str:
        """Write a comment, which says nothing."""
        path = self.any_record()
        if path.suffix == ".yaml":
            path.write_text(f"{path.read_text('utf-8')}# {self.count}\n", "utf-8")
        return f"comment in {self._name(path)}"

    def again(self) -> str:
        """Write a file again as it is."""
        path = self.any_record()
        path.write_bytes(path.read_bytes())
        return f"{self._name(path)} written again"

    def copy(self) -> str:
        """Add a record like another."""
        path = self.any_record()
        new = path.with_name(f"{path.stem}-{self.count}{path.suffix}")
        text = re.sub(r"^was: .*\n(?:- .*\n)*", "", path.read_text("utf-8"), flags=re.MULTILINE)
        new.write_text(re.sub(r"^title: (.*)$", rf"title: \1 {self.count}", text, count=1, flags=re.MULTILINE), "utf-8")
        return f"{self._name(new)} copied"

    def delete(self) -> str:
        """Take a record away."""
        copies = [path for path in self.records() if re.search(r"-\d+$", path.stem)]
        path = self.chance.choice(copies) if copies and self.chance.random() < 0.7 else self.any_record()
        path.unlink()
        return f"{self._name(path)} deleted"

    def rename(self) -> str:
        """Give a record another id that keeps the old one alive; what names it is left as it is."""
        path = self.any_record()
        new = path.with_name(f"{path.stem}-{self.count}{path.suffix}")
        text = path.read_text("utf-8")
        if path.suffix == ".yaml" and not re.search(r"^was:", text, re.MULTILINE):
            path.unlink()
            new.write_text(f"{text}was: [{path.stem}]\n", "utf-8")
        return f"{self._name(path)} renamed"

    def move_with_all_that_name_it(self) -> str:
        """Give a record another id, wherever it is named."""
        path = self.any_record()
        new = path.with_name(f"{path.stem}-{self.count}{path.suffix}")
        path.rename(new)
        for other in [*self.records(), *self.content.glob("*.yaml")]:
            text = other.read_text("utf-8")
            named = re.sub(rf"(?<![\w-]){re.escape(path.stem)}(?![\w-])", new.stem, text)
            if named != text:
                other.write_text(named, "utf-8")
        return f"{self._name(path)} renamed everywhere"

    def setting(self) -> str:
        """Change a word of the book's own files."""
        return self._changed(self.chance.choice(sorted(self.content.glob("*.yaml"))), _WORD, f"word{self.count}")

    def template(self) -> str:
        """Change what every page shows."""
        path = self.templates / "pages" / "page.html"
        path.write_text(path.read_text("utf-8").replace("</main>", f"<!-- {self.count} --></main>"), "utf-8")
        return "template"

    def style(self) -> str:
        """Change how it looks, or what a script does; a comment would be in no page."""
        path = self.chance.choice(sorted((self.templates / "assets").glob("*/*.*s")))
        more = f".k{self.count} {{ order: 1; }}" if path.suffix == ".css" else f"window.k{self.count} = 1;"
        path.write_text(f"{path.read_text('utf-8')}{more}\n", "utf-8")
        return f"style {path.name}"

    def _changed(self, path: Path, pattern: re.Pattern[str], new: str | None) -> str:
        text = path.read_text("utf-8")
        places = list(pattern.finditer(text))
        if places:
            place = self.chance.choice(places)
            said = new if new is not None else str(int(place[1]) + 1)
            path.write_text(f"{text[:place.start(1)]}{said}{text[place.end(1):]}", "utf-8")
        return f"{pattern.pattern[:20]} in {self._name(path)}: {new}"

    def _name(self, path: Path) -> str:
        return str(path.relative_to(self.content))
