"""Sound crafts drawn by dice with all that a bench can meet: doubled grounds, empty cavities, forks, splices, solder at
one end and at both, parts with leads of their own, lamps behind switches, and a pack in one of four ways.

What is drawn by dice is common practice, no source.
"""

from __future__ import annotations

import random
from collections.abc import Iterator

from crafts.craft_kit import Symbol, captive, craft, pads, plug, splice, two_pin
from tabside.model.craft import Craft

FAMILIES = ("JST SH", "JST GH", "JST ZH", "JST PH")
SIGNALS = (("TX", "RX"), ("RX", "TX"), ("SDA", "SDA"), ("SCL", "SCL"), ("CANH", "CANH"), ("PWM", "PWM"), ("X1", "X1"))


def random_craft(seed: int) -> Craft:
    """A craft that is wired as it should be; the same for one seed."""
    return craft(*random_symbols(seed))


def random_symbols(seed: int) -> list[Symbol]:
    """What it is drawn with."""
    dice = random.Random(seed)
    maker = _Maker(dice)
    symbols = list(maker.pack())
    makers = [maker.port, maker.port, maker.tail, maker.solder, maker.fork, maker.twins]
    makers += [maker.own_plug, maker.spliced, maker.motor, maker.lamp]
    for _ in range(dice.randint(1, 3)):
        symbols += dice.choice(makers)()
    return symbols


