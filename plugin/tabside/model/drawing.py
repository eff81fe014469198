"""What was drawn: symbols, pins, nets and stretches of wire, as read from the schematic files.

This is where KiCad's words end.  `read` fills it, `wiring` makes a craft of it.
"""

# Named tuples, for `nets` loads no msgspec; and no annotations as text, which named tuples compile one by one.

from collections.abc import Mapping
from enum import Enum
from typing import NamedTuple

_NOTHING: Mapping[str, str] = {}


class Place(NamedTuple):
    """Where something sits in the drawing, so that a finding can point at it."""

    file: str  # path of the schematic file, relative to the root's folder, with forward slashes
    sheet: str  # the sheet's path as a person reads it: "/" for the root, "/power/" below it
    at_mm: tuple[float, float]  # on the sheet, y downwards
    uuid: str = ""


class DrawnPin(NamedTuple):
    """One pin of one placed symbol."""

    number: str
    name: str  # as shown: the chosen alternate function's name if there is one; "" when the symbol has none
    electrical: str  # KiCad's type: input, output, passive, power_in, power_out, open_collector, no_connect, ...
    net: int  # index into Drawing.nets
    flagged_no_connect: bool  # a no-connect flag lies on it
    at_mm: tuple[float, float]


class DrawnSymbol(NamedTuple):
    """One placed symbol in one sheet instance (each unit of a multi-unit part is one of these)."""

    reference: str  # as annotated for this sheet instance; "J?" when not annotated
    unit: int
    value: str
    footprint: str  # as written, library nickname included
    lib_id: str
    fields: Mapping[str, str]  # every property by its own name, Reference, Value and Footprint included
    sheet_fields: tuple[Mapping[str, str], ...]  # fields of the enclosing sheet symbols, innermost first
    pins: tuple[DrawnPin, ...]
    is_power: bool  # a power symbol: names a net, is no part
    annotated: bool  # False: KiCad drops it, or merges it, in silence
    in_bom: bool
    dnp: bool
    place: Place
    unit_count: int = 1  # units that the library symbol has
    on_board: bool = True


PinKey = tuple[int, int]  # (index into Drawing.symbols, index into that symbol's pins)


class DrawnNet(NamedTuple):
    """One electrical node.  `pins` holds power symbols' pins too; the JSON of `nets` leaves them out."""

    name: str  # as KiCad names it, unescaped
    pins: tuple[PinKey, ...]
    dropped: bool = False  # KiCad leaves it out of its netlist (unannotated parts only); `nets` drops it too
    power_names: tuple[str, ...] = ()  # names given by power symbols and hidden power pins on it
    label_names: tuple[str, ...] = ()  # texts of all labels on it, without sheet path


class DrawnStretch(NamedTuple):
    """All that touches along drawn wires without crossing the point of a pin, over sheets as well; two pins or more.

    Names on it (power symbols, labels, directives) do not cut it.  Each point holds the pins that lie on each other
    there, and every stretch that meets the point lists it; a point of pins that are no contacts cuts nothing.
    """

    points: tuple[tuple[PinKey, ...], ...]

    @property
    def pins(self) -> tuple[PinKey, ...]:
        return tuple(pin for point in self.points for pin in point)


class DrawnNote(NamedTuple):
    """Fields that a label or a net-class directive on a wire carries (Gauge, Colour, Length, Pair, ...).

    `pins` are those of the stretch of wire that it lies on; none when the stretch meets no pin.
    """

    fields: Mapping[str, str]
    net: int
    pins: tuple[PinKey, ...]
    place: Place


class TwoReadings(NamedTuple):
    """Pins that KiCad 9 and KiCad 10 put on different nets of the same drawing."""

    reference: str  # of the first of these pins, in natural order
    pin: str
    nine: str  # which pins are together, in words
    ten: str
    place: Place

    @property
    def words(self) -> str:
        return f"KiCad 9 and KiCad 10 read this differently. KiCad 9: {self.nine}. KiCad 10: {self.ten}."


class LooseKind(Enum):
    """How something on a sheet looks joined and is not."""

    LABEL_ONCE = "label once"  # a name that occurs once, on a wire that joins nothing
    NEAR_PIN = "near pin"  # a wire ends just beside a pin
    OVER_PIN = "over pin"  # a wire passes a pin without ending there
    ON_WIRE = "on wire"  # a wire ends on the middle of another, without a junction
    FLAG_ALONE = "flag alone"  # a flag that states something of a wire, and holds to none
    NAME_DROPPED = "name dropped"  # a name in the middle of a wire, on one point with another thing: it names nothing
    ON_EACH_OTHER = "on each other"  # wires that KiCad's editor and its command line join differently


class DrawnLoose(NamedTuple):
    kind: LooseKind
    name: str  # of the label; else the pin, "J1:3" ("GND" of a power symbol); "" when there is none
    place: Place
    similar: str = ""  # a name that differs little and occurs elsewhere


class Drawing(NamedTuple):
    """A whole schematic with its sheets, netlisted as KiCad does."""

    root: str  # the root file's name without folder and suffix
    title: str
    revision: str
    date: str
    company: str
    symbols: tuple[DrawnSymbol, ...]
    nets: tuple[DrawnNet, ...]
    stretches: tuple[DrawnStretch, ...]
    notes: tuple[DrawnNote, ...]
    warnings: tuple[str, ...] = ()  # one line each, for standard error
    files: tuple[tuple[str, str], ...] = ()  # (file as in Place.file, sha256 hex of its bytes), root first
    text_variables: Mapping[str, str] = _NOTHING
    loose: tuple[DrawnLoose, ...] = ()
    kicad: int = 9  # whose rules made the nets: 9 (those of 6 to 9 alike) or 10
    variant: str = ""  # the design variant that was read; "" for the drawing as it is without one
    two_readings: tuple[TwoReadings, ...] = ()  # what KiCad 9 and 10 read differently

    def pin(self, key: PinKey) -> DrawnPin:
        return self.symbols[key[0]].pins[key[1]]
