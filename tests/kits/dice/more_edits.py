"""Further edits by dice: whole boards, cables that come and go, single facts of a wire, and what is no change.

Each takes a draft of `random_edits` and gives another one, or None where there is nothing to edit in this way.  What is
edited is common practice, no source.
"""

from __future__ import annotations

import random

from msgspec.structs import replace

from crafts.craft_kit import Symbol, pads, plug
from dice.random_edits import EDITS, FAMILIES, HARMLESS, Draft, Edit, draft, of_one_family
from tabside.model.craft import Craft

_MOTOR = ("PHASE_A", "PHASE_B", "PHASE_C")
_NO_WAY_ROUND = ("F", "SW", "R")
_LINES = ("TX", "RX", "SDA", "SCL", "CANH", "PWM", "X1", "DATA")
_SAME = "Uuid"
_HUBS = ("hub", "controller")


def _is_plug(each: Symbol) -> bool:
    return each.reference.startswith("J") and each.fields.get("Kind", "receptacle") == "receptacle"


def _boards(made: Draft) -> list[str]:
    return sorted({each.fields.get("Board", "") for each in made.symbols} - {""})


def _put(made: Draft, now: dict[int, Symbol]) -> Draft:
    return replace(made, symbols=tuple(now.get(n, each) for n, each in enumerate(made.symbols)))


def _field(each: Symbol, key: str, text: str) -> Symbol:
    return replace(each, fields=dict(each.fields) | {key: text})


def _shuffled(each: Symbol, dice: random.Random) -> Symbol:
    order = dice.sample(range(len(each.nets)), len(each.nets))
    names = each.fields.get("Signals", "").split(", ")
    nets = tuple((number, each.nets[k][1]) for (number, _), k in zip(each.nets, order, strict=True))
    now = replace(each, nets=nets)
    return _field(now, "Signals", ", ".join(names[k] for k in order)) if len(names) == len(order) else now


def _another_board(made: Draft, dice: random.Random) -> Draft | None:
    """All connectors of a board in another order, of another family, or with another name."""
    boards = [board for board in _boards(made) if not board.startswith("pack")]
    if not boards:
        return None
    board, family, name = dice.choice(boards), dice.choice(FAMILIES), dice.random() < 0.5
    what = dice.choice(("order", "family", "both"))
    now = {}
    for n, each in enumerate(made.symbols):
        if each.fields.get("Board") != board:
            continue
        one = _shuffled(each, dice) if what != "family" else each
        one = _field(one, "Family", family) if what != "order" and _is_plug(one) else one
        now[n] = _field(one, "Board", f"{board} two") if name else one
    return _put(made, now)


def _cable_comes(made: Draft, dice: random.Random) -> Draft | None:
    boards = [board for board in _boards(made) if not board.startswith("pack")]
    if len(boards) < 2:
        return None
    one, other = dice.sample(boards, 2)
    nets, names = ["GND", "CC1", "CC2"], ["GND", "TX", "RX"]
    far = dice.choice((plug, pads))
    family = dice.choice(FAMILIES)
    more = {"family": family} if far is plug else {}
    near = plug("J911", nets, board=one, family=family, signals=", ".join(names))
    there = far("J912", ["GND", "CC2", "CC1"], board=other, signals="GND, TX, RX", **more)
    return replace(made, symbols=(*made.symbols, near, there))


def _cable_goes(made: Draft, dice: random.Random) -> Draft | None:
    """The boards and their connectors stay, no wire is in one of them any more."""
    listed = [n for n, each in enumerate(made.symbols) if _is_plug(each) and any(net for _, net in each.nets)]
    if not listed:
        return None
    n = dice.choice(listed)
    each = made.symbols[n]
    return _put(made, {n: replace(each, nets=tuple((number, "") for number, _ in each.nets))})


def _wire_comes(made: Draft, dice: random.Random) -> Draft | None:
    """Between two contacts that are free, or onto a net from a contact that is."""
    free = [
        (n, number)
        for n, each in enumerate(made.symbols)
        if each.reference[0] == "J" and not each.is_power
        for number, net in each.nets
        if net in ("", "-")
    ]
    nets = sorted({net for each in made.symbols for _, net in each.nets} - {"", "-"})
    if not free or not nets:
        return None
    chosen = dice.sample(free, min(len(free), 2 if dice.random() < 0.5 else 1))
    net = "WC1" if len(chosen) == 2 else dice.choice(nets)
    symbols = list(made.symbols)
    for n, number in chosen:
        each = symbols[n]
        symbols[n] = replace(each, nets=tuple((k, net if k == number else was) for k, was in each.nets))
    return replace(made, symbols=tuple(symbols))


