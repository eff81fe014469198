"""Correct crafts drawn by dice, and crafts with one fault of the trade put into them.

A craft has a controller with a port for each peripheral.  Every port is a link of its own: both ends carry the same
signals in an order of their own, ground and supplies run over shared nets as people draw them (power symbols), and the
names are those that makers print.  `faults_of` lists what can go wrong in one; each is one mistake of the pencil.

    python tests/kits/random_crafts.py --crafts 500 --seed 1     a longer run; prints what slipped through, with seeds

The signals, labels and faults are common practice, no source; what must be said of each follows from the roles alone.
"""

from __future__ import annotations

import argparse
import random
import sys
from collections.abc import Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from crafts.craft_kit import Symbol, captive, craft, pads, plug, power, two_pin
from dice.random_power import power_missed_and_false
from tabside.model.craft import Craft
from tabside.model.findings import Finding, Severity, Verdict
from tabside.rules import check_craft


class Line(Struct, frozen=True):
    """One signal of a port: what both ends call it, and the net when it is shared by the whole craft."""

    controller: tuple[str, ...]  # names to choose from; {n} is the port's number
    peripheral: tuple[str, ...]
    rail: str = ""  # "" makes a net of its own
    kind: str = "signal"  # "ground", "supply", "signal"


GROUND = Line(("GND", "G", "GND"), ("GND", "GND", "Ground", "G"), rail="GND", kind="ground")
FIVE = Line(("5V", "+5V", "5V0"), ("5V", "+5V", "VCC", "VIN"), rail="+5V", kind="supply")
THREE = Line(("3V3", "3.3V"), ("3V3", "3.3V"), rail="+3V3", kind="supply")
NINE = Line(("9V",), ("9V",), rail="+9V", kind="supply")
PACK = Line(("VBAT", "BAT"), ("VBAT", "BAT+", "VBAT"), rail="VBAT", kind="supply")
TX = Line(("TX{n}", "UART{n}_TX", "TX"), ("RX", "RXD", "RX"))
RX = Line(("RX{n}", "UART{n}_RX", "RX"), ("TX", "TXD", "TX"))
RTS = Line(("RTS",), ("CTS",))
CTS = Line(("CTS",), ("RTS",))
SDA = Line(("SDA", "I2C1_SDA_GPS1_EXT", "SDA2"), ("SDA", "SDA"))
SCL = Line(("SCL", "I2C1_SCL_GPS1_EXT", "SCL2"), ("SCL", "SCL"))
CAN_H = Line(("CAN_H", "CANH"), ("CAN_H", "CANH"))
CAN_L = Line(("CAN_L", "CANL"), ("CAN_L", "CANL"))
SCK = Line(("SCK",), ("SCK", "SCLK"))
MISO = Line(("MISO",), ("MISO",))
MOSI = Line(("MOSI",), ("MOSI",))
CS = Line(("nCS", "NSS"), ("nCS", "NSS"))
VIDEO_IN = Line(("VIDEO_IN", "VI"), ("VIDEO_OUT", "VO"))
VIDEO_OUT = Line(("VIDEO_OUT", "VO"), ("VIDEO_IN", "VI"))
CURRENT = Line(("CUR", "CURR"), ("CUR", "CURRENT"))
TELEMETRY = Line(("TLM", "TELEM"), ("TLM", "TEL"))
LED = Line(("LED", "LED_STRIP"), ("LED", "DIN_LED"))
MOTORS = tuple(Line((f"M{k}", f"MOTOR{k}", f"S{k}"), (f"M{k}", f"S{k}")) for k in range(1, 5))

PORTS: dict[str, tuple[Line, ...]] = {
    "radio": (FIVE, GROUND, TX, RX),
    "modem": (FIVE, TX, RX, CTS, RTS, GROUND),
    "compass": (THREE, SCL, SDA, GROUND),
    "positioning": (FIVE, TX, RX, SCL, SDA, GROUND),
    "node": (FIVE, CAN_H, CAN_L, GROUND),
    "sensor": (THREE, SCK, MISO, MOSI, CS, GROUND),
    "camera": (FIVE, GROUND, VIDEO_IN),
    "transmitter": (NINE, GROUND, VIDEO_OUT),
    "driver": (PACK, GROUND, CURRENT, TELEMETRY, *MOTORS),
    "lamp": (FIVE, GROUND, LED),
}
FAMILIES = ("JST SH", "JST GH", "jst_zh", "JST_PH")


