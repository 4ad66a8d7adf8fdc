"""`planning.yaml` -> the acts, tools, calculators, places and traits that it names and nobody has."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence

from builder.check import codes
from builder.formula import Fault, Program
from builder.model.links import Catalogue
from builder.model.near import listed, offer
from builder.model.records.planning import Curing, Planning
from builder.model.reference import Ref
from builder.model.summary import KEY

Path = tuple[str | int, ...]


def planning_faults(
    planning: Planning, catalogue: Catalogue, programs: Mapping[str, Program], stages: Collection[str]
) -> Iterator[Fault]:
    """Yield a fault, by its place in the file, for each name that stands for nothing.

    `stages` are the words of the scale of stages.
    """
    for path, act in _acts(planning):
        if catalogue.find(Ref("act", act)) is None:
            yield _nothing(f"there is no act {act}", path)
    for tool in planning.place_of_tool:
        if catalogue.find(Ref("tool", tool)) is None:
            yield _nothing(f"there is no tool {tool}", ("place_of_tool", tool, KEY))
    for name, where in (("place_of", planning.place_of), ("place_of_tool", planning.place_of_tool)):
        for key, place in where.items():
            yield from _own(place, planning.places, "place", (name, key))
    for at, clash in enumerate(planning.clashes):
        for side, trait in enumerate(clash.between):
            yield from _own(trait, planning.traits, "trait", ("clashes", at, "between", side))
    for name in ("first", "last") if planning.stages is not None else ():
        for at, stage in enumerate(getattr(planning.stages, name)):
            if stage not in stages:
                none = "write the scale of stages first, or take it out"
                do = offer(stage, stages, f"name one of: {listed(stages)}" if stages else none)
                yield _nothing(f"there is no stage {stage}", ("stages", name, at), do)
    yield from _curing_faults(planning.curing, catalogue, programs)


def _acts(planning: Planning) -> Iterator[tuple[Path, str]]:
    for act in planning.place_of:
        yield ("place_of", act, KEY), act
    lists: list[tuple[Path, Sequence[str]]] = [
        (("watch",), planning.watch), (("rusty",), planning.rusty),
        (("lone_hand", "never"), planning.lone_hand.never), (("curing", "acts"), planning.curing.acts),
        *([(("with_the_last", "acts"), planning.with_the_last.acts)] if planning.with_the_last else []),
        *((("traits", name, "acts"), trait.acts) for name, trait in planning.traits.items()),
        *((("spread", at, "acts"), row.acts) for at, row in enumerate(planning.spread)),
        *((("customer", "parts", name, "acts"), part.acts)
          for name, part in (planning.customer.parts if planning.customer else {}).items()),
    ]  # fmt: skip
    for path, acts in lists:
        yield from (((*path, at), act) for at, act in enumerate(acts))


def _own(name: str, names: Collection[str], what: str, path: Path) -> Iterator[Fault]:
    if name not in names:
        yield _nothing(f"this file has no {what} {name}", path, offer(name, names, f"name one of: {listed(names)}"))


def _curing_faults(curing: Curing, catalogue: Catalogue, programs: Mapping[str, Program]) -> Iterator[Fault]:
    asked = (("cure", curing.cure, ("cure_answer",)), ("window", curing.window, ("window_least", "window_most")))
    for key, calculator, answers in asked:
        if catalogue.find(Ref("calculator", calculator)) is None:
            yield _nothing(f"there is no calculator {calculator}", ("curing", key))
        elif (program := programs.get(calculator)) is not None:
            for name in answers:
                answer = getattr(curing, name)
                if answer not in program.outputs:
                    do = offer(answer, program.outputs, f"name one of: {listed(program.outputs)}")
                    yield _nothing(f'{calculator} has no answer "{answer}"', ("curing", name), do)


def _nothing(message: str, path: Path, do: str = "name one that the book has, or take it out") -> Fault:
    return Fault(codes.PLANNING_NAMES_NOTHING, message, do, path=path)
