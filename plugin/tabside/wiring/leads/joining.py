"""Step 4 of a net's leads: the cheapest further leads that connect its islands.

A solution is a set of leads that joins all islands with one lead fewer than there are islands, and gives no contact
more leads than it has room for.  The best solution has, in this order, the fewest new pairs of terminations, the most
pairs that get the ground or supply they want, the least length, and the lead list that comes first in natural order.

Seen as a tree over the islands: its nodes are the contacts of one termination in one island, with limited room.  Where
nothing tells the possible leads apart the best tree is known without a search; else `tree_search` finds it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence, Set
from types import MappingProxyType

from msgspec import Struct

from tabside.wiring.leads.lead_tree import (
    Islands,
    LeadEnds,
    Node,
    Pair,
    Slot,
    Spot,
    ends_of,
    lead_order,
    nodes_of,
    pair_of,
    room_is_enough,
)
from tabside.wiring.leads.tree_search import BUDGET, Edge, OutOfBudgetError, TreeSearch

NODES_MAX = 300  # beyond it the pairs of nodes are too many to weigh one by one
TIES_MAX = 60  # nodes up to which equally good trees are put in natural order
LengthUm = Callable[[str, str], int | None]


class Joined(Struct, frozen=True):
    """The further leads of a net."""

    leads: tuple[LeadEnds, ...]  # natural order
    chosen: bool  # other lead lists were as good in all but length and natural order
    note: str = ""  # says that, and how far, the search fell short of proof
    others: Mapping[LeadEnds, tuple[LeadEnds, ...]] = MappingProxyType({})  # lead -> some that would do as well

    def how(self, ends: LeadEnds) -> str:
        """ "chosen" when another lead would do as well, else "joined"."""
        return "chosen" if self.chosen and (ends in self.others or not self.others) else "joined"


def join_islands(
    spots: Sequence[Spot],
    *,
    joined: Set[Pair] = frozenset(),
    wanting: Set[Pair] = frozenset(),
    length_um: LengthUm | None = None,
    budget: int = BUDGET,
) -> Joined | None:
    """The best leads that connect all islands of the spots, or None when there is no solution.

    `joined`: pairs of terminations that leads join already, of any net.  `wanting`: those of them that carry signals
    and have no lead of this ground or supply net yet.  `length_um`: path length in micrometres between two
    terminations; lengths count only when they are known for every pair that could be joined.
    """
    nodes, rooms = nodes_of(spots)
    if len(rooms) < 2:
        return Joined((), False)
    if not room_is_enough(rooms):
        return None
    if len(nodes) > NODES_MAX:
        return _many(nodes, rooms, joined, wanting, length_um is not None)
    edges = _edges(nodes, joined, wanting, length_um)
    if len({(edge.new, edge.unwanted, edge.length) for edge in edges}) == 1 and not any(e.shared for e in edges):
        chosen = not _only_one(nodes, rooms)
        return Joined(_equal_leads(nodes, rooms), chosen)
    return _searched(nodes, rooms, edges, budget)


def _edges(nodes: Sequence[Node], joined: Set[Pair], wanting: Set[Pair], length_um: LengthUm | None) -> list[Edge]:
    """All pairs of nodes of different islands."""
    found = [
        (x, y, pair_of(nodes[x].reference, nodes[y].reference))
        for x in range(len(nodes))
        for y in range(x + 1, len(nodes))
        if nodes[x].island != nodes[y].island
    ]
    times = Counter(pair for _, _, pair in found)
    lengths = {pair: length_um(*pair) if length_um else None for pair in times}
    known = None not in lengths.values()
    return [
        Edge(
            x,
            y,
            pair,
            new=int(pair not in joined),
            unwanted=int(pair not in wanting),
            length=(lengths[pair] or 0) if known else 0,
            shared=times[pair] > 1 and (pair not in joined or pair in wanting),
        )
        for x, y, pair in found
    ]


def _only_one(nodes: Sequence[Node], rooms: Sequence[int]) -> bool:
    """Whether leads that are all alike can be laid in one way only: between single contacts, as a pair or a star."""
    hubs = sum(1 for room in rooms if room > 1)
    single = len(nodes) == len(rooms) and all(len(node.slots) == 1 for node in nodes)
    return single and (len(rooms) == 2 or hubs == 1)


def _equal_leads(nodes: Sequence[Node], rooms: Sequence[int]) -> tuple[LeadEnds, ...]:
    """The first lead list in natural order when all leads weigh the same.

    A lead belongs to it exactly when connecting the rest stays possible, which `Islands.can_join` decides.
    """
    islands = Islands(rooms)
    return tuple(sorted(_lay_equal(nodes, islands), key=lead_order))


def _lay_equal(nodes: Sequence[Node], islands: Islands) -> list[LeadEnds]:
    slots = sorted(((slot, node.island) for node in nodes for slot in node.slots), key=lambda pair: pair[0].order)
    leads = []
    for place, (a, island_a) in enumerate(slots):
        for b, island_b in slots[place + 1 :]:
            if islands.left == 1 or not a.room:
                break
            if b.room and islands.can_join(island_a, island_b):
                islands.join(island_a, island_b)
                leads.append(_lay(a, b))
    return leads


def _lay(a: Slot, b: Slot) -> LeadEnds:
    a.room -= 1
    b.room -= 1
    return ends_of(a.key, b.key)


def _searched(nodes: Sequence[Node], rooms: Sequence[int], edges: Sequence[Edge], budget: int) -> Joined:
    search = TreeSearch(nodes, len(rooms), edges, budget, lengths=True)
    start = _kept_to_room(rooms, nodes, edges, sorted(range(len(edges)), key=lambda i: search.cost([i])))
    tree, bound = search.best(start)
    cost = search.cost(tree)
    note = ""
    if bound == cost:
        try:
            return Joined(_first_in_order(nodes, edges, search, tree), _has_other(nodes, rooms, edges, tree, budget))
        except OutOfBudgetError:
            note = "one of several equally good choices"
    else:
        (new, _, length), (least_new, _, least) = search.parts(cost), search.parts(bound)
        note = (
            f"a good choice, perhaps not the best: wires between {new} more pairs of connectors, no choice needs fewer"
        )
        note += f" than {least_new}" + (
            f"; {length / 1000:.0f} mm, none less than {least / 1000:.0f} mm" if length else ""
        )
    return Joined(_assigned(nodes, [edges[i] for i in tree]), True, note)


def _kept_to_room(
    rooms: Sequence[int], nodes: Sequence[Node], edges: Sequence[Edge], order: Sequence[int]
) -> list[int]:
    """A tree that keeps to the room, cheap edges first: always found when the room is enough."""
    islands = Islands(rooms)
    room = [node.room for node in nodes]
    tree: list[int] = []
    while islands.left > 1:
        for index in order:
            edge = edges[index]
            a, b = nodes[edge.x].island, nodes[edge.y].island
            if room[edge.x] and room[edge.y] and islands.can_join(a, b):
                islands.join(a, b)
                room[edge.x] -= 1
                room[edge.y] -= 1
                tree.append(index)
                if islands.left == 1:
                    break
    return tree


def _first_in_order(
    nodes: Sequence[Node], edges: Sequence[Edge], search: TreeSearch, best: list[int]
) -> tuple[LeadEnds, ...]:
    """Of all trees as cheap as `best`, the leads of the one whose lead list comes first in natural order.

    Raises: OutOfBudgetError.
    """
    if len(nodes) > TIES_MAX:
        raise OutOfBudgetError
    limit = search.cost(best)
    fresh, grown = [_copied(node) for node in nodes], Islands([len(nodes)] * (len(best) + 1))
    taken: list[int] = []
    known = [set(best)]  # cheapest trees that have all edges taken so far
    alive = list(range(len(edges)))
    leads = []
    while len(taken) < len(best):
        alive = [i for i in alive if _open(fresh, edges[i]) and grown.can_join(*_islands(nodes, edges[i]))]
        alive.sort(key=lambda i: lead_order(_next_lead(fresh, edges[i])))
        for index in alive:
            if any(index in tree for tree in known):
                break
            other = search.within(limit, forced=[*taken, index])
            if other is not None:
                known.append(set(other))
                break
        known = [tree for tree in known if index in tree]
        alive = alive[alive.index(index) + 1 :]  # what was passed over is in no cheapest tree with the edges taken
        taken.append(index)
        grown.join(*_islands(nodes, edges[index]))
        leads.append(_lay(*_ends(fresh, edges[index])))
    return tuple(sorted(leads, key=lead_order))


def _assigned(nodes: Sequence[Node], tree: Sequence[Edge]) -> tuple[LeadEnds, ...]:
    """The leads of a tree, each between the first contacts that still have room."""
    fresh = [_copied(node) for node in nodes]
    rest = list(tree)
    leads = []
    while rest:
        edge = min(rest, key=lambda edge: lead_order(_next_lead(fresh, edge)))
        rest.remove(edge)
        leads.append(_lay(*_ends(fresh, edge)))
    return tuple(sorted(leads, key=lead_order))


def _copied(node: Node) -> Node:
    return Node(node.reference, node.island, tuple(Slot(slot.key, slot.order, slot.room) for slot in node.slots))


def _open(nodes: Sequence[Node], edge: Edge) -> bool:
    return nodes[edge.x].next_slot() is not None and nodes[edge.y].next_slot() is not None


def _ends(nodes: Sequence[Node], edge: Edge) -> tuple[Slot, Slot]:
    a, b = nodes[edge.x].next_slot(), nodes[edge.y].next_slot()
    assert a is not None and b is not None
    return a, b


def _next_lead(nodes: Sequence[Node], edge: Edge) -> LeadEnds:
    a, b = _ends(nodes, edge)
    return ends_of(a.key, b.key)


def _islands(nodes: Sequence[Node], edge: Edge) -> tuple[int, int]:
    return nodes[edge.x].island, nodes[edge.y].island


def _has_other(
    nodes: Sequence[Node], rooms: Sequence[int], edges: Sequence[Edge], tree: Sequence[int], budget: int
) -> bool:
    """Whether other leads are as good but for length and order; taken for granted when that takes too long to prove."""
    if any(len(nodes[end].slots) > 1 for i in tree for end in (edges[i].x, edges[i].y)):
        return True
    search = TreeSearch(nodes, len(rooms), edges, budget, lengths=False)
    try:
        return any(search.within(search.cost(tree), forbidden=[index]) is not None for index in tree)
    except OutOfBudgetError:
        return True


def _many(nodes: Sequence[Node], rooms: Sequence[int], joined: Set[Pair], wanting: Set[Pair], lengths: bool) -> Joined:
    """A net too large to weigh: pairs that are joined already first, then natural order; with its bound."""
    islands, loose = Islands(rooms), Islands([len(rooms)] * len(rooms))
    by_reference: dict[str, list[Node]] = {}
    for node in nodes:
        by_reference.setdefault(node.reference, []).append(node)
    leads = []
    for pair in sorted(joined, key=lambda pair: (pair not in wanting, lead_order(((pair[0], ""), (pair[1], ""))))):
        for a in by_reference.get(pair[0], ()):
            for b in by_reference.get(pair[1], ()):
                if loose.can_join(a.island, b.island):
                    loose.join(a.island, b.island)
                slot_a, slot_b = a.next_slot(), b.next_slot()
                if slot_a and slot_b and islands.can_join(a.island, b.island):
                    islands.join(a.island, b.island)
                    leads.append(_lay(slot_a, slot_b))
    new, least = islands.left - 1, loose.left - 1
    leads += _lay_equal(nodes, islands)
    note = f"one of very many choices: wires between {new} more pairs of connectors, no choice needs fewer than {least}"
    plain = new == len(rooms) - 1 and not lengths
    return Joined(tuple(sorted(leads, key=lead_order)), True, "" if plain else note)
