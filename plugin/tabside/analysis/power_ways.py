"""Which packs have their volts on what takes current, by what is joined: the joint at which power comes follows.

Every fuse is out and no plug is in while hands are at work.  Common practice of work at packs, no source outside.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Hashable, Iterable, Iterator
from typing import NamedTuple, TypeVar

from tabside.analysis.joined.joints import letters_of
from tabside.analysis.joined.lead_ends import EndKind, MadeLead
from tabside.analysis.joined.part_plugs import packs
from tabside.model.craft import ContactKey, Craft, Kind
from tabside.model.groups import Groups
from tabside.model.natural import natural
from tabside.wiring.terminations.part_kinds import SWITCHED, TAKEN_OUT

_T = TypeVar("_T", bound=Hashable)

Joint = tuple[str, str]  # mark of a wire, and the termination at which it is soldered
_JOINTS = (EndKind.PAD, EndKind.SPLICE, EndKind.INLINE)


class Poles(NamedTuple):
    """One pack's plus and one minus of it, by the nets on which they are."""

    pack: str
    plus: Hashable
    minus: Hashable


class On(NamedTuple):
    """A load that has power, and a pack that gives it."""

    board: str
    pack: str


def loads_on(poles: Iterable[Poles], loads: Iterable[tuple[str, Collection[Hashable]]]) -> frozenset[On]:
    """Packs by way of which, alone, in series or in parallel, one comes from one net of a load to another.

    `loads`: the board of each, and its nets.
    """
    found: set[On] = set()
    every = [each for each in poles if each.plus != each.minus]
    for board, nets in ((board, set(nets)) for board, nets in loads):
        left = _without_dead_ends(every, nets)
        joined: Groups[Hashable] = Groups()
        for each in left:
            joined.join(each.plus, to=each.minus)
        met = Counter(joined.root(net) for net in nets & set(joined.members))
        found |= {On(board, each.pack) for each in left if met[joined.root(each.plus)] > 1}
    return frozenset(found)


def _without_dead_ends(poles: list[Poles], nets: Collection[Hashable]) -> list[Poles]:
    """Without packs of which one pole leads nowhere."""
    while True:
        ends = Counter(net for each in poles for net in (each.plus, each.minus))
        left = [each for each in poles if all(ends[net] > 1 or net in nets for net in (each.plus, each.minus))]
        if len(left) == len(poles):
            return left
        poles = left


class PowerWays:
    """A craft of which some joints are made."""

    def __init__(self, craft: Craft, leads: Iterable[MadeLead]) -> None:
        self._craft, self._leads, self._packs = craft, list(leads), packs(craft)
        inline = [part.reference for part in craft.terminations.values() if part.kind is Kind.INLINE]
        self.fuses = tuple(part for part in inline if letters_of(part) in TAKEN_OUT)
        self.gates = (*self.fuses, *(part for part in inline if letters_of(part) in SWITCHED))

    @property
    def all_joints(self) -> set[Joint]:
        return {(made.lead.mark, end.key[0]) for made in self._leads for end in made.ends if end.kind in _JOINTS}

    def on(self, joints: Collection[Joint], out: Collection[str] | None = None) -> frozenset[On]:
        """What has power when these are soldered, and all parts' own wires are where they come out.

        `out`: fuses that are out, and switches that are off; None: all fuses, and no switch, as hands rely on none.
        """
        nets = self._nets(joints, self.fuses if out is None else out)
        poles = (Poles(pack, nets.root(plus), nets.root(minus)) for pack, plus, minus in self._poles())
        return loads_on(poles, ((board, [nets.root(key) for key in keys]) for board, keys in self._loads()))

    def gates_to(
        self, wire: str, joints: Collection[Joint], minus: Collection[ContactKey] = ()
    ) -> dict[str, list[str]]:
        """Of each pack whose plus comes to the wire, with these joints made: the fuses and switches on its way.

        `minus`: where the other probe is, to which the way goes on; packs of another minus are left out.
        """
        whole = self._nets(joints, ())
        without = {gate: self._nets(joints, {gate}) for gate in self.gates}
        return {
            pack: [gate for gate, nets in without.items() if not self._comes(pack, wire, minus, nets)]
            for pack in sorted(self._plus_at(wire, whole), key=natural)
            if self._comes(pack, wire, minus, whole)
        }

    def _comes(self, pack: str, wire: str, minus: Collection[ContactKey], nets: Groups[ContactKey]) -> bool:
        return pack in self._plus_at(wire, nets) and (not minus or self._meets(pack, minus, nets))

    def _plus_at(self, wire: str, nets: Groups[ContactKey]) -> set[str]:
        there = nets.root(("", wire))
        return {pack for pack, plus, _ in self._poles() if nets.root(plus) == there}

    def _meets(self, pack: str, minus: Collection[ContactKey], nets: Groups[ContactKey]) -> bool:
        """Whether its minus, or that of the pack below it in series, is at one of these."""
        chained, there = nets.copy(), set[ContactKey]()
        for other, plus, low in self._poles():
            if other != pack:
                chained.join(plus, to=low)
            else:
                there.add(low)
        return any(chained.together(key, low) for key in minus for low in there)

    def _nets(self, joints: Collection[Joint], out: Collection[str]) -> Groups[ContactKey]:
        """A wire is a member as ("", mark)."""
        nets: Groups[ContactKey] = Groups()
        for made in self._leads:
            for end in made.ends:
                if end.kind is EndKind.OWN or (end.kind in _JOINTS and (made.lead.mark, end.key[0]) in joints):
                    nets.join(self._node(end.key), to=("", made.lead.mark))
        grounds: dict[str, ContactKey] = {}
        for reference, there in self._craft.terminations.items():
            if there.kind is Kind.INLINE and reference not in out:
                for contact in there.contacts:
                    nets.join(contact.key, to=there.contacts[0].key)
            elif there.kind not in (Kind.SPLICE, Kind.INLINE) and there.board not in self._packs:
                for contact in (contact for contact in there.contacts if contact.role.is_ground):
                    nets.join(contact.key, to=grounds.setdefault(there.board, contact.key))
        return nets

    def _node(self, key: ContactKey) -> ContactKey:
        return (key[0], "") if self._craft.terminations[key[0]].kind is Kind.SPLICE else key

    def _poles(self) -> Iterator[tuple[str, ContactKey, ContactKey]]:
        for there in self._craft.terminations.values():
            if there.board in self._packs:
                minus = [contact.key for contact in there.contacts if contact.role.is_ground]
                plus = [contact.key for contact in there.contacts if not contact.role.is_ground]
                yield from ((there.board, one, other) for one in plus for other in minus)

    def _loads(self) -> Iterator[tuple[str, list[ContactKey]]]:
        found: dict[str, list[ContactKey]] = {}
        for there in self._craft.terminations.values():
            if there.kind not in (Kind.SPLICE, Kind.INLINE) and there.board not in self._packs:
                found.setdefault(there.board, []).extend(contact.key for contact in there.contacts)
        yield from found.items()
