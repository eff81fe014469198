"""The craft is the same for any order of symbols and nets in the file, and wherever symbols stand."""

import random

import pytest
from msgspec.structs import replace

from crafts.craft_kit import captive, drawing, note, pads, plug, power, shuffled, splice, two_pin
from tabside.model.craft import CraftSettings
from tabside.wiring import build_craft

BOARDS = ("pilot", "power", "radio", "camera", "drive", "lamp")
SIGNALS = ("TX", "RX", "SDA", "SCL", "CAN_H", "M1", "VIDEO")


def random_drawing(seed):
    """Boards with plugs and pads on shared rails and signal nets, in-line parts, splices, runs and notes."""
    dice = random.Random(seed)
    symbols, ends = [], []
    nets = [f"N{k}" for k in range(6)]
    for k in range(1, dice.randint(5, 12)):
        count = dice.randint(1, 5)
        signals, wired = [], []
        for _ in range(count):
            signal = dice.choice(("GND", "GND", "5V", "VCC", "VBAT", *SIGNALS))
            signals.append(signal)
            wired.append({"GND": "GND", "5V": "+5V", "VCC": "+5V", "VBAT": "VBAT"}.get(signal) or dice.choice(nets))
        maker = dice.choice((plug, plug, plug, pads, captive))
        board = dice.choice(BOARDS)
        fields = {"family": "JST GH"} if maker is not pads and dice.random() < 0.5 else {}
        symbols.append(maker(f"J{k}", wired, signals=", ".join(signals), board=board, **fields))
        ends += [(f"J{k}:{n}", net) for n, net in enumerate(wired, start=1)]
    if dice.random() < 0.5:
        symbols.append(two_pin("F1", "VBAT", "VB2"))
        symbols.append(pads("J40", "VB2 GND", signals="VBAT GND", board="drive"))
    if dice.random() < 0.5:
        symbols.append(splice("X1", dice.choice(["GND", "+5V", "N1"])))
    symbols += [two_pin("C1", "+5V", "GND"), two_pin("R1", "N1", "N2"), power("GND"), power("+5V"), plug("J?", "N3")]
    if dice.random() < 0.2:
        symbols.append(plug("J1", ["N4", "N5"], signals="TX RX", board="other"))  # a reference used twice
    by_net = {}
    for end, net in ends:
        by_net.setdefault(net, []).append(end)
    pairs = [tuple(dice.sample(found, 2)) for found in by_net.values() if len(found) > 1 and dice.random() < 0.3]
    notes = [note(" ".join(pair), gauge=dice.choice([20, 24])) for pair in pairs[:2]]
    return drawing(*symbols, runs=pairs, notes=notes)


def seen(made):
    """All that a craft says, without places and without the numbers of nets, which the file's order sets."""

    def bare(contact):
        return replace(contact, net_id=0, place=None)

    terminations = {
        reference: replace(each, place=None, contacts=tuple(map(bare, each.contacts)))
        for reference, each in made.terminations.items()
    }
    return (
        list(terminations.items()),
        [replace(lead, net_id=0) for lead in made.leads],
        [(link.ends, [lead.mark for lead in link.leads]) for link in made.links],
        made.cables,
        [replace(each, place=None, pins=tuple(replace(pin, net_id=0) for pin in each.pins)) for each in made.parts],
        [replace(each, net_id=0) for each in made.crowded],
        [(each.what, each.reference, each.message) for each in made.oddities],
        made.drawing_hash,
    )


@pytest.mark.parametrize("seed", range(150))
def test_the_craft_does_not_depend_on_the_files_order_nor_on_places(seed):
    settings = CraftSettings(
        at_mm={board: (37.0 * k % 90, 11.0 * k * k % 70, 0.0) for k, board in enumerate(BOARDS)}
        if seed % 3 == 0
        else {}
    )
    original = random_drawing(seed)
    expected = seen(build_craft(original, settings))
    for other in range(3):
        again = shuffled(original, seed * 10 + other, move=other == 2)
        assert seen(build_craft(again, settings)) == expected, f"seed {seed}, order {other}"


@pytest.mark.parametrize("seed", range(60))
def test_no_contact_takes_more_leads_than_it_can_unless_it_is_told(seed):
    made = build_craft(random_drawing(f"room {seed}"))
    uses = {}
    for lead in made.leads:
        for end in lead.ends:
            uses[end] = uses.get(end, 0) + 1
    told = {key for each in made.crowded for key in each.contacts}
    for key, count in uses.items():
        most = made.contact(key).leads_max
        assert most is None or count <= most or key in told, f"seed {seed}: {key}"


@pytest.mark.parametrize("seed", range(60))
def test_every_net_is_connected_unless_it_is_told(seed):
    made = build_craft(random_drawing(f"whole {seed}"))
    open_nets = {each.net_id for each in made.crowded}
    contacts = {}
    for termination in made.terminations.values():
        for contact in termination.contacts:
            contacts.setdefault(contact.net_id, []).append(contact)
    for net_id, members in contacts.items():
        if net_id in open_nets:
            continue
        pieces = {contact.key: {contact.key} for contact in members}

        def merge(a, b, pieces=pieces):
            merged = pieces[a] | pieces[b]
            for key in merged:
                pieces[key] = merged

        for lead in made.leads:
            if lead.net_id == net_id:
                merge(*lead.ends)
        for a in members:
            for b in members:
                same_board = made.terminations[a.termination].board == made.terminations[b.termination].board
                if same_board and a.role.is_ground and b.role.is_ground:
                    merge(a.key, b.key)
                if same_board and a.role.is_supply and b.role.is_supply:
                    merge(a.key, b.key)
                if same_board and a.role.group in ("can", "i2c", "spi") and a.role.name == b.role.name:
                    merge(a.key, b.key)
        assert len({frozenset(piece) for piece in pieces.values()}) == 1, f"seed {seed}: net {members[0].net}"
