"""Several procedures merged into one job, held against the law that the builder judges single procedures by.

The page's order is a list of steps; judged as if it were one procedure it breaks no rule. So does any other order that
keeps what the page says must come before what: its arcs are all that the law asks for between procedures.
"""

from __future__ import annotations

import itertools
import json
import random
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from builder import check
from builder.check.order import Breach, judge
from builder.model.files import Layer
from builder.model.reference import Ref, Side
from builder.model.summary import StepSummary
from builder.order import Order
from builder.passes import Way
from builder.supplied import templates
from builder.view.shared import shared
from tests.browser.benched import benched
from tests.browser.watched import Watched
from tests.sweeps import is_soak

ROOT = Path(__file__).parents[2]
WORDS = tuple(templates() / f"assets/js/{name}.js" for name in ("job_words", "job_kept"))
"""Of the scripts that begin a job only what names things; the others look for a page."""
SCRIPTS = shared("numbers", "working", "planner")
SIDES: dict[tuple[str, str], Side] = {
    ("left", "this"): "this", ("left", "other"): "other", ("right", "this"): "other", ("right", "other"): "this",
}  # fmt: skip
MERGE = """(jobs) => jobs.map((runs) => {
  const { jobBook, jobProcedures, merge } = window.seambook;
  const found = merge.merge(runs, { procedures: jobProcedures, wide: jobBook.wide, rules: jobBook.rules });
  return {
    whole: found.whole, loop: found.loop, owed: found.owed, taken: found.taken, limits: found.limits,
    nodes: found.nodes.map(({ id, also }) => ({ id, also })),
    arcs: found.arcs.map(({ from, to, kind }) => [from, to, kind]),
  };
})"""
SIDE_OF_A_CAR = [
    "renew-rocker-outer@left", "finish-rocker-outer@left", "patch-floor-edge@left", "renew-wheel-housing@left",
    "finish-wheel-housing@left", "section-quarter-lower@left", "weld-quarter-lower@left",
]  # fmt: skip
BEHIND_A_QUARTER = [
    "renew-rocker-outer@left", "finish-rocker-outer@left", "patch-hinge-pillar-foot@left", "patch-floor-edge@left",
    "renew-wheel-housing@left", "finish-wheel-housing@left", "renew-quarter-outer@left", "hang-quarter-outer@left",
]  # fmt: skip
IN_TURN = (
    ("renew-rocker-outer", "lift-off", "patch-hinge-pillar-foot", "cut-foot"),
    ("patch-hinge-pillar-foot", "seam-lap", "renew-rocker-outer", "trial-fit"),
    ("renew-wheel-housing", "spot-arch", "renew-quarter-outer", "cut-away"),
    ("renew-rocker-outer", "plug-ends", "renew-quarter-outer", "cut-away"),
    ("patch-hinge-pillar-foot", "bead-lap", "finish-rocker-outer", "wax-box"),
    ("hang-quarter-outer", "paint", "finish-rocker-outer", "wax-box"),
)
Merged = dict[str, Any]


@pytest.fixture(scope="module")
def law() -> check.Law:
    way = Way(Order((Layer(ROOT / "content", "content"),)))
    gathered = way.gather(way.discover())
    way.judge(gathered, way.connect(gathered))
    return way.law


