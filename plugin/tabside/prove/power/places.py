"""Where volts are touched: pads by their printed names, else a plug that is out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Set

from tabside.analysis.joined.lead_ends import is_polarised
from tabside.model.craft import Cable, Contact, Kind
from tabside.model.natural import natural
from tabside.model.roles import Volts
from tabside.prove.bench.grounds import known_ground
from tabside.prove.power.limiter import limiter_of
from tabside.prove.power.rows import VoltsThere
from tabside.prove.power.supplies import Supplies
from tabside.words.contacts import name_of, termination_name

_MARGIN = 0.05  # of a regulated rail whose board states no range: common practice, no source


class Places:
    def __init__(self, supplies: Supplies, plugged: Set[str] = frozenset()) -> None:
        """`plugged`: leads of cables that are in; it grows as they go in."""
        self._plugged = plugged
        self._supplies = supplies
        self.limiter = limiter_of(supplies)
        self._world = supplies.world
        self._craft = supplies.craft

    def is_pad(self, contact: Contact) -> bool:
        return self._craft.terminations[contact.termination].kind is Kind.PAD

    def pads(self, reds: Iterable[Contact]) -> str:
        """ "red on driver/J2:1 (BAT+), black on driver/J2:2 (GND); red on …"."""
        return "; then ".join(f"red on {name_of(self._craft, red)}, black on {self.black_of_live(red)}" for red in reds)

    def black(self, red: Contact, board: str | None = None, *, loose: bool = False) -> str:
        """The ground beside it, else one of its board that can be named."""
        termination = self._craft.terminations[red.termination]
        ground = self._ground_beside(red, loose=loose)
        if ground:
            return name_of(self._craft, ground)
        taken = {reference for cable in self._cables_in() for reference in cable.ends}
        return known_ground(self._world, board or termination.board, (red.termination, *taken))

    def black_of_live(self, red: Contact, board: str | None = None, *, loose: bool = False) -> str:
        """The same while there is power: no plug goes in then, so a pad to which the ground goes on will do.

        `loose`: red is on the end of a cable that is in no board: only where a wire ends there is anything.
        """
        termination = self._craft.terminations[red.termination]
        alone = self._ground_beside(red, loose=loose) is None
        pad = self._pad_of_ground(board or termination.board) if alone else None
        return name_of(self._craft, pad) if pad else self.black(red, board, loose=loose)

    def _ground_beside(self, red: Contact, *, loose: bool) -> Contact | None:
        grounds = [contact for contact in self._craft.terminations[red.termination].contacts if contact.role.is_ground]
        wired = [contact for contact in grounds if contact.key in self._world.met]
        return next(iter(wired or ([] if loose else grounds)), None)

    def _pad_of_ground(self, board: str) -> Contact | None:
        """Of a board that has none, and for which its maker names no place: the nearest over wires that are in."""
        held = self._craft.held_boards.get(board)
        if held is not None and held.board.ground_point:
            return None
        met = [board]
        for other in met:
            pads = [contact for contact in self._grounds(other) if contact.label and self.is_pad(contact)]
            if pads:
                return pads[0] if other != board else None
            met += sorted(self._next_on_ground(other).difference(met), key=natural)
        return None

    def _next_on_ground(self, board: str) -> set[str]:
        """Boards to which its ground goes on over solder, or over a cable that is in."""
        cables_in = {mark for cable in self._cables_in() for mark in cable.leads}
        found: set[str] = set()
        for joint in self._supplies.joints:
            boards = self._supplies.boards(joint)
            there = all(mark in cables_in or not self._supplies.pluggable([mark]) for mark in joint.leads)
            if board in boards and there and all(map(self._world.grounded, (joint.a.key, joint.b.key))):
                found.update(boards)
        return found

    def _cables_in(self) -> Iterator[Cable]:
        return (cable for cable in self._craft.cables if not self._plugged.isdisjoint(cable.leads))

    def _grounds(self, board: str) -> Iterator[Contact]:
        for termination in self._craft.terminations.values():
            if termination.board == board and termination.kind in (Kind.PAD, Kind.RECEPTACLE):
                yield from (contact for contact in termination.contacts if self._world.grounded(contact.key))

    def rail(self, met: Contact) -> dict[str, str]:
        """Where it is seen that nothing is left on the board that `met` brings power to, and that in short.

        Nothing where no probe gets in.
        """
        board = self._craft.terminations[met.termination].board
        red = min(self._same_rail(met, board), key=self._ease, default=None)
        if red is None:
            return {}
        termination = self._craft.terminations[red.termination]
        if termination.kind is Kind.PAD:
            how = ""
        elif is_polarised(self._craft, termination.reference):
            how = ", its plug out"
        else:
            how = f", at a spare mating plug with pigtails in {termination_name(self._craft, termination.reference)}"
        name = name_of(self._craft, red)
        return {f"DC volts between {name} and {self.black(red)}{how}": f"{name}{how}"}

    def pad_of(self, board: str) -> dict[str, str]:
        """A supply's pads of the board, where it has some."""
        pads = [
            contact
            for termination in self._craft.terminations.values()
            if termination.board == board and termination.kind is Kind.PAD
            for contact in termination.contacts
            if contact.role.is_supply
        ]
        red = min(pads, key=self._ease, default=None)
        name = name_of(self._craft, red) if red else ""
        return {f"DC volts between {name} and {self.black(red)}": name} if red else {}

    def _same_rail(self, met: Contact, board: str) -> list[Contact]:
        """Contacts of the board on the net of `met`, or that pass the pack on."""
        return [
            contact
            for termination in self._craft.terminations.values()
            if termination.board == board and termination.kind in (Kind.PAD, Kind.RECEPTACLE)
            for contact in termination.contacts
            if contact.role.is_supply and (contact.net_id == met.net_id or contact.role.battery)
        ]

    def _ease(self, contact: Contact) -> tuple[bool, bool, bool]:
        """Its own ground beside it, a pad before a plug of power before a small plug."""
        termination = self._craft.terminations[contact.termination]
        alone = not any(contact.role.is_ground for contact in termination.contacts)
        return (termination.kind is not Kind.PAD, not is_polarised(self._craft, termination.reference), alone)

    def _is_battery(self, contact: Contact) -> bool:
        """Whether a pack's own volts stand there."""
        named = contact.role.battery or any(rail.battery for rail in contact.gives)
        return named or contact.net_id in self._supplies.pack_nets

    def promised(self, near: Contact, far: Contact) -> VoltsThere | None:
        """Lowest and highest volts that the drawing promises at `far`.

        Of a pack there is no lowest: the limiter, its drop not known, lies between.
        """
        volts = self._promised(near, far)
        return (None, volts[1]) if volts and self._from_pack(near) else volts

    def _from_pack(self, contact: Contact) -> bool:
        return self._world.is_pack(contact.termination) or self._is_battery(contact)

    def _promised(self, near: Contact, far: Contact) -> tuple[float, float] | None:
        if self._supplies.in_series and self._from_pack(near):
            return self._supplies.series_volts
        stated = [rail.volts for rail in near.gives if rail.volts is not None and not rail.battery]
        passed_on = near.net_id in self._supplies.pack_nets
        volts = stated[0] if stated else None if passed_on else near.role.volts
        if volts is None and self._is_battery(near):
            pack = self._world.pack
            return (pack.low, pack.high) if pack else None
        if volts is None:
            volts = far.role.volts
        return _with_margin(volts) if volts else None

    def pack_words(self, own: Contact) -> str:
        """What a supply in place of the pack is set to."""
        volts = self._promised(own, own)
        return f"{Volts(*volts)}" if volts else "the volts printed on the pack"

    def expected(self, near: Contact, volts: VoltsThere | None) -> str:
        board = self._craft.terminations[near.termination].board
        if self._from_pack(near) and (volts or self._is_battery(near)):
            most = f", at most {volts[1]:g} V" if volts else ""
            supply = ", or those that the bench supply is set to" if self.limiter.bench_supply else ""
            return f"the pack's volts less what the smoke stopper drops{supply}{most}, no minus sign"
        if volts is None or volts[0] is None:
            return f"what the maker of {board} promises there (the drawing does not say), no minus sign"
        range_words = f"{volts[0]:g} to {volts[1]:g} V, no minus sign"
        return f"{range_words} (no volts at all: see in the manual of {board} whether it switches this output)"


def _with_margin(volts: Volts) -> tuple[float, float]:
    if volts.low != volts.high:
        return (volts.low, volts.high)
    return (round(volts.low * (1 - _MARGIN), 2), round(volts.high * (1 + _MARGIN), 2))
