"""`show`: a real server at a free port, records that change and break, and what it will not give out."""

from __future__ import annotations

import os
import re
import signal
import socket
import struct
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
import segno

from builder.authoring import address
from builder.authoring.board import Board
from builder.authoring.serving import find_file, is_own_name
from tests.authoring.served import Shown, showing
from tests.site.building import build, files_of, seambook, write
from tests.site.records import BROKEN, LAP, OUR_LAP

ADDED = b"/_seambook/preview.js"
OURS = ("--content", "mine", "--port", "0")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("shop")
    write(place / "mine", OUR_LAP)
    write(place, {"secret.txt": "not for the network"})
    return place


@pytest.fixture(scope="module")
def shown(folder: Path) -> Iterator[Shown]:
    with showing(folder, *OURS, "--out", "kept") as found:
        found.wait_for("^built: ")
        yield found


def test_pages_and_assets_come_with_their_types(shown: Shown) -> None:
    types = {
        "/": "text/html; charset=utf-8", "/terms/lap.html": "text/html; charset=utf-8",
        "/assets/css/book.css": "text/css; charset=utf-8", "/assets/js/searching.js": "text/javascript; charset=utf-8",
        "/assets/icon.svg": "image/svg+xml", "/_seambook/preview.js": "text/javascript; charset=utf-8",
        "/worker.js": "text/javascript; charset=utf-8",
        "/_seambook/preview.css": "text/css; charset=utf-8", "/_seambook/news.js": "text/javascript; charset=utf-8",
    }  # fmt: skip
    for path, type_ in types.items():
        got = shown.ask(path)
        assert (got.status, got.type) == (200, type_), path
        assert got.headers["X-Content-Type-Options"] == "nosniff"
        assert int(got.headers["Content-Length"]) == len(got.body) > 0


def test_only_served_pages_carry_the_script(shown: Shown, folder: Path) -> None:
    page = shown.ask("/terms/lap.html").body
    assert page.count(ADDED) == 1
    assert page.index(ADDED) < page.index(b"</head>")
    on_disk = files_of(folder / "kept")
    assert [path for path, data in on_disk.items() if b"_seambook" in data] == []
    plain = re.sub(rb'<link rel="stylesheet" href="/_seambook/[^>]*><script [^>]*></script>', b"", page)
    assert plain == on_disk["terms/lap.html"]


def test_the_policy_of_the_pages_is_not_eased(shown: Shown) -> None:
    page = shown.ask("/").body.decode()
    [policy] = re.findall(r'Content-Security-Policy" content="([^"]*)"', page)
    assert "script-src 'self';" in policy
    assert "connect-src 'none'" in policy
    script = shown.ask("/_seambook/preview.js").body.decode()
    assert not re.search(r"\b(fetch|XMLHttpRequest|EventSource|WebSocket|import)\b *\(", script)


def test_a_book_in_the_making_is_not_kept(shown: Shown) -> None:
    worker = shown.ask("/worker.js").body.decode()
    assert "registration.unregister()" in worker
    assert '"fetch"' not in worker


@pytest.mark.parametrize("target", [
    "/../secret.txt", "/..%2fsecret.txt", "/%2e%2e/secret.txt", "/terms/../../secret.txt", "//etc/passwd",
    "/..\\secret.txt", "/%00", "/terms/lap.html%00.txt", "/.seambook", "/.seambook/marker", "/terms/.hidden", "/c:/x",
    "/_seambook/../secret.txt", "/_seambook/%2e%2e/%2e%2e/builder/cli.py", "/_seambook/", "/terms", "/terms/",
    "/assets/", "/nowhere.html", "/terms/lap.html/", "http://elsewhere/../secret.txt", "/" + "a" * 5000,
])  # fmt: skip
def test_nothing_but_files_of_the_book_is_given(shown: Shown, target: str) -> None:
    got = shown.ask(target)
    assert got.status in (404, 414), got.body
    assert b"not for the network" not in got.body
    assert b"lap.html" not in got.body


def test_a_link_that_leads_out_of_the_book_is_not_followed(tmp_path: Path) -> None:
    write(tmp_path, {"secret.txt": "x", "book/index.html": "x"})
    (tmp_path / "book/way.txt").symlink_to(tmp_path / "secret.txt")
    (tmp_path / "book/up").symlink_to(tmp_path)
    assert find_file(tmp_path / "book", "/index.html") == tmp_path.resolve() / "book/index.html"
    assert find_file(tmp_path / "book", "/way.txt") is None
    assert find_file(tmp_path / "book", "/up/secret.txt") is None


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "PROPFIND"])
def test_only_get_and_head(shown: Shown, method: str) -> None:
    assert shown.ask("/", method).status in (405, 501)


def test_head_says_what_get_would(shown: Shown) -> None:
    head, get = shown.ask("/", "HEAD"), shown.ask("/")
    assert head.body == b""
    assert (head.status, head.type, head.headers["Content-Length"]) == (200, get.type, str(len(get.body)))


