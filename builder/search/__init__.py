"""Stage 9: page views -> the search index. `page_words`, `IndexWriter` and `revised` are the entry points.

The index's form is told in `index`; shards.js reads it and find.js searches it. `revised` makes today's index of the
published one, where few pages changed.
"""

from builder.search.index import IndexWriter
from builder.search.page_words import Numbered, PageWords, numbered, page_words, searched
from builder.search.revising import NotAsLeftError, Pages, Published, Revised, revised

__all__ = [
    "IndexWriter", "NotAsLeftError", "Numbered", "PageWords", "Pages", "Published", "Revised", "numbered",
    "page_words", "revised", "searched",
]  # fmt: skip
