"""Power trees drawn by dice: a pack, a fuse, splices, a drive, one or two regulators and their loads; then one fault.

Every number is drawn so that the sound tree holds each limit with room to spare; a fault breaks one of them.  Limits
of wire: the handbook table for open-air chassis wiring (trade page, grade C).  The mixtures are common practice.
"""

from __future__ import annotations

import random
from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace

from crafts.craft_kit import Symbol, captive, craft, pads, plug, power, splice
from tabside.model.craft import CraftSettings
from tabside.model.findings import Severity
from tabside.rules import check_craft

WIRE_A = {18: 16.0, 16: 22.0, 14: 32.0, 12: 41.0, 10: 55.0}  # by AWG
CAPACITOR_V = (16, 25, 35, 50, 63)


class PowerTree(Struct, frozen=True):
    cells: int
    gauge: int
    mm: float  # of every lead
    drive_a: float
    fuse: str
    gives_a: float  # of each regulator
    loads_a: tuple[float, ...]
    capacitor: str
    capacitor_nets: tuple[str, str] = ("B", "GND")  # plus, minus
    pins: int = 1  # of a splice: one that all leads meet, or one for each
    two_regulators: bool = False
    diodes: str = "AK"  # of the two regulators: anode first; "" no diodes
    coil: bool = False

    def symbols(self) -> list[Symbol]:
        low, high = 2 * self.cells, 5 * self.cells
        symbols = [
            captive("X1", "A GND", board="pack", signals="BAT+, BAT-", gives=f"{self.cells}S 90A"),
            _two("F1", "A", "B1" if self.pins > 1 else "B", value=self.fuse),
            *self._splice("SP1", "B", 4),
            pads(
                "TP1",
                ["B2" if self.pins > 1 else "B", "GND"],
                board="drive",
                signals="VBAT, GND",
                takes=f"{low}-{high}V {self.drive_a}A",
            ),
            _polarised("C1", *self.capacitor_nets, value=self.capacitor),
            power("GND"),
        ]
        regulators = 2 if self.two_regulators else 1
        for n in range(regulators):
            battery = f"B{3 + n}" if self.pins > 1 else "B"
            symbols.append(
                pads(
                    f"TP{2 + n}",
                    [battery, "GND"],
                    board=f"regulator {n}",
                    signals="VIN, GND",
                    takes=f"{low}-{high}V 1A",
                )
            )
            out = f"R{n}" if regulators > 1 and self.diodes else ("V1", "V9")[n] if self.pins > 1 else "V"
            symbols.append(
                pads(
                    f"TP{12 + n}", [out, "GND"], board=f"regulator {n}", signals="5V, GND", gives=f"5V {self.gives_a}A"
                )
            )
            if regulators > 1 and self.diodes:
                rail = ("V1", "V9")[n] if self.pins > 1 else "V"
                anode, cathode = (out, rail) if self.diodes == "AK" else (rail, out)
                symbols.append(
                    plug(f"D{n + 1}", [cathode, anode], value="SS54", lib_id="Device:D_Schottky", names=["K", "A"])
                )
        symbols += self._splice("SP2", "V", 9)
        for n, amps in enumerate(self.loads_a):
            net = f"V{n + 2}" if self.pins > 1 else "V"
            symbols.append(
                pads(f"TP{20 + n}", [net, "GND"], board=f"load {n}", signals="5V, GND", takes=f"4-5.5V {amps}A")
            )
        if self.coil:
            symbols.append(_two("L1", "V2" if self.pins > 1 else "V", "GND", value="22uH"))
        return symbols

    def _splice(self, reference: str, net: str, pins: int) -> list[Symbol]:
        if self.pins == 1:
            return [splice(reference, net)]
        return [plug(reference, [f"{net}{n + 1}" for n in range(pins)], kind="splice")]

    def findings(self) -> dict[str, Severity]:
        """Rules with the worst severity of their findings, without notes."""
        references = [symbol.reference for symbol in self.symbols() if not symbol.is_power]
        lengths = {(a, b): self.mm for a in references for b in references if a != b}
        settings = CraftSettings(gauge_awg=self.gauge, lengths_mm=lengths)
        found: dict[str, Severity] = {}
        for each in check_craft(craft(*self.symbols(), settings=settings)).findings:
            if each.severity is not Severity.NOTE:
                found[each.rule] = min(found.get(each.rule, each.severity), each.severity, key=lambda one: one.rank)
        return found