def test_a_strange_sites_name_that_leads_here_is_refused(shown: Shown) -> None:
    assert shown.ask("/", host="evil.example").status == 403
    assert shown.ask("/", host="").status == 403
    assert shown.ask("/", host=f"localhost:{shown.port}").status == 200


@pytest.mark.parametrize(
    ("host", "own"),
    [("localhost", True), ("LOCALHOST:80", True), ("127.0.0.1:8480", True), ("192.168.1.20:8480", True),
     ("[::1]:80", True),
     ("", False), ("evil.example:80", False), ("127.0.0.1.evil.example", False), ("a/b", False), ("[", False)],
)  # fmt: skip
def test_names_of_this_computer(host: str, own: bool) -> None:
    assert is_own_name(host) is own


def test_it_listens_to_this_computer_alone(shown: Shown) -> None:
    found = address.on_this_network()
    if found is None:
        found = "127.0.0.2"  # on a computer without a network: another address of its own
    with socket.socket() as knocking:
        knocking.settimeout(5)
        with pytest.raises(OSError, match=r"."):
            knocking.connect((found, shown.port))


@pytest.mark.slow
def test_a_changed_record_makes_a_new_book(tmp_path: Path) -> None:
    write(tmp_path / "mine", OUR_LAP)
    with showing(tmp_path, *OURS) as shown:
        shown.wait_for("^built: ")
        before = shown.news()
        write(tmp_path / "mine", {LAP: OUR_LAP[LAP].replace("zanzibarite", "quadrophene")})
        shown.wait_for("^built: ")
        assert b"quadrophene" in shown.ask("/terms/lap.html").body
        assert shown.news()["version"] != before["version"]

        # broken: told here and to the pages, and the last good book stays
        good = shown.news()["version"]
        write(tmp_path / "mine", BROKEN)
        place = shown.wait_for(rf"^mine/{LAP}:4:7: error: ")
        shown.wait_for("^not built: 1 error, 0 warnings; the book below is the last good one")
        told = shown.news()
        assert (told["version"], told["failed"]) == (good, True)
        assert told["text"].startswith(place)
        assert b"quadrophene" in shown.ask("/terms/lap.html").body

        # mended
        write(tmp_path / "mine", OUR_LAP)
        shown.wait_for("^built: ")
        assert shown.news()["text"] == ""
        assert b"zanzibarite" in shown.ask("/terms/lap.html").body
        assert shown.stop() == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == ["mine"]


def test_the_first_book_may_be_broken(tmp_path: Path) -> None:
    write(tmp_path / "mine", BROKEN)
    with showing(tmp_path, *OURS) as shown:
        shown.wait_for("^not built: .*there is no book yet")
        got = shown.ask("/")
        assert (got.status, got.type) == (503, "text/html; charset=utf-8")
        assert ADDED in got.body
        assert shown.ask("/_seambook/preview.js").status == 200


@pytest.mark.slow
def test_shop_yaml_is_looked_at_and_may_name_other_layers(tmp_path: Path) -> None:
    shop = 'format: "1"\nname: Tallow Lane\nlayers: [mine]\n'
    write(tmp_path, {"shop.yaml": shop})
    write(tmp_path / "mine", OUR_LAP)
    with showing(tmp_path, "--port", "0") as shown:
        shown.wait_for("^built: 1 records")
        write(tmp_path, {"shop.yaml": shop.replace("name", "nmae")})
        shown.wait_for(r"^shop\.yaml:2:1: error: ")
        write(tmp_path, {"yours/terms/gap.yaml": OUR_LAP[LAP].replace("[lap]", "none")})
        write(tmp_path, {"shop.yaml": shop.replace("[mine]", "[mine, yours]").replace("Tallow", "Cinder")})
        shown.wait_for("^built: 2 records")
        assert b"Cinder Lane" in shown.ask("/").body
        write(tmp_path, {"yours/terms/gap.yaml": OUR_LAP[LAP].replace("zanzibarite", "quadrophene")})
        shown.wait_for("^built: 2 records")
        assert b"quadrophene" in shown.ask("/terms/gap.html").body


@pytest.mark.slow
def test_a_folder_of_records_may_go_and_come_back(tmp_path: Path) -> None:
    write(tmp_path / "mine", OUR_LAP)
    with showing(tmp_path, *OURS) as shown:
        shown.wait_for("^built: ")
        (tmp_path / "mine").rename(tmp_path / "away")
        shown.wait_for("^not built: there is no folder of content")
        (tmp_path / "away").rename(tmp_path / "mine")
        shown.wait_for("^built: ")
        write(tmp_path / "mine", {LAP: OUR_LAP[LAP].replace("zanzibarite", "quadrophene")})
        shown.wait_for("^built: ")
        assert b"quadrophene" in shown.ask("/terms/lap.html").body


