"""The library moves under a shop's own record: what is told, what it shows, and how it ends."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from builder.layers import choose
from tests.site.building import files_of, seambook_here, write

LIBRARY = """\
# Where it comes from.
title: Lap
means: A joint where one sheet lies on the next.
synonyms: [overlap joint]
"""
CHANGED = LIBRARY.replace("[overlap joint]", "[overlap joint, lapped joint]")
PLACE = "ours/terms/lap.yaml:1:1"
NOTE = "ours/.taken-from/terms/lap.yaml"
LAYERS = ("--content", "library", "--content", "ours")


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    write(tmp_path, {"library/terms/lap.yaml": LIBRARY})
    (tmp_path / "ours").mkdir()
    return tmp_path


@pytest.fixture
def over(shop: Path) -> Path:
    """A record of the shop, made from the library's."""
    assert seambook_here("write", "term", "lap", *LAYERS, folder=shop).code == 0
    return shop


def test_write_begins_with_a_copy_and_keeps_what_it_was_made_from(over: Path) -> None:
    assert (over / NOTE).read_text("utf-8") == LIBRARY
    text = (over / "ours/terms/lap.yaml").read_text("utf-8")
    assert text.startswith("# Takes the place of library/terms/lap.yaml.")
    assert text.endswith(LIBRARY)
    said = seambook_here("check", "--strict", *LAYERS, folder=over)
    assert (said.code, said.err) == (0, "1 records, 0 errors, 0 warnings\n")


def test_a_change_below_is_shown_with_what_to_do(over: Path) -> None:
    write(over, {"library/terms/lap.yaml": CHANGED})
    for command in ("check", "make"):
        said = seambook_here(command, *LAYERS, folder=over)
        assert said.code == 0
        lines = said.err.splitlines()
        assert f"{PLACE}: warning: library/terms/lap.yaml has changed since this was made from it (R112)" in lines
        assert "    do    take over what fits, then type: seambook confirm term lap" in lines
        assert (
            '    see   library/terms/lap.yaml:4:1 now "synonyms: [overlap joint, lapped joint]"; '
            'it was "synonyms: [overlap joint]"'
        ) in lines
    assert seambook_here("check", "--strict", *LAYERS, folder=over).code == 1
    [told] = json.loads(seambook_here("check", "--format", "json", *LAYERS, folder=over).out)
    assert (told["code"], told["level"]) == ("R112", "warning")


def test_confirm_ends_it(over: Path) -> None:
    write(over, {"library/terms/lap.yaml": CHANGED})
    own = (over / "ours/terms/lap.yaml").read_bytes()
    assert seambook_here("confirm", "term", "lap", *LAYERS, folder=over).code == 0
    assert (over / NOTE).read_text("utf-8") == CHANGED
    assert (over / "ours/terms/lap.yaml").read_bytes() == own
    assert seambook_here("check", "--strict", *LAYERS, folder=over).code == 0


@pytest.mark.parametrize(
    "text", [LIBRARY.replace("\n", "\r\n"), LIBRARY.replace("# Where it comes from.", "# From the shop floor."),
             LIBRARY.replace("[overlap joint]", "\n  - overlap joint")],
    ids=["line ends", "a comment", "the way it is written"],
)  # fmt: skip
def test_what_says_the_same_is_no_change(over: Path, text: str) -> None:
    (over / "library/terms/lap.yaml").write_bytes(text.encode())
    assert seambook_here("check", "--strict", *LAYERS, folder=over).code == 0


def test_lines_that_come_and_go_are_told_apart(over: Path) -> None:
    gone = LIBRARY.replace("synonyms: [overlap joint]\n", "synonyms: none\nsee: [lap]\n").replace(
        "# Where it comes from.\n", "")  # fmt: skip
    write(over, {"library/terms/lap.yaml": gone})
    see = [line for line in seambook_here("check", *LAYERS, folder=over).err.splitlines() if line.startswith("    see")]
    assert see == [
        '    see   library/terms/lap.yaml:1:1 "# Where it comes from." is gone',
        '    see   library/terms/lap.yaml:3:1 now "synonyms: none" and 1 more line; it was "synonyms: [overlap joint]"',
    ]


