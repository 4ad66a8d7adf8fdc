"""Artifacts (relative paths and bytes) in, a published folder out: all of the new book, or the old one untouched.

`open_draft` is the entry point. Pages are put on a desk in a hidden sibling of the target; `Draft.publish`
checks that the sibling is complete and exchanges the two folders. The stage knows nothing about pages.
"""

from builder.publish.desk import Desk
from builder.publish.draft import Draft, Published, open_draft
from builder.publish.trouble import PublishError

__all__ = ["Desk", "Draft", "PublishError", "Published", "open_draft"]