def _two(reference: str, a: str, b: str, value: str) -> Symbol:
    return plug(reference, [a, b], value=value, lib_id=f"Device:{reference[0]}", names=["~", "~"])


def _polarised(reference: str, plus: str, minus: str, value: str) -> Symbol:
    return plug(reference, [plus, minus], value=value, lib_id="Device:C_Polarized", names=["~", "~"])


def sound_tree(seed: int) -> PowerTree:
    """Always the same for one seed."""
    dice = random.Random(seed * 31 + 5)
    cells = dice.randint(3, 6)
    gauge = dice.choice(sorted(WIRE_A))
    limit = WIRE_A[gauge]
    drive = round(dice.uniform(0.3, 0.6) * limit, 1)
    fuse = round(dice.uniform(drive + 2.2, limit - 0.1), 1)
    gives = dice.choice((3.0, 5.0, 8.0))
    count = dice.randint(1, 5)
    loads = tuple(round(dice.uniform(0.3, 0.7) * gives / count, 2) for _ in range(count))
    volts = dice.choice([each for each in CAPACITOR_V if each >= 4.2 * cells * 1.05])
    pins = dice.choice((1, 1, 9))
    two = dice.random() < 0.4
    return PowerTree(
        cells=cells,
        gauge=gauge,
        mm=dice.choice((40.0, 60.0, 90.0)),
        drive_a=drive,
        fuse=f"{fuse}A",
        gives_a=gives,
        loads_a=loads,
        capacitor=f"{dice.choice((220, 470, 1000))}u {volts}V",
        capacitor_nets=("B2" if pins > 1 else "B", "GND"),
        pins=pins,
        two_regulators=two,
    )


class PowerFault(Struct, frozen=True):
    what: str
    tree: PowerTree
    told_as: tuple[str, ...]  # one of these rules must say it


def power_faults(tree: PowerTree, seed: int) -> Iterator[PowerFault]:
    """One fault of each kind that the tree can have."""
    dice = random.Random(seed * 977 + 3)
    limit, load = WIRE_A[tree.gauge], tree.drive_a
    plus, minus = tree.capacitor_nets
    capacity = tree.capacitor.split()[0]
    yield PowerFault("fuse above the wire", replace(tree, fuse=f"{limit * dice.uniform(1.1, 6):.0f}A"), ("fuse-size",))
    yield PowerFault("fuse below the load", replace(tree, fuse=f"{load * dice.uniform(0.1, 0.8):.1f}A"), ("fuse-size",))
    yield PowerFault("thin wire", replace(tree, gauge=dice.choice((26, 28, 30))), ("over-current-wire",))
    yield PowerFault("long wire", replace(tree, mm=dice.uniform(9000, 20000)), ("voltage-drop",))
    yield PowerFault("drive above the wire", replace(tree, drive_a=round(limit * 1.3, 1)), ("over-current-wire",))
    if not tree.two_regulators:
        loads = (*tree.loads_a[:-1], round(tree.gives_a * dice.uniform(1.1, 2), 2))
        yield PowerFault("regulator overloaded", replace(tree, loads_a=loads), ("over-budget",))
    low = dice.choice((6.3, 10))
    yield PowerFault("capacitor of too few volts", replace(tree, capacitor=f"{capacity} {low}V"), ("part-reversed",))
    yield PowerFault("capacitor turned", replace(tree, capacitor_nets=(minus, plus)), ("part-reversed",))
    yield PowerFault("coil across 5 V", replace(tree, coil=True), ("part-reversed",))
    yield PowerFault("two regulators tied", replace(tree, two_regulators=True, diodes=""), ("two-sources",))
    yield PowerFault("diodes turned", replace(tree, two_regulators=True, diodes="KA"), ("part-reversed",))


# The pack's leads are drawn bare and short before the fuse; what is beside the point here.
BESIDE_THE_POINT = frozenset(("fuse-missing", "not-connected"))


def power_missed_and_false(seed: int) -> Iterator[str]:
    """What the checks get wrong for one seed, a line each."""
    tree = sound_tree(seed)
    wrong = tree.findings().keys() - BESIDE_THE_POINT
    if wrong:
        yield f"seed {seed}: false alarm in a power tree: {sorted(wrong)} ({tree})"
    for fault in power_faults(tree, seed):
        found = fault.tree.findings()
        if not found.keys() & set(fault.told_as):
            yield f"seed {seed}: missed: {fault.what}: {sorted(found)} ({fault.tree})"
