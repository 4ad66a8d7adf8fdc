"""Artifacts (relative paths and bytes) in, a published folder out: all of the new book, or the old one untouched.

`open_draft` is the entry point. Pages are put on a desk in a hidden sibling of the target; `Draft.publish`
checks that the sibling is complete and exchanges the two folders. `Beside` does the same for one file. The stage knows
nothing about pages.
"""

from builder.publish.desk import Desk
from builder.publish.draft import Draft, hold, open_draft
from builder.publish.one_file import Beside, require_file
from builder.publish.siblings import kept_of
from builder.publish.target import is_ours
from builder.publish.trees import seen
from builder.publish.trouble import PublishError

__all__ = [
    "Beside", "Desk", "Draft", "PublishError", "hold", "is_ours", "kept_of", "open_draft", "require_file", "seen",
]  # fmt: skip
