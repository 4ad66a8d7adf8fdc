"""Stage 8: page views -> the search index. `page_words` and `index_script` are the entry points.

The index's form is told in `index`; search.js reads it.
"""

from builder.search.index import PageWords, index_script, page_words

__all__ = ["PageWords", "index_script", "page_words"]
