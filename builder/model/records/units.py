"""What a layer says about units (`units.yaml`): which one stands for which where a reader switches."""

from builder.model.records.fields import Places, Plain, Stated, record


@record
class Counterpart:
    """A unit that records are written in, and the one that stands for it in the other system."""

    unit: Plain
    as_: Plain
    places: Places | None = None
    """Decimal places that are shown at least, where the usual rule would show fewer than the trade works to."""


@record
class UnitSettings:
    """The two systems of units; of several layers the last that has the file wins."""

    to_us: Stated[Counterpart]
    """Metric units with their American counterparts."""
    to_metric: Stated[Counterpart]
    """American units with their metric counterparts."""
    same: Stated[Plain]
    """Units that both systems read as they are."""
    usual: tuple[Plain, ...] = ()
    """The unit that the value of a formula is shown in where its record has none of its kind; of each kind one."""
    names: tuple[tuple[Plain, ...], ...] = ()
    """What else somebody who searches may call a unit; of each unit the sign that pages show, then its names."""
