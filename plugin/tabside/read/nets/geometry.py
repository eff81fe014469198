"""Where the pins of placed symbols lie on the sheet, and which of them a placed unit has."""

from typing import NamedTuple

from tabside.errors import TabsideError
from tabside.model.stated_limits import MOST_PINS
from tabside.read.kicad.library_symbol import TILDE_IS_TEXT, stacked_numbers
from tabside.read.kicad.sheet_file import LibPin, LibSymbol, PlacedSymbol, Point, SheetFile

_POWER_VALUE = 20230221  # from here on a power symbol names its net by its Value, before by the name of its hidden pin

# (a, b, c, d): a pin at (x, y) of the library symbol, y upwards, lies at (a x + b y, c x + d y) from the placed
# symbol's point, y downwards.  Seen in KiCad 9.0.8: turn first, mirror last.
_TURNS: dict[tuple[int, str], tuple[int, int, int, int]] = {
    (0, ""): (1, 0, 0, -1),
    (0, "x"): (1, 0, 0, 1),
    (0, "y"): (-1, 0, 0, -1),
    (90, ""): (0, -1, -1, 0),
    (90, "x"): (0, -1, 1, 0),
    (90, "y"): (0, 1, -1, 0),
    (180, ""): (-1, 0, 0, 1),
    (180, "x"): (-1, 0, 0, -1),
    (180, "y"): (1, 0, 0, 1),
    (270, ""): (0, 1, 1, 0),
    (270, "x"): (0, 1, -1, 0),
    (270, "y"): (0, -1, 1, 0),
}


class PlacedPin(NamedTuple):
    """One pin of one placed symbol; `symbol` is the symbol's place in `SheetFile.symbols`."""

    symbol: int
    number: str
    base_name: str  # of the library: automatic net names use it even when an alternate function is chosen
    name: str  # as shown; "" when there is none
    electrical: str  # of the chosen alternate, if there is one
    at: Point
    power: str  # "" or how the pin names its net: "value" (power symbol), "local" (KiCad 10), "pin" (hidden power pin)
    legacy_value: (
        str | None
    )  # power symbols of KiCad 6 and 7 with a hidden pin: the pin's name, which outranks the Value
    shares_name: bool = False  # another pin of this unit shows the same name under another number
    without_library: bool = False  # nothing says where it is, nor what it is called
    stacked: bool = False  # one more number of the pin before it (KiCad 10); names no net

    @property
    def joins_nothing(self) -> bool:
        return self.electrical == "no_connect"


def place(symbol: PlacedSymbol, at: Point) -> Point:
    """The sheet's point of a library symbol's point."""
    a, b, c, d = _TURNS[symbol.angle % 360, symbol.mirror]
    return (symbol.at[0] + a * at[0] + b * at[1], symbol.at[1] + c * at[0] + d * at[1])


def lib_symbol(file: SheetFile, symbol: PlacedSymbol) -> LibSymbol | None:
    """The library symbol that a placed one shows; None when the file has none."""
    return file.lib_symbols.get(symbol.lib_name or symbol.lib_id)


def unit_pins(library: LibSymbol, unit: int, style: int) -> list[LibPin]:
    """The pins that unit `unit` drawn in body style `style` has: its own and those common to all."""
    return [pin for pin in library.pins if pin.unit in (0, unit) and pin.style in (0, style)]


def placed_pins(file: SheetFile, index: int, unit: int, kicad: int = 9) -> list[PlacedPin]:
    """The pins of symbol number `index` of the file, when it is placed as unit `unit`, by the rules of this KiCad.

    KiCad 10 takes `[1-3,A5]` as a pin's number for four pins.
    """
    pins = _pins_as_written(file, index, unit)
    if kicad < 10 or not any(pin.number.startswith("[") for pin in pins):
        return pins
    found: list[PlacedPin] = []
    for pin in pins:
        found += _each_number(pin)
        refuse_too_many(len(found), file)
    return found


def refuse_too_many(pins: int, file: SheetFile) -> None:
    """Raises: TabsideError when a drawing has more pins than any harness."""
    if pins > MOST_PINS:
        raise TabsideError(f"the drawing has more than {MOST_PINS} pins up to here; part it", file=file.path)


def _each_number(pin: PlacedPin) -> list[PlacedPin]:
    first, *others = stacked_numbers(pin.number)
    return [pin._replace(number=first), *(pin._replace(number=number, stacked=True) for number in others)]


def _pins_as_written(file: SheetFile, index: int, unit: int) -> list[PlacedPin]:
    """Without a library symbol they are those that the placed one lists itself, all on its own point, as in KiCad."""
    symbol = file.symbols[index]
    library = lib_symbol(file, symbol)
    if library is None:
        return [_lost_pin(index, symbol, number) for number in symbol.own_pins]
    pins = unit_pins(library, unit, symbol.style)
    legacy = _legacy_value(file, library)
    placed = [_placed_pin(file, index, library, pin, legacy) for pin in pins]
    if len(placed) > 1:
        numbers: dict[str, set[str]] = {}
        for pin_ in placed:
            numbers.setdefault(pin_.name, set()).add(pin_.number)
        return [pin_._replace(shares_name=True) if len(numbers[pin_.name]) > 1 else pin_ for pin_ in placed]
    return placed


def _placed_pin(file: SheetFile, index: int, library: LibSymbol, pin: LibPin, legacy: str | None) -> PlacedPin:
    symbol = file.symbols[index]
    alternate = symbol.alternates.get(pin.number) if pin.alternates else None
    base = _unbroken(pin.name)
    name, electrical = base, pin.electrical
    if alternate is not None and alternate in pin.alternates:
        name, electrical = _unbroken(alternate), pin.alternates[alternate]
    return PlacedPin(
        symbol=index,
        number="" if pin.number == "~" and file.version < TILDE_IS_TEXT else _unbroken(pin.number),
        base_name=base,
        name=name,
        electrical=electrical,
        at=place(symbol, pin.at),
        power=_power(library, pin, electrical),
        legacy_value=legacy,
    )


def _lost_pin(index: int, symbol: PlacedSymbol, number: str) -> PlacedPin:
    return PlacedPin(index, _unbroken(number), "", "", "unspecified", symbol.at, "", None, without_library=True)


def _unbroken(text: str) -> str:
    """A pin's name or number as KiCad keeps it: it takes no blanks there."""
    return text.replace(" ", "_") if " " in text else text


def _power(library: LibSymbol, pin: LibPin, electrical: str) -> str:
    if electrical != "power_in":
        return ""
    if library.power:
        return "local" if library.power == "local" else "value"
    return "pin" if pin.hidden else ""


def _legacy_value(file: SheetFile, library: LibSymbol) -> str | None:
    """KiCad 8 and later overwrite the Value of an older file's power symbol with the name of its hidden first pin."""
    if file.version >= _POWER_VALUE or not library.power or not library.pins:
        return None
    first = library.pins[0]
    return _unbroken(first.name) if first.electrical == "power_in" and first.hidden else None
