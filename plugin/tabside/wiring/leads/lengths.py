"""Path lengths between terminations: from the craft file, said per link or taken from the boards' positions."""

from __future__ import annotations

import math
from collections.abc import Mapping

from tabside.model.craft import CraftSettings, SaidBy, Termination
from tabside.wiring.leads.lead_tree import pair_of


class PathLengths:
    """Lengths in mm, None where nothing says one.  What is said per link outranks positions."""

    def __init__(self, settings: CraftSettings, terminations: Mapping[str, Termination]) -> None:
        self._said = settings.lengths_mm
        self._at_mm = settings.at_mm
        self._loop_mm = settings.service_loop_mm
        self._board = {reference: termination.board for reference, termination in terminations.items()}

    @property
    def any_known(self) -> bool:
        return bool(self._said or self._at_mm)

    def between(self, a: str, b: str) -> tuple[float | None, SaidBy]:
        """The length, and what it was taken from."""
        said = self._said.get(pair_of(a, b))
        if said is not None:
            return said, SaidBy.CRAFT_FILE
        at_a, at_b = (self._at_mm.get(self._board[reference]) for reference in (a, b))
        if at_a is None or at_b is None:
            return None, SaidBy.NOBODY
        return math.dist(at_a, at_b) + self._loop_mm, SaidBy.POSITIONS

    def in_um(self, a: str, b: str) -> int | None:
        """Whole micrometres, so that sums do not depend on their order."""
        length_mm, _ = self.between(a, b)
        return None if length_mm is None else round(length_mm * 1000)
