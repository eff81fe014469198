"""One line of the list of parts."""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct

from tabside.model.craft import Termination

NOT_KNOWN = "not known"
PIECES, MILLIMETRES = "pieces", "mm"


class Item(StrEnum):
    """What cables are made of.  Parts of the drawing, tools and what the bench uses up are named by words alone."""

    KIT = "kit"
    CABLE = "ready-made cable"
    LEAD = "pre-crimped lead"
    WIRE = "wire"
    HOUSING = "housing"
    CONTACT = "contact"
    CUP_PLUG = "solder-cup plug"
    MATE = "mating plug"
    PLUG = "plug"
    SLOT_PLUG = "insulation-displacing plug"

    @property
    def words(self) -> str:
        return "crimp contact" if self is Item.CONTACT else self.value


class Drawn(StrEnum):
    """What is a symbol of the drawing; all else is bought to make the cables."""

    BOARD = "board"  # or a part with its own leads: what the cables join
    PART = "part"  # a splice, an in-line part, a part on the nets


class Purchase(Struct, frozen=True):
    """One line of the list of parts.  None is "not known"; an empty text does not apply."""

    item: Item | str
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
    def words(self) -> str:
        """What it is, as a person says it."""
        return self.item.words if isinstance(self.item, Item) else self.item

    @property
    def to_buy(self) -> int | None:
        return None if self.quantity is None else max(0, self.quantity - self.in_stock - self.in_kits)


def place_of(termination: Termination) -> str:
    """How a line says what it is used for: "pilot/J1"."""
    return f"{termination.board}/{termination.reference}"
