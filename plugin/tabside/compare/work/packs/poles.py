"""What is joined to what while the work goes on, as far as a pack's two poles could meet in it.

A fuse that is out, a switch that is off and a pack's plug that is out keep the current away, but hands do not rely on
them: all that is soldered together counts as joined, but for plugs, which are out.  Common practice, no source outside.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping

from tabside.analysis.joined.lead_ends import EndKind, LeadEnd
from tabside.analysis.power_ways import On, loads_on
from tabside.analysis.power_ways import Poles as PackPoles
from tabside.compare.fates.cable_fate import CableFate
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.side import IN_A_PLUG, Side
from tabside.compare.work.worded import ON, old_number
from tabside.make.sheets.cable_plan import OFF, Step
from tabside.model.craft import ContactKey, Kind, Termination
from tabside.model.groups import Groups

Node = tuple[str, ...]


class Poles:
    """The old build as it becomes the new one, step by step; of a board that stays the new drawing tells the pads."""

    def __init__(
        self,
        rebuild: Rebuild,
        fates: Iterable[CableFate],
        off: Collection[str],
        going: Collection[str],
    ) -> None:
        """`off`: old numbers of wires that come off before all else; `going`: packs that go, or are others now."""
        old = rebuild.old
        self._old, self._new, self._matching = rebuild
        self._going = going
        self._wires_at: dict[Node, set[Node]] = {}
        self._ends_of: dict[Node, set[Node]] = {}
        self._plus: set[Node] = set()
        self._minus: set[Node] = set()
        with_plugs = {wire for fate in fates if not fate.wires for wire in fate.gone}  # they go with their plugs
        for ends, made in old.made.items():
            for end in made.ends:
                goes = made.lead.mark in off or (ends in with_plugs and end.kind in IN_A_PLUG)
                if end.kind is EndKind.OWN or not goes:
                    self._join(("old", made.lead.mark), self._first_node(end))
        self._grounds = dict(self._grounds_of_boards())

    def does(self, step: Step, olds: Mapping[str, str]) -> Node | None:
        """What the step does; of one that joins an end the wire.  `olds`: how steps call an old wire -> its number."""
        if step.cavity is None or step.action not in (*OFF, *ON) or not (step.lead or step.spare):
            return None
        was = old_number(step, olds)
        wire = ("old", was) if was is not None else ("new", step.lead)
        there = self._nodes(step)
        if step.action in OFF:
            for node in there:
                self._ends_of.get(wire, set()).discard(node)
                self._wires_at.get(node, set()).discard(wire)
            return None
        if was is None:
            self._begin(wire, step.lead)
        self._join(wire, there[self._is_plug(step)])
        return wire

    def meeting(self, wire: Node) -> set[Node]:
        """All wires that hang together with it, where both poles of one pack are among what they meet."""
        wires, nodes, waiting = {wire}, set[Node](), [wire]
        while waiting:
            for node in self._beyond(self._ends_of.get(waiting.pop(), set())):
                if node not in nodes:
                    nodes.add(node)
                    more = self._wires_at.get(node, set()) - wires
                    wires |= more
                    waiting += more
        plus, minus = ({node[1] for node in nodes & pole} for pole in (self._plus, self._minus))
        return wires if plus & minus else set()

    def on(self, out: Collection[str]) -> frozenset[On]:
        """What has power as things stand; `out`: fuses that are out, and switches that are off."""
        nets: Groups[Node] = Groups()
        for wire, nodes in self._ends_of.items():
            for node in nodes:
                nets.join(node, to=wire)
        for node in list(nets.members):
            for other in self._beyond({node}):
                if not (node[0] == "at" and node[1].removeprefix(":") in out and node[1:2] == other[1:2]):
                    nets.join(other, to=node)
        packs = {node[1] for node in self._plus} & {node[1] for node in self._minus}
        poles = (
            PackPoles(pack, nets.root(plus), nets.root(minus))
            for pack in packs
            for plus in self._plus
            for minus in self._minus
            if plus[1] == minus[1] == pack
        )
        loads: dict[str, list[Node]] = {}
        for node in nets.members:
            board = self._load_of(node)
            if board:
                loads.setdefault(board, []).append(nets.root(node))
        return loads_on(poles, loads.items())

    def _load_of(self, node: Node) -> str:
        """The board or part that takes current there; "" for none."""
        if node[0] != "at" or len(node) < 3:
            return ""
        was = self._old.terminations.get(node[1].removeprefix(":"))
        there = self._new.terminations.get(node[1]) or was
        if there is None or there.kind in (Kind.SPLICE, Kind.INLINE):
            return ""
        return there.board

    def takes_off(self, step: Step, olds: Mapping[str, str], wires: Collection[Node]) -> bool:
        """Whether the step takes an end of one of these wires off where it is now."""
        was = old_number(step, olds)
        wire = ("old", was) if was is not None else ("new", step.lead)
        if step.action not in OFF or step.cavity is None or wire not in wires:
            return False
        return any(node in self._ends_of.get(wire, ()) for node in self._nodes(step))

    def _join(self, wire: Node, node: Node) -> None:
        self._ends_of.setdefault(wire, set()).add(node)
        self._wires_at.setdefault(node, set()).add(wire)

    def _begin(self, wire: Node, mark: str) -> None:
        """Of a wire of the new build where it comes out of a part."""
        made = self._new.made_by_mark.get(mark)
        for end in made.ends if made is not None and wire not in self._ends_of else ():
            if end.kind is EndKind.OWN:
                self._join(wire, self._terminal(self._new, end.key, end.key[0]))

    def _beyond(self, nodes: Collection[Node]) -> Iterator[Node]:
        """These, and what parts and boards join them to."""
        for node in nodes:
            yield node
            for reference in (node[1],) if node[0] == "at" else ():
                there = self._new.terminations.get(reference) or self._old.terminations.get(reference.removeprefix(":"))
                if there is not None and there.kind is Kind.INLINE:
                    yield from (("at", reference, contact.number) for contact in there.contacts)
            yield from self._grounds.get(node, ())

    def _grounds_of_boards(self) -> Iterator[tuple[Node, tuple[Node, ...]]]:
        """Each ground contact of a board, with all that the board joins to it."""
        found: dict[str, list[Node]] = {}
        for side, places in ((self._new, self._new.terminations), (self._old, self._gone())):
            for reference, termination in places.items():
                name = reference if side is self._new else f":{reference}"
                grounds = [("at", name, contact.number) for contact in termination.contacts if contact.role.is_ground]
                if termination.kind in (Kind.PAD, Kind.RECEPTACLE) and termination.board not in side.packs:
                    found.setdefault(termination.board, []).extend(grounds)
        for nodes in found.values():
            yield from ((node, tuple(nodes)) for node in nodes)

    def _gone(self) -> dict[str, Termination]:
        return {
            ref: termination for ref, termination in self._old.terminations.items() if ref not in self._matching.pairs
        }

    def _first_node(self, end: LeadEnd) -> Node:
        reference, contact = end.key
        name = self._matching.pairs.get(reference, f":{reference}")
        if end.kind is EndKind.OWN:
            return self._terminal(self._old, end.key, name)
        if end.kind in IN_A_PLUG:
            return ("plug", name, contact)
        return self._node(self._old.terminations[reference], name, contact)

    def _node(self, there: Termination, name: str, contact: str) -> Node:
        return ("at", name) if there.kind is Kind.SPLICE else ("at", name, contact)

    def _terminal(self, side: Side, key: ContactKey, name: str) -> Node:
        """Where a wire comes out of a part; of a pack with its pole."""
        board = side.terminations[key[0]].board
        if board not in side.packs:
            return ("at", name, key[1])
        node = ("pack", f":{board}" if side is self._old and board in self._going else name, key[1])
        (self._minus if side.craft.contact(key).role.is_ground else self._plus).add(node)
        return node

    def _nodes(self, step: Step) -> tuple[Node, ...]:
        """Where the step may be: on the board or part, and in its plug."""
        ref, contact = step.termination, step.cavity or ""
        there = (self._old if step.of_old else self._new).terminations[ref]
        names = (f":{ref}", self._matching.pairs.get(ref, "")) if step.of_old else (ref,)
        return tuple(node for name in names for node in (self._node(there, name, contact), ("plug", name, contact)))

    def _is_plug(self, step: Step) -> bool:
        return (not step.of_old and self._new.terminations[step.termination].takes_plug) or self._is_mate(step)

    def _is_mate(self, step: Step) -> bool:
        made = self._new.made_by_mark.get(step.lead)
        key = (step.termination, step.cavity)
        return made is not None and any(end.key == key and end.kind in IN_A_PLUG for end in made.ends)
