"""What the machine has, judged from what programs say; what is missing, told in one line each."""

import importlib.util
from pathlib import Path

import pytest

from tests.tools import provide
from tests.tools.apt import Apt
from tests.tools.needs import Need, all_needs, chromium_packages, first_number, too_old
from tests.tools.provide import provide_programs


@pytest.mark.parametrize(
    ("said", "number"),
    [
        ("v20.20.2", 20),  # node --version
        ("v12.22.9", 12),
        ('openjdk version "17.0.15" 2025-04-15', 17),  # java -version
        ('openjdk version "1.8.0_392"', 8),  # Java numbered this way up to 8
        ('openjdk version "21" 2023-09-19', 21),
        ("no number", None),
    ],
)
def test_the_number_that_counts_is_read_from_what_a_program_says(said: str, number: int | None) -> None:
    assert first_number(said) == number


@pytest.mark.parametrize(
    ("said", "verdict"),
    [
        ("v18.0.0", None),
        ("v17.9.1", "v17.9.1: too old"),
        (None, "not found"),
        ("", "it does not say its version: too old"),
    ],
)
def test_a_program_is_too_old_below_the_oldest_we_take(said: str | None, verdict: str | None) -> None:
    assert too_old(said, 18) == verdict


@pytest.mark.parametrize(
    ("os_release", "package"),
    [
        ('PRETTY_NAME="Debian GNU/Linux 12 (bookworm)"\nID=debian\n', "chromium"),
        ('NAME="Ubuntu"\nID=ubuntu\nID_LIKE=debian\n', "chromium-browser"),
    ],
)
def test_chromium_has_another_package_name_on_ubuntu(tmp_path: Path, os_release: str, package: str) -> None:
    file = tmp_path / "os-release"
    file.write_text(os_release, encoding="utf-8")
    assert chromium_packages(file)[0] == package


def test_a_machine_without_os_release_gets_debians_names(tmp_path: Path) -> None:
    assert chromium_packages(tmp_path / "none")[0] == "chromium"


@pytest.mark.parametrize(
    ("apt", "command"),
    [
        (Apt(present=True, prefix=None), "sudo apt-get install java-package"),
        (Apt(present=False, prefix=None), "this system's package manager (Debian's name for it: java-package)"),
        (Apt(present=False, prefix=()), "this system's package manager (Debian's name for it: java-package)"),
    ],
)
def test_what_may_not_be_installed_is_one_line_with_the_command(apt: Apt, command: str) -> None:
    there = Need("Node", lambda: None, ("nodejs",))
    lacking = Need("Java", lambda: "not found", ("java-package",))
    said: list[str] = []
    assert provide_programs([there, lacking], apt, said.append) == [f"missing: Java (not found); to install: {command}"]
    assert said == []


def test_a_browser_named_in_vain_is_told_and_not_replaced(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SEAMBOOK_CHROMIUM", "/no/such/browser")
    chromium = [need for need in all_needs() if need.name == "Chromium"]
    said: list[str] = []
    assert provide_programs(chromium, Apt(present=True, prefix=()), said.append) == [
        "missing: Chromium (SEAMBOOK_CHROMIUM names /no/such/browser, which is no program)"
    ]
    assert said == []


def test_an_install_that_does_not_help_is_told_with_the_package_managers_own_words(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(Apt, "update", lambda _: None)
    monkeypatch.setattr(Apt, "install", lambda _, packages: f"E: Unable to locate package {packages[0]}")
    lacking = Need("Java", lambda: "not found", ("java-package",))
    said: list[str] = []
    assert provide_programs([lacking], Apt(present=True, prefix=()), said.append) == [
        "missing: Java (E: Unable to locate package java-package); to install: apt-get install java-package"
    ]
    assert said == ["installing Java: java-package"]


def test_a_fuzzer_without_a_wheel_is_told_and_never_missed(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(importlib.util, "find_spec", lambda _: None)
    monkeypatch.setattr(provide, "OPTIONAL", Path("/no/such/list.txt"))
    said: list[str] = []
    provide.provide_fuzzer(said.append)
    assert len(said) == 1
    assert "by chance alone" in said[0]
    assert "--only-binary" in said[0]
    monkeypatch.setattr(importlib.util, "find_spec", lambda _: "there")
    provide.provide_fuzzer(said.append)
    assert len(said) == 1


def test_the_readme_names_every_package_to_install_by_hand(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("SEAMBOOK_CHROMIUM", raising=False)
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    by_hand = next(line for line in readme.splitlines() if line.startswith("sudo apt-get install"))
    debian = {"chromium", "chromium-sandbox"}
    others = {package for need in all_needs() if need.name != "Chromium" for package in need.packages}
    assert set(by_hand.split()[3:]) == debian | others
