"""The way of a supply from board to board, and back over ground, with what is lost on it."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping

from msgspec import Struct

from tabside.analysis.flows.circuits import Circuit, Ends
from tabside.analysis.flows.flow import Amps, Flow, Flows, walk
from tabside.analysis.joined.lead_amps import drop_v
from tabside.model.craft import Lead


class Hop(Struct, frozen=True):
    """From one board to the next, over splices and in-line parts between them."""

    start: int  # supply nodes
    end: int
    amps: Amps
    out_v: float
    back_v: float | None  # as far as it is known; None: no ground of known resistance between the two boards
    leads: tuple[Lead, ...]  # out
    whole: bool  # every lead, load and part on the way is known
    back_whole: bool  # and every piece of ground on the way back


def hops_of(flows: Flows, circuit: Circuit, source: int, known: Mapping[Ends, Flow]) -> Iterator[Hop]:
    """All hops of a circuit whose flows are known, those nearer to the source first."""
    tree = walk(circuit, source)
    bridges = set(tree.bridges)
    starts: dict[int, int] = {source: source}  # node -> the board's node from which its hop starts
    so_far: dict[int, tuple[float, bool, tuple[Lead, ...]]] = {source: (0.0, True, ())}
    for number in tree.order[1:]:
        upper = tree.above[number]
        ends = ends_of(upper, number)
        flow = known.get(ends)
        if upper not in so_far or (upper, number) not in bridges or flow is None:
            continue
        ohm = flows.wires.bundle_ohm(circuit.bundles[ends])
        lost, whole, leads = so_far[upper] if upper != starts[upper] else (0.0, True, ())
        lost += 0.0 if ohm is None else drop_v(ohm, 1.0, flow.amps.typical)
        whole = whole and ohm is not None and flow.amps.whole
        so_far[number] = (lost, whole, (*leads, *circuit.bundles[ends]))
        if flows.supplies.nodes[number].board is None:
            starts[number] = starts[upper]
            whole = False  # what the part itself takes is not known
            so_far[number] = (lost, whole, so_far[number][2])
            continue
        starts[number] = number
        links = {lead.link for lead in so_far[number][2]}
        back, whole_back = _back(flows, starts[upper], number, flow.amps, links, first=starts[upper] == source)
        yield Hop(starts[upper], number, flow.amps, lost, back, so_far[number][2], whole and whole_back, whole_back)


def ends_of(a: int, b: int) -> Ends:
    return (min(a, b), max(a, b))


def _back(
    flows: Flows, start: int, end: int, amps: Amps, links: set[tuple[str, str]], *, first: bool
) -> tuple[float | None, bool]:
    """What is lost over ground between two boards, as far as it is known, and whether that is all of it.

    Where grounds run in loops, the current is taken to return the way it came, over the link of the supply; over other
    boards only what is decided counts, and only back to the source itself: else a way would count twice.
    """
    nodes = flows.supplies.nodes
    a, b = (flows.ground_of.get(nodes[number].board or "") for number in (start, end))
    if a is None or b is None:
        return None, False
    path = _path(flows, a, b)
    direct = bool(path)
    if not direct and first:
        path = _path(flows, a, b, over_boards=True)
    lost: list[float] = []
    for ends in path:
        leads, flow = flows.ground_bundles[ends], flows.in_grounds.get(ends)
        beside = [lead for lead in leads if lead.link in links] if flow is None else []
        ohm = flows.wires.bundle_ohm(beside or leads)
        if ohm is not None and (direct or flow is not None):
            lost.append(drop_v(ohm, 1.0, amps.typical if flow is None else flow.amps.typical))
    return (sum(lost) if lost else None), len(lost) == len(path)


def _path(flows: Flows, a: int, b: int, *, over_boards: bool = False) -> list[Ends]:
    """The shortest way between two boards over splices and in-line parts, or over boards as well; [] when none is."""
    above: dict[int, int] = {a: a}
    front = deque([a])
    while front:
        number = front.popleft()
        if number == b:
            way = []
            while number != a:
                way.append(ends_of(above[number], number))
                number = above[number]
            return way[::-1]
        if number != a and not over_boards and flows.grounds.nodes[number].board is not None:
            continue
        for other in flows.beside_ground.get(number, ()):
            if other not in above:
                above[other] = number
                front.append(other)
    return []
