"""Edits of a drawing by dice: what builders do to a craft between two revisions.

Each edit takes the symbols of a craft and gives others; `facts` and settings stand beside them.  What is edited is
common practice, no source.
"""

from __future__ import annotations

import random
from collections.abc import Callable

from msgspec import Struct, field
from msgspec.structs import replace

from crafts.craft_kit import Symbol, craft, pads, plug, splice, two_pin
from dice.random_harness import random_symbols
from random_crafts import sound_plan
from tabside.model.craft import Craft, CraftSettings
from tabside.model.stock import StockLead, StockWire
from tabside.wiring.terminations.fields import read_volts

FAMILIES = ("JST SH", "JST GH", "JST ZH", "JST PH")


class Draft(Struct, frozen=True):
    """A craft before it is built."""

    symbols: tuple[Symbol, ...]
    settings: CraftSettings = field(default_factory=CraftSettings)
    wires: int = 0  # seed of the wires' gauges, colours and lengths; 0: none is known
    changed: frozenset[str] = frozenset()  # nets whose wires are of another seed
    stated: tuple[tuple[str, str, object], ...] = ()  # net, what of its wires, and what it is

    def craft(self) -> Craft:
        made = craft(*self.symbols, settings=self.settings)
        if not self.wires:
            return made
        return replace(made, leads=tuple(replace(lead, **self._facts(lead.net)) for lead in made.leads))

    def _facts(self, net: str) -> dict[str, object]:
        dice = random.Random(f"{self.wires} {net} {net in self.changed}")
        return {
            "gauge_awg": dice.choice([None, 28, 28, 28, 30]),
            "colour": dice.choice([None, "RD", "BK", "BK"]),
            "length_mm": dice.choice([None, 100.0, 100.0, 120.0, 150.0]),
            **{what: said for name, what, said in self.stated if name == net},
        }


def draft(seed: int) -> Draft:
    dice = random.Random(seed)
    symbols = sound_plan(seed).symbols() if dice.random() < 0.5 else random_symbols(seed)
    return Draft(tuple(symbols), wires=seed if dice.random() < 0.5 else 0)


def of_one_family(made: Draft, family: str = "JST GH") -> Draft:
    """The same with plugs of one family, so that a wire could go into any of them."""
    return replace(
        made,
        symbols=tuple(
            replace(each, fields=dict(each.fields) | {"Family": family})
            if each.reference.startswith("J") and each.fields.get("Kind", "receptacle") == "receptacle"
            else each
            for each in made.symbols
        ),
    )


Edit = Callable[[Draft, random.Random], Draft | None]


def _plugs(made: Draft, *, board: str | None = None, least: int = 1) -> list[int]:
    return [
        n
        for n, each in enumerate(made.symbols)
        if each.reference.startswith("J")
        and each.fields.get("Kind", "receptacle") == "receptacle"
        and len(each.nets) >= least
        and (board is None or each.fields.get("Board") == board)
    ]


def _with(made: Draft, n: int, *now: Symbol) -> Draft:
    return replace(made, symbols=(*made.symbols[:n], *now, *made.symbols[n + 1 :]))


def _order(made: Draft, dice: random.Random) -> Draft | None:
    """A board swapped for one of another order."""
    listed = _plugs(made, least=2)
    if not listed:
        return None
    n = dice.choice(listed)
    old = made.symbols[n]
    numbers = [number for number, _ in old.nets]
    order = dice.sample(range(len(numbers)), len(numbers))
    names = old.fields.get("Signals", "").split(", ")
    fields = dict(old.fields)
    if len(names) == len(numbers):
        fields["Signals"] = ", ".join(names[k] for k in order)
    nets = tuple((number, old.nets[k][1]) for number, k in zip(numbers, order, strict=True))
    return _with(made, n, replace(old, nets=nets, fields=fields))


def _wires_moved(made: Draft, dice: random.Random) -> Draft | None:
    """Two wires of a plug exchanged, the board the same."""
    listed = _plugs(made, least=2)
    if not listed:
        return None
    n = dice.choice(listed)
    old = made.symbols[n]
    a, b = dice.sample(range(len(old.nets)), 2)
    nets = list(old.nets)
    nets[a], nets[b] = (nets[a][0], nets[b][1]), (nets[b][0], nets[a][1])
    return _with(made, n, replace(old, nets=tuple(nets)))


def _family(made: Draft, dice: random.Random) -> Draft | None:
    listed = _plugs(made)
    if not listed:
        return None
    n = dice.choice(listed)
    old = made.symbols[n]
    return _with(made, n, replace(old, fields=dict(old.fields) | {"Family": dice.choice(FAMILIES)}))


