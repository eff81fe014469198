"""Bus lines of CAN and RS-485 from end to end, over the boards that pass them on, with their terminators."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.resistors import PAIRS, is_terminator
from tabside.analysis.meeting.two_poles import two_poles
from tabside.model.craft import Contact

_HIGH = {"can": "h", "rs485": "a", "pair": "a"}  # the line of a pair that stands for both


class Terminator(Struct, frozen=True):
    reference: str
    net: int  # of the high line that it stands on


class BusLine(Struct, frozen=True):
    group: str  # "can", "rs485"
    contacts: tuple[Contact, ...]  # of the high line
    nets: tuple[int, ...]  # of the high line: one for each stretch between boards
    terminators: tuple[Terminator, ...]
    boards_on: dict[int, frozenset[str]]  # net -> boards

    @property
    def end_nets(self) -> frozenset[int]:
        """Nets with a board that stands on no other net of the line."""
        count: dict[str, int] = {}
        for boards in self.boards_on.values():
            for board in boards:
                count[board] = count.get(board, 0) + 1
        return frozenset(net for net, boards in self.boards_on.items() if any(count[board] == 1 for board in boards))


def bus_lines(judgement: Judgement) -> Iterator[BusLine]:
    """Each CAN or RS-485 line between at least two boards."""
    craft = judgement.craft
    high: dict[str, dict[int, list[Contact]]] = {}
    for net, contacts in _by_net(judgement).items():
        groups = {c.role.group for c in contacts if c.role.line and c.role.line == _HIGH.get(c.role.group)}
        for group in PAIRS:
            if group in groups and len({craft.terminations[c.termination].board for c in contacts}) > 1:
                high.setdefault("can" if group == "can" else "rs485", {})[net] = contacts
                break
    runs = judgement.solid_runs  # a jumper, a switch or a fuse may stand between the line and its terminator
    resistors = {
        resistor.reference: frozenset(runs.get(net, -1) for net in resistor.nets)
        for resistor in two_poles(craft, "R")
        if is_terminator(resistor.value)
    }
    for group, nets in high.items():
        for together in _joined(judgement, nets):
            on = {net: frozenset(craft.terminations[c.termination].board for c in nets[net]) for net in together}
            stated = tuple(
                Terminator(ref, net) for net in together for ref, ends in resistors.items() if runs[net] in ends
            )
            members = tuple(contact for net in together for contact in nets[net])
            yield BusLine(group, members, tuple(together), stated, on)


def _by_net(judgement: Judgement) -> dict[int, list[Contact]]:
    found: dict[int, list[Contact]] = {}
    for end in judgement.ends:
        for contact in end.contacts:
            found.setdefault(contact.net_id, []).append(contact)
    return found


def _joined(judgement: Judgement, nets: dict[int, list[Contact]]) -> list[list[int]]:
    """Nets of one line: a board that stands on two of them passes it on, unless their numbers differ."""
    board_of = {reference: termination.board for reference, termination in judgement.craft.terminations.items()}
    ports = {net: {(board_of[contact.termination], contact.role.index) for contact in nets[net]} for net in nets}
    left, found = list(nets), []
    while left:
        group, reached, before = [left[0]], set(ports[left[0]]), left
        left = left[1:]
        while len(left) < len(before):
            before, left = left, []
            for net in before:
                if ports[net].isdisjoint(reached):
                    left.append(net)
                else:
                    group.append(net)
                    reached |= ports[net]
        found.append(group)
    return found
