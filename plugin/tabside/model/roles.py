"""What a contact is for: ground, supply, one line of a signal group, a motor phase, or not known."""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct


class RoleClass(StrEnum):
    GROUND = "ground"
    SUPPLY = "supply"
    SIGNAL = "signal"
    PHASE = "phase"
    SHIELD = "shield"
    UNKNOWN = "unknown"
    AMBIGUOUS = "ambiguous"


class Direction(StrEnum):
    """What a contact does to its net, seen from its own board."""

    DRIVES = "drives"
    LISTENS = "listens"
    BOTH = "both"  # bus lines, half duplex, open drain
    UNKNOWN = "unknown"


class Volts(Struct, frozen=True):
    """A voltage or a range of voltages."""

    low: float
    high: float
    named: float | None = None  # the figure that a battery goes by: 12 of a lead battery from 10.5 to 14.4 V
    # What lies between this and `high` no source vouches for; None: all is sure.
    unsure_above: float | None = None

    @property
    def sure_high(self) -> float:
        """The highest volts that may be held against a limit as an error."""
        return self.high if self.unsure_above is None else max(self.unsure_above, self.named or 0.0)

    def __str__(self) -> str:
        return f"{self.low:g} V" if self.low == self.high else f"{self.low:g} to {self.high:g} V"


class Rail(Struct, frozen=True):
    """One entry of `Gives` or `Takes`: "5V 1.5A", "7-26V 0.6A typical 0.3A", "1:5V 1.5A", "VBAT 30A"."""

    volts: Volts | None  # None: battery, or a current without a voltage
    battery: bool = False
    max_a: float | None = None
    typical_a: float | None = None
    contact: str | None = None  # bound by number
    text: str = ""  # as written


class Role(Struct, frozen=True):
    """One reading of a contact."""

    cls: RoleClass
    # Of facts/data/labels, synonyms.csv or role_pairs.csv: "uart_tx", "power_5v"; "unknown"; "ambiguous_power".
    name: str
    label: str = ""  # the text that it was read from, as drawn
    group: str = ""  # signals: "uart", "i2c", "can", "spi", "motor", ...
    line: str = ""  # signals: "tx", "rx", "sda", ...
    direction: Direction = Direction.UNKNOWN
    volts: Volts | None = None  # supplies: what the rail carries, None when the label does not say
    battery: bool = False  # supplies: the pack's own voltage
    index: int | None = None  # TX3 -> 3, M2 -> 2
    readings: tuple[Role, ...] = ()  # ambiguous: what it may be
    said_by: str = "label"  # "field", "pin type", "label", "in-line part": what the role was taken from
    active_low: bool = False

    @property
    def is_supply(self) -> bool:
        return self.cls is RoleClass.SUPPLY

    @property
    def is_ground(self) -> bool:
        return self.cls is RoleClass.GROUND

    @property
    def judged(self) -> bool:
        """Whether agreement with another such role can be decided at all."""
        return self.cls not in (RoleClass.UNKNOWN, RoleClass.AMBIGUOUS)
