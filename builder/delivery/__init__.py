"""A drawn book's files -> what a server's visitors keep it by: the list of hashes, groups, worker, manifest, icons.

Nothing of this is needed by a book that is opened from a folder. `delivered` is the entry point: it reads what was put
down, since what is promised to a phone is the bytes that lie there.
"""

from builder.delivery.entry import Kept, delivered, early, mark_in
from builder.delivery.groups import ways_in

__all__ = ["Kept", "delivered", "early", "mark_in", "ways_in"]
