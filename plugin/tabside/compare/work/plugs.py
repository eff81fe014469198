"""Where the plugs of the old cables are while the work goes on: two plugs never share a connector."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from tabside.compare.fates.cable_fate import KEEP, CableFate, becomes_of_cables
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.wires import Ends
from tabside.compare.side import another_board
from tabside.model.craft import Cable, ContactKey, Kind
from tabside.model.natural import natural

# Goes in turned, or one contact off: "not keyed" in the table of families (connectors.csv, latch_detail).
_NOT_KEYED = frozenset(("pinheader_254", "servo_254"))
_EITHER_WAY = ", its contact 1 at the board's contact-1 mark: it goes in the other way round as well"
OLD = "old "  # before the reference of a termination that the new drawing does not have


class Plugs:
    """Each plug that work begins with, in the connector in which it is now."""

    def __init__(self, rebuild: Rebuild, fates: Iterable[CableFate]) -> None:
        self._old, self._new, self._matching = rebuild
        self._in: dict[str, list[CableFate]] = {}  # connector -> those who work on the plug that is in it
        listed = list(fates)
        self._there = self._plugged(listed)  # connector -> the cable that is in it
        self._aside: set[str] = set()  # connectors whose plug is out for a test
        self._loose: set[tuple[Ends, ContactKey]] = set()  # ends that were taken out for another cable
        for fate in listed:
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
        self._there.pop(seat, None)
        self._aside.discard(seat)
        return True

    def in_the_way(self, fate: CableFate, reference: str) -> tuple[CableFate, str, str] | None:
        """The cable whose plug is in a connector that is wanted now, unplugged by that; the old place of the plug.

        Last where it goes, "" where it goes nowhere; None when the connector is free.
        """
        others = self._in.get(reference)
        if not others or fate in others or others[0].old is None:
            return None
        del self._in[reference]
        self._there.pop(reference, None)
        self._aside.discard(reference)
        other = next((fate for fate in others if any(self.seat(ref) == reference for ref, _ in fate.places)), others[0])
        if other.old is None:
            return None
        was = next(ref for ref in self.ends_of(other.old) if self.seat(ref) == reference)
        places = dict(other.places) if other.wires else {}  # of one that is made whole no old plug goes on
        return other, was, places.get(was, "")

    def _plugged(self, fates: Iterable[CableFate]) -> dict[str, str]:
        """All but those of a pack, which is away before the work begins."""
        numbers = becomes_of_cables(fates)
        found: dict[str, str] = {}
        for cable in self._old.craft.cables:
            ends = [self._old.terminations[ref] for ref in cable.ends]
            if not any(
                termination.kind is Kind.CAPTIVE and termination.board in self._old.packs for termination in ends
            ):
                found |= {self.seat(ref): numbers.get(cable.mark, cable.mark) for ref in self.ends_of(cable)}
        return found

    def others_on(self, board: str, own: Collection[str]) -> list[str]:
        """Connectors of a board of the new drawing in which a plug of another cable is now."""
        found = [ref for ref in self._there if ref in self._new.terminations and ref not in own]
        on_it = (ref for ref in found if self._new.terminations[ref].board == board and ref not in self._aside)
        return sorted(on_it, key=natural)

    def still_in(self, references: Collection[str]) -> list[str]:
        """Those of these connectors in which a plug is now."""
        found = (ref for ref in references if ref in self._there and ref not in self._aside)
        return sorted((ref for ref in found if self._new.terminations[ref].kind is Kind.RECEPTACLE), key=natural)

    def which_way(self, reference: str) -> str:
        """What to see to when a plug that nothing holds the right way round goes in there, else ""."""
        return _EITHER_WAY if self._new.terminations[reference].family in _NOT_KEYED else ""

    def cable_in(self, reference: str) -> str:
        return self._there[reference]

    def lay_aside(self, reference: str) -> None:
        """The plug there is out while its board must be alone."""
        self._aside.add(reference)

    def take_out(self, reference: str) -> None:
        """Of a cable that stays: in hand, until it is plugged in again."""
        self._there.pop(reference, None)
        self._aside.discard(reference)

    def put_back(self, reference: str) -> None:
        self._aside.discard(reference)

    def laid_aside(self) -> list[str]:
        return sorted(self._aside, key=natural)

    def is_aside(self, old_reference: str) -> bool:
        """Whether the plug there is out already."""
        return self.seat(old_reference) in self._aside

    def plug_in(self, reference: str, cable: str) -> None:
        self._there[reference] = cable

    def loosen(self, wire: Ends, key: ContactKey) -> None:
        """An end that goes into another cable has been taken out."""
        self._loose.add((wire, key))

    def is_loose(self, wire: Ends, key: ContactKey) -> bool:
        return (wire, key) in self._loose