class _Maker:
    def __init__(self, dice: random.Random) -> None:
        self._dice = dice
        self._used = 0
        self._nets = 0

    def _next(self, letter: str = "J") -> str:
        self._used += 1
        return f"{letter}{self._used}"

    def _net(self) -> str:
        self._nets += 1
        return f"N{self._nets}"

    def _lines(self, most: int = 5) -> list[tuple[str, str, str]]:
        """(net, name at the hub, name at the other end) of a port: supplies, grounds, signals."""
        dice = self._dice
        supply = dice.choice(("5V", "3V3", "9V"))
        lines = [(supply, supply, supply)] * dice.choice((0, 1, 1, 1, 2))
        lines += [("GND", "GND", "GND")] * dice.choice((0, 1, 1, 1, 2))
        kinds = dice.sample(SIGNALS, dice.randint(0 if len(lines) > 1 else 2, most))
        lines += [(self._net(), near, far) for near, far in kinds]
        return lines

    def _order(self, lines: list[tuple[str, str, str]], end: int, *, gaps: bool) -> tuple[list[str], str]:
        """Nets and names in an order of the end's own, with empty cavities."""
        cells = [(net, (near, far)[end]) for net, near, far in lines]
        if gaps and self._dice.random() < 0.4:
            cells += [("-", "nc")] * self._dice.randint(1, 2)
        if self._dice.random() < 0.7:
            self._dice.shuffle(cells)
        return [net for net, _ in cells], ", ".join(name for _, name in cells)

    def _board(self, reference: str) -> str:
        return f"board{reference}"

    def port(self) -> Iterator[Symbol]:
        lines = self._lines()
        family = self._dice.choice(FAMILIES)
        for end, board in enumerate(("hub", self._board(f"P{self._used}"))):
            nets, names = self._order(lines, end, gaps=True)
            isolated = {"isolated": "yes"} if self._dice.random() < 0.1 else {}
            yield plug(self._next(), nets, board=board, family=family, signals=names, fields=isolated)

    def tail(self) -> Iterator[Symbol]:
        lines = self._lines()
        nets, names = self._order(lines, 0, gaps=True)
        yield plug(self._next(), nets, board="hub", family=self._dice.choice(FAMILIES), signals=names)
        nets, names = self._order(lines, 1, gaps=False)
        yield pads(self._next(), nets, board=self._board(f"T{self._used}"), signals=names)

    def solder(self) -> Iterator[Symbol]:
        lines = self._lines(3)
        for end, board in enumerate(("hub", self._board(f"S{self._used}"))):
            nets, names = self._order(lines, end, gaps=False)
            yield pads(self._next(), nets, board=board, signals=names)

    def fork(self) -> Iterator[Symbol]:
        """One plug, two boards."""
        first, second = self._net(), self._net()
        nets = ["GND", first, second, "GND"]
        yield plug(self._next(), nets, board="hub", family="JST GH", signals="GND, PWM1, PWM2, GND")
        for net in (first, second):
            place = self._next()
            draw = self._dice.choice((plug, pads))
            family = {"family": "JST SH"} if draw is plug else {}
            yield draw(place, [net, "GND"], board=self._board(place), signals="PWM, GND", **family)

    def twins(self) -> Iterator[Symbol]:
        """Two cables with the same plugs, one straight, one with its signals the other way."""
        for far in ("5V, RX, TX, GND", "5V, TX, RX, GND"):
            first, second = self._net(), self._net()
            near = ["5V", first, second, "GND"]
            yield plug(self._next(), near, board="hub", family="JST GH", signals="5V, TX, RX, GND")
            nets = [first, second] if far.startswith("5V, RX") else [second, first]
            place = self._next()
            yield plug(place, ["5V", *nets, "GND"], board=self._board(place), family="JST SH", signals=far)

    def own_plug(self) -> Iterator[Symbol]:
        data = self._net()
        nets, names = ["5V", data, "GND"], "5V, DATA, GND"
        yield plug(self._next(), nets, board="hub", family="JST GH", signals=names, gives="5V 1A")
        yield captive(self._next(), nets, board=self._board(f"C{self._used}"), family="JST GH", signals=names)

    def spliced(self) -> Iterator[Symbol]:
        data = self._net(), self._net()
        rail = f"VS{self._used}"
        yield plug(self._next(), [rail, "GND", *data], board="hub", family="JST PH", signals="5V, GND, A1, A2")
        yield splice(self._next("SP"), rail, board=f"splice{self._used}")
        for net in data:
            place = self._next()
            yield plug(place, [rail, net, "GND"], board=self._board(place), family="JST ZH", signals="5V, A, GND")

    def motor(self) -> Iterator[Symbol]:
        nets = [self._net() for _ in range(3)]
        names = "PHASE_A, PHASE_B, PHASE_C"
        yield pads(self._next(), nets, board="hub", signals=names)
        yield captive(self._next(), nets, board=self._board(f"M{self._used}"), signals=names)

    def lamp(self) -> Iterator[Symbol]:
        behind = self._net()
        yield pads(self._next(), ["VBAT", "GND"], board="hub", signals="VBAT, GND")
        yield two_pin(self._next("SW"), "VBAT", behind)
        lamp = {"signals": "VBAT, GND", "takes": "9-30V 0.8A"}
        yield captive(self._next(), [behind, "GND"], board=self._board(f"L{self._used}"), **lamp)

    def pack(self) -> Iterator[Symbol]:
        way = self._dice.choice(("none", "own plug", "fused plug", "soldered", "mate"))
        xt60 = {"family": "amass_xt60"}
        pack = {"signals": "BAT+, BAT-", "gives": "VBAT 30A", "board": "pack"}
        if way == "own plug":
            yield captive("X1", ["VBAT", "GND"], **pack, **xt60)
            yield plug("X2", ["VBAT", "GND"], board="hub", signals="BAT+, BAT-", takes="VBAT 9A", **xt60)
        elif way == "mate":
            yield captive("X1", ["VBAT", "GND"], **pack, **xt60)
            yield pads("X2", ["VBAT", "GND"], board="hub", signals="BAT+, BAT-", takes="VBAT 9A")
        elif way != "none":
            yield captive("X1", ["PACK", "GND"], **pack)
            yield two_pin("F1", "PACK", "VBAT", value="30A")
            draw, more = (plug, xt60) if way == "fused plug" else (pads, {})
            yield draw("X2", ["VBAT", "GND"], board="hub", signals="BAT+, BAT-", takes="VBAT 9A", **more)