def _port_moved(made: Draft, dice: random.Random) -> Draft | None:
    """What was plugged into one port goes into another one, which was not drawn before; or the old one goes."""
    listed = [n for n, each in enumerate(made.symbols) if _is_plug(each) and each.fields.get("Board")]
    if not listed:
        return None
    n = dice.choice(listed)
    each = made.symbols[n]
    other = replace(each, reference="J921")
    empty = replace(each, nets=tuple((number, "") for number, _ in each.nets))
    stays = (empty,) if dice.random() < 0.5 else ()
    return replace(made, symbols=(*made.symbols[:n], *stays, other, *made.symbols[n + 1 :]))


def _plugs_exchanged(made: Draft, dice: random.Random) -> Draft | None:
    """What is plugged into two like connectors, of whatever boards, changes places."""
    shapes: dict[tuple[object, ...], list[int]] = {}
    for n, each in enumerate(made.symbols):
        if _is_plug(each):
            shapes.setdefault((each.fields.get("Family"), len(each.nets)), []).append(n)
    alike = [found for found in shapes.values() if len(found) > 1]
    if not alike:
        return None
    a, b = dice.sample(dice.choice(alike), 2)
    one, other = made.symbols[a], made.symbols[b]

    def with_nets(each: Symbol, nets: Symbol) -> Symbol:
        return replace(each, nets=tuple((n, net) for (n, _), (_, net) in zip(each.nets, nets.nets, strict=True)))

    return _put(made, {a: with_nets(one, other), b: with_nets(other, one)})


def _phases_exchanged(made: Draft, dice: random.Random) -> Draft | None:
    """Two of a motor's wires, so that it turns the other way."""
    listed = [n for n, each in enumerate(made.symbols) if each.fields.get("Signals", "").split(", ") == [*_MOTOR]]
    if not listed:
        return None
    n = dice.choice(listed)
    each = made.symbols[n]
    a, b = dice.sample(range(3), 2)
    nets = list(each.nets)
    nets[a], nets[b] = (nets[a][0], nets[b][1]), (nets[b][0], nets[a][1])
    return _put(made, {n: replace(each, nets=tuple(nets))})


def _one_fact(made: Draft, dice: random.Random) -> Draft | None:
    """The gauge, the colour or the length of the wires of one net."""
    nets = sorted({net for each in made.symbols for _, net in each.nets} - {"", "-"})
    if not nets or not made.wires:
        return None
    what = dice.choice(("gauge_awg", "colour", "length_mm"))
    said = {"gauge_awg": (24, 26, 28, 30, None), "colour": ("RD", "BK", "GN", None), "length_mm": (70.0, 130.0, 200.0)}
    return replace(made, stated=(*made.stated, (dice.choice(nets), what, dice.choice(said[what]))))


def _unknown_family(made: Draft, dice: random.Random) -> Draft | None:
    listed = [n for n, each in enumerate(made.symbols) if _is_plug(each) and "Family" in each.fields]
    if not listed:
        return None
    n = dice.choice(listed)
    family = dice.choice(("", "servo_254", "no such plug"))
    fields = {key: text for key, text in made.symbols[n].fields.items() if key != "Family"}
    return _put(made, {n: replace(made.symbols[n], fields=fields | ({"Family": family} if family else {}))})


def _value(made: Draft, dice: random.Random) -> Draft | None:
    """Another part, by its value."""
    listed = [n for n, each in enumerate(made.symbols) if not each.is_power and not _is_plug(each)]
    if not listed:
        return None
    n = dice.choice(listed)
    return _put(made, {n: replace(made.symbols[n], value=dice.choice(("3A", "5A", "model B")))})


def _own_wires(made: Draft, dice: random.Random) -> Draft | None:
    """A part brings wires, or has pads or a connector instead."""
    listed = [n for n, each in enumerate(made.symbols) if each.fields.get("Kind") in ("captive", "pad")]
    listed = [n for n in listed if not made.symbols[n].fields.get("Board", "").startswith((*_HUBS, "pack", "driver"))]
    if not listed:
        return None
    n = dice.choice(listed)
    each = made.symbols[n]
    kind = dice.choice(sorted({"captive", "pad", "receptacle"} - {each.fields["Kind"]}))
    fields = {key: text for key, text in each.fields.items() if key not in ("Kind", "Family")}
    more = {"Family": dice.choice(FAMILIES)} if kind == "receptacle" else {"Kind": kind}
    return _put(made, {n: replace(each, fields=fields | more)})


