"""What is drawn is what is made: random pairs, drawn in every way, come back as the wires of the craft.

The expected pairs are those that were drawn; nothing else is asked.
"""

from __future__ import annotations

import random
from itertools import pairwise
from pathlib import Path

import pytest

from drawing.drawing_kit import Sheet, connector, turned
from tabside.craft_reading import read_craft

Pin = tuple[str, str]
LEFT_X, RIGHT_X, STEP = 25.4, 203.2, 2.54
SHAPES = {"plain": (0, ""), "turned": (90, ""), "upside down": (180, ""), "mirrored": (0, "x"), "both": (270, "y")}


def decorate(sheet: Sheet, dice: random.Random, wire: tuple, name: str) -> None:
    """A name on the wire: in the middle, at an end, on a stub, as power symbol, label or directive; or none."""
    start, knee, other, end = wire
    middle = dice.choice([knee, other, start, end, ((start[0] + knee[0]) / 2, start[1])])
    match dice.choice(["power", "stub", "local", "global", "directive", "nothing", "flag"]):
        case "power":
            sheet.power(name, dice.choice([knee, other, start, end]))
        case "stub":
            tip = (knee[0], knee[1] - 0.635) if other[1] > knee[1] else (knee[0], knee[1] + 0.635)
            sheet.wire(knee, tip)
            sheet.power(name, tip)
        case "local":
            sheet.label("local", name, middle)
        case "global":
            sheet.label("global", name, middle)
        case "directive":
            sheet.directive(middle, fields={"Gauge": "24"})


def wires(sheet: Sheet, pairs: list[tuple[tuple, tuple]], dice: random.Random, one_net: bool) -> None:
    """One wire for each pair of points, each with a lane of its own; they cross without a junction.

    `one_net`: the names on them are all GND, else each wire has a name of its own.
    """
    for lane, (a, b) in enumerate(pairs):
        x = LEFT_X + 20 * STEP + lane * STEP
        wire = (a, (x, a[1]), (x, b[1]), b)
        sheet.wire(*wire)
        decorate(sheet, dice, wire, "GND" if one_net else f"N{lane}")


def column(
    sheet: Sheet, boards: list[tuple[str, int, str]], x: float, y: float, board: str = ""
) -> dict[Pin, tuple[float, float]]:
    """Terminations one under the other: reference, contacts, kind; all ground of one board, or each of its own."""
    pins: dict[Pin, tuple[float, float]] = {}
    for reference, ways, kind in boards:
        fields = {"Board": board or f"board {reference}", "Kind": kind}
        fields |= {"Signals": ",".join(["GND"] * ways)} if board else {}
        placed = sheet.place(connector(ways), (x + 5.08, y), reference=reference, fields=fields)
        for number in range(1, ways + 1):
            pins[reference, str(number)] = placed.pin(str(number))
        y += (ways + 2) * STEP
    return pins


def made_pairs(root: Path) -> tuple[set[frozenset[Pin]], set[str]]:
    craft = read_craft(root)
    assert not craft.crowded
    return {frozenset(lead.ends) for lead in craft.leads}, {lead.how for lead in craft.leads}


def random_boards(dice: random.Random, first: int) -> list[tuple[str, int, str]]:
    kinds = dice.choice([["receptacle"], ["pad"], ["receptacle", "pad", "captive"]])
    return [(f"J{first + n}", dice.randint(1, 4), dice.choice(kinds)) for n in range(dice.randint(1, 4))]


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("seed", range(8))
def test_on_one_sheet_the_wires_are_the_pairs_that_were_drawn(seed, shape, tmp_path):
    dice = random.Random(f"flat {seed} {shape}")
    root = Sheet("pairs")
    one_net = dice.random() < 0.5
    left = column(root, random_boards(dice, 1), LEFT_X, 25.4, "a" if one_net else "")
    right = column(root, random_boards(dice, 11), RIGHT_X, 25.4 + STEP / 2, "b" if one_net else "")
    ends, others = list(left), list(right)
    dice.shuffle(ends)
    dice.shuffle(others)
    pairs = list(zip(ends, others, strict=False))
    wires(root, [(left[a], right[b]) for a, b in pairs], dice, one_net)
    angle, mirror = SHAPES[shape]
    path = turned(root, angle, mirror).write(tmp_path)
    assert made_pairs(path) == ({frozenset(pair) for pair in pairs}, {"drawn"})


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("seed", range(8))
def test_through_sheets_that_are_used_twice_the_wires_are_the_pairs_that_were_drawn(seed, shape, tmp_path):
    dice = random.Random(f"sheets {seed} {shape}")
    ways = dice.randint(2, 5)
    child, root = Sheet("board"), Sheet("pairs")
    one_net = dice.random() < 0.5
    fields = {"Kind": dice.choice(["receptacle", "pad"])} | ({"Signals": ",".join(["GND"] * ways)} if one_net else {})
    child.place(connector(ways), (LEFT_X + 5.08, 25.4), reference="J1", fields=fields)
    for number in range(1, ways + 1):
        pin = (LEFT_X, 25.4 + (number - 1) * STEP)
        out = (pin[0] - 5.08, pin[1])
        at = dice.choice([pin, out])
        if at == out:
            child.wire(pin, out)
            if one_net and dice.random() < 0.5:
                child.power("GND", dice.choice([pin, out]))
        child.label("hierarchical", f"P{number}", at, shape="bidirectional")
    left, right = {}, {}
    for n, (side, x) in enumerate([(left, LEFT_X), (right, RIGHT_X)] * 2):
        y = 25.4 + (n // 2) * 30 * STEP + (STEP / 2 if side is right else 0)
        pins = {f"P{number}": (x, y + number * STEP) for number in range(1, ways + 1)}
        board = {"Board": ("a" if side is left else "b") if one_net else f"b{n}"}
        use = root.sheet(child, f"use {n}", (x, y), (15.24, (ways + 2) * STEP), pins=pins, fields=board)
        for number in range(1, ways + 1):
            side[f"J{1 + 100 * n}", str(number)] = use.pin(f"P{number}")
    ends, others = list(left), list(right)
    dice.shuffle(ends)
    pairs = list(zip(ends, others, strict=True))
    wires(root, [(left[a], right[b]) for a, b in pairs], dice, one_net)
    angle, mirror = SHAPES[shape]
    path = turned(root, angle, mirror).write(tmp_path)
    assert made_pairs(path) == ({frozenset(pair) for pair in pairs}, {"drawn"})


@pytest.mark.parametrize("seed", range(12))
def test_wires_drawn_on_from_contact_to_contact_are_a_chain(seed, tmp_path):
    dice = random.Random(f"chain {seed}")
    root = Sheet("chain")
    count = dice.randint(3, 6)
    pins = {}
    for n in range(count):
        pins |= column(root, [(f"J{n + 1}", 1, "pad")], LEFT_X + n * 10 * STEP, 25.4 + n * 4 * STEP)
    order = list(pins)
    dice.shuffle(order)
    for a, b in pairwise(order):
        root.wire(pins[a], (pins[b][0], pins[a][1]), pins[b])
    root.power("GND", pins[order[dice.randrange(count)]])
    expected = {frozenset(pair) for pair in pairwise(order)}
    assert made_pairs(root.write(tmp_path)) == (expected, {"drawn"})