@pytest.fixture(scope="module")
def page(chromium: Browser, site: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    watched = Watched(chromium, site)
    data = [site / "assets/job/book.js", *sorted((site / "assets/job/procedure").glob("*.js"))]
    scripts = (*data, *WORDS, *(site / path for path in SCRIPTS))
    yield benched(watched, tmp_path_factory.mktemp("merge"), scripts)
    watched.close()
    assert watched.troubles == []


def runs_of(texts: list[str]) -> list[dict[str, str]]:
    return [{"procedure": text.split("@")[0], "side": text.split("@")[1]} for text in texts]


def merged(page: Page, *jobs: list[str]) -> list[Merged]:
    found: list[Merged] = page.evaluate(MERGE, [runs_of(job) for job in jobs])
    return found


def sided(ref: Ref, side: str) -> Ref:
    """A procedure's subject on the car: left stands for this side, right for the other."""
    return ref._replace(side=SIDES[side or "left", ref.side])


def step_of(law: check.Law, id_: str) -> StepSummary:
    run, key = id_.split("#")
    procedure, side = run.split("@")
    steps = law.catalogue.summaries[Ref("procedure", procedure)].steps
    step = next(step for step in steps if step.key == key)
    handed = law.catalogue.handed
    return step._replace(
        subjects=tuple(sided(ref, side) if ref.record in handed else ref for ref in step.subjects)
    )


def breaches(law: check.Law, ids: list[str]) -> list[Breach]:
    """What an order breaks; what a step must carry by itself was judged in its own procedure."""
    found = judge(law, [step_of(law, id_) for id_ in ids])
    return [
        one for one in found
        if one.sort not in ("asks", "needless", "owes") and is_error(one) and not goes_on(law, ids, one)
    ]  # fmt: skip


def goes_on(law: check.Law, ids: list[str], breach: Breach) -> bool:
    """What comes first where a procedure has both acts does not bind it to another that begins where it ends."""
    if breach.sort != "order" or breach.other is None:
        return False
    todo = {ids[breach.other].split("@")[0]}
    found: set[str] = set()
    while todo:
        found |= todo
        todo = {ref.id for id_ in todo for ref in law.catalogue.summaries[Ref("procedure", id_)].relations["relies_on"]}
        todo -= found
    return ids[breach.at].split("@")[0] in found


def is_error(breach: Breach) -> bool:
    return breach.rule is not None and breach.rule.level == "error"


def told(ids: list[str], found: list[Breach]) -> list[str]:
    return [f"{ids[one.at]}: {one.sort} {one.rule_id} {one.state} {one.subject}" for one in found]


def another_order(found: Merged, seed: int) -> list[str]:
    """Any order that keeps the arcs, taken at random."""
    chance = random.Random(seed)
    nodes = [node["id"] for node in found["nodes"]]
    behind: list[list[int]] = [[] for _ in nodes]
    waiting = [0] * len(nodes)
    for from_, to, _ in found["arcs"]:
        behind[from_].append(to)
        waiting[to] += 1
    ready = [at for at, count in enumerate(waiting) if not count]
    order = []
    while ready:
        at = ready.pop(chance.randrange(len(ready)))
        order.append(nodes[at])
        for to in behind[at]:
            waiting[to] -= 1
            if not waiting[to]:
                ready.append(to)
    assert len(order) == len(nodes)
    return order


def test_a_side_of_a_car(page: Page, law: check.Law) -> None:
    (found,) = merged(page, SIDE_OF_A_CAR)
    ids = [node["id"] for node in found["nodes"]]
    assert found["whole"]
    assert told(ids, breaches(law, ids)) == []
    assert found["owed"] == found["taken"] == []


def test_inner_parts_before_the_quarter_over_them(page: Page, law: check.Law) -> None:
    """Two procedures that bar each other from their common seam: one is done whole before the other opens it."""
    (found,) = merged(page, BEHIND_A_QUARTER)
    ids = [node["id"] for node in found["nodes"]]
    assert found["loop"] is None
    assert found["whole"]
    assert told(ids, breaches(law, ids)) == []
    place = {id_: at for at, node in enumerate(found["nodes"]) for id_ in (node["id"], *node["also"])}
    wrong = [turn for turn in IN_TURN if place[f"{turn[0]}@left#{turn[1]}"] > place[f"{turn[2]}@left#{turn[3]}"]]
    assert wrong == []


def closed(law: check.Law, *ids: str) -> list[str]:
    """Procedures with all that they rely on, and with what alone goes on from them."""
    summaries = law.catalogue.summaries
    todo, found = list(ids), set(ids)
    while todo:
        one = Ref("procedure", todo.pop())
        near = [ref.id for ref in summaries[one].relations.get("relies_on", ())]
        onward = [ref.id for ref, other in summaries.items() if one in other.relations.get("relies_on", ())]
        near += onward if len(onward) == 1 and summaries[one].passes_on else []
        todo += set(near) - found
        found |= set(near)
    return sorted(found)


def pairs(law: check.Law, side_of: Mapping[str, bool]) -> list[list[str]]:
    ids = sorted(side_of)
    chance = random.Random(7)
    some = chance.sample(list(itertools.combinations(ids, 2)), 300 if is_soak() else 30)
    return [[f"{id_}@{'left' if side_of[id_] else ''}" for id_ in closed(law, *pair)] for pair in some]


def handed(page: Page) -> dict[str, bool]:
    script = "Object.fromEntries(Object.values(window.seambook.jobProcedures).map(({ id, handed }) => [id, handed]))"
    found: dict[str, bool] = page.evaluate(script)
    return found


@pytest.mark.slow
def test_any_two_procedures(page: Page, law: check.Law) -> None:
    """Where an order is found no rule is broken, in it and in any other that keeps its arcs."""
    jobs = pairs(law, handed(page))
    found = merged(page, *jobs)
    wholes = [(job, one) for job, one in zip(jobs, found, strict=True) if one["whole"]]
    assert len(wholes) > 0.8 * len(jobs)
    for at, (job, one) in enumerate(wholes):
        ids = [node["id"] for node in one["nodes"]]
        assert one["taken"] == []
        assert told(ids, breaches(law, ids)) == [], job
        other = another_order(one, at)
        assert told(other, breaches(law, other)) == [], job


def test_other_orders_of_a_side_of_a_car(page: Page, law: check.Law) -> None:
    (found,) = merged(page, SIDE_OF_A_CAR)
    for seed in range(20):
        ids = another_order(found, seed)
        assert told(ids, breaches(law, ids)) == []


def test_each_procedure_keeps_its_own_order(page: Page, law: check.Law) -> None:
    (found,) = merged(page, SIDE_OF_A_CAR)
    for seed in range(5):
        place = {id_: at for at, id_ in enumerate(another_order(found, seed))}
        for run in SIDE_OF_A_CAR:
            steps = law.catalogue.summaries[Ref("procedure", run.split("@")[0])].steps
            own = [place[id_] for step in steps if (id_ := f"{run}#{step.key}") in place]
            assert own == sorted(own)


def test_what_is_shared_is_done_once(page: Page) -> None:
    (found,) = merged(page, SIDE_OF_A_CAR)
    done = [id_ for node in found["nodes"] for id_ in (node["id"], *node["also"])]
    assert len(done) == len(set(done))
    for key, most in (("isolate-battery", 4), ("reconnect-battery", 4), ("open-fuel", 4), ("close-fuel", 4)):
        (node,) = [node for node in found["nodes"] if node["id"].endswith(f"#{key}")]
        assert len(node["also"]) == most - 1
    ids = [node["id"].split("#")[1] for node in found["nodes"]]
    hot = [at for at, id_ in enumerate(ids) if id_ in ("cut-away", "spot-upper", "plug-ends", "seam-lap", "spot-arch")]
    assert ids.index("isolate-battery") < min(hot)
    assert ids.index("reconnect-battery") > max(hot)


def test_left_and_right_are_two(page: Page, law: check.Law) -> None:
    """One rocker is closed before the other is opened: only one side's structure is open."""
    job = [f"{id_}@{side}" for side in ("left", "right") for id_ in ("renew-rocker-outer", "finish-rocker-outer")]
    (found,) = merged(page, job)
    ids = [node["id"] for node in found["nodes"]]
    assert found["whole"]
    assert told(ids, breaches(law, ids)) == []
    for seed in range(5):
        place = {id_: at for at, id_ in enumerate(another_order(found, seed))}
        open_ = {side: (place[f"renew-rocker-outer@{side}#cut-away"], place[f"renew-rocker-outer@{side}#spot-upper"])
                 for side in ("left", "right")}  # fmt: skip
        first, second = sorted(open_.values())
        assert first[1] < second[0]


def test_what_is_not_in_the_job_is_told(page: Page) -> None:
    (found,) = merged(page, ["finish-rocker-outer@left"])
    assert found["whole"]
    assert found["taken"] == ["renew-rocker-outer"]
    (other,) = merged(page, ["renew-rocker-outer@left"])
    rules = {one["rule"] for one in other["owed"]}
    assert {"battery-back-at-close-out", "wax-after-hot-work", "drains-proven"} <= rules


def test_a_contradiction_names_the_steps_and_the_rules(page: Page) -> None:
    """Fuel that is let out and never put back keeps the battery off for ever."""
    (found,) = merged(page, ["make-safe@", "renew-door-skin@left", "bond-door-skin@left"])
    assert not found["whole"]
    assert {(one["id"].split("#")[1], one["rule"], one["by"].split("#")[1]) for one in found["loop"]} == {
        ("release-pressure", "battery-back-after-fuel", "reconnect-battery"),
        ("open-hem", "fuel-out-before-heat", "parts-out"),
    }


def test_the_same_job_gives_the_same_order(page: Page) -> None:
    one, other = merged(page, SIDE_OF_A_CAR, SIDE_OF_A_CAR)
    assert json.dumps(one) == json.dumps(other)
