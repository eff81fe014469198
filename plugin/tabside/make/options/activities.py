"""What can be done any number of times to make a lead or to have what it takes: the activities of the solver.

Each class names one kind of activity and carries all that tells it from another of its kind.  `entry` is an index into
the stock's entries of that kind.
"""

from __future__ import annotations

from msgspec import Struct

from tabside.make.needs.cable_jobs import Want
from tabside.make.options.things import Listed, Tail


class UseWhole(Struct, frozen=True):
    """A pre-crimped lead of the stock's list as it comes."""

    entry: int
    want: Want


class BuyWhole(Struct, frozen=True):
    """A pre-crimped lead bought at the length that is wanted."""

    want: Want


class FinishTail(Struct, frozen=True):
    """A tail with its other end crimped or soldered."""

    tail: Tail

    @property
    def want(self) -> Want:
        return self.tail.want


class FinishWire(Struct, frozen=True):
    """A piece of wire with both ends crimped or soldered."""

    want: Want


class CutLead(Struct, frozen=True):
    """A pre-crimped lead of the stock's list cut into one tail or two."""

    entry: int
    tails: tuple[Tail, ...]


class BuyTails(Struct, frozen=True):
    """A pre-crimped lead bought at the length needed, cut into one tail or two."""

    tails: tuple[Tail, ...]


class CutWire(Struct, frozen=True):
    """A piece cut from a wire of the stock's list."""

    entry: int
    piece: int
    want: Want


class BuyWire(Struct, frozen=True):
    """Wire bought at the length needed."""

    want: Want


class OpenWire(Struct, frozen=True):
    """A piece of wire of the stock's list is cut into at all."""

    entry: int
    piece: int


class UseSpareHousing(Struct, frozen=True):
    """An empty housing of the stock is used for new leads."""

    family: str
    ways: int


class BuyContacts(Struct, frozen=True):
    family: str
    pack: int


class BuyHousings(Struct, frozen=True):
    family: str
    ways: int
    pack: int


class BuyListed(Struct, frozen=True):
    """A pack of something of the stock's list."""

    thing: Listed


class BuyKit(Struct, frozen=True):
    entry: int


Finish = UseWhole | BuyWhole | FinishTail | FinishWire  # makes a finished lead
Cut = CutLead | BuyTails | CutWire | BuyWire  # makes what a lead is finished from
SharedBuy = BuyContacts | BuyHousings | BuyListed | BuyKit  # serves several cables
Buy = BuyWhole | BuyTails | BuyWire | SharedBuy
Deed = Finish | Cut | SharedBuy | OpenWire | UseSpareHousing
