"""The craft file `<schematic name>.craft.toml`: what a drawing does not say about a build.

Read with a schema: a wrong key names its path and the nearest right one, a wrong value its path and what was expected.
"""

import hashlib
import os
import re
from typing import Annotated

import msgspec

from tabside.errors import TabsideError
from tabside.facts import ampacity
from tabside.facts.cells import CELLS_MAX, PACK_FORMS, read_pack
from tabside.model.bounds import (
    Celsius,
    Derating,
    Gauge,
    Length,
    Loop,
    Percent,
    Position,
    UsualDiameter,
    Volt,
)
from tabside.model.craft import Acceptance, CraftSettings, Limits, Named, Protection
from tabside.model.roles import Volts
from tabside.model.stated_limits import THINNEST_AWG
from tabside.ordinary_file import read_ordinary
from tabside.read.craft.names import contact, link_ends, references
from tabside.read.craft.stock import (
    BenchTable,
    CableTable,
    ContactTable,
    CostsTable,
    CuttingTable,
    HousingTable,
    KitTable,
    LeadTable,
    Section,
    StockTable,
    WireTable,
    bench_of,
    stock_of,
)
from tabside.read.craft.toml import KeysAt, converted, tree_of
from tabside.words.nearest import did_you_mean

LARGEST_CRAFT_FILE = 4 * 1024 * 1024
MOST_CONTACTS = 200  # of one acceptance
FULLER = 0.05  # volts may say so much more than the pack's cells, charged to another end: common practice, no source

Name = Annotated[str, msgspec.Meta(min_length=1, max_length=400)]


class _CraftTable(Section):
    name: str | None = None
    battery: str | None = None
    board_files: Annotated[list[Name], msgspec.Meta(max_length=100)] = msgspec.field(default_factory=list)
    volts: Annotated[list[Volt], msgspec.Meta(min_length=2, max_length=2)] | None = None


class _BoardTable(Section):
    at_mm: Annotated[list[Position], msgspec.Meta(min_length=3, max_length=3)] | None = None


class _DefaultsTable(Section):
    gauge_awg: Gauge | None = None
    service_loop_mm: Loop = 15.0


class _AcceptTable(Section):
    rule: str
    at: Annotated[list[str], msgspec.Meta(min_length=1, max_length=MOST_CONTACTS)]
    reason: Annotated[str, msgspec.Meta(min_length=1)]


class LimitsTable(Section):
    drop_percent_regulated: Percent = 3.0
    drop_percent_battery: Percent = 5.0
    budget_percent: Percent = 80.0


class _WireSection(Section):
    ampacity: str = ampacity.USUAL_TABLE
    ampacity_factor: Derating = 1.0
    temperature_c: Celsius = 20.0
    insulation_od_mm: dict[str, UsualDiameter] = msgspec.field(default_factory=dict)


class _ProtectionTable(Section):
    at: str
    what: Annotated[str, msgspec.Meta(min_length=1)]


class _CraftFile(Section):
    craft: _CraftTable = msgspec.field(default_factory=_CraftTable)
    boards: dict[str, _BoardTable] = msgspec.field(default_factory=dict)
    lengths_mm: dict[str, Length] = msgspec.field(default_factory=dict)
    defaults: _DefaultsTable = msgspec.field(default_factory=_DefaultsTable)
    stock: StockTable = msgspec.field(default_factory=StockTable)
    costs: CostsTable = msgspec.field(default_factory=CostsTable)
    cutting: CuttingTable = msgspec.field(default_factory=CuttingTable)
    bench: BenchTable = msgspec.field(default_factory=BenchTable)
    limits: LimitsTable = msgspec.field(default_factory=LimitsTable)
    wire: _WireSection = msgspec.field(default_factory=_WireSection)
    protection: list[_ProtectionTable] = msgspec.field(default_factory=list)
    accept: list[_AcceptTable] = msgspec.field(default_factory=list)


SCHEMA: type[msgspec.Struct] = _CraftFile

# The keys of each table, for "did you mean"; paths as msgspec writes them, with indexes and names taken out.
_KEYS_AT: KeysAt = {
    "": _CraftFile,
    "craft": _CraftTable,
    "boards[...]": _BoardTable,
    "defaults": _DefaultsTable,
    "stock": StockTable,
    "stock.cables[...]": CableTable,
    "stock.leads[...]": LeadTable,
    "stock.housings[...]": HousingTable,
    "stock.contacts[...]": ContactTable,
    "stock.wire[...]": WireTable,
    "stock.kits[...]": KitTable,
    "stock.kits[...].cables[...]": CableTable,
    "stock.kits[...].leads[...]": LeadTable,
    "stock.kits[...].housings[...]": HousingTable,
    "stock.kits[...].contacts[...]": ContactTable,
    "stock.kits[...].wire[...]": WireTable,
    "costs": CostsTable,
    "cutting": CuttingTable,
    "bench": BenchTable,
    "limits": LimitsTable,
    "wire": _WireSection,
    "protection[...]": _ProtectionTable,
    "accept[...]": _AcceptTable,
}


def read_craft_file(path: str | os.PathLike[str]) -> CraftSettings:
    """Read a craft file.

    Raises: TabsideError with file and line (TOML) or key path (schema) when it is damaged.
    """
    name = os.path.basename(path)
    return settings_from_text(read_ordinary(path, name, LARGEST_CRAFT_FILE), name)


