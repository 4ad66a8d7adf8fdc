"""The commands by which a shop writes its book: start, write, confirm, schema and show.

Beside the way through, not on it: it takes the record types and what `pipeline` offers, and knows no stage.
"""