class Port(Struct, frozen=True):
    """One link as drawn: the contact order and the nets of both ends."""

    name: str
    controller: str  # references
    peripheral: str
    lines: tuple[Line, ...]
    orders: tuple[tuple[int, ...], tuple[int, ...]]  # order of the lines at the controller, at the peripheral
    labels: tuple[tuple[str, ...], tuple[str, ...]]  # by line
    family: str
    soldered: bool
    stated: bool  # Gives and Takes are drawn

    def nets(self, end: int) -> list[str]:
        return [self.lines[k].rail or f"{self.name}_{self.controller}_{k}" for k in self.orders[end]]

    def names(self, end: int) -> list[str]:
        return [self.labels[end][k] for k in self.orders[end]]


class Plan(Struct, frozen=True):
    """A craft before it is drawn: its ports, and what the pencil got wrong."""

    ports: tuple[Port, ...]
    drawn: tuple[tuple[tuple[str, ...], tuple[str, ...]], ...]  # nets by contact of both ends of each port
    beside: tuple[Symbol, ...] = ()  # what stands on the nets of a port too
    levels: str = ""  # the controller whose port states levels that do not suit

    def symbols(self) -> list[Symbol]:
        symbols = [power(rail) for rail in ("GND", "+5V")]
        for port, (near, far) in zip(self.ports, self.drawn, strict=True):
            supply = next(line for line in port.lines if line.kind == "supply")
            volts = {"+5V": "5V", "+3V3": "3.3V", "+9V": "9V", "VBAT": "VBAT"}[supply.rail]
            gives, takes = (f"{volts} 2A", f"{volts} 0.2A") if port.stated else ("", "")
            if port.name == "driver":
                gives, takes = takes, ""  # the pack gives, the driver passes it on, the controller takes
            board = port.name + port.controller
            symbols.append(
                plug(port.controller, near, board="controller", signals=", ".join(port.names(0)), family=port.family)
            )
            draw = pads if port.soldered else plug
            family = {} if port.soldered else {"family": port.family}
            symbols.append(draw(port.peripheral, far, board=board, signals=", ".join(port.names(1)), **family))
            for at, said, key in ((-2, gives, "Takes" if port.name == "driver" else "Gives"), (-1, takes, "Takes")):
                if said:
                    symbols[at] = replace(symbols[at], fields=dict(symbols[at].fields) | {key: said})
            if port.name == "driver":
                pack = {"signals": "VBAT, GND", "family": "amass_xt60"}
                symbols.append(captive("X1", ["VBAT", "GND"], board="pack", gives="VBAT 30A", **pack))
                symbols.append(plug("X2", ["VBAT", "GND"], board=board, **pack))
            if port.controller == self.levels:
                for reference, fields in (
                    (port.controller, {"Level": "5V"}),
                    (port.peripheral, {"Level max": "3.6V"}),
                ):
                    at = next(n for n, symbol in enumerate(symbols) if symbol.reference == reference)
                    symbols[at] = replace(symbols[at], fields=dict(symbols[at].fields) | fields)
        return [*symbols, *self.beside]

    def craft(self) -> Craft:
        return craft(*self.symbols())


def sound_plan(seed: int) -> Plan:
    """A correct craft, always the same for one seed."""
    dice = random.Random(seed)
    kinds = dice.sample(sorted(PORTS), dice.randint(1, 6))
    ports = tuple(_port(kind, number, dice) for number, kind in enumerate(kinds, start=1))
    return Plan(ports, tuple((tuple(port.nets(0)), tuple(port.nets(1))) for port in ports))


def _port(kind: str, number: int, dice: random.Random) -> Port:
    lines = PORTS[kind]
    count = len(lines)

    def order() -> tuple[int, ...]:
        return tuple(range(count)) if dice.random() < 0.4 else tuple(dice.sample(range(count), count))

    near, far = (
        tuple(dice.choice(names).format(n=number) for names in ends)
        for ends in ([line.controller for line in lines], [line.peripheral for line in lines])
    )
    return Port(
        name=kind,
        controller=f"J{number}",
        peripheral=f"J{number + 20}",
        lines=lines,
        orders=(order(), order()),
        labels=(near, far),
        family=dice.choice(FAMILIES),
        soldered=dice.random() < 0.2,
        stated=dice.random() < 0.5,
    )


class Fault(Struct, frozen=True):
    what: str  # "exchanged", "mirrored", "shifted", "dropped", "wrong rail"
    port: Port
    plan: Plan
    detail: str


