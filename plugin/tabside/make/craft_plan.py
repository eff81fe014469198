"""How all of a craft is made."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct, field

from tabside.facts.colours import colour_legend
from tabside.make.buy.cuts import CutPiece
from tabside.make.buy.purchase import Purchase
from tabside.make.buy.stock_use import FromStock
from tabside.make.by_hand import ByHand
from tabside.make.needs.mass import Mass
from tabside.make.sheets.cable_plan import CURRENCY, CablePlan
from tabside.make.sheets.part_steps import PartStep
from tabside.make.sheets.wires.stock_cuts import StockCut
from tabside.model.findings import Finding
from tabside.words.contacts import counted


class CraftPlan(Struct, frozen=True):
    """The whole craft."""

    cables: tuple[CablePlan, ...]  # in mark order, then loose leads
    purchases: tuple[Purchase, ...]  # taken from stock and to buy
    cuts: tuple[CutPiece, ...]
    stock_cuts: tuple[StockCut, ...]
    minutes: float
    cost: float  # money for what is bought
    crimps: int  # contacts crimped here
    by_hand: ByHand
    mass: Mass
    optimal: bool
    bound_words: str  # "the cheapest plan", or how far from it this one may be
    assumptions: tuple[str, ...]  # what was taken for granted, figures without a source among them
    taken: Mapping[str, FromStock] = field(default_factory=dict)  # what each lead comes from, when not from new wire
    colours: Mapping[str, str | None] = field(default_factory=dict)  # of each lead as it will lie on the bench
    findings: tuple[Finding, ...] = ()  # slack
    parts: tuple[PartStep, ...] = ()  # soldered across leads, before any pack

    @property
    def legend(self) -> tuple[str, ...]:
        """What the codes of its colours stand for."""
        return colour_legend(self.colours.values())

    @property
    def total_words(self) -> tuple[str, ...]:
        """What all of it takes, what it would take if each end were crimped by hand, and how it was chosen."""
        hand, across = self.by_hand, sum(part.minutes for part in self.parts)
        return (
            f"All cables: {self.minutes:g} min, parts {self.cost:.2f} {CURRENCY}, "
            f"{counted(self.crimps, 'crimp')} by hand."
            + (f" {across:g} min of it for parts across wires; no price is stated for them." if self.parts else ""),
            f"All crimped by hand it would be: {hand.minutes:g} min, contacts and wire {hand.cost:.2f} {CURRENCY}, "
            f"{counted(hand.crimps, 'crimp')}, {counted(hand.contacts, 'contact')} to buy.",
            f"Choice: {self.bound_words}.",
        )
