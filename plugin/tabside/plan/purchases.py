"""What has to lie on the bench before the build day."""

from __future__ import annotations

from ..model.craft import Craft
from .part_purchases import boards, inline_and_splices, other_parts
from .plug_purchases import crimped_contacts, plugs
from .purchase import Purchase
from .stock_use import StockUse
from .wire_purchases import from_stock, pre_crimped, ready_made, wire


def plan_purchases(craft: Craft, stock: StockUse) -> tuple[Purchase, ...]:
    """All lines: what the stock gives, plugs and what goes into them, wire, parts, boards.

    `in_stock` counts what the craft file's stock plainly serves and nothing else.  Heat-shrink, tools and solder are
    not listed, nor anything else that the drawing does not speak of.
    """
    return (
        *from_stock(stock),
        *plugs(craft, stock),
        *crimped_contacts(craft, stock),
        *pre_crimped(stock),
        *wire(stock),
        *ready_made(craft, stock),
        *inline_and_splices(craft),
        *other_parts(craft.parts),
        *boards(craft),
    )
