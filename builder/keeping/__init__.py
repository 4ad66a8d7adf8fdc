"""What a build made -> a file beside the target, from which the next build takes what has not changed.

`read_kept` and `write_kept` are the entry points. What is kept names everything that it was made from, so a kept
result is taken exactly when a fresh one would be the same, byte for byte. A file that is damaged, was written by
another edition of Seambook or by anybody else is as good as none: everything is made anew.
"""

from builder.keeping.code import code_mark, every_template_mark, templates_mark
from builder.keeping.codec import packed, unpacked
from builder.keeping.file import read_glance, read_kept, write_kept
from builder.keeping.kept import EMPTY, Glance, Kept, KeptFile, KeptUnit
from builder.keeping.store import Bytes, SpoiledError

__all__ = [
    "EMPTY", "Bytes", "Glance", "Kept", "KeptFile", "KeptUnit", "SpoiledError", "code_mark", "every_template_mark",
    "packed", "read_glance", "read_kept", "templates_mark", "unpacked", "write_kept",
]  # fmt: skip
