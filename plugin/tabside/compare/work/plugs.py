"""Where the plugs of the old cables are while the work goes on: two plugs never share a connector."""

from __future__ import annotations

from collections.abc import Iterable

from tabside.compare.fates.cable_fate import KEEP, CableFate
from tabside.compare.matching import Matching
from tabside.compare.side import Side, another_board
from tabside.model.craft import Cable

OLD = "old "  # before the reference of a termination that the new drawing does not have


class Plugs:
    """Each plug that work begins with, in the connector in which it is now."""

    def __init__(self, old: Side, new: Side, matching: Matching, fates: Iterable[CableFate]) -> None:
        self._old, self._new, self._matching = old, new, matching
        self.old_made = tuple(old.made.values())
        self.old_by_mark = {made.lead.mark: made for made in self.old_made}
        self._in: dict[str, CableFate] = {}  # connector -> whose plug is in it
        for fate in fates:
            for ref in self.ends_of(fate.old) if fate.old is not None and fate.what != KEEP else ():
                self._in[self.seat(ref)] = fate

    def ends_of(self, old: Cable) -> set[str]:
        """Where the old cable is plugged in."""
        return self._old.plugged(old.leads)

    def seat(self, old_reference: str) -> str:
        """The connector in words of the new drawing; of its own where the new one does not have it."""
        now = self._matching.pairs.get(old_reference)
        if now is None or another_board(self._old, self._new, old_reference, now):
            return f"{OLD}{old_reference}"
        return now

    def unplug(self, fate: CableFate, old_reference: str) -> bool:
        """Whether this plug of the cable is still in, and now no longer."""
        seat = self.seat(old_reference)
        if self._in.get(seat) is not fate:
            return False
        del self._in[seat]
        return True

    def in_the_way(self, fate: CableFate, reference: str) -> tuple[str, str] | None:
        """The old cable whose plug is in a connector that is wanted now, unplugged by that; and where its plug goes.

        "" where that plug goes nowhere; None when the connector is free.
        """
        other = self._in.get(reference)
        if other is None or other is fate or other.old is None:
            return None
        del self._in[reference]
        goes = next((to for ref, to in other.places if self.seat(ref) == reference), "")
        return other.old.mark or " ".join(other.old.leads), goes
