"""What the solver counts: things that work takes and makes, pieces of stock among them.

A thing is one of these frozen classes; two that are equal are the same thing.  `entry` is an index into the stock's
entries of that kind.
"""

from __future__ import annotations

from dataclasses import dataclass

from tabside.make.needs.cable_jobs import Want


@dataclass(frozen=True, slots=True)
class FinishedLead:
    """A lead as it is wanted."""

    want: Want


@dataclass(frozen=True, slots=True)
class Tail:
    """A piece cut from a pre-crimped lead, with a contact of this family on one end."""

    family: str
    want: Want


@dataclass(frozen=True, slots=True)
class WirePiece:
    """A piece of wire cut to length, without contacts."""

    want: Want


@dataclass(frozen=True, slots=True)
class LooseContact:
    """A contact that is not crimped yet."""

    family: str


@dataclass(frozen=True, slots=True)
class EmptyHousing:
    """A housing for new leads, from stock or bought."""

    family: str
    ways: int


@dataclass(frozen=True, slots=True)
class SpareHousing:
    """An empty housing of the stock: the only one that contacts are moved over into."""

    family: str
    ways: int


@dataclass(frozen=True, slots=True)
class ListedCable:
    """A ready-made cable of the stock's list."""

    entry: int


@dataclass(frozen=True, slots=True)
class ListedLead:
    """A pre-crimped lead of the stock's list."""

    entry: int


@dataclass(frozen=True, slots=True)
class ListedWire:
    """An uncut piece of wire of the stock's list."""

    entry: int


@dataclass(frozen=True, slots=True)
class OpenedWire:
    """One piece of a wire that is cut into: counted in mm."""

    entry: int
    piece: int


Listed = ListedCable | ListedLead | ListedWire
Thing = FinishedLead | Tail | WirePiece | LooseContact | EmptyHousing | SpareHousing | Listed | OpenedWire
