"""How jobs are planned is said by the last layer that has the file, and a step's place must be among its places."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import yaml

from builder import settings
from builder.model.files import Layer
from builder.model.records.planning import Planning
from builder.model.records.procedure import Procedure
from builder.model.reference import Ref
from builder.order import Order
from builder.passes import Way, unpack
from builder.view.units import minutes
from builder.work.planned import place_faults

CONTENT = Path(__file__).resolve().parents[2] / "content"
SUPPLIED = Layer(CONTENT, "content")


def read(path: Path) -> dict[str, Any]:
    found: dict[str, Any] = yaml.load(path.read_text("utf-8"), yaml.CBaseLoader)
    return found


def planning(*layers: Layer) -> Planning:
    found, problems = settings.planning(layers)
    assert problems == ()
    assert found.said is not None
    return found.said


def test_the_last_layer_that_has_the_file_wins(tmp_path: Path) -> None:
    text = (CONTENT / "planning.yaml").read_text("utf-8")
    own = tmp_path / "own"
    own.mkdir()
    assert planning(SUPPLIED, Layer(own, "own")).hands.usual == 2
    (own / "planning.yaml").write_text(text.replace("hands: {usual: 2", "hands: {usual: 3"), "utf-8")
    assert planning(SUPPLIED, Layer(own, "own")).hands.usual == 3
    assert planning(Layer(own, "own"), SUPPLIED).hands.usual == 2


def test_without_a_file_nothing_is_known_and_nothing_wrong(tmp_path: Path) -> None:
    found, problems = settings.planning([Layer(tmp_path, "own")])
    assert (found.said, problems) == (None, ())


def test_a_book_may_say_nothing_of_watches(tmp_path: Path) -> None:
    text = (CONTENT / "planning.yaml").read_text("utf-8")
    said = planning(SUPPLIED).watching
    assert said is not None
    assert (minutes(said.every), minutes(said.warn), said.source) == (10, 30, "common-practice")
    without, count = re.subn(r"^watching:\n(?:  .*\n)+", "", text, flags=re.MULTILINE)
    assert count == 1
    (tmp_path / "planning.yaml").write_text(without, "utf-8")
    assert planning(Layer(tmp_path, "own")).watching is None


def test_what_is_wrong_in_the_file_is_told_at_its_place(tmp_path: Path) -> None:
    text = (CONTENT / "planning.yaml").read_text("utf-8").replace('opens: "08:00"', 'opens: "25:00"')
    (tmp_path / "planning.yaml").write_text(text, "utf-8")
    _, problems = settings.planning([Layer(tmp_path, "own")])
    line = next(at for at, one in enumerate(text.splitlines(), 1) if "25:00" in one)
    assert [(one.span.file, one.span.line) for one in problems] == [("own/planning.yaml", line)]


def test_a_place_is_named_by_its_id_or_as_it_is_said() -> None:
    way = Way(Order((SUPPLIED,)))
    gathered = way.gather(way.discover())
    record = unpack(Ref("procedure", "paint-stages"), gathered)
    assert isinstance(record, Procedure)
    known = planning(SUPPLIED)
    asked = ("Booth", "booth", "Boot", None)
    steps = tuple(replace(step, needs_place=place)
                  for step, place in zip(record.phases[0].steps, asked, strict=False))  # fmt: skip
    changed = replace(record, phases=(replace(record.phases[0], steps=steps),))
    faults = list(place_faults(changed, known))
    assert [one.path for one in faults] == [("phases", 0, "steps", 2, "needs_place")]
    assert faults[0].do == "write Booth, the nearest name"
    assert list(place_faults(changed, None)) == []


def test_each_factor_of_time_lies_round_the_likely_one() -> None:
    known = planning(SUPPLIED)
    spreads = [(one.low, one.high) for one in known.spread] + [(known.usual_spread.low, known.usual_spread.high)]
    assert all(low <= 1 <= high for low, high in spreads)
    for rust in known.rust.values():
        assert rust.low <= rust.likely <= rust.high


def test_what_may_be_left_overnight_sparks_nothing_wets_nothing_and_waits_for_nothing() -> None:
    """A step that is split leaves the car as it is; a spark would owe a watch before the night, a coat would cure."""
    acts = {path.stem: read(path) for path in (CONTENT / "acts").glob("*.yaml")}
    split = 0
    for path in sorted((CONTENT / "procedures").glob("*.yaml")):
        for phase in read(path)["phases"]:
            for step in phase["steps"]:
                if step.get("split") == "yes":
                    act = acts[step["act"]]
                    assert (act["heat"], act["vapour"]) == ("none", "no"), (path.stem, step["key"])
                    assert "wait" not in step, (path.stem, step["key"])
                    split += 1
    assert split >= 25
