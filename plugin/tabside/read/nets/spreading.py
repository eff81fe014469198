"""Spreading names through the hierarchy: sheet pins to hierarchical labels, buses to their members, as KiCad does it.

Pieces are visited in the order of the sheets; what comes first can matter where a drawing names one net in several
global ways, in KiCad as here.
"""

from __future__ import annotations

from collections import deque
from typing import TypeVar

from tabside.read.nets.names.buses import NET, BusRules, Connection
from tabside.read.nets.pieces import Piece, Rank

_T = TypeVar("_T")


_HASH_TABLE_SIZES = (13, 29, 59, 127, 257, 541, 1109, 2357, 5087, 10273)


def _as_kicad_keeps(found: list[_T]) -> list[_T]:
    """The order in which KiCad goes through what it found in this one, where that can decide between names.

    It keeps them in a hash table, which puts a newcomer first and turns all around when it grows.
    """
    kept: deque[_T] = deque()
    for count, one in enumerate(found):
        if count in _HASH_TABLE_SIZES:
            kept.reverse()
        kept.appendleft(one)
    return list(kept)


class Spreading:
    """Gives each piece its final name: pieces with equal full names are one net."""

    def __init__(
        self, pieces: list[Piece], depths: list[int], by_name: dict[str, list[Piece]], rules: BusRules
    ) -> None:
        """`pieces` are those left after joining on each sheet, `depths` those of the sheet instances."""
        self.pieces, self.depths, self.by_name = pieces, depths, by_name
        self.no_aliases = BusRules(kicad=rules.kicad)
        self.ports: dict[tuple[int, str], list[Piece]] = {}  # by sheet and hierarchical label
        self.pins: dict[tuple[int, str], list[Piece]] = {}  # by sheet below and sheet pin
        self.global_texts: dict[str, list[Piece]] = {}
        for piece in pieces:
            for text in dict.fromkeys(piece.hier_ports):
                self.ports.setdefault((piece.sheet, text), []).append(piece)
            for pin in dict.fromkeys(piece.hier_pins):
                self.pins.setdefault(pin, []).append(piece)
            if piece.is_global:
                for text in dict.fromkeys(driver.text for driver in piece.drivers):
                    self.global_texts.setdefault(text, []).append(piece)

    def spread(self) -> None:
        for piece in self.pieces:
            if piece.waiting:
                if piece.is_global and piece.several:
                    self._rename_namesakes(piece)
                self._spread_from(piece, force=False)
        for piece in self.pieces:
            if piece.waiting:
                self._spread_from(piece, force=True)
        for piece in self.pieces:
            if len(piece.bus_parents) > 0:
                self._link_buses(piece)

    def _rename_namesakes(self, piece: Piece) -> None:
        """Pieces elsewhere that bear one of its losing names get its name."""
        main = piece.connection
        for driver in piece.drivers:
            if driver is piece.driver or Connection(driver.origin, driver.text, self.no_aliases).full == main.full:
                continue
            for other in self.global_texts.get(driver.text, ()):
                if other is piece or (driver.rank < Rank.POWER and other.sheet != piece.sheet):
                    continue
                other.connection.take(main)
                other.waiting = False
                self._spread_from(other, force=False)

    def _spread_from(self, piece: Piece, force: bool) -> None:
        stale: dict[int, Connection] = {}
        if piece.connection.is_bus:
            self._tell_members(piece, force, stale)
        if not force and piece.hier_ports and piece.hier_pins:
            return  # it is reached from above or below, or in a second round
        if not piece.hier_ports and not piece.hier_pins:
            piece.waiting = False
            return
        chain = self._chain(piece)
        best = self._best(piece, chain)
        connection = best.connection
        for link in _as_kicad_keeps(chain):
            old = link.connection.full
            link.connection.take(connection)
            self._record(link, old)
            if connection.is_bus:
                self._tell_members(link, force, stale)
        if connection.is_bus:
            self._refresh_members(chain, force, stale)
        piece.waiting = False

    def _chain(self, piece: Piece) -> list[Piece]:
        """All pieces that sheet pins and hierarchical labels join to it, itself first."""
        chain, seen = [piece], {id(piece)}
        for link in chain:  # grows while it is gone through
            for pin in link.hier_pins:
                for below in self.ports.get(pin, ()):
                    if below.strong and id(below) not in seen:
                        seen.add(id(below))
                        chain.append(below)
            for text in link.hier_ports:
                for above in self.pins.get((link.sheet, text), ()):
                    if id(above) not in seen and above.connection.kind is link.connection.kind:
                        seen.add(id(above))
                        chain.append(above)
        for link in chain[1:]:
            link.waiting = False
        return chain

    def _best(self, piece: Piece, chain: list[Piece]) -> Piece:
        """Whose name counts: global, else a label's, else the shallower one's, else the smaller one."""
        best = piece
        if best.is_global:
            return best
        for link in _as_kicad_keeps(chain):
            if link is piece:
                continue
            strong, best_strong = link.rank >= Rank.HIERARCHICAL, best.rank >= Rank.HIERARCHICAL
            depth, best_depth = self.depths[link.sheet], self.depths[best.sheet]
            if (
                link.is_global
                or (strong and not best_strong)
                or (strong and link.rank > best.rank)
                or (strong and link.rank is best.rank and depth < best_depth)
                or (
                    strong is best_strong
                    and depth <= best_depth
                    and link.rank is best.rank
                    and link.connection.full < best.connection.full
                )
            ):
                best = link
        return best

    def _record(self, piece: Piece, old: str) -> None:
        new = piece.connection.full
        if old != new:
            bearers = self.by_name.get(old)
            if bearers and piece in bearers:
                bearers.remove(piece)
            self.by_name.setdefault(new, []).append(piece)

    # Buses

    def _tell_members(self, bus: Piece, force: bool, stale: dict[int, Connection]) -> None:
        """Give the wires tied to a bus the names that its members have by now, or take theirs when they are global."""
        for drawn, wires in list(bus.bus_members.values()):
            for wire in _as_kicad_keeps(list(wires.values())):
                wire = wire.standing()
                member = bus.connection.member_like(drawn) or self._member_by_other_name(bus, wires)
                if member is None or wire.connection.kind is not NET:
                    continue
                old = wire.connection.full
                if old == member.full or wire.connection.origin.sheet != wire.sheet:
                    continue
                if wire.is_global:
                    member.take(wire.connection)
                    stale[id(member)] = member
                    continue
                wire.connection.take(member)
                self._record(wire, old)
                wire.waiting = True
                self._spread_from(wire, force)
                if wire.connection.full != member.full:
                    member.take(wire.connection)
                    stale[id(member)] = member

    def _member_by_other_name(self, bus: Piece, wires: dict[int, Piece]) -> Connection | None:
        for wire in _as_kicad_keeps(list(wires.values())):
            if wire.several:
                for driver in wire.drivers:
                    member = bus.connection.member_like(Connection(driver.origin, driver.text, self.no_aliases))
                    if member is not None:
                        return member
        return None

    def _refresh_members(self, chain: list[Piece], force: bool, stale: dict[int, Connection]) -> None:
        """Members that took a global name while it was spreading get it everywhere on the chain."""
        for renamed in _as_kicad_keeps(list(stale.values())):
            for link in _as_kicad_keeps(chain):
                member = link.connection.member_like(renamed)
                if member is not None:
                    member.take(renamed)
                    self._tell_members(link, force, stale)

    def _link_buses(self, wire: Piece) -> None:
        """Buses that share a wire share that member, also where it has got another name by now."""
        if len(wire.bus_parents) < 2:
            return
        for drawn, buses in list(wire.bus_parents.values()):
            for bus in _as_kicad_keeps(list(buses.values())):
                member = bus.standing().connection.member_like(drawn)
                if member is None or member.full == wire.connection.full:
                    continue
                old = member.full
                member.take(wire.connection)
                for bearer in list(self.by_name.get(old, ())):
                    bearer = bearer.standing()
                    before = bearer.connection.full
                    bearer.connection.take(wire.connection)
                    self._record(bearer, before)
