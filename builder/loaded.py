"""What pages load that comes of the templates alone: styles, scripts, icons, each made once and kept."""

from __future__ import annotations

from builder import delivery, render
from builder.model.ledger import mark_of
from builder.model.views import Site
from builder.order import Order
from builder.putting import Fresh, Putting, Unit


def shared_files(putting: Putting, order: Order) -> list[str]:
    """Put down styles and scripts; to write them lean takes a while."""
    sources = render.sources(order.templates)

    def made() -> Fresh[None]:
        return Fresh(render.assets(sources), None)

    mark = mark_of(b"\0".join(part for path, data in sources.items() for part in (path.encode(), data)))
    return putting.one(Unit("styles and scripts", mark), made).paths


def early_files(putting: Putting, order: Order, site: Site, shared: bytes) -> list[str]:
    """Put down the manifest and the icons; `shared` marks what every page shares."""
    unit = Unit("manifest and icons", shared + mark_of(delivery.mark_in(order.templates)))
    return putting.one(unit, lambda: Fresh(delivery.early(site, order.templates), None)).paths
