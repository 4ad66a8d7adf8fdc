"""What is packed comes out again to the byte, by the copy's own scripts; nothing that is packed can end its block."""

from __future__ import annotations

import json
import random
from pathlib import Path

import pytest

from builder import pocket
from builder.pocket.armour import LETTERS, armoured
from tests.formula.node import run_node

COPY = Path(__file__).resolve().parents[2] / "templates" / "pocket"
RANDOM = random.Random(8)
ODD = {
    "nothing but one letter": b"a" * 3000,
    "noise": RANDOM.randbytes(3000),
    "far repeats": RANDOM.randbytes(500) + bytes(70_000) + random.Random(8).randbytes(500),
    "text": "Der Schweißpunkt hält: 5 × 0.8 mm. ".encode() * 40 + b"</script><!-- -->",
    "short repeats": b"".join(bytes((at % 7, at % 11)) for at in range(2000)),
}


def unpacked(data: bytes) -> bytes:
    """Pack bytes as the builder does, and unpack them as the copy does."""
    one = pocket.packed([("one", data)])
    found: list[int] = run_node(
        f"return Array.from(seambookPocket.unpacked({json.dumps(one.text)}, {len(data)}));",
        (COPY / "unlzma.js", COPY / "shelf.js"),
    )
    return bytes(map(int, found))


def test_letters_are_bytes_of_the_file_that_nothing_takes_for_markup() -> None:
    assert len(set(LETTERS)) == 182
    assert all(ord(letter) < 0x100 and not letter.isspace() and letter.isprintable() for letter in LETTERS)
    assert not set(LETTERS) & set("<>&\"'`")


@pytest.mark.parametrize("size", [0, 1, 14, 15, 16, 1000])
def test_armour_takes_sixteen_letters_for_fifteen_bytes(size: int) -> None:
    assert len(armoured(random.Random(size).randbytes(size))) == -(-size // 15) * 16


@pytest.mark.parametrize("data", ODD.values(), ids=ODD.keys())
def test_what_is_packed_comes_out_to_the_byte(data: bytes) -> None:
    assert unpacked(data) == data


def test_lines_that_stand_in_many_groups_are_said_once() -> None:
    often, rare = "<p>Wear ear protection from the first cut.</p>", "<p>Only page {} says so, and no other one.</p>"
    for between in ("\n", ""):  # a line ends where an element does, too
        groups = [[f"{often}{between}{rare.format(at)}"] for at in range(4)]
        table = pocket.shared(groups)
        assert table == [often]
        marked = pocket.marked(groups[0][0], pocket.numbered(table))
        assert marked == f"\x01!!{between}{rare.format(0)}"


def test_data_is_packed_as_a_page_writes_it_and_read_as_it_was() -> None:
    data = {"one": '<a class="more">\n\tA\u00a0B \\ \\" \u2028 </a>', "two": ["\\n", "", {"three": '"\n"'}]}
    script = f"window.held = window.held || {{}};\nwindow.held.data = {json.dumps(data)};\n"
    written = pocket.unquoted(script)
    assert '<a class="more">\n' in written
    assert "A\u00a0B" in written
    assert pocket.is_quoted("assets/bay/one.js")
    assert not pocket.is_quoted("assets/calc/one.js")
    found = run_node(
        f"""const window = {{}}; new Function("window", seambookPocket.quoted({json.dumps(written)}))(window);
        return window.held.data;""",
        (COPY / "shelf.js",),
    )
    assert found == data
