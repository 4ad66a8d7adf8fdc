"""What the formulas of a plan may name: facts, fixed values, and the answers of each working that has a name."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from builder.formula import Fault, Kind, NoAnswer, Program, Value, names_in
from builder.formula.inputs import compile_fixed
from builder.model.records.calculator import Fixed
from builder.model.records.working import Working
from builder.model.summary import KEY
from builder.work import codes

LEFT_OUT = NoAnswer("it does not apply here")


@dataclass(slots=True)
class Naming:
    """The names with their kinds; it grows by every working, so that each sees only those before it."""

    facts: Mapping[str, Kind]
    added: dict[str, Kind | None] = field(default_factory=dict)
    """Fixed values and named answers."""
    broken: list[str] = field(default_factory=list)
    """How the names begin whose calculator is missing or broken, which is told elsewhere."""

    def over(self, text: str) -> Mapping[str, Kind | None]:
        """Return the kinds of what a formula may name; a name that is broken elsewhere makes no second fault."""
        known = {**self.facts, **self.added}
        lost = [name for name in names_in(text) if name not in known and name.startswith(tuple(self.broken))]
        return {**known, **dict.fromkeys(lost)}

    def add_fixed(self, fixed: Mapping[str, Fixed]) -> Iterator[Fault]:
        """Take fixed values up."""
        for name, one in fixed.items():
            constant = compile_fixed(one)
            if isinstance(constant, Fault):
                yield constant.under(("fixed", name))
            if name in self.facts:
                yield clash(name, "a fact of the seam").under(("fixed", name, KEY))
            else:
                self.added[name] = None if isinstance(constant, Fault) else constant.kind

    def add_answers(self, working: Working, program: Program | None) -> Iterator[Fault]:
        """Take the answers of a working up, where it has a name; None is a calculator that is missing or broken."""
        if working.as_ is None:
            return
        if program is None:
            self.broken.append(f"{working.as_}_")
            return
        names = {named(working.as_, output): shown.kind for output, shown in program.outputs.items()}
        taken = [name for name in names if name in self.facts or name in self.added]
        for name in taken[:1]:  # one name was chosen, so one fault is told
            yield clash(name, "a fact of the seam" if name in self.facts else "named already").under(("as",))
        self.added.update({name: kind for name, kind in names.items() if name not in taken})


def named(prefix: str, output: str) -> str:
    """Return the name of an answer: `layout` makes `layout_count` of `count`."""
    return f"{prefix}_{output}"


def clash(name: str, what: str) -> Fault:
    """Return the fault of a name that is taken."""
    return Fault(codes.NAME_TAKEN, f"{name} is {what}", "choose another name")


def fixed_values(fixed: Mapping[str, Fixed]) -> dict[str, Value]:
    """Return fixed values in base units; those at fault are left out."""
    found = {name: compile_fixed(one) for name, one in fixed.items()}
    return {name: one.reading.base for name, one in found.items() if not isinstance(one, Fault)}


def named_answers(working: Working, program: Program, values: Mapping[str, Value]) -> dict[str, Value]:
    """Return what later formulas may name of a working that gave these values; nothing where it has no name."""
    if working.as_ is None:
        return {}
    return {named(working.as_, output): values.get(output, LEFT_OUT) for output in program.outputs}
