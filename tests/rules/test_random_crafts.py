"""Every fault of the pencil is found, and no sound craft is blamed.

Expectations follow from the roles that makers print and from how the fault was made; common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from dice.random_power import power_missed_and_false
from drawing.drawn_crafts import Drawn, craft_drawing, join, termination
from random_crafts import Plan, faults_of, missed_and_false, sound_plan
from tabside.craft_reading import read_craft
from tabside.model.findings import Verdict
from tabside.rules import check_craft

SEEDS = range(1, 121)


@pytest.mark.parametrize("start", SEEDS[::10])
def test_each_fault_is_found_and_no_sound_craft_is_blamed(start):
    wrong = [line for seed in range(start, start + 10) for line in missed_and_false(seed)]
    assert not wrong, f"seeds {start} to {start + 9}:\n" + "\n".join(wrong)


@pytest.mark.parametrize("start", range(1, 61, 10))
def test_each_fault_of_a_power_tree_is_found_and_no_sound_one_is_blamed(start):
    wrong = [line for seed in range(start, start + 10) for line in power_missed_and_false(seed)]
    assert not wrong, f"seeds {start} to {start + 9}:\n" + "\n".join(wrong)


def drawn(plan: Plan, folder: Path) -> Path:
    """The plan as a schematic file: GND and +5V as power symbols, all else by local labels."""
    boards: dict[str, list[Drawn]] = {}
    nets: dict[str, list[str]] = {}
    for symbol in plan.symbols():
        if symbol.is_power:
            continue
        fields = {name: text for name, text in symbol.fields.items() if name != "Board"}
        one = termination(symbol.reference, len(symbol.nets), **fields)
        boards.setdefault(symbol.fields["Board"], []).append(one)
        for number, net in symbol.nets:
            if net:
                nets.setdefault(net, []).append(f"{symbol.reference}:{number}")
    joins = [
        join(" ".join(ends), by="power" if net in ("GND", "+5V") else "local", name=net.replace("/", "_"))
        for net, ends in nets.items()
    ]
    return craft_drawing(boards, joins).write(folder)


@pytest.mark.parametrize("seed", range(200, 212))
def test_a_craft_read_from_a_file_gets_the_verdict_of_the_same_craft_in_memory(seed, tmp_path):
    plan = sound_plan(seed)
    for number, each in enumerate([plan, *(fault.plan for fault in faults_of(plan, seed))]):
        in_memory = check_craft(each.craft())
        from_file = check_craft(read_craft(drawn(each, tmp_path / str(number))))
        assert said(from_file) == said(in_memory), f"seed {seed}, plan {number}"


def said(verdict: Verdict) -> list[tuple[str, str, frozenset[tuple[str | None, str | None]]]]:
    """Rules, severities and the contacts that they point at; but for loose labels, which only a file has."""
    return sorted(
        (f.severity.value, f.rule, frozenset((at.termination, at.contact) for at in f.where))
        for f in verdict.findings
        if f.rule != "wire-loose"
    )
