"""The current in each lead: what is stated to be taken beyond it.

The flow over a bundle of leads is decided when the bundle is the only way between its two sides and one side has no
source: then it carries all that this side takes.  `Takes` is what a board needs for itself, with what it makes into
other rails; what it passes on is added.  Ground carries back what supplies bring across the same cut.  Everything else
(loops, two feeds) is not determined.  Source: Kirchhoff's current law.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property

from msgspec import Struct

from tabside.analysis.causes.clashes import Clashes
from tabside.analysis.flows.circuits import Circuit, Circuits, Ends, Node, ground_circuits, supply_circuits
from tabside.analysis.joined.lead_amps import Wires
from tabside.model.craft import Craft, Kind, Lead


class Amps(Struct, frozen=True):
    """A current: at most, typically, and whether every load in it is stated (else it is at least this much)."""

    most: float = 0.0
    typical: float = 0.0
    whole: bool = True

    def plus(self, other: Amps, sign: int = 1) -> Amps:
        return Amps(self.most + sign * other.most, self.typical + sign * other.typical, self.whole and other.whole)


class Flow(Struct, frozen=True):
    """The current over a bundle, into its node `into`."""

    amps: Amps
    into: int


class _Tree(Struct, frozen=True):
    """A circuit walked from one node: the order of the walk, where each node was reached from, and the bridges."""

    order: list[int]
    above: dict[int, int]
    bridges: list[tuple[int, int]]  # (upper node, lower node): removing the bundle parts the two


class Flows:
    """All currents of a craft that the drawing decides."""

    def __init__(self, clashes: Clashes) -> None:
        self._clashes = clashes
        self.craft = clashes.craft

    @property
    def wires(self) -> Wires:
        """The leads as conductors."""
        return self._clashes.wires

    @cached_property
    def supplies(self) -> Circuits:
        return supply_circuits(self._clashes)

    @cached_property
    def grounds(self) -> Circuits:
        return ground_circuits(self._clashes)

    @cached_property
    def any_stated(self) -> bool:
        """Whether any load or source states a current: without one there is nothing to work out."""
        return any(
            rail.max_a is not None or rail.typical_a is not None
            for termination in self.craft.terminations.values()
            for rail in (*termination.takes, *termination.gives)
        )

    @cached_property
    def in_supplies(self) -> dict[Ends, Flow]:
        found: dict[Ends, Flow] = {}
        for circuit in self.supplies.circuits:
            if not circuit.clashes:
                found.update(_supply_flows(self, circuit))
        return found

    @cached_property
    def in_grounds(self) -> dict[Ends, Flow]:
        returned = self.returned
        found: dict[Ends, Flow] = {}
        for circuit in self.grounds.circuits:
            if not circuit.clashes:
                found.update(_ground_flows(self.grounds, circuit, returned))
        return found

    def undecided(self, circuits: Circuits) -> list[Lead]:
        """Leads in loops, or fed by two: their current is not determined.  Circuits without a stated load have none."""
        leads: list[Lead] = []
        for circuit in circuits.circuits:
            if circuit.clashes or not self._is_loaded(circuits, circuit):
                continue
            if circuits is self.supplies:
                found = [bundle for ends, bundle in circuit.bundles.items() if ends not in self.in_supplies]
            else:
                alone = {frozenset(pair) for pair in walk(circuit, circuit.nodes[0]).bridges}
                found = [bundle for ends, bundle in circuit.bundles.items() if frozenset(ends) not in alone]
            leads += [lead for bundle in found for lead in bundle]
        return leads

    def _is_loaded(self, circuits: Circuits, circuit: Circuit) -> bool:
        if circuits is self.grounds:
            return any(flow.amps.most > 0 for flow in self.in_supplies.values())
        takes = [rail for number in circuit.nodes for _, rail in circuits.nodes[number].takes]
        return any(rail.max_a or rail.typical_a for rail in takes)

    @cached_property
    def ground_of(self) -> dict[str, int]:
        """Board -> the node of its ground."""
        return {node.board: number for number, node in self.grounds.nodes.items() if node.board is not None}

    @cached_property
    def ground_bundles(self) -> dict[Ends, list[Lead]]:
        return {ends: leads for circuit in self.grounds.circuits for ends, leads in circuit.bundles.items()}

    @cached_property
    def beside_ground(self) -> dict[int, list[int]]:
        return neighbours(self.ground_bundles)

    def sources_of(self, circuit: Circuit) -> list[int]:
        """The nodes that feed a circuit: they give and do not take; those of `Either` only where there are no others.

        A board that passes on what it takes is a source only where nothing else is.  Where no board
        declares a supply, the only board that states no need is the source.
        """
        nodes = self.supplies.nodes
        giving = [number for number in circuit.nodes if _gives(self.craft, nodes[number])]
        silent = [n for n in circuit.nodes if nodes[n].board is not None and not nodes[n].takes]
        for candidates in (
            [n for n in giving if not nodes[n].takes and not nodes[n].either],
            [n for n in circuit.nodes if nodes[n].either],
            giving,
            silent if len(silent) == 1 else [],
        ):
            if candidates:
                return candidates
        return []

    def load_of(self, number: int, sources: list[int]) -> Amps:
        """What a node takes for itself."""
        node = self.supplies.nodes[number]
        if node.board is None or number in sources:
            return Amps()
        takes = [rail for _, rail in node.takes]
        if not takes:
            return Amps(whole=False)
        load = Amps()
        for rail in takes:
            most = rail.max_a if rail.max_a is not None else rail.typical_a
            typical = rail.typical_a if rail.typical_a is not None else rail.max_a
            load = load.plus(Amps(most or 0.0, typical or 0.0, whole=most is not None))
        return load

    @cached_property
    def returned(self) -> Mapping[str, Amps | None]:
        """Board -> what leaves it over ground, which is what its supplies bring in all; None: not decided."""
        returned: dict[str, Amps | None] = {}
        nodes = self.supplies.nodes
        grounded = {None} | {node.board for node in self.grounds.nodes.values()}
        for circuit in self.supplies.circuits:
            for ends in circuit.bundles:
                flow = self.in_supplies.get(ends)
                if flow is not None and nodes[flow.into].board not in grounded:
                    continue  # a buzzer, which returns over a signal to the board that feeds it
                for number in ends:
                    board = nodes[number].board
                    if board is None:
                        continue
                    so_far = returned.get(board, Amps())
                    if flow is None or so_far is None:
                        returned[board] = None
                    else:
                        returned[board] = so_far.plus(flow.amps, 1 if flow.into == number else -1)
        return returned


def _gives(craft: Craft, node: Node) -> bool:
    """Whether a node is stated to feed others, or is a pack by its name."""
    if node.board is None:
        return False
    return any(
        contact.gives
        or contact.pin_type == "power_out"
        or (contact.role.battery and not contact.takes and craft.terminations[contact.termination].kind is Kind.CAPTIVE)
        for contact in node.contacts
    )


def _supply_flows(flows: Flows, circuit: Circuit) -> Iterator[tuple[Ends, Flow]]:
    sources = flows.sources_of(circuit)
    if sources:
        yield from _flows_from(flows, circuit, sources, sources)


def flows_of_one(flows: Flows, circuit: Circuit, source: int) -> dict[Ends, Flow]:
    """What flows when one of several sources feeds the whole circuit: each of two behind diodes may have to."""
    return dict(_flows_from(flows, circuit, flows.sources_of(circuit), [source]))


def _flows_from(flows: Flows, circuit: Circuit, no_loads: list[int], sources: list[int]) -> Iterator[tuple[Ends, Flow]]:
    tree = walk(circuit, sources[0])
    loads = {number: flows.load_of(number, no_loads) for number in circuit.nodes}
    fed = {number: int(number in sources) for number in circuit.nodes}
    for number in reversed(tree.order):
        upper = tree.above.get(number)
        if upper is not None:
            loads[upper] = loads[upper].plus(loads[number])
            fed[upper] += fed[number]
    whole = loads[tree.order[0]]
    for upper, lower in tree.bridges:
        ends = (min(upper, lower), max(upper, lower))
        if not fed[lower]:
            yield ends, Flow(loads[lower], lower)
        elif fed[lower] == len(sources):
            rest = Amps(whole.most - loads[lower].most, whole.typical - loads[lower].typical, whole.whole)
            yield ends, Flow(rest, upper)


def _ground_flows(
    grounds: Circuits, circuit: Circuit, returned: Mapping[str, Amps | None]
) -> Iterator[tuple[Ends, Flow]]:
    below: dict[int, Amps | None] = {}
    for number in circuit.nodes:
        board = grounds.nodes[number].board
        below[number] = returned.get(board, Amps()) if board is not None else Amps()
    feeding = min(circuit.nodes, key=lambda number: (below[number] or Amps()).most)
    tree = walk(circuit, feeding)
    own = dict(below)
    for number in reversed(tree.order):
        upper = tree.above.get(number)
        if upper is not None:
            a, b = below[upper], below[number]
            below[upper] = None if a is None or b is None else a.plus(b)
    above_too = _sums_above(tree, own) if None in own.values() else {}
    for upper, lower in tree.bridges:
        leaving, amps = lower, below[lower]
        if amps is None:
            leaving, amps = upper, above_too.get(lower)
        if amps is None or not amps.whole:
            continue  # a difference of currents that are not all stated bounds nothing
        into = upper + lower - leaving if amps.most >= 0 else leaving
        yield (min(upper, lower), max(upper, lower)), Flow(Amps(abs(amps.most), abs(amps.typical)), into)


def _sums_above(tree: _Tree, own: Mapping[int, Amps | None]) -> dict[int, Amps | None]:
    """Node -> the sum over all nodes that are not below it; None where one of them is not decided."""
    decided = {number: amps or Amps() for number, amps in own.items()}
    missing = {number: int(amps is None) for number, amps in own.items()}
    for number in reversed(tree.order):
        upper = tree.above.get(number)
        if upper is not None:
            decided[upper] = decided[upper].plus(decided[number])
            missing[upper] += missing[number]
    root = tree.order[0]
    return {
        number: decided[root].plus(decided[number], -1) if missing[number] == missing[root] else None
        for number in tree.order
    }


def neighbours(bundles: Iterable[Ends]) -> dict[int, list[int]]:
    """Node -> the nodes that a bundle joins it to."""
    beside: dict[int, list[int]] = {}
    for a, b in bundles:
        beside.setdefault(a, []).append(b)
        beside.setdefault(b, []).append(a)
    return beside


def walk(circuit: Circuit, start: int) -> _Tree:
    """Walk a circuit from a node, depth first, and find the bundles without which it would fall in two."""
    beside = neighbours(circuit.bundles)
    tree = _Tree([start], {}, [])
    seen_at, lowest = {start: 0}, {start: 0}
    stack = [(start, iter(beside.get(start, ())))]
    while stack:
        number, others = stack[-1]
        other = next(others, None)
        if other is None:
            stack.pop()
            upper = tree.above.get(number)
            if upper is not None:
                lowest[upper] = min(lowest[upper], lowest[number])
                if lowest[number] > seen_at[upper]:
                    tree.bridges.append((upper, number))
        elif other not in seen_at:
            tree.above[other] = number
            seen_at[other] = lowest[other] = len(tree.order)
            tree.order.append(other)
            stack.append((other, iter(beside[other])))
        elif other != tree.above.get(number):
            lowest[number] = min(lowest[number], seen_at[other])
    return tree
