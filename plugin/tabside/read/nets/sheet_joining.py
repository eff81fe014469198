"""Joining by name on one sheet, as KiCad does it, one piece after the other in the order of the sheets.

On a sheet, pieces that share the text of any label or power name are one; a wire labelled like a member of a bus is
tied to the bus.  Automatic names and sheet pins join nothing: equal ones are told apart by a suffix.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from tabside.read.nets.names.buses import GROUP, NET, BusRules, Connection
from tabside.read.nets.pieces import Driver, Piece, Rank, vector_key

PinDriver = Callable[[Piece], Driver | None]


class SheetJoining:
    """Joins the pieces in place; absorbed ones point at the piece that took them in."""

    def __init__(self, pieces: list[Piece], rules: BusRules, pin_driver: PinDriver) -> None:
        """`pieces` all have a name; members of buses without a wire come last."""
        self.pieces, self.rules, self.pin_driver = pieces, rules, pin_driver
        self.by_name: dict[str, list[Piece]] = {}  # by full name
        self.by_text: dict[tuple[int, str], dict[int, Piece]] = {}  # strong pieces by sheet and text of any driver
        for piece in pieces:
            # KiCad knows the members of buses by their bare names; a sheet pin of that text stays weak beside them.
            name = piece.connection.short if piece.driver is None else piece.connection.full
            self.by_name.setdefault(name, []).append(piece)
            if (key := vector_key(piece.connection)) is not None:
                self.by_name.setdefault(key, []).append(piece)
            if piece.strong:
                self._offer(piece)

    def join(self) -> dict[str, list[Piece]]:
        """Join all; returns the pieces by the full names that they bore first."""
        enlarged: dict[int, Piece] = {}
        for piece in self.pieces:
            if piece.absorbed_by is not None:
                continue
            if not piece.strong:
                self._tell_apart(piece)
            if piece.strong and self._take_in(piece):
                enlarged[id(piece)] = piece
        for piece in enlarged.values():
            if piece.absorbed_by is None:
                piece.choose_driver(self.pin_driver, self.rules)
        return self.by_name

    def _offer(self, piece: Piece) -> None:
        for text in {piece.connection.short, *(driver.text for driver in piece.drivers)}:
            self.by_text.setdefault((piece.sheet, text), {})[id(piece)] = piece

    def _tell_apart(self, piece: Piece) -> None:
        """Give a weak name that is taken a suffix; a sheet pin's name that is free counts like a label's."""
        connection = piece.connection
        namesakes = self.by_name[connection.full]
        if len(namesakes) <= 1 and (key := vector_key(connection)) is not None:
            namesakes = self.by_name[key]
        if len(namesakes) > 1:
            name = self._free_name(connection)
            namesakes.remove(piece)
            self.by_name.setdefault(name, []).append(piece)
        elif piece.rank is Rank.SHEET_PIN:
            # A global name of the same text on this sheet would otherwise join the sheet pin to it.
            rivals = self.by_name.get(connection.short, ())
            if not any(rival.sheet == piece.sheet for rival in rivals):
                piece.strong = True
                self._offer(piece)

    def _free_name(self, connection: Connection) -> str:
        count = 1
        while True:
            if connection.kind is GROUP:
                prefix = connection.local_name.partition("{")[0] or "BUS"
                name = f"{prefix}_{count}{{{connection.full.partition('{')[2]}"
                connection.rename(name, self.rules)
            else:
                name = f"{connection.full}_{count}"
                connection.set_suffix(f"_{count}")
            if name not in self.by_name:
                return name
            count += 1

    def _take_in(self, piece: Piece) -> bool:
        """Absorb what shares a name, tie what bears a member's name; returns whether anything was absorbed."""
        absorbed = False
        main = piece.connection
        wanted = [main, *self._other_names(piece, main)]
        known: set[str] = set()
        for connection in wanted:  # grows while it is gone through
            if connection.kind is NET and not main.is_bus:
                if connection.short in known:
                    continue
                known.add(connection.short)
            wanted += connection.members
            for other in list(self.by_text.get((piece.sheet, connection.short), {}).values()):
                if other is piece or other.absorbed_by is not None or not _bears(other, connection.short):
                    continue
                if main.is_bus and other.connection.kind is NET:
                    piece.bus_members.setdefault(id(connection), (connection, {}))[1][id(other)] = other
                    other.bus_parents.setdefault(id(connection), (connection, {}))[1][id(piece)] = piece
                elif main.kind is other.connection.kind:
                    absorbed = True
                    piece.absorb(other)
                    wanted += self._other_names(other, main)
                    for text in {other.connection.short, *(driver.text for driver in other.drivers)}:
                        self.by_text.setdefault((piece.sheet, text), {})[id(piece)] = piece
        return absorbed

    def _other_names(self, piece: Piece, main: Connection) -> Iterable[Connection]:
        """What the piece's other labels stand for, as far as it is of the same kind."""
        if not piece.drivers:
            return []
        texts = dict.fromkeys(d.text for d in piece.drivers if d.is_label and d.text != main.short)
        origin = piece.drivers[0].origin
        others = [Connection(origin, text, self.rules) for text in texts]
        return [other for other in others if other.kind is main.kind]


def _bears(piece: Piece, text: str) -> bool:
    if piece.connection.short == text:
        return True
    return piece.several and any(driver.is_label and driver.text == text for driver in piece.drivers)
