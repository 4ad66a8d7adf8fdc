"""The order of marks as an answer says it -> the turn of each mark; turns.js has the twin."""

from builder.formula.turns import turns_of

__all__ = ["turns_of"]
