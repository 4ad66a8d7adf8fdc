"""A thousand questions of each sort, drawn from all lessons in Chromium, each held against the records behind it.

Exactly the answers that a question claims are right; the others are wrong for a reason that is said. In `make test` it
is every third of the thousand.
"""

from __future__ import annotations

import itertools
import json
import math
import random
from collections import Counter, defaultdict
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from builder.view.prose import plain_text
from builder.view.shared import shared
from tests.browser.asked_of import Question, Records, changed, first_broken, lawful, mending, named, worked
from tests.browser.benched import benched
from tests.browser.watched import Watched
from tests.sweeps import examples

SORTS = ("order", "broken", "work", "hazard")
MANY = examples(1000)
ORDERS_TRIED = examples(16)
MAKE = """({ sort, many, seeds, system }) => {
  const { lessons, questions } = seambook;
  const made = [];
  window.made = { ...window.made, [`${sort} ${system}`]: made };
  const open = new Set(Object.keys(lessons).sort());
  for (let n = 0; made.length < many && open.size; n += 1) {
    for (const id of [...open]) {
      for (const seed of seeds) {
        const question = made.length < many ? questions.one({ lesson: lessons[id], sort, seed, n, system }) : null;
        if (question) made.push({ ...question, lesson: id, seed, n, at: made.length, of_all: `${sort} ${system}` });
        else open.delete(id);
      }
    }
  }
  return JSON.stringify(made);
}"""
JUDGE = """(asked) => JSON.stringify(JSON.parse(asked).map(([all, at, answer]) =>
  seambook.questions.judge(window.made[all][at], answer)))"""
SHEETS = """(seeds) => {
  const { lessons, questions } = seambook;
  const count = { order: 2, broken: 2, work: 2, hazard: 2 };
  const of = (seed) => Object.keys(lessons).sort().map((id) => questions.sheet({ lesson: lessons[id], seed, count }));
  return JSON.stringify(seeds.flatMap(of));
}"""
Said = dict[str, Any]
Drawn = dict[str, list[Question]]


@contextmanager
def opened(chromium: Browser, site: Path, folder: Path) -> Iterator[Page]:
    """A page with all lessons and what draws questions, as a lesson's page loads them, and no page's own scripts."""
    watched = Watched(chromium, site)
    lessons = [site / "assets/training/book.js", *sorted((site / "assets/training/lesson").glob("*.js"))]
    page = benched(watched, folder, lessons)
    brought = page.evaluate("() => [...new Set(Object.values(seambook.lessons).flatMap(({ scripts }) => scripts))]")
    own = shared("numbers", "working", "links", "questions")
    yield benched(watched, folder, (*lessons, *(site / path for path in (*brought, *own))))
    watched.close()
    assert watched.troubles == []