def settings_from_text(raw: bytes, name: str) -> CraftSettings:
    """The settings that the bytes of a craft file hold; `name` stands in error messages."""
    parsed = converted(tree_of(raw, name), _CraftFile, _KEYS_AT, name)
    return _settings(parsed, name, hashlib.sha256(raw).hexdigest())


def _settings(parsed: _CraftFile, name: str, file_hash: str) -> CraftSettings:
    battery = _pack(parsed.craft, name)
    links = {key: link_ends(key, f'lengths_mm."{key}"', name) for key in parsed.lengths_mm}
    accepted = [[contact(text, f"accept[{k}].at", name) for text in entry.at] for k, entry in enumerate(parsed.accept)]
    protected = [contact(entry.at, f"protection[{k}].at", name) for k, entry in enumerate(parsed.protection)]
    stock = stock_of(parsed.stock, name)
    bench, at_bench = bench_of(parsed.bench, name)
    return CraftSettings(
        name=parsed.craft.name,
        battery=battery,
        battery_text=parsed.craft.battery or "",
        at_mm={board: _three(table.at_mm) for board, table in parsed.boards.items() if table.at_mm is not None},
        lengths_mm={references(links[key]): length for key, length in parsed.lengths_mm.items()},
        named=(
            *(Named(f"boards.{board}", board) for board in parsed.boards),
            *(end for ends in links.values() for end in ends),
            *(at for places in accepted for at in places),
            *protected,
            *stock.named,
            *at_bench,
        ),
        gauge_awg=parsed.defaults.gauge_awg,
        service_loop_mm=parsed.defaults.service_loop_mm,
        accept=tuple(
            Acceptance(entry.rule, tuple((at.termination or "", at.contact or "") for at in places), entry.reason)
            for entry, places in zip(parsed.accept, accepted, strict=True)
        ),
        stock_cables=stock.cables,
        stock_leads=stock.leads,
        stock_housings=stock.housings,
        stock_contacts=stock.contacts,
        stock_wire=stock.wire,
        stock_kits=stock.kits,
        costs=parsed.costs.costs(),
        cutting=parsed.cutting.cutting(),
        bench=bench,
        limits=_limits(parsed, name),
        protections=tuple(
            Protection((at.termination or "", at.contact or ""), entry.what)
            for entry, at in zip(parsed.protection, protected, strict=True)
        ),
        board_files=tuple(parsed.craft.board_files),
        file_hash=file_hash,
    )


def _limits(parsed: _CraftFile, name: str) -> Limits:
    table = parsed.wire.ampacity
    if table not in ampacity.usable_tables():
        never = table in ampacity.NEVER_A_LIMIT
        tables = f"there are {', '.join(ampacity.usable_tables())}"
        hint = tables if never else did_you_mean(table, ampacity.usable_tables(), tables, alike=0.4, quote="`")
        why = "is never a limit" if never else "is no table of currents"
        raise TabsideError(f'wire.ampacity: "{table}" {why}; {hint}', file=name)
    return Limits(
        drop_percent_regulated=parsed.limits.drop_percent_regulated,
        drop_percent_battery=parsed.limits.drop_percent_battery,
        budget_percent=parsed.limits.budget_percent,
        ampacity=table,
        ampacity_factor=parsed.wire.ampacity_factor,
        wire_c=parsed.wire.temperature_c,
        insulation_mm={_awg(text, name): od_mm for text, od_mm in parsed.wire.insulation_od_mm.items()},
    )


def _awg(text: str, name: str) -> int:
    if not (text.isascii() and text.isdecimal() and len(text) <= 2 and int(text) <= THINNEST_AWG):
        raise TabsideError(f'wire.insulation_od_mm: "{text}" is no gauge; write AWG, for example 28 = 0.9', file=name)
    return int(text)


def _three(numbers: list[float]) -> tuple[float, float, float]:
    return (numbers[0], numbers[1], numbers[2])


def _pack(table: _CraftTable, name: str) -> Volts | None:
    """What `battery` and `volts` say together; `volts` may be narrower, or say how low it is run down."""
    if table.volts is None:
        return _battery(table.battery, name)
    stated = Volts(min(table.volts), max(table.volts))
    pack = read_pack(table.battery or "")
    if pack is not None and (stated.high > pack.high * (1 + FULLER) or stated.high < pack.low):
        what = f'{_range(stated)} is not what battery = "{table.battery}" reaches ({_range(pack)}); keep the right one'
        raise TabsideError(f"craft.volts: {what}", file=name)
    return stated


def _range(volts: Volts) -> str:
    return f"{volts.low:g} to {volts.high:g} V"


def _battery(text: str | None, name: str) -> Volts | None:
    """What `battery` says.  A text that is not understood is refused: it may decide whether a board burns."""
    if text is None:
        return None
    cells = re.match(r"\s*(\d+)\s*S\b", text, re.IGNORECASE)
    if cells and not 1 <= int(cells[1]) <= CELLS_MAX:
        what = f"{cells[1]} cells in series; say 1S to {CELLS_MAX}S, or give `volts`"
        raise TabsideError(f"craft.battery: {what}", file=name)
    found = read_pack(text)
    if found is None:
        what = f'"{text}" is not understood; write one of the forms {PACK_FORMS}, or give `volts`'
        raise TabsideError(f"craft.battery: {what}", file=name)
    return found
