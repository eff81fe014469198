"""What the stock has, and what more of it can be bought: by the pack, or in kits."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Any

from tabside.make.options.work import PURCHASE, Work
from tabside.make.solve.assignment import Activity
from tabside.model.craft import CraftSettings

Resource = tuple[object, ...]


def what_is_there(settings: CraftSettings) -> dict[Resource, float]:
    """The stock as resources; what lies in kits that are there is counted with it."""
    there: dict[Resource, float] = {}
    for kind, entries in _entries(settings):
        for n, entry in enumerate(entries):
            key = resource(settings, kind, n)
            there[key] = there.get(key, 0.0) + entry.count
    return there


def resource(settings: CraftSettings, kind: str, n: int) -> Resource:
    """What one piece of an entry of the stock is in the plan."""
    if kind == "housing":
        housing = settings.stock_housings[n]
        return ("spare housing", housing.family, housing.ways)
    if kind == "contact":
        return ("contact", settings.stock_contacts[n].family)
    return ("whole roll", n) if kind == "wire" else (kind, n)


def can_be_had(settings: CraftSettings, kind: str, n: int) -> bool:
    """Whether there is one, or one can be bought."""
    entry = dict(_entries(settings))[kind][n]
    return bool(entry.count) or entry.price is not None or _in_a_kit(settings, kind, n)


def pieces_of_wire(settings: CraftSettings, n: int, leads: int) -> int:
    """How many pieces of the n-th wire may be cut into: as many as there are, and never more than leads."""
    more = settings.stock_wire[n].price is not None or _in_a_kit(settings, "wire", n)
    return leads if more else min(settings.stock_wire[n].count, leads)


def buying(settings: CraftSettings) -> Iterator[tuple[Activity, Work]]:
    """Buying cables, leads, wire and kits that the craft file prices; housings and contacts are bought elsewhere."""
    for kind in ("cable", "lead", "wire"):
        for n, entry in enumerate(dict(_entries(settings))[kind]):
            if entry.price is not None:
                pack = float(1 if kind == "wire" else entry.pack)
                yield _buy(settings, ("buy stock", kind, n), entry.price, {resource(settings, kind, n): pack})
    for k, kit in enumerate(settings.stock_kits):
        if kit.price is not None:
            makes: dict[Resource, float] = {}
            for item in kit.items:
                key = resource(settings, item.kind, item.index)
                # Only a housing that is there already is one that contacts are moved over into.
                key = ("housing", *key[1:]) if key[0] == "spare housing" else key
                makes[key] = makes.get(key, 0.0) + item.count
            yield _buy(settings, ("buy kit", k), kit.price, makes)


def bought_in_kits(settings: CraftSettings, times: Mapping[Any, int]) -> Counter[tuple[str, int]]:
    """Pieces of each entry (kind, index) that come with the kits that are bought."""
    found: Counter[tuple[str, int]] = Counter()
    for k, kit in enumerate(settings.stock_kits):
        for item in kit.items:
            found[item.kind, item.index] += item.count * times.get(("buy kit", k), 0)
    return found


def _buy(settings: CraftSettings, key: Resource, price: float, makes: dict[Resource, float]) -> tuple[Activity, Work]:
    work = Work(money=price, weight=PURCHASE)
    return Activity(key, work.cost(settings.costs), {}, makes), work


def _in_a_kit(settings: CraftSettings, kind: str, n: int) -> bool:
    """In one that can be bought."""
    return any(
        kit.price is not None and any((item.kind, item.index) == (kind, n) for item in kit.items)
        for kit in settings.stock_kits
    )


def _entries(settings: CraftSettings) -> tuple[tuple[str, tuple[Any, ...]], ...]:
    return (
        ("cable", settings.stock_cables),
        ("lead", settings.stock_leads),
        ("housing", settings.stock_housings),
        ("contact", settings.stock_contacts),
        ("wire", settings.stock_wire),
    )
