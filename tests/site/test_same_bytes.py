"""The same content makes the same book, byte for byte, whoever builds it, where, when and with how many processes."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest

from tests.books.laying import TINY
from tests.site.building import CONTENT, files_of, seambook
from tests.sweeps import is_soak

pytestmark = pytest.mark.slow

# Each builder differs from the first in all that a build could lean on: time zone, hash seed, locale and the
# encoding that comes with it, file times, folder, the order in which the disk lists its files, processes.
PLAIN = {"LC_ALL": "C", "LANG": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
BUILDERS = {
    "east": {"TZ": "Pacific/Kiritimati", "PYTHONHASHSEED": "1", "LC_ALL": "C.UTF-8", "LANG": "C.UTF-8"},
    "west": {"TZ": "Pacific/Pago_Pago", "PYTHONHASHSEED": "4242", **PLAIN},
}


SUBJECT = CONTENT if is_soak() else TINY
OF_IT = ("--content", str(SUBJECT))


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the first build left its book."""
    folder = tmp_path_factory.mktemp("first")
    assert seambook("make", *OF_IT, folder=folder).code == 0
    return folder


@pytest.fixture(scope="module")
def first(folder: Path) -> dict[str, bytes]:
    return files_of(folder / "site")


def differing(one: dict[str, bytes], other: dict[str, bytes]) -> list[str]:
    return sorted(path for path in one.keys() | other.keys() if one.get(path) != other.get(path))


EACH = [(name, processes) for name in BUILDERS for processes in ("1", "2")]
"""In `make test` each builder with another count of processes."""


@pytest.mark.parametrize(("name", "processes"), EACH if is_soak() else [EACH[0], EACH[-1]])
def test_time_zone_hash_seed_locale_folder_and_processes(
    first: dict[str, bytes], tmp_path: Path, name: str, processes: str
) -> None:
    folder = tmp_path / f"a folder of the {name}"
    folder.mkdir()
    words = (*OF_IT, "--out", "deep/er/book", "--processes", processes)
    said = seambook("make", *words, folder=folder, told=BUILDERS[name])
    assert said.code == 0, said.err
    assert len(first) > (2000 if is_soak() else 200)
    assert differing(first, files_of(folder / "deep/er/book")) == []


def test_a_copy_of_the_content_makes_the_same_book(first: dict[str, bytes], tmp_path: Path) -> None:
    copy = tmp_path / "our records"
    files = sorted((path for path in SUBJECT.rglob("*") if path.is_file()), reverse=True)
    for at, file in enumerate(files):  # written in another order, with other times
        place = copy / file.relative_to(SUBJECT)
        place.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(file, place)
        os.utime(place, (1_000_000_000 + at, 1_000_000_000 + at))
    said = seambook("make", "--content", "our records", "--out", "book", folder=tmp_path)
    assert said.code == 0, said.err
    assert differing(first, files_of(tmp_path / "book")) == []


def test_building_again_writes_nothing(first: dict[str, bytes], folder: Path) -> None:
    again = seambook("make", *OF_IT, folder=folder)
    assert " 0 files written, " in again.err
    assert differing(first, files_of(folder / "site")) == []
