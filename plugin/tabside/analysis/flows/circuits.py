"""Supplies and grounds as circuits: nodes that are joined without a lead, and bundles of leads between them.

A node is a splice, an in-line part, or what a board joins inside: its ground, or one rail of its.  A board that is fed
with a rail and gives the same one elsewhere passes it on, and is one node.  A rail that a board makes out of another
one (5 V out of the battery) is a node of its own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import pairwise

from msgspec import Struct

from tabside.analysis.causes.clashes import Clashes
from tabside.analysis.joined.joints import passes, passes_role
from tabside.analysis.meeting.supply_agreement import RAIL_TOLERANCE
from tabside.facts.labels.roles import read_label
from tabside.model.craft import Contact, ContactKey, Craft, Kind, Lead
from tabside.model.groups import Groups
from tabside.model.roles import Rail, Volts
from tabside.wiring.leads.islands import inside_joined

BATTERY = "battery"
Carried = float | str | None  # volts of a rail, BATTERY, or not known
Ends = tuple[int, int]  # two nodes, the smaller number first


class Node:
    """What is joined without a lead.  (Plain classes here: they load several times as fast as data classes.)"""

    __slots__ = ("board", "contacts")

    def __init__(self, board: str | None) -> None:
        self.board = board  # None: a splice or an in-line part
        self.contacts: list[Contact] = []

    @property
    def takes(self) -> list[tuple[str, Rail]]:
        """The stated needs with their terminations, once each however many contacts share them."""
        return list(dict.fromkeys((c.termination, rail) for c in self.contacts for rail in c.takes))

    @property
    def gives(self) -> list[tuple[str, Rail]]:
        return list(dict.fromkeys((c.termination, rail) for c in self.contacts for rail in c.gives))

    @property
    def either(self) -> bool:
        return any(contact.either for contact in self.contacts)


class Circuit:
    """Nodes that leads join, directly or over others; `bundles` are the leads between two nodes."""

    __slots__ = ("bundles", "clashes", "nodes")

    def __init__(self) -> None:
        self.nodes: list[int] = []
        self.bundles: dict[Ends, list[Lead]] = {}
        self.clashes = False  # something on it clashes, which is told as such: nothing is worked out for it


class Circuits(Struct, frozen=True):
    """All circuits of one kind (supplies, or grounds) of a craft."""

    nodes: dict[int, Node]
    node_of: dict[ContactKey, int]
    circuits: list[Circuit]


def supply_circuits(clashes: Clashes) -> Circuits:
    craft = clashes.craft
    members = [contact for contact in _contacts(craft) if is_supply(contact)]
    pieces = _joined_on_nets(craft, members)
    fed = _fed_runs(clashes, members)
    for on_board in _by_board(craft, members).values():
        rails = [(contact, _carried(clashes, contact, fed)) for contact in on_board]
        for a, b in _same_rail(rails):
            pieces.join(b.key, a.key)
    return _circuits(clashes, members, pieces)


def ground_circuits(clashes: Clashes) -> Circuits:
    craft = clashes.craft
    members = [contact for contact in _contacts(craft) if contact.role.is_ground]
    pieces = _joined_on_nets(craft, members)
    for on_board in _by_board(craft, members).values():
        for a, b in pairwise(on_board):
            pieces.join(b.key, a.key)
    return _circuits(clashes, members, pieces)


def is_supply(contact: Contact) -> bool:
    """A contact that carries a rail, by its name or because the drawing states one there."""
    return contact.role.is_supply or bool(contact.gives or contact.takes or contact.either)


def rail_volts(contact: Contact) -> Volts | None:
    """The one voltage that a contact names or gives, None when it names a range or nothing."""
    reading = read_label(contact.label) if contact.label else contact.role
    for volts in (reading.volts, contact.role.volts, *(rail.volts for rail in contact.gives)):
        if volts is not None and volts.low == volts.high:
            return volts
    return None


def _contacts(craft: Craft) -> Iterable[Contact]:
    return (contact for termination in craft.terminations.values() for contact in termination.contacts)


def _joined_on_nets(craft: Craft, members: Sequence[Contact]) -> Groups[ContactKey]:
    """Members joined on their own nets by boards and splices, and through in-line parts."""
    pieces = Groups(contact.key for contact in members)
    by_net: dict[int, list[Contact]] = {}
    by_part: dict[str, dict[str, Contact]] = {}
    for contact in members:
        by_net.setdefault(contact.net_id, []).append(contact)
        if passes(craft, contact.termination):
            by_part.setdefault(contact.termination, {})[contact.number] = contact
    for contacts in by_net.values():
        inside = inside_joined(contacts, craft.terminations)
        for contact in contacts:
            pieces.join(contact.key, inside.root(contact.key))
    for reference, joined in by_part.items():
        part = craft.terminations[reference]
        if part.kind is Kind.SPLICE or passes_role(part):
            for number, contact in joined.items():
                for other in part.beyond(number):
                    if other in joined:
                        pieces.join(joined[other].key, contact.key)
    return pieces


def _by_board(craft: Craft, members: Iterable[Contact]) -> dict[str, list[Contact]]:
    found: dict[str, list[Contact]] = {}
    for contact in members:
        if not passes(craft, contact.termination):
            found.setdefault(craft.terminations[contact.termination].board, []).append(contact)
    return found


def _fed_runs(clashes: Clashes, members: Iterable[Contact]) -> dict[int, dict[str, Carried]]:
    """Run -> what each board that states `Gives` there, or names the rail, feeds it with."""
    fed: dict[int, dict[str, Carried]] = {}
    for contact in members:
        if not contact.takes and not passes(clashes.craft, contact.termination):
            board = clashes.craft.terminations[contact.termination].board
            said = _said(contact)
            if said is not None:
                fed.setdefault(clashes.whole_runs[contact.net_id], {})[board] = said
    return fed


def _said(contact: Contact) -> Carried:
    """What a contact itself says that it carries; a range that it takes says nothing."""
    volts = rail_volts(contact)
    if contact.role.battery or (contact.label and read_label(contact.label).battery):
        return BATTERY
    return volts.low if volts is not None else None


def _carried(clashes: Clashes, contact: Contact, fed: Mapping[int, Mapping[str, Carried]]) -> Carried:
    said = _said(contact)
    if said is not None:
        return said
    board = clashes.craft.terminations[contact.termination].board
    others = fed.get(clashes.whole_runs[contact.net_id], {})
    found = {value for other, value in others.items() if other != board}
    return found.pop() if len(found) == 1 else None


def _same_rail(rails: Sequence[tuple[Contact, Carried]]) -> Iterable[tuple[Contact, Contact]]:
    """Pairs of contacts of one board that carry one rail: the battery, or volts no further apart than clashes begin."""
    yield from pairwise(contact for contact, value in rails if value == BATTERY)
    by_volts = sorted(
        ((value, n, contact) for n, (contact, value) in enumerate(rails) if isinstance(value, float)),
        key=lambda entry: entry[:2],
    )
    for (low, _, a), (high, _, b) in pairwise(by_volts):
        if high - low <= RAIL_TOLERANCE * high + 1e-9:
            yield a, b


def _circuits(clashes: Clashes, members: Sequence[Contact], pieces: Groups[ContactKey]) -> Circuits:
    craft = clashes.craft
    numbers: dict[ContactKey, int] = {}
    nodes: dict[int, Node] = {}
    node_of: dict[ContactKey, int] = {}
    for contact in members:
        number = numbers.setdefault(pieces.root(contact.key), len(numbers))
        board = None if passes(craft, contact.termination) else craft.terminations[contact.termination].board
        node = nodes.setdefault(number, Node(board))
        node.board = node.board or board
        node.contacts.append(contact)
        node_of[contact.key] = number
    bundles: dict[Ends, list[Lead]] = {}
    for lead in craft.leads:
        a, b = (node_of.get(key) for key in lead.ends)
        if a is not None and b is not None and a != b:
            bundles.setdefault((min(a, b), max(a, b)), []).append(lead)
    clashing = clashes.clashing_runs
    runs = clashes.whole_runs

    def is_clashing(number: int) -> bool:
        return any(runs[contact.net_id] in clashing for contact in nodes[number].contacts)

    return Circuits(nodes, node_of, _apart(nodes, bundles, is_clashing))


def _apart(
    nodes: Mapping[int, Node], bundles: Mapping[Ends, list[Lead]], is_clashing: Callable[[int], bool]
) -> list[Circuit]:
    """One circuit for each set of nodes that leads join."""
    groups = Groups(nodes)
    for a, b in bundles:
        groups.join(b, a)
    found: dict[int, Circuit] = {}
    for number in nodes:
        circuit = found.setdefault(groups.root(number), Circuit())
        circuit.nodes.append(number)
        circuit.clashes = circuit.clashes or is_clashing(number)
    for ends, leads in bundles.items():
        found[groups.root(ends[0])].bundles[ends] = leads
    return [circuit for circuit in found.values() if circuit.bundles]