def test_a_reader_who_goes_away_is_nothing_to_tell(shown: Shown) -> None:
    whole = b"GET /assets/js/searching.js HTTP/1.0\r\nHost: localhost\r\n\r\n"
    for said in (b"", whole[:20], whole):
        with socket.create_connection(("127.0.0.1", shown.port)) as caller:
            caller.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))  # closes with a reset
            caller.sendall(said)
    assert shown.ask("/").status == 200
    assert shown.unread() == []


def test_the_book_is_the_same_as_made(shown: Shown, folder: Path, tmp_path: Path) -> None:
    build(tmp_path / "book", str(folder / "mine"))
    assert files_of(folder / "kept") == files_of(tmp_path / "book")


@pytest.mark.sweep(2)
@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGTERM])
def test_it_ends_cleanly_and_leaves_nothing(tmp_path: Path, how: signal.Signals) -> None:
    temporary = tmp_path / "temporary"
    temporary.mkdir()
    write(tmp_path / "mine", OUR_LAP)
    os.environ["TMPDIR"], before = str(temporary), os.environ.get("TMPDIR")
    try:
        with showing(tmp_path, *OURS) as shown:
            shown.wait_for("^built: ")
            assert list(temporary.iterdir()) != []
            assert shown.stop(how) == 0
            shown.wait_for("^stopped")
    finally:
        os.environ.pop("TMPDIR") if before is None else os.environ.update(TMPDIR=before)
    assert list(temporary.iterdir()) == []
    assert not [line for line in shown.lines if "Traceback" in line]


def test_it_ends_while_a_book_is_being_built(tmp_path: Path) -> None:
    with showing(tmp_path, "--port", "0", "--content", "supplied") as shown:
        assert shown.stop() == 0  # the library takes longer than this
        shown.wait_for("^stopped")
    assert not [line for line in shown.lines if "Traceback" in line]


@pytest.mark.alone  # what is running at each moment hangs on nothing else taking the processor
@pytest.mark.slow
@pytest.mark.sweep(2)
@pytest.mark.parametrize("after", [0.0, 0.08, 0.16, 0.3, 0.6])
def test_ctrl_c_reaches_all_that_runs_in_the_terminal(tmp_path: Path, after: float) -> None:
    with showing(tmp_path, "--port", "0", "--content", "supplied") as shown:
        time.sleep(after)
        os.killpg(shown.run.pid, signal.SIGINT)
        assert shown.run.wait(20) == 0
    lines = [*shown.lines, *shown.unread()]
    assert lines[-2:] == ["stopped", ""]
    assert not [line for line in lines if "Traceback" in line or "KeyboardInterrupt" in line]


def test_a_port_in_use_is_told(tmp_path: Path) -> None:
    write(tmp_path / "mine", OUR_LAP)
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        said = seambook("show", "--content", "mine", "--port", str(port), folder=tmp_path)
    assert said.code == 3
    assert f"cannot serve at port {port}: " in said.err
    assert "--port 0 takes any that is free" in said.err


def test_a_layer_that_is_not_there_is_told_at_once(tmp_path: Path) -> None:
    said = seambook("show", "--content", "nowhere", "--port", "0", folder=tmp_path)
    assert (said.code, "nowhere" in said.err) == (3, True)


def test_the_network_is_let_in_only_when_asked_and_is_told_so(tmp_path: Path) -> None:
    write(tmp_path / "mine", OUR_LAP)
    with showing(tmp_path, *OURS, "--lan") as shown:
        shown.wait_for("^Anybody on this network can read it")
        shown.wait_for("^built: ")
        with socket.socket() as knocking:
            knocking.settimeout(5)
            knocking.connect((address.on_this_network() or "127.0.0.2", shown.port))


def test_the_code_is_that_of_the_address() -> None:
    url = "http://192.168.1.20:8480/"
    rows: list[list[int]] = []
    for line in address.code(url).splitlines():
        blocks = re.sub(r"\x1b\[[\d;]*m", "", line)
        rows.append([0 if block in "█▀" else 1 for block in blocks])
        rows.append([0 if block in "█▄" else 1 for block in blocks])
    code = segno.make(url, micro=False, error="m")
    wanted = [list(row) for row in code.matrix_iter(border=4)]
    assert rows[:len(wanted)] == wanted


def test_news_can_break_out_of_no_script() -> None:
    board = Board()
    board.pin(False, "</script><b>", ["\u2028 </script> \" \\ \n"])
    script = board.news.script()
    assert "<" not in script
    assert script.isascii()
    assert script.count("\n") == 1


def test_each_run_and_each_book_has_a_version_of_its_own() -> None:
    first, second = Board(), Board()
    assert first.news.version != second.news.version
    before = first.news.version
    first.pin(False, "x", ["y"])
    assert first.news.version == before
    first.pin(True, "x", [])
    assert first.news.version != before
