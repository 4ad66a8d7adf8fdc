"""Stage 9: page views -> the search index. `page_words` and `IndexWriter` are the entry points.

The index's form is told in `index`; shards.js reads it and find.js searches it.
"""

from builder.search.index import IndexWriter
from builder.search.page_words import PageWords, page_words

__all__ = ["IndexWriter", "PageWords", "page_words"]
