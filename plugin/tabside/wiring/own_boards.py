"""Own boards: the signals at a board's connector are the nets of its own KiCad project."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping

from msgspec.structs import replace

from tabside.errors import TabsideError
from tabside.model.board import BoardFile, BoardPlug
from tabside.model.drawing import Drawing, DrawnNet, PinKey
from tabside.read.craft.board_file import MOST_WAYS
from tabside.wiring.terminations.fields import TERMINATION_FIELDS, Fields, field_key
from tabside.wiring.terminations.signals import is_counted, repeats_number
from tabside.wiring.terminations.symbols import Gathered, gather
from tabside.words.nearest import did_you_mean

NOT_USED = "nc"
# Two-pin parts that a signal passes through on its way to the connector; a net tie joins two names of one node.
_IN_LINE = frozenset(("R", "L", "FB", "F", "D", "JP", "NT", "SW", "FH", "PF", "CB"))
_BESIDE = frozenset(("C", "TP", "H"))  # on a net without saying what it is


def with_own_signals(board: BoardFile, drawing: Drawing) -> BoardFile:
    """The board with the signals, nets and footprints that its project has at the connectors named by `reference`.

    Raises: TabsideError with file and key when a connector is not drawn there.
    """
    project = _Project(drawing)
    plugs = tuple(plug if plug.reference is None else project.filled(plug, board) for plug in board.plugs)
    digest = hashlib.sha256(board.file_hash.encode())
    for name, file_hash in sorted(drawing.files):
        digest.update(f"{name}\n{file_hash}\n".encode())
    return replace(board, plugs=plugs, file_hash=digest.hexdigest())


class _Project:
    """The parts of an own board's drawing, and where each pin belongs."""

    def __init__(self, drawing: Drawing) -> None:
        self._drawing = drawing
        gathered, _, _ = gather(drawing)
        self._parts: Mapping[str, Gathered] = {part.reference: part for part in gathered}

    def filled(self, plug: BoardPlug, board: BoardFile) -> BoardPlug:
        reference = plug.reference or ""
        part = self._parts.get(reference)
        if part is None:
            hint = did_you_mean(reference, self._parts, "write the connector's reference there")
            raise TabsideError(f'{plug.key}.reference: {board.drawn_in} has no "{reference}"; {hint}', file=board.file)
        if not part.pins or not all(map(is_counted, part.pins)) or "0" in part.pins:
            what = f'{plug.key}.reference: the contacts of "{reference}" are not numbered from 1; write signals instead'
            raise TabsideError(what, file=board.file)
        ways = max(int(number) for number in part.pins)
        if ways > MOST_WAYS:
            raise TabsideError(f"{plug.key}.reference: has more than {MOST_WAYS} contacts", file=board.file)
        names = [self._signal(part, str(n)) for n in range(1, ways + 1)]
        nets = [self._net(part, str(n)).name if str(n) in part.pins else "" for n in range(1, ways + 1)]
        own = {name: text for name, text in self._facts(part).items() if name not in plug.fields}
        return replace(
            plug,
            fields={**plug.fields, **own, "Signals": ", ".join(names) + ","},
            ways=ways,
            unknown=tuple(n for n, name in enumerate(names, 1) if not name),
            nets=tuple(nets),
            footprint=part.first.footprint,
        )

    def _facts(self, part: Gathered) -> Mapping[str, str]:
        """Fields of ours that the connector carries in its project, but what it belongs to and what its names are."""
        shown = {field_key(name): name for name in ("Kind", "Family", "Entry", "Tabs", "Contact 1", "Gives", "Takes")}
        shown |= {field_key(name): name for name in ("Either", "Level", "Level max", "Leads max")}
        fields = Fields(part.fields)
        return {name: fields.text(key) for key, name in shown.items() if key in TERMINATION_FIELDS and fields.text(key)}

    def _net(self, part: Gathered, number: str) -> DrawnNet:
        return self._drawing.nets[part.pins[number].net]

    def _signal(self, part: Gathered, number: str) -> str:
        """The name of a contact's signal; "" when nothing says it."""
        if number not in part.pins:
            return NOT_USED
        pin = part.pins[number]
        net = self._drawing.nets[pin.net]
        others = list(self._others(net, {part.reference}))
        if pin.flagged_no_connect or not others:
            return _named(net) or NOT_USED
        return _named(net) or self._beyond(net, part) or self._far_pin(net, {part.reference})

    def _beyond(self, net: DrawnNet, part: Gathered) -> str:
        """The name on the other side of the one in-line part that a contact leads to and nothing else."""
        others = [
            (reference, key) for reference, key in self._others(net, {part.reference}) if not _is_beside(reference)
        ]
        if len(others) != 1:
            return ""
        reference, key = others[0]
        through = self._parts.get(reference)
        if through is None or len(through.pins) != 2 or through.letters not in _IN_LINE:
            return ""
        symbol = self._drawing.symbols[key[0]]
        on = [pin.net for pin in through.pins.values()]
        far = next((n for n in on if n != symbol.pins[key[1]].net), None)
        if far is None:
            return ""
        beyond = self._drawing.nets[far]
        return _named(beyond) or self._far_pin(beyond, {reference})

    def _far_pin(self, net: DrawnNet, but: set[str]) -> str:
        """The one name that pins of larger parts on the net have; "" when there is none, or several."""
        names = set()
        for reference, key in self._others(net, but):
            part = self._parts.get(reference)
            pin = self._drawing.symbols[key[0]].pins[key[1]]
            if part is not None and part.pin_count > 2 and not repeats_number(pin.name, pin.number):
                names.add(pin.name)
        return _tidy(names.pop()) if len(names) == 1 else ""

    def _others(self, net: DrawnNet, but: set[str]) -> Iterator[tuple[str, PinKey]]:
        """Fitted parts on the net, with their pins."""
        for key in net.pins:
            symbol = self._drawing.symbols[key[0]]
            if not symbol.is_power and not symbol.dnp and symbol.reference not in but:
                yield symbol.reference, key


def _is_beside(reference: str) -> bool:
    return reference.rstrip("0123456789?").upper() in _BESIDE


def _named(net: DrawnNet) -> str:
    """The name that the drawing gives a net: a power symbol's before a label's; "" when KiCad made one up."""
    for names in (net.power_names, net.label_names):
        if names:
            own = net.name.rsplit("/", 1)[-1]
            return _tidy(own if own in names else sorted(names)[0])
    return ""


def _tidy(name: str) -> str:
    return " ".join(name.replace(",", " ").split())
