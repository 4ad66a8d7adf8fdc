"""Stage 8: page views -> the search index. `page_words` and `IndexWriter` are the entry points.

The index's form is told in `index`; find.js reads it.
"""

from builder.search.index import IndexWriter, PageWords, index_script, page_words

__all__ = ["IndexWriter", "PageWords", "index_script", "page_words"]
