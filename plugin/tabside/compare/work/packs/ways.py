"""From packs to loads in the new build, at each time of the work: which gates volts pass, and where power comes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from tabside.analysis.power_ways import Joint, PowerWays
from tabside.compare.work.cable_work import CableWork, Turn, each_step
from tabside.make.sheets.cable_plan import Action
from tabside.model.craft import Craft


class Ways:
    """From packs to loads in the new build, at each time of the work."""

    def __init__(self, craft: Craft, ways: PowerWays, off: Iterable[str], kept: Iterable[str]) -> None:
        """`off`: new numbers of packs' own wires that come on again after the last sheet, if no step solders them.

        `kept`: packs that are there already.
        """
        self.craft, self.ways, self.kept = craft, ways, frozenset(kept)
        self._off = frozenset(off)

    def joints_before(self, cables: Sequence[CableWork], turn: Turn) -> set[Joint]:
        """What is soldered by then."""
        soldered = [(at, step) for at, step in each_step(cables) if step.action is Action.SOLDER and step.cavity]
        later = {(step.lead, step.termination) for at, step in soldered if at >= turn}
        again = self._off - {step.lead for _, step in soldered}
        return {joint for joint in self.ways.all_joints - later if joint[0] not in again}
