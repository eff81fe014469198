"""Volts that are lost on the way to a load and back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tabside.analysis import harm
from tabside.analysis.current.drop_limits import Drop, drops_beyond
from tabside.analysis.flows.circuits import Circuits
from tabside.analysis.flows.drop_paths import Hop
from tabside.analysis.flows.flow import Flows
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, Lead
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import listed, name_of

RAIL_LOW, MOST_LOST = 0.95, 0.10  # of a regulated rail; common practice, no source


@check("voltage-drop", severity=Severity.WARNING)
def voltage_drop(judgement: Judgement) -> Iterator[Finding]:
    """Wire and contacts take volts from a supply, out and back: a board at the end of a thin, long cable sees less.

    A receiver on 4.6 V resets in flight.  Worked out at typical currents, with the most that tinned stranded wire has.

    What is lost on the way out and back is missing at the board, which resets when the load is highest.  Example: 5
    V at 2 A over 1 m of 24 AWG.

    Fix: use a thicker gauge, or shorter or doubled wires.
    Accept: loads that take a wide range of volts.
    Passes: short wires; loads, gauges or lengths that are not known; contacts whose resistance nobody states.
    Warns: more than 3 % of a regulated rail, 5 % of a battery at its lowest; both settable.
    Notes: more than that, up to 10 % of a regulated rail, where the load states a range and what is left of a rail that
    is 5 % low lies in it.
    Source: resistance of wire by FAA AC 43.13-1B Table 11-9, contacts by the makers' aged figures; 3 % is the rule of
    boats for critical circuits (ABYC, ISO 10133); 5 and 10 % are common practice, no source.
    """
    if judgement.flows.any_stated:
        for drop in drops_beyond(judgement):
            yield _finding(judgement.flows, drop)


def _finding(flows: Flows, drop: Drop) -> Finding:
    craft, way = flows.craft, drop.way
    lost = drop.out_v + drop.back_v
    leads = [lead for hop in way for lead in hop.leads]
    unknown = any(hop.back_v is None or not hop.whole for hop in way)
    first, last = _ends(flows, way)
    return Finding(
        rule="voltage-drop",
        severity=Severity.NOTE if _is_within_range(last, drop) else Severity.WARNING,
        message=f"Voltage drop from {name_of(craft, first)} to {name_of(craft, last)}: {'at least ' if unknown else ''}"
        f"{lost:.2g} V at {_amps_words(way)} ({100 * lost / drop.volts:.2g} % of {drop.volts:g} V, limit"
        f" {drop.allowed_percent:g} %): {drop.out_v:.2g} V out, {_back_words(way, drop.back_v)}"
        f" ({listed([lead.mark for lead in leads], 8)}; tinned stranded copper at {craft.settings.limits.wire_c:g} °C,"
        " aged contacts).",
        fix="Use a thicker gauge, shorter or doubled wires; the limit is set in the craft file (limits).",
        where=at_contacts(craft, [first, last]),
        link=way[-1].leads[-1].link,
        harm=harm.TOO_WEAK,
    )


def _is_within_range(taker: Contact, drop: Drop) -> bool:
    """Whether the load states a range, and what is left on a regulated rail that is 5 % low lies in it."""
    ranges = [rail.volts for rail in taker.takes if rail.volts is not None and rail.volts.low < rail.volts.high]
    lost = drop.out_v + drop.back_v
    left = drop.volts * RAIL_LOW - lost
    return not drop.battery and lost <= MOST_LOST * drop.volts and any(volts.low <= left for volts in ranges)


def _amps_words(way: Sequence[Hop]) -> str:
    """The current, and how much of it goes on to the end."""
    first, last = (f"{hop.amps.typical:.3g} A" for hop in (way[0], way[-1]))
    return first if first == last else f"{first}, of which {last} go on to the end"


def _back_words(way: Sequence[Hop], back: float) -> str:
    if all(hop.back_v is None for hop in way):
        return "the return not known"
    if all(hop.back_whole and hop.back_v is not None for hop in way):
        return f"{back:.2g} V back over ground"
    return f"{back:.2g} V back over the part of the ground that is known"


def _ends(flows: Flows, way: Sequence[Hop]) -> tuple[Contact, Contact]:
    """The contact that gives, and the one that takes."""
    circuits: Circuits = flows.supplies
    first = _contact_at(flows, circuits, way[0].leads[0], way[0].start)
    last = _contact_at(flows, circuits, way[-1].leads[-1], way[-1].end)
    return first, last


def _contact_at(flows: Flows, circuits: Circuits, lead: Lead, number: int) -> Contact:
    key = next((key for key in lead.ends if circuits.node_of.get(key) == number), lead.ends[0])
    return flows.craft.contact(key)
