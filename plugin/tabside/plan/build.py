"""All that documents are made of: the craft, its verdict, and what is worked out from them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from ..model.craft import Craft
from ..model.findings import Severity, Verdict
from .cuts import CutPiece, plan_cuts
from .gauges import with_gauges
from .purchase import Purchase
from .purchases import plan_purchases
from .stock_use import StockUse, use_stock

if TYPE_CHECKING:
    from .cable_plan import Plan


@dataclass(frozen=True)  # without slots: the plan is kept once it is made
class Build:
    """A craft ready to be laid out on paper."""

    craft: Craft
    verdict: Verdict
    stock: StockUse
    cuts: tuple[CutPiece, ...]
    purchases: tuple[Purchase, ...]
    open_in_kicad: bool = False  # the drawing may hold changes that are not saved yet

    @property
    def errors(self) -> int:
        """Errors that nobody has accepted."""
        return self.verdict.count(Severity.ERROR)

    @property
    def cleared(self) -> bool:
        """No error stands that is not accepted.  It says nothing about leads that could not be judged."""
        return self.errors == 0

    @cached_property
    def plan(self) -> Plan:
        """How each cable is made; worked out when it is first asked for, since a solver is loaded for it."""
        from .continuity import continuity
        from .making import make_plan

        return make_plan(self.craft, continuity(self))


def build_plan(craft: Craft, verdict: Verdict, *, open_in_kicad: bool = False) -> Build:
    """What to cut and what to have on the bench for this craft.

    `open_in_kicad`: somebody has the drawing open, so that its files may be older than what is on the screen.
    """
    craft = with_gauges(craft)
    stock = use_stock(craft)
    return Build(craft, verdict, stock, plan_cuts(craft, stock), plan_purchases(craft, stock), open_in_kicad)