def faults_of(plan: Plan, seed: int) -> Iterator[Fault]:
    """One fault of each kind at one port, chosen by the seed, where the port can have it."""
    dice = random.Random(seed * 7919 + 1)
    at = dice.randrange(len(plan.ports))
    port, end = plan.ports[at], dice.randrange(2)
    nets = plan.drawn[at][end]

    def with_nets(changed: Sequence[str]) -> Plan:
        ends = list(plan.drawn[at])
        ends[end] = tuple(changed)
        return replace(plan, drawn=(*plan.drawn[:at], (ends[0], ends[1]), *plan.drawn[at + 1 :]))

    k, m = dice.sample(range(len(nets)), 2)
    swapped = list(nets)
    swapped[k], swapped[m] = swapped[m], swapped[k]
    place = (port.controller, port.peripheral)[end]
    yield Fault("exchanged", port, with_nets(swapped), f"{place}: contacts {k + 1} and {m + 1}")
    yield Fault("mirrored", port, with_nets(nets[::-1]), place)
    turn = dice.randint(1, len(nets) - 1)
    yield Fault("shifted", port, with_nets(nets[turn:] + nets[:turn]), f"{place} by {turn}")
    yield Fault("dropped", port, with_nets([*nets[:k], "-", *nets[k + 1 :]]), f"{place}: contact {k + 1}")
    supplies = [n for n, line in enumerate(port.orders[end]) if port.lines[line].kind == "supply"]
    # Only where the other rail is one of this craft's: a rail of which the drawing knows nothing is another fault.
    rails = {net for drawn in plan.drawn for ends in drawn for net in ends if net in ("+5V", "+9V", "+3V3", "VBAT")}
    other = sorted(rails - {nets[supplies[0]]})
    if other:
        rail = dice.choice(other)
        wrong = [rail if n == supplies[0] else net for n, net in enumerate(nets)]
        yield Fault("wrong rail", port, with_nets(wrong), f"{place}: contact {supplies[0] + 1} on {rail}")


def further_faults(plan: Plan) -> Iterator[Fault]:
    """Faults that no slip of the pencil makes: levels, terminators, two devices on one chip select."""
    for port in plan.ports:
        net = dict(zip((port.lines[k] for k in port.orders[0]), port.nets(0), strict=True))
        if TX in port.lines:
            yield Fault("5 V on 3.6 V", port, replace(plan, levels=port.controller), port.controller)
        if CAN_H in port.lines:
            three = tuple(two_pin(f"R{n}", net[CAN_H], net[CAN_L], value="120R") for n in (91, 92, 93))
            yield Fault("three terminators", port, replace(plan, beside=three), port.controller)
        if CS in port.lines:
            signals = ", ".join(("SCK", "MISO", "MOSI", "nCS", "GND"))
            nets = [*(net[line] for line in (SCK, MISO, MOSI, CS)), "GND"]
            if port.soldered:  # a cavity takes one wire
                other = pads("TP99", nets, board="second sensor", signals=signals)
                yield Fault("two on one select", port, replace(plan, beside=(other,)), port.controller)


# True of crafts whose wiring is right: families fall by chance, and the pack is drawn without a fuse.
_NO_FAULT_OF_THE_PENCIL = ("look-alike", "fuse-missing")


def alarms(verdict: Verdict) -> list[Finding]:
    """What a person would have to act on in the wiring."""
    return [f for f in verdict.findings if f.severity is not Severity.NOTE and f.rule not in _NO_FAULT_OF_THE_PENCIL]


def names_port(finding: Finding, port: Port) -> bool:
    """Whether a finding points at one of the port's two terminations."""
    named = {at.termination for f in (finding, *finding.folded) for at in f.where}
    return bool(named & {port.controller, port.peripheral})


def missed_and_false(seed: int) -> Iterator[str]:
    """What the checks get wrong for one seed, a line each."""
    plan = sound_plan(seed)
    for finding in alarms(check_craft(plan.craft())):
        yield f"seed {seed}: false alarm: {finding.severity} {finding.rule}: {finding.message}"
    for fault in (*faults_of(plan, seed), *further_faults(plan)):
        found = [f for f in alarms(check_craft(fault.plan.craft())) if names_port(f, fault.port)]
        if not found:
            names = " | ".join(", ".join(fault.port.names(end)) for end in (0, 1))
            yield f"seed {seed}: missed: {fault.what} at {fault.detail} ({fault.port.name}: {names})"


def all_wrong(seed: int) -> Iterator[str]:
    """Of the pencil's faults, and of the power tree's."""
    yield from missed_and_false(seed)
    yield from power_missed_and_false(seed)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--crafts", type=int, default=500)
    parser.add_argument("--seed", type=int, default=1)
    arguments = parser.parse_args()
    seeds = range(arguments.seed, arguments.seed + arguments.crafts)
    wrong = [line for seed in seeds for line in all_wrong(seed)]
    print("\n".join(wrong))
    print(f"seeds {seeds[0]} to {seeds[-1]}: {len(wrong)} wrong")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
