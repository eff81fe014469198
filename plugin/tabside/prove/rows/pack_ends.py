"""Packs of a craft: where their poles come out, what volts are there, and which of them share both poles."""

from __future__ import annotations

from collections.abc import Collection
from functools import cached_property
from typing import NamedTuple

from tabside.analysis.joined.joints import letters_of
from tabside.model.craft import Contact, Kind, Termination
from tabside.model.natural import natural
from tabside.prove.bench.reading import Bench, State
from tabside.prove.bench.world import Place, PlaceKind, World
from tabside.prove.measurement import At, End

Range = tuple[float, float]  # volts


class Poles(NamedTuple):
    """One pack's own leads, with its plus and its minus."""

    pack: Termination
    plus: Contact
    minus: Contact


def _of_all_cells(contact: Contact) -> tuple[bool, int]:
    """A pack's whole voltage stands at its plus, else at the highest of its balance taps."""
    tap = contact.role.name == "cell_tap"
    return (tap, -(contact.role.index or 0) if tap else 0)


class PackEnds:
    def __init__(self, world: World) -> None:
        self.world = world
        self.craft = world.craft
        self.parts = tuple(reference for reference in world.craft.terminations if world.passes_on(reference))
        self._sound = Bench(world)

    @cached_property
    def packs(self) -> list[Poles]:
        """Each pack's own leads with their plus and their minus."""
        found = []
        for termination in self.craft.terminations.values():
            if self.world.is_pack(termination.reference):
                supplies = [contact for contact in termination.contacts if contact.role.is_supply]
                plus = sorted(supplies, key=_of_all_cells)
                minus = [contact for contact in termination.contacts if contact.role.is_ground]
                if plus and minus:
                    found.append(Poles(termination, plus[0], minus[0]))
        return found

    def ends_of(self, contact: Contact) -> list[End]:
        """Where the pack's contact comes out: cavities of plugs, bare ends for pads."""
        start = Place(PlaceKind.CONTACT, *contact.key)
        sure = self._sound.reaches(start, State(frozenset(self.parts)))
        ends = []
        for place in sorted(sure, key=lambda place: (natural(place.at), natural(place.number))):
            loose_end = place.kind in (PlaceKind.CAVITY, PlaceKind.BARE)
            if loose_end and not self.world.passes_on(place.at):
                ends.append(self._end(place))
        return ends

    def _end(self, place: Place) -> End:
        board = self.craft.terminations[place.at].board
        if place.kind is PlaceKind.BARE:
            return End(At.BARE, board, place.at, place.number, place.lead)
        return End(At.CONTACT, board, place.at, place.number, self.world.wires_at[place][0])

    def between(self, end: End, letters: Collection[str]) -> list[str]:
        """Parts of this kind through which the pack's volts come to this end."""
        kind = PlaceKind.BARE if end.at is At.BARE else PlaceKind.CAVITY
        start = Place(kind, end.termination, end.contact, end.lead or "" if end.at is At.BARE else "")
        packs = {Place(PlaceKind.CONTACT, *plus.key) for _, plus, _ in self.packs}

        def comes(parts: tuple[str, ...]) -> bool:
            return bool(packs & self._sound.reaches(start, State(frozenset(parts))))

        inline = [part for part in self.parts if self.craft.terminations[part].kind is Kind.INLINE]
        found = [part for part in inline if letters_of(part) in letters]
        return [part for part in found if not comes(tuple(other for other in self.parts if other != part))]

    def is_wired(self, pack: Termination) -> bool:
        """Whether a lead meets it: bare ones that meet nothing stay under their maker's tape."""
        return any(contact.key in self.world.met for contact in pack.contacts)

    def volts_of(self, pack: Termination) -> Range | None:
        stated, craft = self.stated(pack), self.world.pack
        return stated or ((craft.low, craft.high) if craft else None)

    def stated(self, pack: Termination) -> Range | None:
        stated = [rail.volts for contact in pack.contacts for rail in contact.gives if rail.volts is not None]
        return (stated[0].low, stated[0].high) if stated else None

    def volts_in_series(self) -> Range | None:
        """Of all packs together: as the craft file says, else the sum of what each says."""
        if self.craft.settings.battery is not None:
            return (self.craft.settings.battery.low, self.craft.settings.battery.high)
        stated = [self.stated(pack) for pack, _, _ in self.packs]
        known = [volts for volts in stated if volts is not None]
        if len(known) < len(stated):
            return None
        return (sum(low for low, _ in known), sum(high for _, high in known))

    def in_parallel(self, pack: Termination) -> list[str]:
        """Packs that share plus and minus with it."""
        nets = self.nets(pack)
        return [
            other.board
            for other, _, _ in self.packs
            if other.reference != pack.reference
            and all(mine & theirs for mine, theirs in zip(nets, self.nets(other), strict=True))
        ]

    def nets(self, pack: Termination) -> tuple[set[int], set[int]]:
        plus = {contact.net_id for contact in pack.contacts if contact.role.is_supply}
        return plus, {contact.net_id for contact in pack.contacts if contact.role.is_ground}
