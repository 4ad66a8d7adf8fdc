"""The sheets that are put together to a few, each in its turn and medium; the rest stay by themselves."""

from pathlib import Path

from builder.render.assets import assets, sources
from builder.supplied import templates


def test_sheets_are_put_together_in_their_order(tmp_path: Path) -> None:
    folder = tmp_path / "assets" / "css"
    folder.mkdir(parents=True)
    for name in ("one", "two", "three", "alone"):
        (folder / f"{name}.css").write_text(f".{name} {{ color: red; }}\n")
    (folder / "order.txt").write_text("book.css\n  two.css\n  one.css print\npaper.css\n  three.css\n")

    found = assets(sources(tmp_path))

    assert found["assets/css/book.css"] == b".two{color:red}\n@media print{.one{color:red}}\n"
    assert found["assets/css/paper.css"] == b".three{color:red}\n"
    assert list(found) == ["assets/css/alone.css", "assets/css/book.css", "assets/css/paper.css"]


def test_a_file_that_is_made_may_have_the_name_of_a_part_of_it(tmp_path: Path) -> None:
    folder = tmp_path / "assets" / "css"
    folder.mkdir(parents=True)
    for name in ("print", "paper"):
        (folder / f"{name}.css").write_text(f".{name} {{ color: red; }}\n")
    (folder / "order.txt").write_text("paper.css\n  print.css\n  paper.css\n")

    assert assets(sources(tmp_path)) == {"assets/css/paper.css": b".print{color:red}\n.paper{color:red}\n"}


def test_what_goes_into_a_file_is_in_it() -> None:
    """Every supplied sheet and script, by the lean text of it alone."""
    given = sources(templates())
    found = b"".join(assets(given).values())
    for path, data in given.items():
        if path.endswith((".css", ".js")):
            (alone,) = assets({path: data}).values()
            assert alone.strip() in found, path


def test_scripts_are_put_together_in_their_order(tmp_path: Path) -> None:
    folder = tmp_path / "assets" / "js"
    folder.mkdir(parents=True)
    for name in ("one", "two", "alone"):
        (folder / f"{name}.js").write_text(f"window.{name} = 1;\n")
    (folder / "order.txt").write_text("page.js\n  two.js\n  one.js\n")

    found = assets(sources(tmp_path))

    assert found["assets/js/page.js"] == b"window.two=1;\nwindow.one=1;\n"
    assert list(found) == ["assets/js/alone.js", "assets/js/page.js"]


def test_every_supplied_sheet_is_in_the_order_but_that_of_the_whole_book_to_print() -> None:
    assert [path for path in assets(sources(templates())) if path.endswith(".css")] == [
        "assets/css/book.css", "assets/css/desk.css", "assets/css/paper.css", "assets/css/sheets.css",
        "assets/css/whole.css",
    ]  # fmt: skip
