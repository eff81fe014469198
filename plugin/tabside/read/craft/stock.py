"""The craft file's tables of stock, costs, cutting and bench: what lies in the drawers, and how work is done."""

from collections.abc import Iterator, Sequence
from typing import Annotated, Any

import msgspec
from msgspec import Struct
from msgspec.structs import replace

from tabside.errors import TabsideError
from tabside.model.bounds import (
    Allowance,
    Count,
    Diameter,
    Factor,
    Gauge,
    Length,
    Minutes,
    Pack,
    Price,
    Seconds,
    Slack,
)
from tabside.model.craft import Named
from tabside.model.stock import (
    Bench,
    Costs,
    Cutting,
    KitItem,
    StockCable,
    StockContact,
    StockHousing,
    StockKit,
    StockLead,
    StockWire,
)
from tabside.read.craft.names import family, family_and_ways, link_ends, references, termination


class Section(msgspec.Struct, forbid_unknown_fields=True):
    """A table of the craft file; keys that it does not know are errors."""


class CableTable(Section):
    name: Annotated[str, msgspec.Meta(min_length=1)]
    ends: Annotated[list[str], msgspec.Meta(min_length=2, max_length=2)]
    map: str | list[Annotated[list[int], msgspec.Meta(min_length=2, max_length=2)]] = "straight"
    length_mm: Length | None = None
    count: Count = 1
    repinnable: bool | None = None
    price: Price | None = None
    pack: Pack = 1
    reserved: str | None = msgspec.field(default=None, name="for")


class LeadTable(Section):
    ends: Annotated[list[str], msgspec.Meta(min_length=1, max_length=2)]
    length_mm: Length
    gauge_awg: Gauge | None = None
    colour: str | None = None
    count: Count = 1
    od_mm: Diameter | None = None
    price: Price | None = None
    pack: Pack = 1


class HousingTable(Section):
    end: str  # "jst_sh 8"
    count: Count = 1
    price: Price | None = None
    pack: Pack = 1


class ContactTable(Section):
    family: str
    count: Count = 1
    price: Price | None = None
    pack: Pack = 1


class WireTable(Section):
    gauge_awg: Gauge
    length_mm: Length
    colour: str | None = None
    count: Count = 1
    od_mm: Diameter | None = None
    price: Price | None = None


class KitTable(Section):
    """A box of things; the counts in it are those of one box."""

    name: str
    count: Count = 1
    price: Price | None = None
    cables: list[CableTable] = []
    leads: list[LeadTable] = []
    housings: list[HousingTable] = []
    contacts: list[ContactTable] = []
    wire: list[WireTable] = []


class StockTable(Section):
    cables: list[CableTable] = []
    leads: list[LeadTable] = []
    housings: list[HousingTable] = []
    contacts: list[ContactTable] = []
    wire: list[WireTable] = []
    kits: list[KitTable] = []


class CuttingTable(Section):
    strip_mm: Allowance | None = None
    again_mm: Allowance = Cutting().again_mm

    def cutting(self) -> Cutting:
        return Cutting(self.strip_mm, self.again_mm)


class BenchTable(Section):
    work_at: list[str] = []
    never_at: list[str] = []
    slack_at: list[str] = []


class Stock(Struct, frozen=True):
    """All entries, those in kits among them, and the places that they name."""

    cables: tuple[StockCable, ...]
    leads: tuple[StockLead, ...]
    housings: tuple[StockHousing, ...]
    contacts: tuple[StockContact, ...]
    wire: tuple[StockWire, ...]
    kits: tuple[StockKit, ...]
    named: tuple[Named, ...]


def stock_of(table: StockTable, name: str) -> Stock:
    """The stock that the file `name` says.

    Raises: TabsideError with the key's path.
    """
    named: list[Named] = []
    cables = list(_cables(table.cables, "stock.cables", name, named))
    leads = list(_leads(table.leads, "stock.leads", name))
    housings = list(_housings(table.housings, "stock.housings", name))
    contacts = list(_contacts(table.contacts, "stock.contacts", name))
    wire = list(_wire(table.wire))
    kits = []
    for k, box in enumerate(table.kits):
        where = f"stock.kits[{k}]"
        items: list[KitItem] = []
        found: tuple[tuple[str, list[Any], list[Any]], ...] = (
            ("cable", cables, list(_cables(box.cables, f"{where}.cables", name, named))),
            ("lead", leads, list(_leads(box.leads, f"{where}.leads", name))),
            ("housing", housings, list(_housings(box.housings, f"{where}.housings", name))),
            ("contact", contacts, list(_contacts(box.contacts, f"{where}.contacts", name))),
            ("wire", wire, list(_wire(box.wire))),
        )
        for kind, listed, inside in found:
            for entry in inside:
                items.append(KitItem(kind, len(listed), entry.count))
                listed.append(replace(entry, count=entry.count * box.count))
        if not any(item.count for item in items):
            raise TabsideError(f'{where}: there is nothing in "{box.name}"; list its cables, leads, …', file=name)
        kits.append(StockKit(box.name, box.count, box.price, tuple(items)))
    return Stock(tuple(cables), tuple(leads), tuple(housings), tuple(contacts), tuple(wire), tuple(kits), tuple(named))


