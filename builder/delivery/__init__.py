"""A drawn book's files -> what a server's visitors keep it by: the list of hashes, groups, worker, manifest, icons.

Nothing of this is needed by a book that is opened from a folder. `delivered` is the entry point: it reads what was put
down, since what is promised to a phone is the bytes that lie there.
"""

from builder.delivery.contents import Taken
from builder.delivery.entry import Kept, delivered, early, mark_in
from builder.delivery.groups import Groups, grouped, led_to, relied_on, ways_in
from builder.delivery.stretches import Ranked

__all__ = [
    "Groups", "Kept", "Ranked", "Taken", "delivered", "early", "grouped", "led_to", "mark_in", "relied_on", "ways_in",
]  # fmt: skip
