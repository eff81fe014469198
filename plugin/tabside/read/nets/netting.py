"""From schematic files to nets, named and joined as KiCad does it."""

from collections.abc import Iterator
from typing import NamedTuple

from tabside.errors import TabsideError
from tabside.model.drawing import DrawnNet, PinKey
from tabside.model.natural import natural
from tabside.read.kicad.labels import net_text, shown_name
from tabside.read.kicad.placements import Placement, placements
from tabside.read.kicad.sheet_file import Hierarchy, SheetInstance
from tabside.read.nets.geometry import PlacedPin, lib_symbol, refuse_too_many
from tabside.read.nets.knots import Knot, SheetKnots, tie, ties_alike
from tabside.read.nets.names.bus_sizes import MOST_MEMBERS, BusSizes
from tabside.read.nets.names.buses import BusRules, Origin
from tabside.read.nets.names.net_names import pin_net_name
from tabside.read.nets.names.sheet_texts import SheetTexts, SymbolsByName
from tabside.read.nets.pieces import Driver, Piece, Rank, member_pieces
from tabside.read.nets.sheet_joining import SheetJoining
from tabside.read.nets.spreading import Spreading

_LABEL_RANKS = {"local": Rank.LOCAL, "global": Rank.GLOBAL, "hierarchical": Rank.HIERARCHICAL}


class SheetUse(NamedTuple):
    """One sheet instance on its way to the drawing."""

    instance: SheetInstance
    tied: SheetKnots
    placements: list[Placement]
    texts: SheetTexts
    local: Origin
    everywhere: Origin
    first_pin: int  # pins of all sheets are numbered in one row
    first_symbol: int
    piece_of: list[Piece]  # for each knot

    def pin_key(self, pin: int) -> PinKey:
        """The drawing's key of a pin, by its place in `tied.pins`."""
        symbol = self.tied.pins[pin].symbol
        return (self.first_symbol + symbol, pin - self.tied.pins_of[symbol][0])


