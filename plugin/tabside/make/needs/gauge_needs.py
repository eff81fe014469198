"""What each lead must carry and may lose: the ground on which gauges are chosen.

A way from a source to a load may lose what the craft file allows: half of it out, half of it back over ground, in equal
parts for all leads in series on the longest way.  Currents: the most for heat, the typical for the drop.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from tabside.analysis.current.drop_limits import allowed_percent, source_volts
from tabside.analysis.flows.circuits import Circuit, Ends
from tabside.analysis.flows.drop_paths import Hop, ends_of, hops_of
from tabside.analysis.flows.flow import Flow, Flows, walk
from tabside.analysis.joined.lead_amps import SHARED
from tabside.analysis.judgement import Judgement
from tabside.model.craft import Lead
from tabside.model.roles import RoleClass


class Need(NamedTuple):
    """Of one lead.  None: not known."""

    most_a: float | None
    typical_a: float | None
    may_lose_v: float | None


SIGNAL = Need(0.0, 0.0, None)  # logic carries next to nothing; common practice, no source
NOT_KNOWN = Need(None, None, None)


def needs_of(judgement: Judgement) -> dict[str, Need]:
    """Mark -> need, for all leads of the craft."""
    flows = judgement.flows
    needs = {lead.mark: SIGNAL if _is_signal(judgement, lead) else NOT_KNOWN for lead in judgement.craft.leads}
    ways = {id(circuit): _ways(judgement, flows, circuit) for circuit in flows.supplies.circuits}
    by_link: dict[tuple[str, str], list[Need]] = {}
    back: dict[frozenset[str | None], float] = {}
    for circuit in flows.supplies.circuits:
        out_v, back_v = ways[id(circuit)]
        for boards, volts in back_v.items():
            back[boards] = min(volts, back.get(boards, volts))
        for ends, leads in circuit.bundles.items():
            whole = _whole(flows.in_supplies.get(ends), out_v.get(ends))
            for lead in leads:
                needs[lead.mark] = _part(whole, len(leads))
                by_link.setdefault(lead.link, [])
            by_link[leads[0].link].append(whole)
    for circuit in flows.grounds.circuits:
        for ends, leads in circuit.bundles.items():
            boards = frozenset(flows.grounds.nodes[number].board for number in ends)
            flow = flows.in_grounds.get(ends)
            if flow is not None:
                found = _whole(flow, back.get(boards))
                needs |= {lead.mark: _part(found, len(leads)) for lead in leads}
                continue
            for lead in leads:
                beside = [other for other in leads if other.link == lead.link]
                needs[lead.mark] = _part(_sum(by_link.get(lead.link, []), back.get(boards)), len(beside))
    return needs


def _is_signal(judgement: Judgement, lead: Lead) -> bool:
    """Logic at both ends; a buzzer's switched contact returns what its supply brings."""
    roles = [judgement.craft.contact(key).role for key in lead.ends]
    return all(role.cls in (RoleClass.SIGNAL, RoleClass.SHIELD) and role.group != "buzzer" for role in roles)


def _whole(flow: Flow | None, may_lose_v: float | None) -> Need:
    if flow is None or not flow.amps.whole:
        return NOT_KNOWN
    return Need(flow.amps.most, flow.amps.typical, may_lose_v)


def _part(whole: Need, leads: int) -> Need:
    """Of one of so many leads in parallel."""
    if leads == 1 or whole.most_a is None or whole.typical_a is None:
        return whole
    return Need(whole.most_a / leads / SHARED, whole.typical_a / leads, whole.may_lose_v)


def _sum(beside: list[Need], may_lose_v: float | None) -> Need:
    """What returns over a ground in a loop: taken to be all that the supplies of its link bring."""
    most = [need.most_a for need in beside]
    typical = [need.typical_a for need in beside]
    if any(amps is None for amps in (*most, *typical)):
        return NOT_KNOWN
    return Need(sum(amps or 0.0 for amps in most), sum(amps or 0.0 for amps in typical), may_lose_v)


def _ways(
    judgement: Judgement, flows: Flows, circuit: Circuit
) -> tuple[dict[Ends, float], dict[frozenset[str | None], float]]:
    """What each bundle of a circuit may lose, and what the ground between two of its boards may."""
    sources = flows.sources_of(circuit)
    if circuit.clashes or len(sources) != 1:
        return {}, {}
    volts, battery = source_volts(judgement, flows, sources[0])
    if not volts:
        return {}, {}
    half = volts * allowed_percent(flows, battery=battery) / 200
    out = {ends: half / steps for ends, steps in _steps_through(circuit, sources[0])}
    hops = list(hops_of(flows, circuit, sources[0], flows.in_supplies))
    nodes = flows.supplies.nodes
    longest = _longest(hops, sources[0])
    back = {
        frozenset((nodes[hop.start].board, nodes[hop.end].board)): half / steps
        for hop, steps in zip(hops, longest, strict=True)
    }
    return out, back


def _steps_through(circuit: Circuit, source: int) -> Iterator[tuple[Ends, int]]:
    """Each bridge with the bundles in series on the longest way over it."""
    tree = walk(circuit, source)
    depth = {source: 0}
    for number in tree.order[1:]:
        depth[number] = depth[tree.above[number]] + 1
    deepest = dict(depth)
    for number in reversed(tree.order[1:]):
        deepest[tree.above[number]] = max(deepest[tree.above[number]], deepest[number])
    for upper, lower in tree.bridges:
        yield ends_of(upper, lower), deepest[lower]


def _longest(hops: list[Hop], source: int) -> list[int]:
    """For each hop the number of hops on the longest way over it."""
    depth = {source: 0}
    above: dict[int, int] = {}
    for hop in hops:
        above[hop.end] = hop.start
        depth[hop.end] = depth.get(hop.start, 0) + 1
    deepest = dict(depth)
    for hop in reversed(hops):
        deepest[hop.start] = max(deepest.get(hop.start, 0), deepest[hop.end])
    return [deepest[hop.end] for hop in hops]
