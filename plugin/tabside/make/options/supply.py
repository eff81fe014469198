"""What the stock has, and what more of it can be bought: by the pack, or in kits."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from tabside.make.options.activities import BuyKit, BuyListed
from tabside.make.options.things import (
    EmptyHousing,
    Listed,
    ListedCable,
    ListedLead,
    ListedWire,
    LooseContact,
    SpareHousing,
    Thing,
)
from tabside.make.options.work import PURCHASE, Making, Work, making
from tabside.model.craft import CraftSettings
from tabside.model.stock import KitItem, StockCable, StockLead, StockWire

_LISTED: Mapping[str, type[Listed]] = {"cable": ListedCable, "lead": ListedLead, "wire": ListedWire}


def what_is_there(settings: CraftSettings) -> dict[Thing, float]:
    """The stock as things; what lies in kits that are there is counted with it."""
    there: dict[Thing, float] = {thing: float(entry.count) for thing, entry in _listed(settings)}
    for housing in settings.stock_housings:
        spare = SpareHousing(housing.family, housing.ways)
        there[spare] = there.get(spare, 0.0) + housing.count
    for contact in settings.stock_contacts:
        loose = LooseContact(contact.family)
        there[loose] = there.get(loose, 0.0) + contact.count
    return there


def entry_of(settings: CraftSettings, thing: Listed) -> StockCable | StockLead | StockWire:
    match thing:
        case ListedCable(entry):
            return settings.stock_cables[entry]
        case ListedLead(entry):
            return settings.stock_leads[entry]
        case ListedWire(entry):
            return settings.stock_wire[entry]


def can_be_had(settings: CraftSettings, thing: Listed) -> bool:
    """Whether there is one, or one can be bought."""
    entry = entry_of(settings, thing)
    return bool(entry.count) or entry.price is not None or _in_a_kit(settings, thing)


def pieces_of_wire(settings: CraftSettings, wire: ListedWire, leads: int) -> int:
    """How many pieces of this wire may be cut into: as many as there are, and never more than leads."""
    entry = settings.stock_wire[wire.entry]
    more = entry.price is not None or _in_a_kit(settings, wire)
    return leads if more else min(entry.count, leads)


def buying(settings: CraftSettings) -> Iterator[Making]:
    """Buying cables, leads, wire and kits that the craft file prices; housings and contacts are bought elsewhere."""
    for thing, entry in _listed(settings):
        if entry.price is not None:
            pack = 1 if isinstance(entry, StockWire) else entry.pack
            work = Work(money=entry.price, tie=PURCHASE)
            yield making(settings.costs, BuyListed(thing), work, {}, {thing: float(pack)})
    for k, kit in enumerate(settings.stock_kits):
        if kit.price is not None:
            makes: dict[Thing, float] = {}
            for item in kit.items:
                content = _in_kit(settings, item)
                makes[content] = makes.get(content, 0.0) + item.count
            yield making(settings.costs, BuyKit(k), Work(money=kit.price, tie=PURCHASE), {}, makes)


def bought_in_kits(settings: CraftSettings, times: Mapping[BuyKit, int]) -> Counter[tuple[str, int]]:
    """Pieces of each entry (kind, index) that come with the kits that are bought."""
    pieces: Counter[tuple[str, int]] = Counter()
    for k, kit in enumerate(settings.stock_kits):
        for item in kit.items:
            pieces[item.kind, item.index] += item.count * times.get(BuyKit(k), 0)
    return pieces


def _in_kit(settings: CraftSettings, item: KitItem) -> Thing:
    """What one piece of a kit that is bought is; only a housing that is there already is a spare one."""
    if item.kind == "housing":
        housing = settings.stock_housings[item.index]
        return EmptyHousing(housing.family, housing.ways)
    if item.kind == "contact":
        return LooseContact(settings.stock_contacts[item.index].family)
    return _LISTED[item.kind](item.index)


def _in_a_kit(settings: CraftSettings, thing: Listed) -> bool:
    """In one that can be bought."""
    return any(
        _in_kit(settings, item) == thing for kit in settings.stock_kits if kit.price is not None for item in kit.items
    )


def _listed(settings: CraftSettings) -> Iterator[tuple[Listed, StockCable | StockLead | StockWire]]:
    yield from ((ListedCable(n), cable) for n, cable in enumerate(settings.stock_cables))
    yield from ((ListedLead(n), lead) for n, lead in enumerate(settings.stock_leads))
    yield from ((ListedWire(n), wire) for n, wire in enumerate(settings.stock_wire))
