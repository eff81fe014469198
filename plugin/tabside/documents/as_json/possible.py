"""What the numbers and words of a model block may be: no drawing and no craft file gives others."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator, Mapping
from collections.abc import Set as AbstractSet
from functools import cache
from typing import NamedTuple, get_args, get_type_hints

from msgspec import Struct

from tabside.facts.families import family_ids
from tabside.facts.labels.role_kinds import kind_of
from tabside.model.board import BoardPlug
from tabside.model.bounds import (
    Ampere,
    Celsius,
    Count,
    Derating,
    Gauge,
    Leads,
    Length,
    Loop,
    Position,
    UsualDiameter,
    Volt,
    Ways,
)
from tabside.model.craft import (
    Acceptance,
    Cable,
    Contact,
    CraftSettings,
    Crowding,
    Lead,
    Limits,
    NamedTogether,
    Part,
    PartPin,
    ShieldPin,
    Termination,
)
from tabside.model.roles import Rail, Role, Volts
from tabside.model.stated_limits import HIGHEST_V, MOST_OF_A_KIND, MOST_PINS, THINNEST_AWG
from tabside.model.stock import (
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
from tabside.read.craft.file import LimitsTable
from tabside.read.craft.stock import (
    CableTable,
    ContactTable,
    CostsTable,
    CuttingTable,
    HousingTable,
    KitTable,
    LeadTable,
    WireTable,
)
from tabside.wiring.terminations.orientation import ENTRIES, TABS_FACES, read_seen_from

_THICKEST_AWG = -3  # 4/0, the thickest that has a number: ASTM B258 (text not seen)
_NETS_MOST = 10_000_000
_FAR_MM = 10_000_000.0  # a length that is worked out from the farthest positions, in a round number


class Span(NamedTuple):
    """The lowest and the highest that a number may be."""

    low: float
    high: float
    low_itself: bool = True

    def holds(self, number: float) -> bool:
        above = self.low <= number if self.low_itself else self.low < number
        return above and number <= self.high

    @property
    def words(self) -> str:
        return f"{'from' if self.low_itself else 'above'} {self.low:g} to {self.high:.10g}"


def span_of(kind: object) -> Span | None:
    """The bounds of a type that has some, alone or as one of several."""
    for part in (kind, *get_args(kind)):
        for meta in getattr(part, "__metadata__", ()):
            low = meta.gt if meta.ge is None else meta.ge
            if low is not None and meta.le is not None:
                return Span(low, meta.le, low_itself=meta.ge is not None)
    return None


def _bounds(**kinds: object) -> dict[str, Span]:
    return {name: span for name, kind in kinds.items() if (span := span_of(kind)) is not None}


def _of_table(table: type[Struct]) -> dict[str, Span]:
    """Of each number in a table of the craft file whose keys are the names of fields."""
    return _bounds(**get_type_hints(table, include_extras=True))


_LENGTH = Span(0, _FAR_MM, low_itself=False)
_GAUGE = Span(_THICKEST_AWG, THINNEST_AWG)
_NET = Span(0, _NETS_MOST)
_IN_BOXES = {"count": Span(0, MOST_OF_A_KIND**2)}  # so many boxes with so many in each

SPANS: Mapping[type[Struct], Mapping[str, Span]] = {
    Termination: {**_bounds(ways=Ways, sized_ways=Ways), "rows": Span(1, 2), "signals_count": Span(0, MOST_PINS)},
    Contact: {**_bounds(leads_max=Leads, level_max_v=Volt), "net_id": _NET},
    Rail: _bounds(max_a=Ampere, typical_a=Ampere),
    Role: {"index": Span(0, _NETS_MOST)},
    Volts: _bounds(low=Volt, high=Volt, named=Volt, unsure_above=Volt),
    Lead: {"gauge_awg": _GAUGE, "length_mm": _LENGTH},
    PartPin: {"net_id": _NET},
    ShieldPin: {"net_id": _NET},
    Crowding: {"net_id": _NET},
    NamedTogether: {"net_id": _NET},
    CraftSettings: _bounds(gauge_awg=Gauge, service_loop_mm=Loop, at_mm=Position),
    StockCable: {**_of_table(CableTable), **_IN_BOXES, **_bounds(ends=Ways, map=Ways)},
    StockLead: {**_of_table(LeadTable), **_IN_BOXES},
    StockHousing: {**_of_table(HousingTable), **_IN_BOXES, **_bounds(ways=Ways)},
    StockContact: {**_of_table(ContactTable), **_IN_BOXES},
    StockWire: {**_of_table(WireTable), **_IN_BOXES},
    StockKit: _of_table(KitTable),
    KitItem: _bounds(index=Count, count=Count),
    Costs: _of_table(CostsTable),
    Cutting: _of_table(CuttingTable),
    Limits: {**_of_table(LimitsTable), **_bounds(ampacity_factor=Derating, wire_c=Celsius)},
    BoardPlug: _bounds(ways=Ways, unknown=Ways),
}
OF_MODEL: Mapping[str, Span] = _bounds(lengths_mm=Length, insulation_mm=UsualDiameter)
KEYS_OF_MODEL: Mapping[str, Span] = {"insulation_mm": _GAUGE, "rule_nets": _NET, "net_names": _NET}
WORDS: Mapping[type[Struct], Mapping[str, AbstractSet[str]]] = {  # of each field that takes no other text
    Termination: {
        "entry": set(ENTRIES),
        "tabs": set(TABS_FACES),
        "contact_1": {"left", "right"},
    },
    Lead: {"how": {"drawn", "drawn together", "two contacts", "beside", "joined", "chosen"}},
    StockCable: {"map_text": {"straight", "reversed", "map"}},
    KitItem: {"kind": {"cable", "lead", "housing", "contact", "wire"}},
}
NEVER_EMPTY: Mapping[type[Struct], tuple[str, ...]] = {
    Termination: ("reference", "board"),
    Contact: ("number",),
    Lead: ("colour", "usual_colour"),
    Acceptance: ("reason",),
}
MARKS: Mapping[type[Struct], Mapping[str, re.Pattern[str]]] = {
    Lead: {"mark": re.compile(r"W[1-9]\d*")},
    Cable: {"mark": re.compile(r"C[1-9]\d*")},
}
_NEGATIVE_RAIL = Span(-HIGHEST_V, HIGHEST_V)  # a contact may be called "-12V"; no field gives or takes less than 0


def must_be_possible(model: Struct) -> None:
    """Raises: ValueError for the first number that nothing real has, or word that no drawing gives."""
    for name, span in KEYS_OF_MODEL.items():
        for number in getattr(model, name):
            _must_hold(span, number, name, "")
    _walk(model, "", lambda _, name: OF_MODEL.get(name))


def _walk(owner: Struct, at: str, span_of: Callable[[Struct, str], Span | None]) -> None:
    at = _name(owner) or at
    for name in owner.__struct_fields__:
        span = span_of(owner, name)
        for number in _numbers(getattr(owner, name)) if span is not None else ():
            _must_hold(span, number, name, at)
        for within in _structs(getattr(owner, name)):
            _walk(within, at, _span_in_role if isinstance(owner, Role) else _span)
    _must_be_words(owner, at)
    _must_agree(owner, at)


def _must_be_words(owner: Struct, at: str) -> None:
    """Raises: ValueError."""
    for name, allowed in WORDS.get(type(owner), {}).items():
        said = getattr(owner, name)
        if said is not None and said not in allowed:
            raise ValueError(f"{name} of {at} is {json.dumps(said)}; it is one of {', '.join(sorted(allowed))}")
    for name in NEVER_EMPTY.get(type(owner), ()):
        if getattr(owner, name) == "":
            raise ValueError(f"{name}{_of(at)} is empty")
    for name, pattern in MARKS.get(type(owner), {}).items():
        if not pattern.fullmatch(getattr(owner, name)):
            raise ValueError(f"{json.dumps(getattr(owner, name))} is no number of a {type(owner).__name__.lower()}")
    for family in _families(owner):
        if family not in _known_families():
            raise ValueError(f"{_thing(owner)}{_of(at)} is of the family {json.dumps(family)}, which is in no table")
    if isinstance(owner, Role) and kind_of(owner.name) is None:
        raise ValueError(f"the function of {at} is {json.dumps(owner.name)}, which is in no table")
    if isinstance(owner, Termination) and owner.seen_from is not None and read_seen_from(owner.seen_from) is None:
        raise ValueError(f"seen_from of {at} is {json.dumps(owner.seen_from)}, which is no face")


def _families(owner: Struct) -> Iterator[str]:
    """Those that an entry of the stock names."""
    match owner:
        case StockCable():
            yield from (family for family, _ in owner.ends)
        case StockLead():
            yield from owner.ends
        case StockHousing() | StockContact():
            yield owner.family


@cache
def _known_families() -> frozenset[str]:
    return frozenset(family_ids())


def _thing(owner: Struct) -> str:
    """ "stock cable"."""
    return f"stock {type(owner).__name__.removeprefix('Stock').lower()}"


def _must_agree(owner: Struct, at: str) -> None:
    """Raises: ValueError."""
    match owner:
        case Volts() if owner.low > owner.high:
            raise ValueError(f"volts{_of(at)} go from {owner.low:g} down to {owner.high:g}")
        case Rail() if (owner.typical_a or 0.0) > (float("inf") if owner.max_a is None else owner.max_a):
            raise ValueError(f"typical_a of {at} is above its max_a")
        case Lead() if owner.a == owner.b:
            raise ValueError(f"{at} begins and ends at one contact")
        case Termination():
            there = {contact.number for contact in owner.contacts}
            for number in (number for pair in owner.passes for number in pair):
                if number not in there:
                    raise ValueError(f"{at} connects contact {json.dumps(number)}, which it does not have")


def _of(at: str) -> str:
    return f" of {at}" if at else ""


def _name(owner: Struct) -> str:
    """By which a person finds what a number belongs to."""
    match owner:
        case Contact():
            return f"contact {owner.number} of {owner.termination}"
        case Termination() | Part():
            return owner.reference
        case Lead():
            return owner.mark
        case StockCable() | StockKit():
            return owner.name
    return ""


def _span(owner: Struct, name: str) -> Span | None:
    return SPANS.get(type(owner), {}).get(name)


def _span_in_role(owner: Struct, name: str) -> Span | None:
    return _NEGATIVE_RAIL if isinstance(owner, Volts) else _span(owner, name)


def _must_hold(span: Span | None, number: float, name: str, at: str) -> None:
    if span is not None and not span.holds(number):
        raise ValueError(f"{name}{_of(at)} is {number:.10g}; it lies {span.words}")


def _numbers(value: object) -> Iterator[float]:
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        yield value
    elif isinstance(value, Mapping):
        for item in value.values():
            yield from _numbers(item)
    elif isinstance(value, (tuple, list, AbstractSet)):
        for item in value:
            yield from _numbers(item)


def _structs(value: object) -> Iterator[Struct]:
    if isinstance(value, Struct):
        yield value
    elif isinstance(value, Mapping):
        for item in value.values():
            yield from _structs(item)
    elif isinstance(value, (tuple, list)):
        for item in value:
            yield from _structs(item)
