"""Volts that are lost on the way to a load and back."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.current.circuits import Circuit, Circuits, rail_volts
from tabside.analysis.current.drop_paths import Hop, hops_of
from tabside.analysis.current.flow import Flows
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, Lead
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import listed, name_of


@check("voltage-drop", severity=Severity.WARNING)
def voltage_drop(judgement: Judgement) -> Iterator[Finding]:
    """The volts that the wire and its contacts take from a supply, out and back, at typical currents.

    Passes: short leads; loads, gauges or lengths that are not known.
    Warns: more than 3 % of a regulated rail, 5 % of a battery at its lowest; both settable.
    Source: resistance of copper by the table of wire, contacts by the makers' aged figures; 3 % is the rule of boats
    for critical circuits (ABYC, ISO 10133), 5 % common practice, no source.
    """
    flows = judgement.flows
    if not flows.any_stated:
        return
    for circuit in flows.supplies.circuits:
        sources = flows.sources_of(circuit)
        if circuit.clashes or len(sources) != 1:
            continue
        volts, battery = source_volts(judgement, flows, sources[0])
        if volts:
            yield from _of_source(flows, circuit, sources[0], volts, battery=battery)


def source_volts(judgement: Judgement, flows: Flows, number: int) -> tuple[float | None, bool]:
    """What a node gives, at its lowest, and whether it is the battery."""
    contacts = flows.supplies.nodes[number].contacts
    if any(contact.role.battery for contact in contacts):
        stated = (rail.volts for contact in contacts for rail in contact.gives if rail.battery)
        pack = next((volts for volts in stated if volts is not None), judgement.pack)
        return (pack.low if pack is not None else None), True
    volts = next((volts for contact in contacts if (volts := rail_volts(contact)) is not None), None)
    return (volts.low if volts is not None else None), False


def allowed_percent(flows: Flows, *, battery: bool) -> float:
    limits = flows.craft.settings.limits
    return limits.drop_percent_battery if battery else limits.drop_percent_regulated


def _of_source(flows: Flows, circuit: Circuit, source: int, volts: float, *, battery: bool) -> Iterator[Finding]:
    """One finding for each board at which the limit is first passed on the way from the source."""
    allowed = allowed_percent(flows, battery=battery)
    lost: dict[int, float] = {source: 0.0}
    on_way: dict[int, list[Hop]] = {source: []}
    for hop in hops_of(flows, circuit, source):
        if hop.start not in lost:
            continue
        lost[hop.end] = lost[hop.start] + hop.out_v + (hop.back_v or 0.0)
        on_way[hop.end] = [*on_way[hop.start], hop]
        if _percent(lost[hop.start], volts) <= allowed < _percent(lost[hop.end], volts):
            yield _finding(flows, on_way[hop.end], volts, allowed)


def _percent(lost_v: float, volts: float) -> float:
    return 100 * lost_v / volts - 1e-9


def _finding(flows: Flows, way: list[Hop], volts: float, allowed: float) -> Finding:
    craft = flows.craft
    out = sum(hop.out_v for hop in way)
    back = sum(hop.back_v or 0.0 for hop in way)
    leads = [lead for hop in way for lead in hop.leads]
    unknown = any(hop.back_v is None or not hop.whole for hop in way)
    first, last = _ends(flows, way)
    return Finding(
        rule="voltage-drop",
        severity=Severity.WARNING,
        message=f"Of the {volts:g} V from {name_of(craft, first)}, {'at least ' if unknown else ''}{out + back:.2g} V"
        f" ({100 * (out + back) / volts:.2g} %, allowed {allowed:g} %) are lost on the way to {name_of(craft, last)} at"
        f" {way[-1].amps.typical:.3g} A: {out:.2g} V out, {_back_words(way, back)}"
        f" ({listed([lead.mark for lead in leads], 8)}; copper at {craft.settings.limits.wire_c:g} °C, aged contacts).",
        fix="Use a thicker gauge, shorter or doubled leads; the limit is set in the craft file (limits).",
        where=at_contacts(craft, [first, last]),
        link=way[-1].leads[-1].link,
        harm=harm.TOO_WEAK,
    )


def _back_words(way: list[Hop], back: float) -> str:
    if all(hop.back_v is None for hop in way):
        return "the return not known"
    some = " as far as it is known" if any(hop.back_v is None for hop in way) else ""
    return f"{back:.2g} V back over ground{some}"


def _ends(flows: Flows, way: list[Hop]) -> tuple[Contact, Contact]:
    """The contact that gives, and the one that takes."""
    circuits: Circuits = flows.supplies
    first = _contact_at(flows, circuits, way[0].leads[0], way[0].start)
    last = _contact_at(flows, circuits, way[-1].leads[-1], way[-1].end)
    return first, last


def _contact_at(flows: Flows, circuits: Circuits, lead: Lead, number: int) -> Contact:
    key = next((key for key in lead.ends if circuits.node_of.get(key) == number), lead.ends[0])
    return flows.craft.contact(key)