def _ways(made: Draft, dice: random.Random) -> Draft | None:
    """One way more, empty, or one fewer: its wire goes."""
    listed = [n for n in _plugs(made, least=3) if "Signals" in made.symbols[n].fields]
    if not listed:
        return None
    n = dice.choice(listed)
    old = made.symbols[n]
    names = old.fields["Signals"].split(", ")
    if dice.random() < 0.5:
        last = str(len(old.nets) + 1)
        nets, names = (*old.nets, (last, "")), [*names, "nc"]
    elif dice.random() < 0.5:
        nets, names = old.nets[:-1], names[:-1]
    else:  # one is put in front: all contacts count on
        nets = tuple(enumerate(["", *(net for _, net in old.nets)], 1))
        nets, names = tuple((str(number), net) for number, net in nets), ["nc", *names]
    shown = {number: f"Pin_{number}" for number, _ in nets}
    return _with(made, n, replace(old, nets=nets, names=shown, fields=dict(old.fields) | {"Signals": ", ".join(names)}))


def _board_goes(made: Draft, dice: random.Random) -> Draft | None:
    boards = sorted({each.fields.get("Board", "") for each in made.symbols} - {"", "hub", "controller"})
    if not boards:
        return None
    gone = dice.choice(boards)
    return replace(made, symbols=tuple(each for each in made.symbols if each.fields.get("Board") != gone))


def _board_comes(made: Draft, dice: random.Random) -> Draft:
    family = dice.choice(FAMILIES)
    nets = ["GND", "NEW1", "NEW2"]
    names = "GND, TX, RX"
    return replace(
        made,
        symbols=(
            *made.symbols,
            plug("J901", nets, board="hub", family=family, signals=names),
            dice.choice([plug, pads])(
                "J902", nets[::-1], board="newcomer", signals="TX, RX, GND", **({"family": family})
            ),
        ),
    )


def _wire_goes(made: Draft, dice: random.Random) -> Draft | None:
    listed = [n for n in _plugs(made) if any(net for _, net in made.symbols[n].nets)]
    if not listed:
        return None
    n = dice.choice(listed)
    old = made.symbols[n]
    k = dice.choice([k for k, (_, net) in enumerate(old.nets) if net])
    nets = tuple((number, "" if m == k else net) for m, (number, net) in enumerate(old.nets))
    return _with(made, n, replace(old, nets=nets))


def _ports_exchanged(made: Draft, dice: random.Random) -> Draft | None:
    """What is plugged into two ports of one board, of one family and size, changes places."""
    by_shape: dict[tuple[object, ...], list[int]] = {}
    for n in _plugs(made):
        each = made.symbols[n]
        by_shape.setdefault((each.fields.get("Board"), each.fields.get("Family"), len(each.nets)), []).append(n)
    alike = [found for found in by_shape.values() if len(found) > 1]
    if not alike:
        return None
    a, b = dice.sample(dice.choice(alike), 2)
    one, other = made.symbols[a], made.symbols[b]
    first = replace(one, nets=tuple((n, net) for (n, _), (_, net) in zip(one.nets, other.nets, strict=True)))
    second = replace(other, nets=tuple((n, net) for (n, _), (_, net) in zip(other.nets, one.nets, strict=True)))
    return _with(_with(made, a, first), b, second)


def _fuse(made: Draft, dice: random.Random) -> Draft | None:
    listed = [n for n in _plugs(made) if any(net in ("5V", "9V", "3V3", "+5V") for _, net in made.symbols[n].nets)]
    if not listed or any(each.reference == "F77" for each in made.symbols):
        return None
    n = dice.choice(listed)
    old = made.symbols[n]
    k = next(k for k, (_, net) in enumerate(old.nets) if net in ("5V", "9V", "3V3", "+5V"))
    nets = tuple((number, "FUSED" if m == k else net) for m, (number, net) in enumerate(old.nets))
    part = two_pin("F77", old.nets[k][1], "FUSED", value="2A")
    return _with(made, n, replace(old, nets=nets), part)


def _one_plug_of_two(made: Draft, dice: random.Random) -> Draft | None:
    """Two connectors of one board become one."""
    for board in dice.sample(["hub", "controller"], 2):
        listed = _plugs(made, board=board)
        if len(listed) > 1:
            a, b = dice.sample(listed, 2)
            one, other = made.symbols[a], made.symbols[b]
            nets = [net for _, net in (*one.nets, *other.nets)]
            names = ", ".join(filter(None, (one.fields.get("Signals", ""), other.fields.get("Signals", ""))))
            joined = plug(one.reference, [net or "-" for net in nets], fields=dict(one.fields) | {"Signals": names})
            merged = _with(made, a, joined)
            return replace(merged, symbols=tuple(each for each in merged.symbols if each is not other))
    return None


