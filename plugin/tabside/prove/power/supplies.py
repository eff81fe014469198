"""What feeds what: the joints of supplies, boards that get power together, packs that come on together."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property

from tabside.analysis.joined.joints import Joint, joints_of, letters_of
from tabside.analysis.joined.lead_ends import EndKind, LeadEnd
from tabside.model.craft import Contact, Kind
from tabside.model.natural import natural
from tabside.model.roles import RoleClass
from tabside.prove.bench.world import PLUGS, SWITCHES, World

_NAMELESS = (RoleClass.PHASE, RoleClass.UNKNOWN)


def _powers_nothing(joint: Joint) -> bool:
    """Ground or a signal: a board that has nothing else soldered on gets its power over its plug, later."""
    return {joint.a.role.cls, joint.b.role.cls} <= {RoleClass.GROUND, RoleClass.SIGNAL, RoleClass.SHIELD}


class Supplies:
    def __init__(self, world: World) -> None:
        self.world = world
        self.craft = world.craft

    @cached_property
    def all(self) -> list[Joint]:
        return [joint for joint in self.joints if joint.a.role.is_supply and joint.b.role.is_supply]

    @cached_property
    def joints(self) -> tuple[Joint, ...]:
        return joints_of(self.craft)

    @cached_property
    def _units(self) -> dict[str, str]:
        """Board -> the first of those that get power together, over solder or a part's own leads."""
        first = {termination.board: termination.board for termination in self.craft.terminations.values()}
        for joint in self.joints:
            if not self.pluggable(joint.leads) and not self.has_pack(joint) and not _powers_nothing(joint):
                old, new = (first[board] for board in self.boards(joint))
                first = {board: new if unit == old else unit for board, unit in first.items()}
        return first

    def unit(self, board: str) -> str:
        return self._units[board]

    def boards(self, joint: Joint) -> tuple[str, str]:
        return (self.board(joint.a), self.board(joint.b))

    def board(self, contact: Contact) -> str:
        return self.craft.terminations[contact.termination].board

    def has_pack(self, joint: Joint) -> bool:
        return self.world.is_pack(joint.a.termination) or self.world.is_pack(joint.b.termination)

    def pluggable(self, leads: Iterable[str]) -> bool:
        return any(self.is_plug(end) for mark in leads for end in self.world.made[mark].ends)

    def is_plug(self, end: LeadEnd) -> bool:
        return end.kind in PLUGS or end.kind is EndKind.MATED

    def members(self, unit: str) -> list[str]:
        boards = dict.fromkeys(termination.board for termination in self.craft.terminations.values())
        return [board for board in boards if self.unit(board) == unit and self._is_board(board)]

    def _is_board(self, board: str) -> bool:
        places = [termination for termination in self.craft.terminations.values() if termination.board == board]
        return any(place.kind not in (Kind.SPLICE, Kind.INLINE) for place in places)

    @cached_property
    def packs(self) -> list[str]:
        references = [reference for reference in self.craft.terminations if self.world.is_pack(reference)]
        return list(dict.fromkeys(self.craft.terminations[reference].board for reference in references))

    def own_and_met(self, joint: Joint) -> tuple[Contact, Contact]:
        """A pack's contact, and that of the board it meets."""
        return (joint.a, joint.b) if self.world.is_pack(joint.a.termination) else (joint.b, joint.a)

    @cached_property
    def from_packs(self) -> list[list[Joint]]:
        """Joints of packs with boards: what comes on in one go stands together.

        Packs that each have a plug of their own come on one after the other.
        """
        groups: dict[str, list[Joint]] = {}
        for joint in self.all:
            if self.has_pack(joint) and not self._both(joint):
                groups.setdefault(self.board(self.own_and_met(joint)[0]), []).append(joint)
        leads = {pack: {mark for joint in found for mark in joint.leads} for pack, found in groups.items()}
        together: list[list[Joint]] = []
        shared: list[Joint] = []
        for pack, found in groups.items():
            others = {mark for other, marks in leads.items() if other != pack for mark in marks}
            if self.pluggable(leads[pack] - others):
                together.append(found)
            else:
                shared += found
        return ([shared] if shared else []) + together

    def _both(self, joint: Joint) -> bool:
        return self.world.is_pack(joint.a.termination) and self.world.is_pack(joint.b.termination)

    def switches(self, joints: Iterable[Joint]) -> list[str]:
        """Switches through which they come, in the order from one end to the other, and those in their grounds."""
        found: dict[str, None] = {}
        for joint in joints:
            found |= dict.fromkeys((*self._switches_of(joint), *self._in_ground.get(frozenset(self.boards(joint)), ())))
        return list(found)

    def _switches_of(self, joint: Joint) -> list[str]:
        inline = [part for part in joint.through if self.craft.terminations[part].kind is Kind.INLINE]
        return [part for part in inline if letters_of(part) in SWITCHES]

    @cached_property
    def _in_ground(self) -> dict[frozenset[str], tuple[str, ...]]:
        """Two boards -> switches that are in every ground between them."""
        found: dict[frozenset[str], tuple[str, ...]] = {}
        for joint in self.joints:
            if joint.a.role.is_ground and joint.b.role.is_ground:
                pair, switches = frozenset(self.boards(joint)), self._switches_of(joint)
                found[pair] = tuple(switch for switch in found.get(pair, switches) if switch in switches)
        return found

    @cached_property
    def pack_nets(self) -> frozenset[int]:
        """Nets of boards to which packs bring their own volts."""
        met = [self.own_and_met(joint)[1] for joint in self.all if self.has_pack(joint) and not self._both(joint)]
        return frozenset(contact.net_id for contact in met)

    @cached_property
    def in_series(self) -> bool:
        """Whether a pack's plus meets another's minus."""
        return any(self._both(joint) and joint.a.role.is_supply is not joint.b.role.is_supply for joint in self.joints)

    @cached_property
    def series_volts(self) -> tuple[float, float] | None:
        """Of all packs together: as the craft file says, else the sum of what each says."""
        if (battery := self.craft.settings.battery) is not None:
            return (battery.low, battery.high)
        stated = [
            next((rail.volts for contact in termination.contacts for rail in contact.gives if rail.volts), None)
            for termination in self.craft.terminations.values()
            if self.world.is_pack(termination.reference)
        ]
        known = [volts for volts in stated if volts is not None]
        return (sum(v.low for v in known), sum(v.high for v in known)) if len(known) == len(stated) else None

    def soldered_on(self, boards: Iterable[str]) -> Iterator[list[tuple[Contact, Contact, Joint]]]:
        """What gets power with these boards over solder: near and far contact; through a switch last, one by one."""
        reached = set(boards)
        inner = [joint for joint in self.all if not self.pluggable(joint.leads) and not self.has_pack(joint)]
        inner = [joint for joint in inner if len(set(self.boards(joint))) > 1]  # a board's own rails bring nothing on
        while True:
            new = [joint for joint in inner if len(reached.intersection(self.boards(joint))) == 1]
            if not new:
                return
            plain = [joint for joint in new if not self.switches([joint])]
            first = self.switches(new)[:1]
            now = plain or [joint for joint in new if self.switches([joint])[:1] == first]
            yield [
                (joint.a, joint.b, joint) if self.board(joint.a) in reached else (joint.b, joint.a, joint)
                for joint in now
            ]
            reached |= {board for joint in now for board in self.boards(joint)}

    @cached_property
    def fed(self) -> set[str]:
        """Boards to which a supply is drawn."""
        return {board for joint in self.all for board in self.boards(joint)}

    def straight(self, fed: Iterable[Joint]) -> set[str]:
        """Boards that get power over these joints of packs, and over solder from there, no switch between."""
        reached = {self.board(self.own_and_met(joint)[1]) for joint in fed}
        for found in self.soldered_on(frozenset(reached)):
            if not self.switches(joint for _, _, joint in found):
                reached |= {self.board(far) for _, far, _ in found}
        return reached

    @cached_property
    def parallel(self) -> bool:
        """Whether packs that come on one after the other bring power to one and the same net."""
        met = [self.own_and_met(joint)[1].net_id for joints in self.from_packs for joint in joints]
        return len(self.from_packs) > 1 and len(set(met)) == 1

    def driven(self) -> list[tuple[str, bool]]:
        """Parts that a board drives, and whether it is a motor for certain: no contact of theirs is anything else."""
        contacts: dict[str, list[Contact]] = {}
        for termination in self.craft.terminations.values():
            if not self.world.passes_on(termination.reference) and not termination.unread:
                contacts.setdefault(termination.board, []).extend(termination.contacts)
        found = []
        for board in sorted(contacts, key=natural):
            of_board = contacts[board]
            wired = sum(contact.key in self.world.met for contact in of_board)
            if wired > 1 and all(contact.role.cls in _NAMELESS for contact in of_board):
                found.append((board, any(contact.role.cls is RoleClass.PHASE for contact in of_board)))
        return found