class Netting:
    """The nets of a hierarchy, which are KiCad's: same pins on the same nets, same names; by their natural order."""

    def __init__(self, hierarchy: Hierarchy, other: "Netting | None" = None) -> None:
        """`other`: the same sheets by the rules of the other KiCad; its knots are taken where both make the same."""
        self.hierarchy = hierarchy
        self.symbols_by_name = SymbolsByName(hierarchy)
        self.ties: dict[tuple[int, tuple[int, ...]], SheetKnots] = {}  # by id of the file, and units
        if other is not None:
            alike = {id(sheet.file) for sheet in hierarchy.sheets if ties_alike(sheet.file)}
            self.ties |= {key: tied for key, tied in other.ties.items() if key[0] in alike}
        self.below = {
            (sheet.parent, sheet.symbol.uuid): index
            for index, sheet in enumerate(hierarchy.sheets)
            if sheet.parent is not None and sheet.symbol is not None
        }
        self.sheets: list[SheetUse] = []
        self.pieces: list[Piece] = []
        self.sheet_of_pin: list[int] = []
        for index, instance in enumerate(self.hierarchy.sheets):
            self.sheets.append(self._sheet(index, instance))
        for index, sheet in enumerate(self.sheets):
            sheet.piece_of[:] = [self._piece(index, sheet, knot) for knot in sheet.tied.knots]
            self.pieces += sheet.piece_of
        self._name_pieces()
        self.net_of_piece: dict[int, int] = {}  # id of a piece -> place of its net
        self.nets = list(self._nets())

    def net_of(self, piece: Piece) -> int | None:
        """The place of its net among `nets`; None when it has no pins."""
        return self.net_of_piece.get(id(piece.standing()))

    # Sheets and pieces

    def _sheet(self, index: int, instance: SheetInstance) -> SheetUse:
        placed = placements(self.hierarchy, instance)
        units = tuple(placement.unit for placement in placed)
        key = (id(instance.file), units)
        tied = self.ties.get(key)
        if tied is None:
            tied = self.ties[key] = tie(instance.file, units, self.hierarchy.kicad)
        first_pin = len(self.sheet_of_pin)
        refuse_too_many(first_pin + len(tied.pins), instance.file)
        self.sheet_of_pin += [index] * len(tied.pins)
        return SheetUse(
            instance,
            tied,
            placed,
            SheetTexts(self.hierarchy, instance, self.symbols_by_name),
            Origin(index, instance.names),
            Origin(index, ""),
            first_pin,
            sum(len(sheet.placements) for sheet in self.sheets[-1:]) + (self.sheets[-1].first_symbol if index else 0),
            [],
        )

    def _piece(self, index: int, sheet: SheetUse, knot: Knot) -> Piece:
        file = sheet.instance.file
        drivers: list[Driver] = []
        ports: list[str] = []
        below: list[tuple[int, str]] = []
        pin_drivers: list[int] = []
        for number in knot.labels:
            label = file.labels[number]
            rank = _LABEL_RANKS.get(label.kind)
            if rank is None:
                continue
            text = sheet.texts.label(label)
            drivers.append(Driver(rank, text, sheet.everywhere if rank is Rank.GLOBAL else sheet.local))
            if rank is Rank.HIERARCHICAL:
                ports.append(text)
        for number, place in knot.sheet_pins:
            pin = file.sheets[number].pins[place]
            child = self.below.get((index, file.sheets[number].uuid))
            text = (sheet if child is None else self.sheets[child]).texts.sheet_pin(pin.text)
            drivers.append(Driver(Rank.SHEET_PIN, text, sheet.local, output=pin.shape == "output"))
            if child is not None:
                below.append((child, text))
        for number in knot.pins:
            pin_ = sheet.tied.pins[number]
            if pin_.power:
                drivers.append(self._power_driver(sheet, pin_))
            elif sheet.placements[pin_.symbol].names_nets and not pin_.stacked:
                pin_drivers.append(sheet.first_pin + number)
        pins = [sheet.first_pin + number for number in knot.pins]
        return Piece(index, pins, drivers, pin_drivers, knot.flagged, ports, below)

    def _power_driver(self, sheet: SheetUse, pin: PlacedPin) -> Driver:
        symbol = sheet.instance.file.symbols[pin.symbol]
        value = pin.base_name
        if pin.power != "pin":
            value = sheet.placements[pin.symbol].value if pin.legacy_value is None else pin.legacy_value
        text = sheet.texts.power_name(symbol, value)
        local = pin.power == "local" and self.hierarchy.kicad >= 10
        rank = Rank.LOCAL_POWER if local else Rank.POWER
        origin = sheet.local if local else sheet.everywhere
        return Driver(rank, text, origin, power_symbol=pin.power != "pin")

    # Names

    def _name_pieces(self) -> None:
        rules = BusRules(self.hierarchy.bus_aliases, self.hierarchy.kicad)
        self._refuse_vast_buses(rules)
        for piece in self.pieces:
            piece.choose_driver(self._pin_driver, rules)
        driven = [piece for piece in self.pieces if piece.driver is not None]
        driven += member_pieces(driven, [sheet.local for sheet in self.sheets], rules)
        by_name = SheetJoining(driven, rules, self._pin_driver).join()
        driven = [piece for piece in driven if piece.absorbed_by is None]
        Spreading(driven, [sheet.depth for sheet in self.hierarchy.sheets], by_name, rules).spread()
        for piece in driven:
            if not piece.strong and len(piece.pin_drivers) == 1 and piece.rank is Rank.PIN:
                piece.connection.name = self._pin_name(piece.pin_drivers[0], unconnected=True)
                piece.connection.refresh()

    def _refuse_vast_buses(self, rules: BusRules) -> None:
        sizes, members = BusSizes(rules), 0
        for piece in self.pieces:
            for driver in piece.drivers:
                size = sizes.of(driver.text)
                members += size
                if members > MOST_MEMBERS:
                    raise self._too_many_members(piece.sheet, driver.text, size)

    def _too_many_members(self, sheet: int, text: str, size: int) -> TabsideError:
        instance = self.hierarchy.sheets[sheet]
        at = next((label.at for label in instance.file.labels if net_text(label.text) == text), None)
        place = "" if at is None else f" at {at[0] / 1e4:g}, {at[1] / 1e4:g} mm"
        many = f"more than {MOST_MEMBERS}" if size > MOST_MEMBERS else str(size)
        return TabsideError(
            f'bus "{text}" on sheet {instance.names}{place} has {many} members, and the drawing\'s buses together more '
            f"than {MOST_MEMBERS}; write the range that is meant",
            file=instance.file.path,
        )

    def _pin_driver(self, piece: Piece) -> Driver | None:
        """The best of the names that its pins make; flags of no part and power flags make none."""
        names = [
            self._pin_name(pin, unconnected=piece.flagged or self._pin(pin).joins_nothing)
            for pin in piece.pin_drivers
            if not self._placement(pin).reference.startswith("#")
        ]
        if not names:
            return None
        text = min(names, key=lambda name: ("-Pad" in name, name))
        return Driver(Rank.PIN, text, self.sheets[piece.sheet].everywhere)

    def _pin(self, number: int) -> PlacedPin:
        sheet = self.sheets[self.sheet_of_pin[number]]
        return sheet.tied.pins[number - sheet.first_pin]

    def _placement(self, number: int) -> Placement:
        return self.sheets[self.sheet_of_pin[number]].placements[self._pin(number).symbol]

    def _pin_name(self, number: int, *, unconnected: bool) -> str:
        sheet = self.sheets[self.sheet_of_pin[number]]
        pin = sheet.tied.pins[number - sheet.first_pin]
        symbol = sheet.instance.file.symbols[pin.symbol]
        library = lib_symbol(sheet.instance.file, symbol)
        placement = sheet.placements[pin.symbol]
        units = 1 if library is None else library.unit_count
        return pin_net_name(pin, placement, units, symbol.uuid, unconnected)

    # Nets

    def _nets(self) -> Iterator[DrawnNet]:
        """The nets; notes for each piece which is its own."""
        groups: dict[tuple[str, int], list[Piece]] = {}
        for number, piece in enumerate(self.pieces):
            piece = piece.standing()
            if piece.driver is None:
                name = self._pin_name(piece.pins[0], unconnected=False) if piece.pins else ""
                groups.setdefault((name, number), []).append(piece)
            else:
                groups.setdefault((piece.connection.full, -1), []).append(piece)
        with_pins = (key for key, group in groups.items() if any(piece.pins for piece in group))
        for place, key in enumerate(sorted(with_pins, key=_net_order)):
            pieces = list({id(piece): piece for piece in groups[key]}.values())
            for piece in pieces:
                self.net_of_piece[id(piece)] = place
            yield self._net(key[0], pieces, undriven=key[1] >= 0)

    def _net(self, name: str, pieces: list[Piece], undriven: bool) -> DrawnNet:
        numbers = sorted(pin for piece in pieces for pin in piece.pins)
        drivers = [driver for piece in pieces for driver in piece.drivers]
        return DrawnNet(
            name=shown_name(name),
            pins=tuple(self._pin_key(number) for number in numbers),
            dropped=undriven and any(not self._placement(n).reference.startswith("#") for n in numbers),
            power_names=_texts(drivers, (Rank.POWER, Rank.LOCAL_POWER)),
            label_names=_texts(drivers, (Rank.LOCAL, Rank.HIERARCHICAL, Rank.GLOBAL)),
        )

    def _pin_key(self, number: int) -> PinKey:
        sheet = self.sheets[self.sheet_of_pin[number]]
        return sheet.pin_key(number - sheet.first_pin)


def _net_order(key: tuple[str, int]) -> tuple[object, ...]:
    name, number = key
    return (natural(shown_name(name)), name, number)


def _texts(drivers: list[Driver], ranks: tuple[Rank, ...]) -> tuple[str, ...]:
    return tuple(sorted({shown_name(driver.text) for driver in drivers if driver.rank in ranks}))
