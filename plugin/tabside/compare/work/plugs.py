"""Where the plugs of the old cables are while the work goes on: two plugs never share a connector."""

from __future__ import annotations

from collections.abc import Iterable

from tabside.compare.fates.cable_fate import KEEP, CableFate
from tabside.compare.fates.wires import Ends
from tabside.compare.matching import Matching
from tabside.compare.side import Side, another_board
from tabside.model.craft import Cable, ContactKey

OLD = "old "  # before the reference of a termination that the new drawing does not have


class Plugs:
    """Each plug that work begins with, in the connector in which it is now."""

    def __init__(self, old: Side, new: Side, matching: Matching, fates: Iterable[CableFate]) -> None:
        self._old, self._new, self._matching = old, new, matching
        self.old_made = tuple(old.made.values())
        self.old_by_mark = {made.lead.mark: made for made in self.old_made}
        self._in: dict[str, list[CableFate]] = {}  # connector -> those who work on the plug that is in it
        self._loose: set[tuple[Ends, ContactKey]] = set()  # ends that were taken out for another cable
        for fate in fates:
            for ref in self.ends_of(fate.old) if fate.old is not None and fate.what != KEEP else ():
                self._in.setdefault(self.seat(ref), []).append(fate)

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
        if fate not in self._in.get(seat, ()):
            return False
        del self._in[seat]
        return True

    def in_the_way(self, fate: CableFate, reference: str) -> tuple[str, str] | None:
        """The old cable whose plug is in a connector that is wanted now, unplugged by that; and where its plug goes.

        "" where that plug goes nowhere; None when the connector is free.
        """
        others = self._in.get(reference)
        if not others or fate in others or others[0].old is None:
            return None
        del self._in[reference]
        other = next((each for each in others if any(self.seat(ref) == reference for ref, _ in each.places)), others[0])
        if other.old is None:
            return None
        goes = next((to for ref, to in other.places if self.seat(ref) == reference), "")
        return other.old.mark or " and ".join(other.sources) or " ".join(other.old.leads), goes

    def loosen(self, wire: Ends, key: ContactKey) -> None:
        """An end that goes into another cable has been taken out."""
        self._loose.add((wire, key))

    def is_loose(self, wire: Ends, key: ContactKey) -> bool:
        return (wire, key) in self._loose
