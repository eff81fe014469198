"""What the plan takes each lead from, when it is not cut from new wire."""

from __future__ import annotations

from msgspec import Struct

from tabside.model.stock import StockCable


class FromStock(Struct, frozen=True):
    """What of the stock a lead is taken from."""

    text: str  # as named in the craft file, or in words
    length_mm: float | None
    cut: bool  # it is cut to length and stripped at one end; False: used as it is
    cable: StockCable | None = None
