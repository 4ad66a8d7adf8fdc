"""Problems -> text, JSON or annotations, one file each. `text`, `json` and `github` are the entry points."""

from builder.report.github import github
from builder.report.json import json
from builder.report.text import text

__all__ = ["github", "json", "text"]