def _signal_named(made: Draft, dice: random.Random) -> Draft | None:
    """A signal is called otherwise; what is supply and ground stays so."""
    listed = [
        (n, k)
        for n, each in enumerate(made.symbols)
        for k, name in enumerate(each.fields.get("Signals", "").split(", "))
        if each.reference.startswith("J") and name in _LINES
    ]
    if not listed:
        return None
    n, k = dice.choice(listed)
    names = made.symbols[n].fields["Signals"].split(", ")
    names[k] = dice.choice((*_LINES, "nc"))
    return _put(made, {n: _field(made.symbols[n], "Signals", ", ".join(names))})


def _nets_named(made: Draft, dice: random.Random) -> Draft | None:
    """Names of nets say nothing of the wiring; a rail's name is kept, which may."""
    if made.wires:
        return None  # there gauges are drawn by the names

    def named(net: str) -> str:
        return f"{net}_x" if net.startswith("N") or "_" in net else net

    symbols = (
        replace(each, nets=tuple((number, named(net) if net else net) for number, net in each.nets))
        for each in made.symbols
    )
    return replace(made, symbols=tuple(symbols))


def _turned(made: Draft, dice: random.Random) -> Draft | None:
    """A symbol of a part that does not mind is drawn the other way round."""
    listed = [n for n, each in enumerate(made.symbols) if each.reference.rstrip("0123456789") in _NO_WAY_ROUND]
    listed = [n for n in listed if len(made.symbols[n].nets) == 2]
    if not listed:
        return None
    n = dice.choice(listed)
    (a, first), (b, second) = made.symbols[n].nets
    return _put(made, {n: replace(made.symbols[n], nets=((a, second), (b, first)))})


def _mixed(made: Draft, dice: random.Random) -> Draft:
    """Drawn in another order and elsewhere on the sheet."""
    return replace(made, symbols=tuple(dice.sample(made.symbols, len(made.symbols))))


MORE_HARMLESS: dict[str, Edit] = {"nets named": _nets_named, "turned": _turned, "mixed": _mixed}
MORE_EDITS: dict[str, Edit] = {
    "another board": _another_board,
    "cable comes": _cable_comes,
    "cable goes": _cable_goes,
    "wire comes": _wire_comes,
    "port moved": _port_moved,
    "plugs exchanged": _plugs_exchanged,
    "phases exchanged": _phases_exchanged,
    "one fact": _one_fact,
    "unknown family": _unknown_family,
    "value": _value,
    "own wires": _own_wires,
    "signal named": _signal_named,
    **MORE_HARMLESS,
}
ALL_EDITS: dict[str, Edit] = {**EDITS, **MORE_EDITS}
ALL_HARMLESS: dict[str, Edit] = {**HARMLESS, **MORE_HARMLESS}


def edited_often(made: Draft, seed: int, count: int) -> tuple[str, Draft]:
    """So many edits, one after the other, and which; each kind once at the most, where it adds symbols."""
    dice = random.Random(f"often {seed}")
    said: list[str] = []
    for what in dice.sample(sorted(ALL_EDITS), min(len(ALL_EDITS), 3 * count)):
        now = ALL_EDITS[what](made, random.Random(f"{what} {seed}"))
        if now is not None and len(said) < count:
            said.append(what)
            made = now
    return ", ".join(said), made


COUNTS = {"one": (1, 1), "few": (2, 3), "many": (4, 10)}


def drawn_twice(seed: int, how_many: str) -> tuple[str, Craft, Craft]:
    """A craft, the same after some edits, and which; of two in five the symbols are known by what KiCad calls them."""
    dice = random.Random(f"{how_many} {seed}")
    before = draft(seed)
    if dice.random() < 0.4:
        before = of_one_family(before)
    if dice.random() < 0.4:
        symbols = tuple(_field(each, _SAME, f"u{n}") for n, each in enumerate(before.symbols))
        before = replace(before, symbols=symbols)
    said, after = edited_often(before, seed, dice.randint(*COUNTS[how_many]))
    return said, known(before.craft()), known(after.craft())


def known(made: Craft) -> Craft:
    """With what tells a symbol from all others, whatever else is edited."""
    terminations = {
        ref: replace(each, place=each.place._replace(uuid=each.fields[_SAME])) if _SAME in each.fields else each
        for ref, each in made.terminations.items()
    }
    return replace(made, terminations=terminations)
