"""A wheel holds all that the checkout builds from, and makes the same book in an empty folder."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import zipfile
from functools import partial
from pathlib import Path

import pytest

from tests.authoring.served import showing
from tests.books.laying import TINY
from tests.site.building import ROOT, files_of, seambook, seambook_here, write
from tests.site.records import OUR_LAP
from tests.sweeps import is_soak

pytestmark = pytest.mark.slow
SOURCES = ("pyproject.toml", "README.md", "LICENSE", "builder", "content", "templates")


@pytest.fixture(scope="module")
def unpacked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Make the wheel from a copy, since making it leaves files beside the sources."""
    place = tmp_path_factory.mktemp("wheel")
    source = place / "source"
    source.mkdir()
    for name in SOURCES:
        if (ROOT / name).is_dir():
            shutil.copytree(ROOT / name, source / name, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            shutil.copyfile(ROOT / name, source / name)
    pip = (sys.executable, "-m", "pip", "--disable-pip-version-check", "wheel", "--quiet", "--no-deps", "--no-index")
    run = subprocess.run(
        (*pip, "--no-build-isolation", "--wheel-dir", str(place), str(source)),
        stdin=subprocess.DEVNULL, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert run.returncode == 0, run.stderr
    [wheel] = place.glob("seambook-*-py3-none-any.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(place / "unpacked")
    return place / "unpacked"


def test_it_holds_the_package_its_content_and_its_templates(unpacked: Path) -> None:
    modules = {path.relative_to(ROOT) for path in (ROOT / "builder").rglob("*.py")}
    records = {"builder" / path.relative_to(ROOT) for path in (ROOT / "content").rglob("*") if path.is_file()}
    looks = {"builder" / path.relative_to(ROOT) for path in (ROOT / "templates").rglob("*") if path.is_file()}
    held = {path.relative_to(unpacked) for path in unpacked.rglob("*") if path.is_file()}
    assert len(records) > 200
    assert {path for path in held if path.parts[0] == "builder"} == modules | records | looks
    [licence] = unpacked.glob("*.dist-info/licenses/LICENSE")
    assert licence.read_bytes() == (ROOT / "LICENSE").read_bytes()
    [entries] = unpacked.glob("*.dist-info/entry_points.txt")
    assert re.search(r"^seambook\s*=\s*builder\.__main__:main$", entries.read_text("utf-8"), re.MULTILINE)


def test_a_shop_can_be_begun_from_it(unpacked: Path, tmp_path: Path) -> None:
    """Every authoring command in an empty folder, from the wheel and from the checkout: the same bytes."""
    made = {}
    of_wheel = partial(seambook, told={"PYTHONPATH": str(unpacked)})
    for name, run in (("wheel", of_wheel), ("checkout", seambook_here)):
        place = tmp_path / name
        place.mkdir()
        for words in (("start", "shop", "--name", "Tallow Lane"), ("schema", "more")):
            said = run(*words, folder=place)
            assert said.code == 0, said.err
        shop = place / "shop"
        assert run("write", "procedure", "our-own", folder=shop).code == 0
        own = (shop / "content/procedures/our-own.yaml").read_bytes()
        assert not is_soak() or run("check", folder=shop).code == 1
        (shop / "content/procedures/our-own.yaml").unlink()
        assert run("write", "term", "lap", folder=shop).code == 0
        assert run("confirm", "term", "lap", folder=shop).code == 0
        if is_soak():
            said = run("make", "--strict", folder=shop)
            assert said.code == 0, said.err
            (shop / ".seambook-kept-site").unlink()  # it tells how its own disk shows each file
        made[name] = {**files_of(place), "own": own}
    assert of_wheel("check", "--strict", folder=tmp_path / "wheel/shop").code == 0
    assert len(made["wheel"]) > (250 if is_soak() else 30)
    assert made["wheel"] == made["checkout"]


@pytest.mark.soak
def test_it_serves_a_book(unpacked: Path, tmp_path: Path) -> None:
    write(tmp_path / "mine", OUR_LAP)
    with showing(tmp_path, "--content", "mine", "--port", "0", told={"PYTHONPATH": str(unpacked)}) as shown:
        shown.wait_for("^built: ")
        assert b"/_seambook/preview.js" in shown.ask("/").body
        assert shown.ask("/_seambook/preview.js").status == 200


def test_it_makes_the_same_book_as_the_checkout(unpacked: Path, site: Path, tmp_path: Path) -> None:
    told = {"PYTHONPATH": str(unpacked)}
    asked = "import builder, sys; sys.stdout.write(builder.__file__)"
    run = subprocess.run(
        (sys.executable, "-c", asked), cwd=tmp_path, env=told, capture_output=True, text=True, check=True
    )
    assert Path(run.stdout).is_relative_to(unpacked)
    content = () if is_soak() else ("--content", str(TINY))
    said = seambook("make", *content, folder=tmp_path, told=told)
    assert said.code == 0, said.err
    if not is_soak():
        assert seambook_here("make", *content, "--out", "checkout", folder=tmp_path).code == 0
    assert files_of(tmp_path / "site") == files_of(site if is_soak() else tmp_path / "checkout")