def _splice(made: Draft, dice: random.Random) -> Draft | None:
    """A splice is split, or one comes into a ground."""
    splices = [n for n, each in enumerate(made.symbols) if each.fields.get("Kind") == "splice"]
    if not splices:
        return None
    n = dice.choice(splices)
    net = made.symbols[n].nets[0][1]
    users = [
        (m, k)
        for m, each in enumerate(made.symbols)
        for k, (_, there) in enumerate(each.nets)
        if there == net and m != n and not each.is_power
    ]
    if len(users) < 4:
        return None
    symbols = list(made.symbols)
    for m, k in users[2:]:
        nets = list(symbols[m].nets)
        nets[k] = (nets[k][0], f"{net}_2")
        symbols[m] = replace(symbols[m], nets=tuple(nets))
    symbols.append(splice("SP99", f"{net}_2"))
    return replace(made, symbols=tuple(symbols))


def _kind(made: Draft, dice: random.Random) -> Draft | None:
    """Pads where a connector was."""
    listed = _plugs(made)
    if not listed:
        return None
    n = dice.choice(listed)
    fields = {key: text for key, text in made.symbols[n].fields.items() if key != "Family"}
    return _with(made, n, replace(made.symbols[n], fields=fields | {"Kind": "pad"}))


def _renumbered(made: Draft, dice: random.Random) -> Draft:
    numbers = dice.sample(range(100, 400), len(made.symbols))
    now = []
    for each, number in zip(made.symbols, numbers, strict=True):
        letters = each.reference.rstrip("0123456789")
        now.append(each if each.is_power else replace(each, reference=f"{letters}{number}"))
    return replace(made, symbols=tuple(now))


def _sheets(made: Draft, dice: random.Random) -> Draft:
    return replace(made, symbols=tuple(replace(each, sheet=f"/s{dice.randrange(3)}/") for each in made.symbols))


def _board_renamed(made: Draft, dice: random.Random) -> Draft | None:
    boards = sorted({each.fields.get("Board", "") for each in made.symbols} - {""})
    if not boards:
        return None
    was = dice.choice(boards)
    return replace(
        made,
        symbols=tuple(
            replace(each, fields=dict(each.fields) | {"Board": f"{was} mk2"})
            if each.fields.get("Board") == was
            else each
            for each in made.symbols
        ),
    )


def _wires_differ(made: Draft, dice: random.Random) -> Draft:
    nets = sorted({net for each in made.symbols for _, net in each.nets if net})
    seed = made.wires or dice.randrange(1, 10_000)
    return replace(made, wires=seed, changed=frozenset(dice.sample(nets, min(2, len(nets)))))


def _battery(made: Draft, dice: random.Random) -> Draft:
    text = dice.choice(["14-16.8V", "21-25.2V", "10-12V"])
    return replace(made, settings=replace(made.settings, battery=read_volts(text), battery_text=text))


def _stock(made: Draft, dice: random.Random) -> Draft:
    family = dice.choice(["jst_sh", "jst_gh", "jst_ph"])
    return replace(
        made,
        settings=replace(
            made.settings,
            stock_leads=(StockLead((family, family), 200.0, 26, None, dice.randrange(1, 9)),),
            stock_wire=(StockWire(26, "BK", 2000.0, 1),),
        ),
    )


HARMLESS: dict[str, Edit] = {"renumbered": _renumbered, "into sheets": _sheets, "stock": _stock}
EDITS: dict[str, Edit] = {
    "order": _order,
    "wires moved": _wires_moved,
    "family": _family,
    "ways": _ways,
    "board goes": _board_goes,
    "board comes": _board_comes,
    "wire goes": _wire_goes,
    "ports exchanged": _ports_exchanged,
    "fuse": _fuse,
    "one plug of two": _one_plug_of_two,
    "splice split": _splice,
    "pads": _kind,
    "board renamed": _board_renamed,
    "wires differ": _wires_differ,
    "battery": _battery,
    **HARMLESS,
}


def edited(made: Draft, what: str, seed: int) -> Draft | None:
    """None where the draft has nothing to edit in this way."""
    return EDITS[what](made, random.Random(f"{what} {seed}"))


def edited_twice(made: Draft, seed: int) -> tuple[str, Draft]:
    """Two edits, one after the other."""
    dice = random.Random(seed)
    said = []
    for what in dice.sample(sorted(EDITS), 3):
        now = edited(made, what, seed)
        if now is not None:
            said.append(what)
            made = now
    return ", ".join(said), made
