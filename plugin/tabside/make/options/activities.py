"""What can be done any number of times to make a lead or to have what it takes: the activities of the solver.

Each class names one kind of activity and carries all that tells it from another of its kind.  `entry` is an index into
the stock's entries of that kind.
"""

from __future__ import annotations

from dataclasses import dataclass

from tabside.make.needs.cable_jobs import Want
from tabside.make.options.things import Listed, Tail


@dataclass(frozen=True, slots=True)
class UseWhole:
    """A pre-crimped lead of the stock's list as it comes."""

    entry: int
    want: Want


@dataclass(frozen=True, slots=True)
class BuyWhole:
    """A pre-crimped lead bought at the length that is wanted."""

    want: Want


@dataclass(frozen=True, slots=True)
class FinishTail:
    """A tail with its other end crimped or soldered."""

    tail: Tail

    @property
    def want(self) -> Want:
        return self.tail.want


@dataclass(frozen=True, slots=True)
class FinishWire:
    """A piece of wire with both ends crimped or soldered."""

    want: Want


@dataclass(frozen=True, slots=True)
class CutLead:
    """A pre-crimped lead of the stock's list cut into one tail or two."""

    entry: int
    tails: tuple[Tail, ...]


@dataclass(frozen=True, slots=True)
class BuyTails:
    """A pre-crimped lead bought at the length needed, cut into one tail or two."""

    tails: tuple[Tail, ...]


@dataclass(frozen=True, slots=True)
class CutWire:
    """A piece cut from a wire of the stock's list."""

    entry: int
    piece: int
    want: Want


@dataclass(frozen=True, slots=True)
class BuyWire:
    """Wire bought at the length needed."""

    want: Want


@dataclass(frozen=True, slots=True)
class OpenWire:
    """A piece of wire of the stock's list is cut into at all."""

    entry: int
    piece: int


@dataclass(frozen=True, slots=True)
class UseSpareHousing:
    """An empty housing of the stock is used for new leads."""

    family: str
    ways: int


@dataclass(frozen=True, slots=True)
class BuyContacts:
    family: str
    pack: int


@dataclass(frozen=True, slots=True)
class BuyHousings:
    family: str
    ways: int
    pack: int


@dataclass(frozen=True, slots=True)
class BuyListed:
    """A pack of something of the stock's list."""

    thing: Listed


@dataclass(frozen=True, slots=True)
class BuyKit:
    entry: int


Finish = UseWhole | BuyWhole | FinishTail | FinishWire  # makes a finished lead
Cut = CutLead | BuyTails | CutWire | BuyWire  # makes what a lead is finished from
SharedBuy = BuyContacts | BuyHousings | BuyListed | BuyKit  # serves several cables
Buy = BuyWhole | BuyTails | BuyWire | SharedBuy
Deed = Finish | Cut | SharedBuy | OpenWire | UseSpareHousing
