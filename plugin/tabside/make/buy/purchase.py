"""One line of the list of parts."""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct

from tabside.model.craft import Termination

NOT_KNOWN = "not known"
PIECES, MILLIMETRES = "pieces", "mm"


class Drawn(StrEnum):
    """What is a symbol of the drawing; all else is bought to make the cables."""

    BOARD = "board"  # or a part with its own leads: what the cables join
    PART = "part"  # a splice, an in-line part, a part on the nets


class Purchase(Struct, frozen=True):
    """One line of the list of parts.  None is "not known"; an empty text does not apply."""

    item: str  # "housing", "contact", "wire", ...
    part_number: str = NOT_KNOWN
    family: str | None = ""
    ways: int | str | None = ""
    gauge_awg: int | str | None = ""
    colour: str | None = ""
    length_mm: float | None = None  # of each piece that is bought at one length: the least that will do
    quantity: int | None = 1
    unit: str = PIECES
    in_stock: int = 0
    in_kits: int = 0  # comes with kits that are bought
    used_for: tuple[str, ...] = ()
    source: str = ""  # of the part number
    note: str = ""
    drawn: Drawn | None = None

    @property
    def to_buy(self) -> int | None:
        return None if self.quantity is None else max(0, self.quantity - self.in_stock - self.in_kits)


def place_of(termination: Termination) -> str:
    """How a line says what it is used for: "pilot/J1"."""
    return f"{termination.board}/{termination.reference}"
