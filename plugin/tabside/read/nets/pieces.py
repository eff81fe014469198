"""A piece of a net: what one sheet joins, the names offered for it, and which of them it bears there."""

from collections.abc import Callable, Iterable
from enum import IntEnum
from typing import NamedTuple

from tabside.read.nets.names.buses import VECTOR, BusRules, Connection, Origin


class Rank(IntEnum):
    """How strongly something names a net; from HIERARCHICAL up it is a name that a person gave."""

    NONE = 0  # members of buses that no wire is labelled for
    PIN = 1
    SHEET_PIN = 2
    HIERARCHICAL = 3
    LOCAL = 4
    LOCAL_POWER = 5  # KiCad 10
    POWER = 6  # from here up the name counts on all sheets
    GLOBAL = 7


class Driver(NamedTuple):
    """Something that offers a name."""

    rank: Rank
    text: str  # as it takes part in names, see labels.net_text
    origin: Origin
    output: bool = False  # sheet pins: preferred among equals
    power_symbol: bool = False  # power pins: preferred over hidden pins of ordinary symbols

    @property
    def is_label(self) -> bool:
        return self.rank > Rank.SHEET_PIN

    def order(self) -> tuple[bool, bool, str]:
        """The smallest of equal rank gives the name."""
        return (not self.power_symbol, "-Pad" in self.text, self.text)


class Piece:
    """Things of one sheet instance that are one net or bus, by drawing and later by name."""

    __slots__ = (
        *("sheet", "pins", "drivers", "pin_drivers", "flagged", "hier_ports", "hier_pins", "driver", "strong"),
        *("several", "absorbed_by", "waiting", "bus_members", "bus_parents", "_connection"),
    )

    def __init__(
        self,
        sheet: int,
        pins: list[int],  # as numbered by whoever makes the pieces
        drivers: list[Driver],  # without pins
        pin_drivers: list[int],  # pins of annotated symbols
        flagged: bool,
        hier_ports: Iterable[str] = (),  # texts of its hierarchical labels
        hier_pins: Iterable[tuple[int, str]] = (),  # sheet pins: instance below, text
    ) -> None:
        self.sheet = sheet
        self.pins = pins
        self.drivers = drivers
        self.pin_drivers = pin_drivers
        self.flagged = flagged
        self.hier_ports = list(hier_ports)
        self.hier_pins = list(hier_pins)
        self.driver: Driver | None = None
        self.strong = False  # named by a person
        self.several = False  # more than one strong driver
        self.absorbed_by: Piece | None = None
        self.waiting = True  # not yet reached while names spread through the hierarchy
        self.bus_members: dict[int, tuple[Connection, dict[int, Piece]]] = {}  # wires named like members
        self.bus_parents: dict[int, tuple[Connection, dict[int, Piece]]] = {}  # buses with such a member
        self._connection: Connection | None = None

    @property
    def connection(self) -> Connection:
        """What it is; only pieces that something names have one."""
        assert self._connection is not None
        return self._connection

    @connection.setter
    def connection(self, connection: Connection) -> None:
        self._connection = connection

    @property
    def rank(self) -> Rank:
        return Rank.NONE if self.driver is None else self.driver.rank

    @property
    def is_global(self) -> bool:
        return self.rank >= Rank.POWER

    def standing(self) -> "Piece":
        """Itself, or the piece that has taken it in."""
        piece = self
        while piece.absorbed_by is not None:
            piece = piece.absorbed_by
        return piece

    def choose_driver(self, pin_driver: Callable[["Piece"], Driver | None], rules: BusRules) -> None:
        """Let the best driver name it.  `pin_driver` is asked only when nothing but pins is there."""
        self.driver, self.strong = None, False
        if self.drivers:
            rank = max(driver.rank for driver in self.drivers)
            candidates = [driver for driver in self.drivers if driver.rank is rank]
            self.strong = rank >= Rank.HIERARCHICAL
            self.driver = _best(candidates)
        else:
            self.driver = pin_driver(self)
        if self.strong:
            # Weaker ones, sheet pins and part pins, never join anything once there is a name.
            self.drivers = [driver for driver in self.drivers if driver.is_label]
            self.several = self.several or len(self.drivers) > 1
        if self.driver is not None:  # a bus member without a wire keeps what it is
            self._connection = Connection(self.driver.origin, self.driver.text, rules)

    def absorb(self, other: "Piece") -> None:
        self.pins += other.pins
        self.drivers += other.drivers
        self.pin_drivers += other.pin_drivers
        self.hier_ports += other.hier_ports
        self.hier_pins += other.hier_pins
        self.bus_members.update(other.bus_members)
        self.bus_parents.update(other.bus_parents)
        self.several = self.several or other.several
        self.flagged = self.flagged or other.flagged
        other.absorbed_by = self


def _best(candidates: list[Driver]) -> Driver:
    if len(candidates) == 1:
        return candidates[0]
    ordered = sorted(candidates, key=Driver.order)
    if ordered[0].rank is Rank.SHEET_PIN:
        return next((driver for driver in ordered if driver.output), ordered[0])
    return ordered[0]


def vector_key(connection: Connection) -> str | None:
    """What vectors of one prefix have in common, None for anything else."""
    return connection.full.partition("[")[0] + "[]" if connection.kind is VECTOR else None


def member_pieces(pieces: list[Piece], local: list[Origin], rules: BusRules) -> list[Piece]:
    """A piece without pins for each member of each labelled bus, as if a wire were labelled for it.

    They tie buses to each other that share members by name, whether or not such a wire is drawn on that sheet.
    `local` has each sheet instance's origin with its path.
    """
    members: list[Piece] = []
    for piece in pieces:
        driver = piece.driver
        if not piece.strong or driver is None or ("[" not in driver.text and "{" not in driver.text):
            continue
        for member in piece.connection.members:
            new = Piece(piece.sheet, [], [], [], False)
            new.strong = True
            new.connection = Connection.net(local[piece.sheet], member.prefix_as_drawn + member.local_name, rules)
            members.append(new)
    return members
