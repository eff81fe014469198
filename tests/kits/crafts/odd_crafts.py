"""Crafts that nobody would build, and edits of them: coax, cups, two rows, plugs of no known family, bridges in a plug.

Nothing of them is sound; a comparison must follow them all the same.  Brute force, no source outside.
"""

from __future__ import annotations

import random

from msgspec.structs import replace

from crafts.craft_kit import Symbol, captive, craft, pads, plug, splice, two_pin
from tabside.model.craft import Craft

FAMILIES = (
    "JST GH",
    "JST SH",
    "amass_xt60",
    "amass_xt30",
    "coax_ufl",
    "usb_c",
    "JST PHD",
    "",
    "molex_microfit_300",
    "JST XH",
    "idc_254_2row",
)
SIGNALS = ("5V", "GND", "TX", "RX", "VBAT", "SDA", "SCL", "nc", "CANH", "CANL", "M1")
NETS = ("GND", "5V", "VBAT", "n0", "n1", "n2", "n3", "n4", "n5", "n6", "n7")


def odd_symbols(dice: random.Random) -> list[Symbol]:
    return [_symbol(n, dice) for n in range(dice.randint(3, 8))]


def _symbol(n: int, dice: random.Random) -> Symbol:
    ways = dice.randint(1, 6)
    nets = [dice.choice((*NETS, "-")) for _ in range(ways)]
    family = dice.choice(FAMILIES)
    more = {"signals": ", ".join(dice.choice(SIGNALS) for _ in range(ways))} | ({"family": family} if family else {})
    board = f"b{dice.randint(0, 4)}"
    match dice.choice(("plug", "plug", "plug", "pads", "captive", "splice", "fuse")):
        case "plug":
            return plug(f"J{n}", nets, board=board, **more)
        case "pads":
            return pads(f"J{n}", nets, board=board, signals=more["signals"])
        case "captive":
            return captive(f"M{n}", nets, board=f"part{n}", **more)
        case "splice":
            return splice(f"S{n}", dice.choice(NETS))
    return two_pin(f"F{n}", dice.choice(NETS), dice.choice(NETS), value="2A")


def odd_edit(symbols: list[Symbol], dice: random.Random) -> list[Symbol]:
    """One to three changes of single symbols."""
    now = list(symbols)
    for _ in range(dice.randint(1, 3)):
        n = dice.randrange(len(now))
        each, fields = now[n], dict(now[n].fields)
        what = dice.choice(("net", "Family", "Kind", "gone", "reference", "value", "Board", "Signals"))
        if what == "net":
            k = dice.randrange(len(each.nets))
            nets = list(each.nets)
            nets[k] = (nets[k][0], dice.choice(("GND", "5V", "n1", "n2", "", nets[k][1])))
            now[n] = replace(each, nets=tuple(nets))
        elif what == "gone" and len(now) > 3:
            now.pop(n)
        elif what == "reference":
            now[n] = replace(each, reference=f"{each.reference[0]}{50 + n}")
        elif what == "value":
            now[n] = replace(each, value=dice.choice(("A", "B", "3A")))
        elif what in fields or (what == "Kind" and each.reference[0] in "JM"):
            kinds = ("pad", "captive", "receptacle")
            said = {
                "Family": dice.choice(FAMILIES) or "JST GH",
                "Kind": dice.choice(kinds),
                "Board": f"b{dice.randint(0, 5)}",
                "Signals": ", ".join(dice.choice(SIGNALS) for _ in each.nets),
            }
            now[n] = replace(each, fields=fields | {what: said[what]})
    return now


def odd_craft(symbols: list[Symbol], seed: int) -> Craft:
    """With wires of some gauge, colour and length, or not known."""
    dice = random.Random(seed)
    made = craft(*symbols)
    facts = (
        (dice.choice([None, 28, 28, 20]), dice.choice([None, "RD"]), dice.choice([None, 100.0, 80.0]))
        for _ in made.leads
    )
    return replace(
        made,
        leads=tuple(
            replace(lead, gauge_awg=gauge, colour=colour, length_mm=length)
            for lead, (gauge, colour, length) in zip(made.leads, facts, strict=True)
        ),
    )