def bench_of(table: BenchTable, name: str) -> tuple[Bench, tuple[Named, ...]]:
    """The wishes for the bench, and the terminations that they name.  Raises: TabsideError."""
    named = {
        key: [termination(text, f"bench.{key}[{k}]", name) for k, text in enumerate(getattr(table, key))]
        for key in ("work_at", "never_at", "slack_at")
    }
    sets = {key: frozenset(one.termination or "" for one in found) for key, found in named.items()}
    both = sorted(sets["work_at"] & sets["never_at"])
    if both:
        raise TabsideError(f"bench: {both[0]} is in work_at and in never_at; take it out of one", file=name)
    return Bench(**sets), tuple(one for found in named.values() for one in found)


def _cables(tables: Sequence[CableTable], where: str, name: str, named: list[Named]) -> Iterator[StockCable]:
    for k, table in enumerate(tables):
        at = f"{where}[{k}]"
        a, b = (family_and_ways(end, f"{at}.ends", name) for end in table.ends)
        pairs, text = _map(table, a[1], b[1], at, name)
        kept = None
        if table.reserved is not None:
            ends = link_ends(table.reserved, f"{at}.for", name)
            named.extend(ends)
            kept = references(ends)
        yield StockCable(
            name=table.name,
            ends=(a, b),
            map=pairs,
            map_text=text,
            length_mm=table.length_mm,
            count=table.count,
            repinnable=table.repinnable,
            price=table.price,
            pack=table.pack,
            reserved=kept,
        )


def _map(table: CableTable, a: int, b: int, where: str, name: str) -> tuple[tuple[tuple[int, int], ...], str]:
    """Which cavities it joins, and how the file says so."""
    if isinstance(table.map, str):
        if table.map not in ("straight", "reversed"):
            raise TabsideError(f'{where}.map: "{table.map}"; write "straight", "reversed" or [[1, 3], …]', file=name)
        ways = min(a, b)
        return tuple((n, n if table.map == "straight" else ways + 1 - n) for n in range(1, ways + 1)), table.map
    pairs = tuple((m, n) for m, n in table.map)
    if not pairs:
        raise TabsideError(f"{where}.map: a cable that connects nothing; list its wires as [[1, 3], …]", file=name)
    for side, ways in ((0, a), (1, b)):
        cavities = [pair[side] for pair in pairs]
        if len(set(cavities)) != len(cavities) or not all(1 <= n <= ways for n in cavities):
            raise TabsideError(f"{where}.map: each cavity once, from 1 to {ways}", file=name)
    return pairs, "map"


def _leads(tables: Sequence[LeadTable], where: str, name: str) -> Iterator[StockLead]:
    for k, table in enumerate(tables):
        ends = tuple(family(end, f"{where}[{k}].ends", name) for end in table.ends)
        yield StockLead(
            ends, table.length_mm, table.gauge_awg, table.colour, table.count, table.od_mm, table.price, table.pack
        )


def _housings(tables: Sequence[HousingTable], where: str, name: str) -> Iterator[StockHousing]:
    for k, table in enumerate(tables):
        yield StockHousing(*family_and_ways(table.end, f"{where}[{k}].end", name), table.count, table.price, table.pack)


def _contacts(tables: Sequence[ContactTable], where: str, name: str) -> Iterator[StockContact]:
    for k, table in enumerate(tables):
        yield StockContact(family(table.family, f"{where}[{k}].family", name), table.count, table.price, table.pack)


def _wire(tables: Sequence[WireTable]) -> Iterator[StockWire]:
    for table in tables:
        yield StockWire(table.gauge_awg, table.colour, table.length_mm, table.count, table.od_mm, table.price)


_USUAL = Costs()


class CostsTable(Section):
    """The keys are the fields of `Costs`; what is not said keeps its default."""

    minute: Price = _USUAL.minute
    move_minutes: Minutes = _USUAL.move_minutes
    leave_out_minutes: Minutes = _USUAL.leave_out_minutes
    rehouse_minutes: Minutes = _USUAL.rehouse_minutes
    insert_minutes: Minutes = _USUAL.insert_minutes
    crimp_minutes: Minutes = _USUAL.crimp_minutes
    cut_minutes: Minutes = _USUAL.cut_minutes
    solder_minutes: Minutes = _USUAL.solder_minutes
    plug_in_minutes: Minutes = _USUAL.plug_in_minutes
    move_risk: Price = _USUAL.move_risk
    colour_risk: Price = _USUAL.colour_risk
    spoil_1_0: Factor = _USUAL.spoil_1_0
    spoil_1_25: Factor = _USUAL.spoil_1_25
    spoil: Factor = _USUAL.spoil
    cable_price: Price = _USUAL.cable_price
    lead_price: Price = _USUAL.lead_price
    housing_price: Price = _USUAL.housing_price
    contact_price: Price = _USUAL.contact_price
    wire_price: Price = _USUAL.wire_price
    slack_limit_mm: Slack = _USUAL.slack_limit_mm
    slack_price: Price = _USUAL.slack_price
    solve_seconds: Seconds = _USUAL.solve_seconds
    buy_ready: bool = _USUAL.buy_ready

    def costs(self) -> Costs:
        return Costs(**msgspec.structs.asdict(self))
