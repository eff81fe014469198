"""All that documents are made of: the craft, its verdict, and what is worked out from them."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from tabside.analysis.joined.lead_ends import MadeLead, with_leads_of
from tabside.analysis.judgement import Judgement
from tabside.documents.dated import Dated
from tabside.make.buy.cuts import CutPiece
from tabside.make.buy.purchase import Purchase
from tabside.make.needs.gauges import with_gauges
from tabside.make.needs.usual_colours import with_usual_colours
from tabside.model.craft import Craft
from tabside.model.findings import Outcome, Severity, Verdict
from tabside.model.roles import Volts
from tabside.read.kicad.lock import OnScreen

if TYPE_CHECKING:
    from tabside.documents.order_of_work import OrderOfWork
    from tabside.make.bench_needs import Need
    from tabside.make.craft_plan import CraftPlan
    from tabside.prove.continuity import Proof
    from tabside.prove.power.rows import FirstPower


class CraftBuild(Struct, frozen=True, dict=True):  # without slots: the plan is kept once it is made
    """A craft ready to be laid out on paper."""

    craft: Craft  # with the gauges and colours that are chosen for it
    drawn: Craft  # with those alone that somebody stated
    verdict: Verdict
    leads: tuple[MadeLead, ...]  # how each lead's ends are made, in mark order
    pack: Volts | None  # what the battery reaches
    on_screen: OnScreen = OnScreen.SAVED  # whether the files are what KiCad shows
    saved_at: float | None = None  # when the drawing was saved, in seconds since 1970; for the index alone
    dated: Dated | None = None  # of pages that are kept fresh

    @property
    def may_be_unsaved(self) -> bool:
        """The verdict is of the files, which may not be what is on the screen."""
        return self.on_screen is not OnScreen.SAVED

    @property
    def is_unsaved(self) -> bool:
        """KiCad holds changes that are not in the files."""
        return self.on_screen is OnScreen.CHANGED

    @property
    def errors(self) -> int:
        """Errors that nobody has accepted."""
        return self.verdict.count(Severity.ERROR)

    @property
    def cleared(self) -> bool:
        """No error stands that is not accepted, and no lead of power is left undecided."""
        return self.verdict.outcome is Outcome.CLEAR

    @cached_property
    def proof(self) -> Proof:
        """What to measure before power, in the order in which the plan has it."""
        return replace(self._proven, rows=self.order_of_work.rows)

    @cached_property
    def order_of_work(self) -> OrderOfWork:
        from tabside.documents.order_of_work import order_of_work

        return order_of_work(self._proven.rows, self.plan)

    @cached_property
    def _proven(self) -> Proof:
        """Worked out when it is first asked for, since a solver is loaded for it."""
        from tabside.prove.continuity import prove_craft

        return prove_craft(self.craft, self.leads, self.pack)

    @cached_property
    def first_power(self) -> FirstPower:
        """Stage by stage, from the pack to the last board."""
        from tabside.prove.first_power import first_power

        return first_power(self._proven.world)

    @cached_property
    def plan(self) -> CraftPlan:
        """How each cable is made; worked out when it is first asked for, since a solver is loaded for it."""
        from tabside.make.making import make_plan

        return make_plan(self.craft, self.leads, self._proven.rows, self._proven.finders)

    @property
    def cuts(self) -> tuple[CutPiece, ...]:
        return self.plan.cuts

    @property
    def purchases(self) -> tuple[Purchase, ...]:
        return self.plan.purchases

    @property
    def bench_needs(self) -> tuple[Need, ...]:
        """Tools, what is used up, and what tests and first power need."""
        from tabside.make.bench_needs import bench_needs

        return bench_needs(self.craft, self.plan, self.proof.rows, self.first_power, self.pack)


def craft_build(
    craft: Craft,
    verdict: Verdict,
    *,
    judgement: Judgement | None = None,
    on_screen: OnScreen = OnScreen.SAVED,
    saved_at: float | None = None,
    dated: Dated | None = None,
) -> CraftBuild:
    """A craft with what was worked out of it; plan, proof and first power follow when they are first asked for.

    `judgement`: what the checks worked out of it, so that it is not worked out again.
    `saved_at`: when the drawing was saved, where somebody has asked its files.
    """
    judgement = judgement or Judgement(craft)
    worked_out = with_usual_colours(with_gauges(judgement), judgement.made_leads)
    leads = with_leads_of(judgement.made_leads, worked_out)
    return CraftBuild(worked_out, craft, verdict, leads, judgement.pack, on_screen, saved_at, dated)
