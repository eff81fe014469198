"""What the wiring of a bus may be: stubs of CAN and RS-485, capacitance and pull-ups of I2C, each with its source."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from msgspec import Struct

from tabside.analysis.buses.bus_lines import BusLine
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.resistors import read_ohm
from tabside.analysis.meeting.two_poles import two_poles
from tabside.facts.labels.roles import read_label
from tabside.model.craft import Contact, Kind
from tabside.model.roles import RoleClass

# Rise from 0.3 to 0.7 of the supply: ln(0.7 / 0.3).  NXP UM10204 rev 5 section 7.1 [A].
RISE_FACTOR = 0.8473
I2C_MOST_PF = 400.0  # of a line: UM10204 [A]
I2C_DEVICE_PF = 20.0  # of each device, and of a metre of cable at least and at most: NXP note, worked example [A]
I2C_CABLE_PF_M = (50.0, 100.0)
I2C_RISE_S = 1000e-9  # of the slowest mode: UM10204 [A]
I2C_LOW_V, I2C_SINK_A = 0.4, 0.003  # what every device pulls a line down to, and the current it does it with [A]
CAN_TRANSITION_NS, CAN_NS_PER_M = 50.0, 5.0  # CiA 301 V4.2.0 as quoted in a glossary [B]
RS485_RISE_NS, RS485_M_PER_NS = 50.0, 0.2  # a fast transceiver: TI THVD2450 data sheet, "Stub length" [A]


def largest_pull_up_ohm(rise_s: float, farad: float) -> float:
    return rise_s / (RISE_FACTOR * farad)


def smallest_pull_up_ohm(volts: float, low_v: float = I2C_LOW_V, sink_a: float = I2C_SINK_A) -> float:
    return (volts - low_v) / sink_a


def i2c_pf(devices: int, metres: float, pf_per_m: float) -> float:
    return I2C_DEVICE_PF * devices + pf_per_m * metres


def longest_can_stub_m(transition_ns: float = CAN_TRANSITION_NS, ns_per_m: float = CAN_NS_PER_M) -> float:
    """A third of the length that an edge passes there and back while it changes."""
    return transition_ns / (2 * ns_per_m) / 3


def longest_rs485_stub_m(rise_ns: float = RS485_RISE_NS, m_per_ns: float = RS485_M_PER_NS) -> float:
    """There and back within a tenth of the rise time."""
    return rise_ns * m_per_ns / (10 * 2)


class Stub(Struct, frozen=True):
    """A board that hangs off the line between its ends."""

    board: str
    metres: float


def stubs_of(judgement: Judgement, line: BusLine) -> Iterator[Stub]:
    """Branches off the longest way along the line, where all its lengths are known; boards pass the line on."""
    craft = judgement.craft
    beside: dict[str, dict[str, float]] = {}
    for lead in craft.leads:
        if lead.net_id not in line.nets:
            continue
        if lead.length_mm is None:
            return
        a, b = (_node(judgement, reference) for reference, _ in lead.ends)
        beside.setdefault(a, {})[b] = beside.setdefault(b, {})[a] = lead.length_mm / 1000
    if not beside or sum(map(len, beside.values())) // 2 != len(beside) - 1:
        return  # a loop has no ends
    start = _farthest(beside, next(iter(beside)))[0]
    end, above = _farthest(beside, start)
    trunk = {end}
    while end in above:
        end = above[end]
        trunk.add(end)
    for node in beside:
        if node not in trunk and len(beside[node]) == 1:
            at, metres = node, 0.0
            while at not in trunk:
                metres += beside[at][above[at]]
                at = above[at]
            yield Stub(node, metres)


def _node(judgement: Judgement, reference: str) -> str:
    termination = judgement.craft.terminations[reference]
    return reference if termination.kind in (Kind.SPLICE, Kind.INLINE) else termination.board


def _farthest(beside: Mapping[str, Mapping[str, float]], start: str) -> tuple[str, dict[str, str]]:
    """The node farthest from another, and from where each node was reached."""
    far, above, front = {start: 0.0}, {}, [start]
    while front:
        node = front.pop()
        for other, metres in beside[node].items():
            if other not in far:
                far[other] = far[node] + metres
                above[other] = node
                front.append(other)
    return max(far, key=lambda node: far[node]), above


class I2cLine(Struct, frozen=True):
    """One line, SDA or SCL, of an I2C bus."""

    contacts: tuple[Contact, ...]
    metres: float | None  # of all its leads; None: not all known
    pull_ups: tuple[tuple[str, float], ...]  # reference, ohm: to a supply
    volts: float | None  # of that supply

    @property
    def pull_up_ohm(self) -> float | None:
        """Of all of them together."""
        return 1 / sum(1 / ohm for _, ohm in self.pull_ups) if self.pull_ups else None


def i2c_lines(judgement: Judgement) -> Iterator[I2cLine]:
    craft = judgement.craft
    by_net: dict[int, list[Contact]] = {}
    supply_v: dict[int, float | None] = {}
    for end in judgement.ends:
        for contact in end.contacts:
            if contact.role.group == "i2c":
                by_net.setdefault(contact.net_id, []).append(contact)
            elif contact.role.is_supply:
                volts = contact.role.volts
                known = volts.low if volts is not None and volts.low == volts.high else None
                supply_v[contact.net_id] = supply_v.get(contact.net_id) or known
    for net, names in craft.net_names.items():
        roles = [role for name in names if (role := read_label(name)).cls is RoleClass.SUPPLY]
        if roles and not supply_v.get(net):
            supply_v[net] = roles[0].volts.low if roles[0].volts is not None else None
    pulled = [(pole, ohm) for pole in two_poles(craft, "R") if (ohm := read_ohm(pole.value))]
    for net, contacts in by_net.items():
        lengths = [lead.length_mm for lead in craft.leads if lead.net_id == net]
        metres = None if None in lengths else sum(length or 0.0 for length in lengths) / 1000
        ups = [
            (resistor.reference, ohm, far)
            for resistor, ohm in pulled
            for near, far in (resistor.nets, resistor.nets[::-1])
            if near == net and far != net and far in supply_v
        ]
        fed = next((known for _, _, rail in ups if (known := supply_v[rail])), None)
        yield I2cLine(tuple(contacts), metres, tuple((ref, ohm) for ref, ohm, _ in ups), fed)
