"""The sheets that are put together to one, each in its turn and medium; the rest stay by themselves."""

from pathlib import Path

from builder.render.assets import assets
from builder.supplied import templates


def test_sheets_are_one_in_their_order(tmp_path: Path) -> None:
    folder = tmp_path / "assets" / "css"
    folder.mkdir(parents=True)
    for name in ("one", "two", "alone"):
        (folder / f"{name}.css").write_text(f".{name} {{ color: red; }}\n")
    (folder / "order.txt").write_text("two.css\none.css print\n")

    found = assets(tmp_path)

    assert found["assets/css/book.css"] == b".two { color: red; }\n@media print {\n.one { color: red; }\n}\n"
    assert list(found) == ["assets/css/alone.css", "assets/css/book.css"]


def test_every_supplied_sheet_is_in_the_order_but_that_of_the_whole_book_to_print() -> None:
    assert [path for path in assets(templates()) if path.endswith(".css")] == [
        "assets/css/book.css", "assets/css/whole.css",
    ]  # fmt: skip
