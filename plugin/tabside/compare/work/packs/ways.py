"""From packs to loads in the new build, at each time of the work: which gates volts pass, and where power comes."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from tabside.analysis.power_ways import Joint, PowerWays
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.side import Side
from tabside.compare.work.cable_work import CableWork, Turn, each_step
from tabside.make.sheets.cable_plan import Action


class Ways:
    """From packs to loads in the new build, at each time of the work."""

    def __init__(self, new: Side, off: Iterable[str], kept: Iterable[str]) -> None:
        """`off`: new numbers of packs' own wires that come on again after the last sheet, if no step solders them.

        `kept`: packs that are there already.
        """
        self.craft, self.kept = new.craft, frozenset(kept)
        self.ways = PowerWays(new.craft, new.made.values())
        self._off = frozenset(off)

    def joints_before(self, cables: Sequence[CableWork], turn: Turn) -> set[Joint]:
        """What is soldered by then."""
        soldered = [(at, step) for at, step in each_step(cables) if step.action is Action.SOLDER and step.cavity]
        later = {(step.lead, step.termination) for at, step in soldered if at >= turn}
        again = self._off - {step.lead for _, step in soldered}
        return {joint for joint in self.ways.all_joints - later if joint[0] not in again}


def packs_that_stay(rebuild: Rebuild, goes: Collection[str]) -> set[str]:
    """As the new drawing calls them; `goes`: old ones that do not."""
    old, new, matching = rebuild
    there = ((old.terminations[was].board, new.terminations[now].board) for was, now in matching.pairs.items())
    return {now for was, now in there if was in old.packs and was not in goes}
