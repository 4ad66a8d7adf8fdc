"""Page views in, HTML and shared files out; `open_renderer` and `assets` are the entry points.

A template has `for` and `if` and asks nothing: what a page says is complete in its view, and drawings are made
from the view's data before a template runs.
"""

from builder.render.assets import assets, sources
from builder.render.pages import Renderer, open_renderer
from builder.render.scripts import assigned

__all__ = ["Renderer", "assets", "assigned", "open_renderer", "sources"]