@pytest.fixture(scope="module")
def page(chromium: Browser, site: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    with opened(chromium, site, tmp_path_factory.mktemp("questions")) as page:
        yield page


@pytest.fixture(scope="module")
def records() -> Records:
    return Records()


@pytest.fixture(scope="module")
def drawn(page: Page) -> Drawn:
    given = {"many": MANY, "seeds": ["first", "second", "third", "fourth"], "system": "metric"}
    return {sort: json.loads(page.evaluate(MAKE, {**given, "sort": sort})) for sort in SORTS}


def judged(page: Page, asked: list[tuple[Question, Any]]) -> list[Said]:
    given = json.dumps([[one["of_all"], one["at"], answer] for one, answer in asked])
    found: list[Said] = json.loads(page.evaluate(JUDGE, given))
    return found


def words(told: list[dict[str, str]]) -> str:
    return " ".join(one["text"] for one in told)


def test_a_thousand_of_each_and_none_twice_in_a_row(drawn: Drawn) -> None:
    assert {sort: len(found) for sort, found in drawn.items()} == dict.fromkeys(SORTS, MANY)
    rows: dict[tuple[str, str, str], list[str]] = defaultdict(list)
    for found in drawn.values():
        for one in found:
            rows[one["sort"], one["lesson"], one["seed"]].append(one["id"])
    twice = [row for row, ids in rows.items() if any(one == other for one, other in itertools.pairwise(ids))]
    assert twice == []
    assert min(len({one["id"] for one in found}) for found in drawn.values()) > MANY / 10


def test_every_wrong_choice_has_its_own_reason(page: Page, drawn: Drawn) -> None:
    """Choices can be told apart, exactly one is right, and each of the others is told why it is not."""
    asked = [(one, choice["id"]) for found in drawn.values() for one in found for choice in one.get("choices", ())]
    said = judged(page, asked)
    right: Counter[str] = Counter()
    for (one, choice), answer in zip(asked, said, strict=True):
        assert answer["ok"] == (choice == one["right"]), (one["id"], choice)
        assert len(words(answer["say"])) > 20, (one["id"], choice)
        assert answer["ok"] or any(part.get("href") for part in answer["say"]), (one["id"], choice)
        right[f"{one['lesson']} {one['seed']} {one['n']} {one['id']}"] += answer["ok"]
    assert set(right.values()) == {1}
    for found in drawn.values():
        for one in found:
            choices = {choice["id"]: choice["text"] for choice in one.get("choices", ())}
            assert len(set(choices.values())) == len(choices) != 1, one["id"]
            wrong = [words(one["explain"][id_]) for id_ in choices if id_ != one["right"]]
            assert len(set(wrong)) == len(wrong), one["id"]


def test_right_orders_are_those_that_break_no_rule(page: Page, records: Records, drawn: Drawn) -> None:
    once = {one["id"]: one for one in drawn["order"]}
    chance, asked = random.Random(3), []
    for one in once.values():
        own = one["right"]
        assert 4 <= len(own) <= 6
        every = list(itertools.permutations(own))
        shown = tuple(item["id"] for item in one["items"])
        tried = {tuple(own), shown, *(every if len(every) <= ORDERS_TRIED else chance.sample(every, ORDERS_TRIED))}
        asked += [(one, list(answer)) for answer in sorted(tried)]
        assert sum(all(order.index(a) < order.index(b) for order in every if keeps(one, order))
                   for a, b in itertools.permutations(own, 2)) >= 3, one["id"]  # fmt: skip
    right: Counter[str] = Counter()
    for (one, answer), said in zip(asked, judged(page, asked), strict=True):
        assert said["ok"] == lawful(records, one, answer), (one["id"], answer)
        wrong = [keep for keep in one["keeps"] if answer.index(keep["before"]) > answer.index(keep["after"])]
        assert all(records.because(keep["rule"]) in words(said["say"]) for keep in wrong), one["id"]
        assert bool(wrong) != said["ok"]
        right[one["id"]] += said["ok"]
    assert min(right.values()) >= 1
    assert max(right.values()) > 1
    assert all(not keeps(one, [item["id"] for item in one["items"]]) for one in drawn["order"])


def keeps(question: Question, order: Any) -> bool:
    return all(order.index(keep["before"]) < order.index(keep["after"]) for keep in question["keeps"])


def test_a_broken_procedure_breaks_where_it_is_said(records: Records, drawn: Drawn) -> None:
    forms: Counter[str] = Counter()
    for one in {one["id"]: one for one in drawn["broken"]}.values():
        forms[one["form"]] += 1
        order = changed(records.line(one["of"]["procedure"]), one)
        shown = [item["id"] for item in one["items"]]
        assert 5 <= len(shown) <= 8, one["id"]
        assert shown in [order[at : at + len(shown)] for at in range(len(order))], one["id"]
        choices = [choice["id"] for choice in one["choices"]]
        first, broken = first_broken(records, one)
        rules = {records.because(found.rule) for found in broken}
        for choice in choices:
            assert any(because in words(one["explain"][choice]) for because in rules), (one["id"], choice)
        if one["form"] == "where":
            assert first == [one["right"]], one["id"]
            assert {found.at for found in broken} & set(choices) == {one["right"]}, one["id"]
        else:
            asked = first or [found.at for found in broken]
            told = [found for found in broken if found.at in asked]
            assert f"step {shown.index(told[0].at) + 1}" in one["ask"], one["id"]
            assert mending(records, one, told, choices) == [one["right"]], one["id"]
    assert min(forms["where"], forms["which"]) > 50, forms


def test_numbers_are_those_of_the_calculators(page: Page, records: Records, drawn: Drawn) -> None:
    stopped: Counter[bool] = Counter()
    typed: list[tuple[Question, Any]] = []
    for one in drawn["work"]:
        value, text, levels = worked(records, one)
        if one["form"] == "answer":
            (right,) = (choice["text"] for choice in one["choices"] if choice["id"] == one["right"])
            assert right == text, one["id"]
            continue
        assert isinstance(value, float)
        output = records.programs[one["of"]["calculator"]].outputs[one["of"]["output"]]
        unit, digits = one["field"]["unit"], one["field"]["digits"]
        assert (unit, digits) == (output.unit.name, output.digits), one["id"]
        stopped["stop" in levels] += 1
        counted = unit == "" and digits == 0
        off = 0.0 if counted else max(0.5 * 10.0**-digits, 0.01 * abs(one["right"]))
        assert math.isclose(one["off"], off, rel_tol=1e-9, abs_tol=1e-12), one["id"]
        assert abs(float(text) - one["right"]) <= 0.5 * 10.0**-digits * 1.001, (one["id"], text)
        right, beyond = one["right"], 1.1 * (off or 1)
        near = [text, *(f"{right + part:.10f}" for part in (0.9 * off, beyond, -beyond)), "a good deal"]
        typed += [(one, answer) for answer in near]
    said = judged(page, typed)
    for at in range(0, len(typed), 5):
        oks = [answer["ok"] for answer in said[at : at + 5]]
        assert oks == [True, True, False, False, False], (typed[at][0]["id"], oks)
        assert [answer.get("unread", False) for answer in said[at : at + 5]] == [False] * 4 + [True]
        assert any(typed[at][1] in part["text"] and part["href"] for part in said[at + 2]["say"]), typed[at][0]["id"]
    assert stopped[False] > 0.9 * stopped.total(), stopped


def test_a_unit_may_be_typed(page: Page, drawn: Drawn) -> None:
    one = next(one for one in drawn["work"] if one["form"] == "number" and one["field"]["unit"] == "mm")
    right = one["right"]
    answers = [f"{right / 25.4:.6f} inch", f"{right / 10:.6f}cm", f"{right:.4f} mm".replace(".", ","), "7 h"]
    said = judged(page, [(one, answer) for answer in answers])
    assert [answer["ok"] for answer in said] == [True, True, True, False]
    assert said[3]["unread"]


def test_dangers_are_those_of_the_step(records: Records, drawn: Drawn) -> None:
    for one in drawn["hazard"]:
        there, throughout = named(records, one)
        choices = {choice["id"]: choice["text"] for choice in one["choices"]}
        assert len(choices) == 4
        assert choices.keys() & there == {one["right"]}, one["id"]
        assert not choices.keys() - {one["right"]} & throughout, one["id"]
        for id_, text in choices.items():
            hazard = records.hazard(id_)
            protect = "; ".join(map(plain_text, hazard.protect))
            said = {"danger": hazard.title, "avoid": plain_text(hazard.avoid), "protect": protect}
            assert text == said[one["form"]], one["id"]
            reason = hazard.consequence if id_ == one["right"] else hazard.danger
            assert plain_text(reason) in words(one["explain"][id_]), one["id"]


def test_words_of_the_trade_lead_to_their_pages(site: Path, drawn: Drawn) -> None:
    ways = {word["href"] for found in drawn.values() for one in found for word in one["words"]}
    assert len(ways) > 50
    assert [way for way in sorted(ways) if not (site / way).is_file()] == []
    for one in (one for found in drawn.values() for one in found):
        said = " ".join(part["text"] for part in (*one["items"], *one.get("choices", ()))).lower()
        named = {word["text"] for word in one["words"]}
        assert ("flange" not in said) or any("flange" in word.lower() for word in named), one["id"]
        assert ("burr" not in said) or "Burr" in named, one["id"]


def test_the_same_seed_gives_the_same_sheet(page: Page, chromium: Browser, site: Path, tmp_path: Path) -> None:
    seeds = ["Robin, Monday", "Robin, Tuesday"]
    first = json.loads(page.evaluate(SHEETS, seeds))
    with opened(chromium, site, tmp_path) as again:
        other = json.loads(again.evaluate(SHEETS, seeds[1:]))
    assert first[len(other) :] == other
    half = len(first) // 2
    assert all(one != two for one, two in zip(first[:half], first[half:], strict=True))
    for sheet in first:
        ids = [one["id"] for one in sheet]
        assert len(set(ids)) == len(ids) > 2


def test_in_the_other_units(page: Page, records: Records) -> None:
    """What is given and asked stands in the units of the reader's system, and is worked out from just that."""
    found = json.loads(page.evaluate(MAKE, {"sort": "work", "many": 100, "seeds": ["us"], "system": "us"}))
    units = Counter(one["field"]["unit"] for one in found if one["form"] == "number")
    assert units["inch"] > 5
    assert not units["mm"]
    for one in found:
        _, text, _ = worked(records, one)
        if one["form"] == "answer":
            assert text in [choice["text"] for choice in one["choices"] if choice["id"] == one["right"]]
        elif one["field"]["unit"] == "inch":
            output = records.programs[one["of"]["calculator"]].outputs[one["of"]["output"]]
            assert output.unit.name == "mm"
            assert abs(one["right"] * 25.4 - float(text)) <= 0.5 * 10.0**-output.digits * 1.001
