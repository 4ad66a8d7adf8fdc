"""`builder/setup.sh` with stand-ins for Python: which one it takes, how it comes by pip, what it says if it cannot."""

import shutil
import subprocess
from dataclasses import dataclass
from pathlib import Path

import pytest

SETUP = Path(__file__).parents[2] / "builder" / "setup.sh"
COMMANDS = ("sh", "cat", "chmod", "cksum", "cp", "dirname", "id", "mkdir", "rm", "touch")

STAND_IN = """#!/bin/sh
# A Python {version} as far as the set-up script can tell; its calls go to the journal.
printf '%s %s\\n' "${{0##*/}}" "$*" >>"{journal}"
case "$*" in
*-venv*version_info*) echo "python{version}-venv" ;;
*version_info*) exit {too_old} ;;
*base_prefix*) echo "/opt/{version} {version}" ;;
*_base_executable*) echo "{own}" ;;
*os.path.dirname*) {lender} ;;
--version) echo "Python {version}.0" ;;
"-m venv"*) mkdir -p .venv/bin && cp "$0" .venv/bin/python && rm -f .venv/has-pip ;;
"-m ensurepip"*) {ensurepip} ;;
*"install --quiet --ignore-installed pip") [ "$PYTHONPATH" = /lender ] && touch .venv/has-pip ;;
*"import pip"*) [ -e .venv/has-pip ] ;;
esac
"""


@dataclass
class Machine:
    """A checkout and a PATH that holds nothing but what is put there."""

    checkout: Path
    bin: Path
    journal: Path

    def add_python(self, name: str, version: str, ensurepip: bool = True, pip: bool = False) -> None:
        program = self.bin / name
        text = STAND_IN.format(
            version=version,
            own=program,
            journal=self.journal,
            too_old=int(int(version.split(".")[1]) < 11),
            ensurepip="touch .venv/has-pip" if ensurepip else "exit 1",
            lender="echo /lender" if pip else "exit 1",
        )
        program.write_text(text, encoding="utf-8")
        program.chmod(0o755)

    def set_up(self, **environment: str) -> subprocess.CompletedProcess[str]:
        self.journal.write_text("", encoding="utf-8")
        return subprocess.run(
            ("/bin/sh", "builder/setup.sh"),
            cwd=self.checkout,
            env={"PATH": str(self.bin), **environment},
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            check=False,
        )

    def installs(self) -> int:
        """How often Seambook itself was installed in the last run."""
        return self.journal.read_text(encoding="utf-8").count("--editable .")


@pytest.fixture
def machine(tmp_path: Path) -> Machine:
    checkout = tmp_path / "a checkout"
    (checkout / "builder").mkdir(parents=True)
    shutil.copy(SETUP, checkout / "builder")
    (checkout / "pyproject.toml").write_text("[project]\n", encoding="utf-8")
    folder = tmp_path / "bin"
    folder.mkdir()
    for name in COMMANDS:
        found = shutil.which(name)
        assert found, name
        (folder / name).symlink_to(found)
    return Machine(checkout, folder, tmp_path / "journal")


def test_the_usual_python_is_taken_when_it_is_new_enough(machine: Machine) -> None:
    machine.add_python("python3", "3.11")
    machine.add_python("python3.13", "3.13")
    run = machine.set_up()
    assert (run.returncode, run.stderr) == (0, "")
    assert f"making .venv with {machine.bin / 'python3'}\n" in run.stdout
    assert machine.installs() == 1


def test_a_newer_python_is_looked_for_when_the_usual_one_is_too_old(machine: Machine) -> None:
    machine.add_python("python3", "3.10")
    machine.add_python("python3.11", "3.11")
    machine.add_python("python3.13", "3.13")
    run = machine.set_up()
    assert f"making .venv with {machine.bin / 'python3.13'}\n" in run.stdout


def test_no_python_that_is_new_enough_is_one_line(machine: Machine) -> None:
    machine.add_python("python3", "3.10")
    run = machine.set_up()
    assert run.returncode == 1
    assert run.stdout == ""
    assert run.stderr == (
        "seambook: Python 3.11 or newer is missing (Python 3.10.0 here); "
        "type: sudo apt-get install python3.11 (or newer)\n"
    )
    assert not (machine.checkout / ".venv").exists()


def test_no_python_at_all_is_one_line(machine: Machine) -> None:
    run = machine.set_up()
    assert run.returncode == 1
    assert run.stderr.startswith("seambook: Python 3.11 or newer is missing (no python3 here); type: ")
    assert run.stderr.count("\n") == 1


def test_the_python_asked_for_is_never_replaced_by_another(machine: Machine) -> None:
    machine.add_python("python3", "3.12")
    machine.add_python("python3.9", "3.9")
    run = machine.set_up(PYTHON="python3.9")
    assert run.returncode == 1
    assert run.stderr.startswith("seambook: PYTHON=python3.9 is not a Python 3.11 or newer; type: ")


def test_a_second_run_installs_nothing_until_the_project_file_changes(machine: Machine) -> None:
    machine.add_python("python3", "3.11")
    machine.set_up()
    again = machine.set_up()
    assert (again.returncode, again.stdout, again.stderr) == (0, "", "")
    assert machine.installs() == 0
    (machine.checkout / "pyproject.toml").write_text("[project]\nname = 'other'\n", encoding="utf-8")
    machine.set_up()
    assert machine.installs() == 1


def test_a_checkout_that_moved_is_installed_anew(machine: Machine, tmp_path: Path) -> None:
    machine.add_python("python3", "3.11")
    machine.set_up()
    machine.checkout = machine.checkout.rename(tmp_path / "moved")
    machine.set_up()
    assert machine.installs() == 1


def test_an_environment_is_kept_until_another_python_is_asked_for(machine: Machine) -> None:
    machine.add_python("python3", "3.11")
    machine.add_python("python3.13", "3.13")
    machine.set_up()
    assert "making .venv" in machine.set_up(PYTHON="python3.13").stdout
    assert machine.set_up().stdout == ""


def test_without_ensurepip_the_pip_of_the_system_is_borrowed(machine: Machine) -> None:
    machine.add_python("python3", "3.11", ensurepip=False, pip=True)
    run = machine.set_up()
    assert (run.returncode, run.stderr) == (0, "")
    assert "python -m pip install --quiet --ignore-installed pip" in machine.journal.read_text(encoding="utf-8")
    assert machine.installs() == 1


def test_an_environment_somebody_made_without_pip_is_given_one(machine: Machine) -> None:
    machine.add_python("python3", "3.11")
    machine.set_up()
    (machine.checkout / ".venv" / "has-pip").unlink()
    (machine.checkout / ".venv" / "seambook.stamp").unlink()
    run = machine.set_up()
    assert run.returncode == 0
    assert "making .venv" not in run.stdout
    assert (machine.checkout / ".venv" / "has-pip").exists()


def test_neither_ensurepip_nor_pip_nor_apt_is_one_line(machine: Machine) -> None:
    machine.add_python("python3", "3.11", ensurepip=False, pip=False)
    run = machine.set_up()
    assert run.returncode == 1
    python = machine.bin / "python3"
    assert run.stderr == (
        f"seambook: {python} has neither ensurepip nor pip; type: sudo apt-get install python3.11-venv\n"
    )
    assert machine.installs() == 0
