"""Which supplies lose more volts on their way than a load may lose."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from msgspec import Struct

from tabside.analysis.flows.circuits import Circuit, Ends, rail_volts
from tabside.analysis.flows.drop_paths import Hop, hops_of
from tabside.analysis.flows.flow import Flow, Flows, flows_of_one
from tabside.analysis.joined.joints import letters_of
from tabside.analysis.judgement import Judgement


class Drop(Struct, frozen=True):
    """The way from a source to the first board at which the limit is passed."""

    way: tuple[Hop, ...]
    volts: float  # of the source, at its lowest
    allowed_percent: float
    battery: bool = False

    @property
    def out_v(self) -> float:
        return sum(hop.out_v for hop in self.way)

    @property
    def back_v(self) -> float:
        return sum(hop.back_v or 0.0 for hop in self.way)


def drops_beyond(judgement: Judgement) -> Iterator[Drop]:
    """One for each board at which the limit is first passed on the way from its source.

    Of several sources behind diodes each is looked at as if it fed alone: the others may be off.
    """
    flows = judgement.flows
    for circuit in flows.supplies.circuits:
        sources = flows.sources_of(circuit)
        if circuit.clashes or not sources or (len(sources) > 1 and not _has_diode(flows, circuit)):
            continue
        told: set[int] = set()
        for source in sources:
            volts, battery = source_volts(judgement, flows, source)
            known = flows.in_supplies if len(sources) == 1 else flows_of_one(flows, circuit, source)
            for drop in _of_source(flows, circuit, source, known, volts, battery=battery) if volts else ():
                if drop.way[-1].end not in told:
                    told.add(drop.way[-1].end)
                    yield drop


def _has_diode(flows: Flows, circuit: Circuit) -> bool:
    contacts = (contact for number in circuit.nodes for contact in flows.supplies.nodes[number].contacts)
    return any(letters_of(contact.termination) == "D" for contact in contacts)


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


def _of_source(
    flows: Flows, circuit: Circuit, source: int, known: Mapping[Ends, Flow], volts: float, *, battery: bool
) -> Iterator[Drop]:
    allowed = allowed_percent(flows, battery=battery)
    lost: dict[int, float] = {source: 0.0}
    on_way: dict[int, list[Hop]] = {source: []}
    for hop in hops_of(flows, circuit, source, known):
        if hop.start not in lost:
            continue
        lost[hop.end] = lost[hop.start] + hop.out_v + (hop.back_v or 0.0)
        on_way[hop.end] = [*on_way[hop.start], hop]
        if _percent(lost[hop.start], volts) <= allowed < _percent(lost[hop.end], volts):
            yield Drop(tuple(on_way[hop.end]), volts, allowed, battery)


def _percent(lost_v: float, volts: float) -> float:
    return 100 * lost_v / volts - 1e-9