def test_of_many_changes_a_few_are_shown(over: Path) -> None:
    lines = [f"# {at}" for at in range(40)]
    (over / NOTE).write_text("\n".join([*lines, LIBRARY]), "utf-8")
    other = [f"{line}, mended" if at % 2 else line for at, line in enumerate(lines)]
    write(over, {"library/terms/lap.yaml": "\n".join([*other, CHANGED])})
    see = [line for line in seambook_here("check", *LAYERS, folder=over).err.splitlines() if line.startswith("    see")]
    assert len(see) == 7
    assert see[-1].endswith("and 15 more places")


def test_a_record_written_by_hand_over_another_says_that_nobody_would_be_told(shop: Path) -> None:
    write(shop, {"ours/terms/lap.yaml": LIBRARY})
    assert seambook_here("check", "--strict", *LAYERS, folder=shop).code == 0, "a layer without copies has not asked"
    (shop / "ours/.taken-from").mkdir()
    said = seambook_here("check", *LAYERS, folder=shop)
    assert said.code == 0
    assert f"{PLACE}: warning: this takes the place of library/terms/lap.yaml, and no copy tells" in said.err
    assert "(R113)" in said.err
    assert seambook_here("confirm", "term", "lap", *LAYERS, folder=shop).code == 0
    assert seambook_here("check", "--strict", *LAYERS, folder=shop).code == 0


def test_of_three_layers_each_is_compared_with_the_one_below_it(over: Path) -> None:
    (over / "bay").mkdir()
    three = (*LAYERS, "--content", "bay")
    assert seambook_here("write", "term", "lap", *three, folder=over).code == 0
    assert (over / "bay/.taken-from/terms/lap.yaml").read_bytes() == (over / "ours/terms/lap.yaml").read_bytes()
    write(over, {"library/terms/lap.yaml": CHANGED})
    said = seambook_here("check", *three, folder=over)
    assert said.err.count("(R112)") == 1
    assert PLACE in said.err


def test_what_cannot_be_confirmed_is_told(shop: Path) -> None:
    none = seambook_here("confirm", "term", "lap", *LAYERS, folder=shop)
    assert (none.code, "make it first: seambook write term lap" in none.err) == (3, True)
    write(shop, {"ours/terms/own.yaml": LIBRARY})
    alone = seambook_here("confirm", "term", "own", *LAYERS, folder=shop)
    assert (alone.code, "takes the place of nothing" in alone.err) == (3, True)


def test_a_copy_that_leads_out_is_not_written(over: Path, tmp_path: Path) -> None:
    outside = tmp_path / "outside.yaml"
    outside.write_text("mine")
    (over / NOTE).unlink()
    (over / NOTE).symlink_to(outside)
    write(over, {"library/terms/lap.yaml": CHANGED})
    assert seambook_here("confirm", "term", "lap", *LAYERS, folder=over).code == 3
    assert outside.read_text() == "mine"


def test_a_folder_for_copies_that_leads_out_is_not_gone_into(shop: Path, tmp_path: Path) -> None:
    (tmp_path / "outside").mkdir()
    (shop / "ours/.taken-from").symlink_to(tmp_path / "outside")
    said = seambook_here("write", "term", "lap", *LAYERS, folder=shop)
    assert (said.code, "leads elsewhere" in said.err) == (3, True)
    assert list((tmp_path / "outside").iterdir()) == []
    assert not (shop / "ours/terms").exists()


def test_the_supplied_library_is_never_written_to(shop: Path) -> None:
    said = seambook_here("write", "term", "lap", "--content", "ours", "--content", "supplied", folder=shop)
    assert said.code == 3
    assert "no folder of your own records" in said.err


def test_nothing_is_warned_of_where_the_supplied_library_wins(shop: Path) -> None:
    write(shop, {"ours/terms/lap.yaml": LIBRARY})
    said = seambook_here("check", "--content", "ours", "--content", "supplied", folder=shop)
    assert "(R11" not in said.err


def test_the_copies_get_into_no_book(over: Path) -> None:
    assert seambook_here("make", *LAYERS, folder=over).code == 0
    assert not [path for path in files_of(over / "site") if "taken" in path]


def test_a_shops_folder_called_content_is_told_from_the_supplied_one(tmp_path: Path) -> None:
    (tmp_path / "content").mkdir()
    assert [one.label for one in choose(("supplied", "content"), tmp_path).layers] == ["supplied", "content"]
    (tmp_path / "ours").mkdir()
    assert [one.label for one in choose(("supplied", "ours"), tmp_path).layers] == ["content", "ours"]
