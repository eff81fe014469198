"""What the solver counts: things that work takes and makes, pieces of stock among them.

A thing is one of these frozen classes; two that are equal are the same thing.  `entry` is an index into the stock's
entries of that kind.
"""

from __future__ import annotations

from msgspec import Struct

from tabside.make.needs.cable_jobs import Want


class FinishedLead(Struct, frozen=True):
    """A lead as it is wanted."""

    want: Want


class Tail(Struct, frozen=True):
    """A piece cut from a pre-crimped lead, with a contact of this family on one end."""

    family: str
    want: Want


class WirePiece(Struct, frozen=True):
    """A piece of wire cut to length, without contacts."""

    want: Want


class LooseContact(Struct, frozen=True):
    """A contact that is not crimped yet."""

    family: str


class EmptyHousing(Struct, frozen=True):
    """A housing for new leads, from stock or bought."""

    family: str
    ways: int


class SpareHousing(Struct, frozen=True):
    """An empty housing of the stock: the only one that contacts are moved over into."""

    family: str
    ways: int


class ListedCable(Struct, frozen=True):
    """A ready-made cable of the stock's list."""

    entry: int


class ListedLead(Struct, frozen=True):
    """A pre-crimped lead of the stock's list."""

    entry: int


class ListedWire(Struct, frozen=True):
    """An uncut piece of wire of the stock's list."""

    entry: int


class OpenedWire(Struct, frozen=True):
    """One piece of a wire that is cut into: counted in mm."""

    entry: int
    piece: int


Listed = ListedCable | ListedLead | ListedWire
Thing = FinishedLead | Tail | WirePiece | LooseContact | EmptyHousing | SpareHousing | Listed | OpenedWire
