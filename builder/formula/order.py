"""Order: from what each formula needs the order to work them out in, with every circle reported."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from builder.formula.codes import CIRCLE
from builder.formula.fault import Fault
from builder.model.records.calculator import Calculator


def in_order(needs: Mapping[str, Sequence[str]], record: Calculator) -> tuple[list[str], list[Fault]]:
    """Return the names each after what it needs, as near the author's order as may be; circles are left out."""
    order: list[str] = []
    state: dict[str, bool] = {}
    """Absent: not seen; False: being placed; True: placed, or given up."""
    broken: set[str] = set()
    faults: list[Fault] = []

    def place(name: str, path: tuple[str, ...]) -> None:
        if state.get(name) is False:
            circle = path[path.index(name) :]
            if not broken.intersection(circle):
                faults.append(_fault(circle, record))
            broken.update(circle)
            return
        if name in state:
            return
        state[name] = False
        for need in needs[name]:
            if need in needs:
                place(need, (*path, name))
        state[name] = True
        if name not in broken:
            order.append(name)

    for name in needs:
        place(name, ())
    return order, faults


def _fault(circle: tuple[str, ...], record: Calculator) -> Fault:
    first = circle[0]
    if len(circle) == 1:
        message = f"{first} needs its own result"
    else:
        message = "these need each other in a circle: " + " needs ".join((*circle, first))
    path = ("work", first) if first in record.work else ("decide", first)
    return Fault(CIRCLE, message, "break the circle: one of them must come from inputs alone", path=path)
