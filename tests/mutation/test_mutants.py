"""Issued procedures, spoiled at random: the law refuses nearly all that the trade's own table calls dangerous.

Printed with `pytest -s`: by kind of mutant and by danger, how many there were and how many were refused. What escapes
is known: where belts come out before the heat and that step is lost, the step that fits them stays, and it may as well
fit belts to a car that came without; and where a step sets a rule aside, that rule guards it no longer.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

import pytest

from builder.model.summary import Summary
from tests.honest.book import honest, issued, law
from tests.mutation.dangers import Trade
from tests.mutation.debts import CARRIES, DEBTS
from tests.mutation.guards import GUARDS
from tests.mutation.kinds import KINDS, ON
from tests.mutation.mutants import Book, Mutant, Row, mutants, rows
from tests.sweeps import is_soak

pytestmark = pytest.mark.slow
OF_ALL = 0.95
OF_EACH_KIND = 0.85
BOOKS: dict[str, Callable[[], Mapping[str, Summary]]] = {"issued": issued, "honest": honest}


@pytest.fixture(scope="module", params=sorted(BOOKS))
def spoiled(request: pytest.FixtureRequest) -> list[Mutant]:
    """Mutants of the supplied library's issued procedures; and of the odd ones, which do what no other does."""
    found = mutants(Book(law(), BOOKS[request.param]()))
    table = [*rows((one.kind, one.is_refused) for one in found), total(found)]
    print("", f"{request.param:34} {'mutants':>6} {'refused':>8}   share", *table, "", *by_danger(found), sep="\n")
    return found


def total(found: list[Mutant]) -> Row:
    return Row("all", len(found), sum(one.is_refused for one in found))


def by_danger(found: list[Mutant]) -> list[Row]:
    """Count by the danger, where it is the only one that a mutant has."""
    named = [({danger.name for danger in one.dangers}, one.is_refused) for one in found]
    alone = rows((names.pop(), is_refused) for names, is_refused in named if len(names) == 1)
    return sorted(alone, key=lambda row: (row.share, row.name))


@pytest.mark.parametrize("book", sorted(BOOKS))
def test_what_is_spoiled_was_sound(book: str) -> None:
    whole = Book(law(), BOOKS[book]())
    assert [name for name, one in whole.procedures.items() if whole.is_refused(one, one.steps)] == []
    assert len(whole.procedures) >= 3


def test_there_are_enough_and_no_two_are_the_same(spoiled: list[Mutant]) -> None:
    assert len(spoiled) >= (500 if is_soak() else 250)
    assert len({(one.procedure, one.steps) for one in spoiled}) == len(spoiled)
    assert {one.kind for one in spoiled} == set(KINDS)
    assert len(KINDS) >= 15


def test_nearly_all_are_refused(spoiled: list[Mutant]) -> None:
    assert total(spoiled).share >= OF_ALL


def test_of_each_kind_most_are_refused(spoiled: list[Mutant]) -> None:
    assert [str(row) for row in rows((one.kind, one.is_refused) for one in spoiled) if row.share < OF_EACH_KIND] == []


def test_the_same_seed_gives_the_same_mutants() -> None:
    name, procedure = next(iter(honest().items()))
    one, again = (mutants(Book(law(), {name: procedure})) for _ in range(2))
    assert one == again
    assert one


def test_without_its_rules_the_book_would_refuse_next_to_nothing() -> None:
    """What refuses them is the law: the table of dangers is not asked."""
    procedures = {name: honest()[name] for name in ("weld-bond-foot", "foot-of-four-sheets")}
    found = mutants(Book(law(has_rules=False), procedures))
    assert len(found) > (300 if is_soak() else 150)
    assert total(found).share < 0.05


def test_the_table_speaks_of_acts_that_there_are() -> None:
    told = [text for guard in GUARDS for text in (guard.acts, *(part for way in guard.ways for part in way))]
    told += [text for debt in DEBTS for text in (debt.acts, debt.payers, debt.spoilers)]
    named = {act.rstrip("!") for text in [*told, *ON.values(), *CARRIES] for act in text.split()}
    assert named - law().acts.keys() == set()


def test_every_line_of_the_table_guards_something() -> None:
    whole = Book(law(), {**issued(), **honest()})
    met = {link.about.name for one in whole.procedures.values()
           for link in Trade(whole.body, one.steps).links(one.steps)}  # fmt: skip
    assert {about.name for about in (*GUARDS, *DEBTS)} - met == set()
