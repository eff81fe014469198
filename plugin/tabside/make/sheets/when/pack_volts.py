"""Volts of packs before their last joints: one bare end, and one pack behind its fuse or switch, after the other.

Common practice of work at packs, no source outside.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import NamedTuple

from tabside.analysis.joined.joints import letters_of
from tabside.analysis.power_ways import Joint, PowerWays
from tabside.model.craft import Craft
from tabside.prove.bench.switching import switch_words
from tabside.prove.measurement import At, Measurement, probed
from tabside.wiring.terminations.part_kinds import TAKEN_OUT
from tabside.words.cautions import PACKS_WITHIN
from tabside.words.fuses import put_back, put_in, take_out_again

MEASURE_VOLTS = "measure volts now: red lead in the V jack, DC volts, never ohms"


class Volts(NamedTuple):
    """What is measured in one go."""

    wire: str  # whose bare end the red probe is on; "" for none
    gates: tuple[str, ...]  # fuses that are put in, and switches that are switched on for it
    rows: tuple[Measurement, ...]
    again: str = ""  # a further pack that comes to the same places

    def words(self, craft: Craft) -> str:
        told = f"{power_on(self.gates, craft)}{MEASURE_VOLTS}"
        if not self.again:
            return told
        return (
            f"{told}: once more at the same places, {self.again} alone: no minus sign, within {PACKS_WITHIN} of the "
            "pack before it, or charge one of them first"
        )


def volts_in_turn(rows: Iterable[Measurement], ways: PowerWays, joints: Collection[Joint], craft: Craft) -> list[Volts]:
    """`joints`: those that are made by then."""
    found: dict[tuple[str, tuple[str, ...]], list[Measurement]] = {}
    again: dict[tuple[str, ...], str] = {}
    for row in rows:
        minus = [key for end in row.joined for key in probed(end, craft)]
        through = ways.gates_to(row.where.lead, joints, minus) if row.where.lead else {}
        gates = next(iter(through.values()), []) if all(through.values()) else []  # else one is there already
        wire = row.where.lead or "" if row.where.at is At.BARE else ""
        found.setdefault((wire, tuple(gates)), []).append(row)
        again |= {tuple(more): pack for pack, more in through.items() if gates and more != gates}
    told = {gates for _, gates in found}
    return [
        *(Volts(wire, gates, tuple(listed)) for (wire, gates), listed in found.items()),
        *(Volts("", gates, (), pack) for gates, pack in again.items() if gates not in told),
    ]


def power_on(gates: Iterable[str], craft: Craft) -> str:
    """ "put the fuse into F1, switch SW1 on, then ", before what is measured."""
    fuses, switches = _sorts(gates)
    done = [put_in(fuses)] if fuses else []
    shown = [switch_words(craft.terminations[switch]) for switch in switches]
    done += [f"switch {', '.join(shown)} on"] if shown else []
    return f"{', '.join(done)}, then " if done else ""


def powered_again(gates: Iterable[str], craft: Craft) -> str:
    """ "put the fuse back into F1, switch SW1 on", with nothing to measure."""
    fuses, switches = _sorts(gates)
    shown = ", ".join(switch_words(craft.terminations[switch]) for switch in switches)
    return ", ".join([*([put_back(fuses)] if fuses else []), *([f"switch {shown} on"] if shown else [])])


def power_off(gates: Iterable[str]) -> str:
    """ "switch SW1 off, take the fuse out of F1 again": before any hand goes on."""
    fuses, switches = _sorts(gates)
    done = [f"switch {', '.join(switches)} off"] if switches else []
    done += [take_out_again(fuses)] if fuses else []
    return ", ".join(done)


def _sorts(gates: Iterable[str]) -> tuple[list[str], list[str]]:
    listed = list(gates)
    fuses = [gate for gate in listed if letters_of(gate) in TAKEN_OUT]
    return fuses, [gate for gate in listed if gate not in fuses]
