"""What the plan takes each lead from, when it is not cut from new wire."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from tabside.analysis.lead_ends import MadeLead
from tabside.model.stock import StockCable, StockLead


@dataclass(frozen=True, slots=True)
class FromStock:
    """What of the stock a lead is taken from."""

    text: str  # as named in the craft file, or in words
    length_mm: float | None
    cut: bool  # it is cut to length and stripped at one end; False: used as it is
    cable: StockCable | None = None
    lead: StockLead | None = None


@dataclass(frozen=True, slots=True)
class StockUse:
    """What the stock gives this craft."""

    leads: tuple[MadeLead, ...]  # all leads of the craft, in mark order
    taken: Mapping[str, FromStock] = field(default_factory=dict)  # by lead mark
    notes: tuple[str, ...] = ()  # what may fit, and why it was not taken
