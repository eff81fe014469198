"""What lies in the drawers, and what work and parts cost: the sides of the craft file that plans are made from."""

from __future__ import annotations

from msgspec import Struct


class StockCable(Struct, frozen=True):
    """Ready-made cables of one kind."""

    name: str
    ends: tuple[tuple[str, int], tuple[str, int]]  # (family id, ways)
    map: tuple[tuple[int, int], ...]  # cavity of the first end -> cavity of the second
    map_text: str  # "straight", "reversed", "map"
    length_mm: float | None
    count: int
    repinnable: bool | None = None  # None: not said (moulded and insulation-displacing ones cannot be)
    price: float | None = None  # of a pack, when more are bought; None: no more are to be had
    pack: int = 1  # pieces in a pack
    reserved: tuple[str, str] | None = None  # terminations that it is kept for, in natural order


class StockLead(Struct, frozen=True):
    """Pre-crimped leads of one kind."""

    ends: tuple[str, ...]  # family ids, one or two
    length_mm: float
    gauge_awg: int | None
    colour: str | None
    count: int
    od_mm: float | None = None  # over insulation
    price: float | None = None  # of a pack, when more are bought; None: no more are to be had
    pack: int = 1


class StockHousing(Struct, frozen=True):
    """Empty housings."""

    family: str
    ways: int
    count: int
    price: float | None = None  # of a pack; None: the usual price
    pack: int = 1  # pieces in a pack


class StockContact(Struct, frozen=True):
    """Loose contacts, not yet crimped."""

    family: str
    count: int
    price: float | None = None
    pack: int = 1


class StockWire(Struct, frozen=True):
    """Wire by length."""

    gauge_awg: int
    colour: str | None
    length_mm: float
    count: int = 1
    od_mm: float | None = None  # over insulation
    price: float | None = None  # of one piece of this length, when more are bought; None: no more are to be had


class KitItem(Struct, frozen=True):
    """So many of one entry of the stock."""

    kind: str  # "cable", "lead", "housing", "contact", "wire"
    index: int  # into the stock's entries of that kind
    count: int


class StockKit(Struct, frozen=True):
    """Things that are sold in one box; what lies in the boxes that are there is counted with the stock."""

    name: str
    count: int  # boxes that are there, unopened or not
    price: float | None  # of a box, when more are bought; None: no more are to be had
    items: tuple[KitItem, ...]


class Cutting(Struct, frozen=True):
    """What is added to a lead's length before it is cut: at each end that is made here."""

    strip_mm: float | None = None  # bare conductor where no table says how much; None: as the cup or pad takes
    again_mm: float = 5.0  # so that an end can be made a second time: common practice, no source


class Bench(Struct, frozen=True):
    """At which plugs contacts are moved, by termination."""

    work_at: frozenset[str] = frozenset()  # there and nowhere else, where that can be
    never_at: frozenset[str] = frozenset()  # those plugs stay as they are
    slack_at: frozenset[str] = frozenset()  # where spare length lies: the nearer end when all else is equal


class Costs(Struct, frozen=True):
    """What weighs in the choice of how a cable is made.  Every default is common practice, no source.

    Minutes per piece of work, prices in the builder's own currency, lengths in mm.
    """

    minute: float = 0.5  # price of a minute of work
    move_minutes: float = 2.0  # a contact out of one cavity and into another
    leave_out_minutes: float = 1.0  # a contact out for good
    rehouse_minutes: float = 1.0  # a contact moved over into an empty housing
    insert_minutes: float = 1.0  # a crimped lead into an empty cavity
    crimp_minutes: float = 2.0  # strip and crimp one contact by hand
    cut_minutes: float = 0.5  # cut a lead to length, and strip one end
    solder_minutes: float = 1.5  # one joint
    plug_in_minutes: float = 1.0  # mark, flag and prove a cable that is there
    move_risk: float = 0.2  # price of the risk that a moved contact is lost
    colour_risk: float = 5.0  # price of the risk of a ground in red or a supply in black, where no colour is drawn
    spoil_1_0: float = 3.0  # contacts bought for each good crimp by hand: pitch up to 1.0 mm
    spoil_1_25: float = 2.0  # pitch up to 1.25 mm
    spoil: float = 1.2  # larger
    cable_price: float = 3.0  # ready-made straight cable
    lead_price: float = 0.5  # pre-crimped lead, both ends
    housing_price: float = 0.3
    contact_price: float = 0.08
    wire_price: float = 0.5  # a metre
    slack_limit_mm: float = 150.0  # a ready-made cable or lead may be longer than its path by so much
    slack_price: float = 0.4  # 100 mm of slack that cannot be cut off
    solve_seconds: float = 10.0  # after which the best plan so far is taken, with its bound
    buy_ready: bool = True  # straight cables of equal plugs and pre-crimped leads of one family can be bought

    def spoil_factor(self, pitch_mm: float | None) -> float:
        """Contacts to buy for each good crimp; a pitch that is not known counts as the smallest."""
        if pitch_mm is None or pitch_mm <= 1.0:
            return self.spoil_1_0
        return self.spoil_1_25 if pitch_mm <= 1.25 else self.spoil
