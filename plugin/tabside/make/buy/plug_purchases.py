"""Housings, plugs and contacts."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator

from tabside.analysis.joined.lead_ends import EndKind, LeadEnd, WireFrom
from tabside.facts import families
from tabside.make.buy.kit_contents import from_kits_alike, packs_of, said
from tabside.make.buy.part_numbers import contact_choice, housing_number
from tabside.make.buy.purchase import Item, Purchase, place_of
from tabside.make.needs.live_leads import live_leads, on_packs
from tabside.make.options.activities import BuyContacts, BuyHousings
from tabside.make.options.supply import what_is_there
from tabside.make.options.things import LooseContact, SpareHousing
from tabside.make.solve.choice import CableChoice, CraftChoice
from tabside.make.solve.lead_methods import crimped_ends
from tabside.model.craft import Craft

PACK_HALF = "for the pack: the half without bare pins (sockets)"
_ITEM = {
    EndKind.CUP: Item.CUP_PLUG,
    EndKind.MATE: Item.MATE,
    EndKind.PLUG: Item.PLUG,
    EndKind.SLOT: Item.SLOT_PLUG,
}


def housings(craft: Craft, choices: CraftChoice) -> Iterator[Purchase]:
    used: dict[tuple[str, int], list[str]] = {}
    for choice in choices.cables:
        for plug, place in _plugs(choice, craft):
            used.setdefault(plug, []).append(place)
    there = what_is_there(craft.settings)
    for (family, ways), places in sorted(used.items()):
        stock = int(there.get(SpareHousing(family, ways), 0))
        yield _housing(family, ways, places, stock, craft, choices)


def _housing(family: str, ways: int, places: list[str], stock: int, craft: Craft, choices: CraftChoice) -> Purchase:
    number, source, note = housing_number(EndKind.CONTACT, family, ways, 1)
    missing = max(0, len(places) - stock)
    entries = enumerate(craft.settings.stock_housings)
    alike = [n for n, entry in entries if (entry.family, entry.ways) == (family, ways)]
    in_kits, kit_words = from_kits_alike(craft, choices, "housing", alike, missing)
    bought = {
        deed: count
        for deed, count in choices.bought.items()
        if isinstance(deed, BuyHousings) and (deed.family, deed.ways) == (family, ways)
    }
    packs = packs_of(bought.items()) if missing - in_kits else ""
    return Purchase(
        item=Item.HOUSING,
        part_number=number,
        family=family,
        ways=ways,
        quantity=len(places),
        in_stock=stock,
        in_kits=in_kits,
        used_for=tuple(places),
        source=source,
        note=said(note, packs, kit_words),
    )


def _plugs(choice: CableChoice, craft: Craft) -> Iterator[tuple[tuple[str, int], str]]:
    """Family and ways of each empty housing that it takes, and the place it is for."""
    if choice.ready is not None:
        if choice.housings:
            reference = choice.job.terminations[choice.ready.repin.plugs[0]]
            yield choice.housings[0], place_of(craft.terminations[reference])
        return
    if choice.stopped:
        return
    ends = {end.key[0]: end for made in choice.job.leads for end in made.ends if end.kind is EndKind.CONTACT}
    for reference, end in ends.items():
        if end.family is not None and end.ways is not None:
            yield (end.family, end.ways), place_of(craft.terminations[reference])


def other_plugs(craft: Craft, choices: CraftChoice) -> Iterator[Purchase]:
    """Plugs that nothing chooses: soldered ones, mates of a part's own plug, plugs of an unknown family."""
    alike: dict[tuple[EndKind, str | None, int | None, int, bool], dict[str, None]] = {}
    packs = _on_packs(choices, craft)
    for end in _bought_ends(choices):
        met = craft.terminations[end.key[0]]
        same = (end.kind, end.family, end.ways, met.rows, end.kind is EndKind.CUP and met.reference in packs)
        alike.setdefault(same, {})[place_of(met)] = None
    for (kind, family, ways, rows, on_pack), places in alike.items():
        number, source, note = housing_number(kind, family, ways, rows)
        note = said(PACK_HALF if on_pack else "", note)
        yield Purchase(
            item=_ITEM[kind],
            part_number=number,
            family=family,
            ways=ways,
            quantity=len(places),
            used_for=tuple(places),
            source=source,
            note=note,
        )


def _on_packs(choices: CraftChoice, craft: Craft) -> frozenset[str]:
    """Board connectors whose plug goes onto a pack's own leads."""
    live = live_leads(craft, (made for choice in choices.cables for made in choice.job.leads))
    return on_packs(craft, live)


def _bought_ends(choices: CraftChoice) -> Iterator[LeadEnd]:
    for choice in choices.cables:
        if choice.ready is None:
            yield from (end for made in choice.job.leads for end in made.ends if end.kind in _ITEM)


def contacts(craft: Craft, choices: CraftChoice) -> Iterator[Purchase]:
    """Contacts for crimping, spoiled ones among them: rounded up once for a family, whatever gauges it takes."""
    by_family: dict[str, list[tuple[int | None, Counter[str]]]] = {}
    for (family, gauge), places in sorted(_crimps(craft, choices).items(), key=lambda item: _by_gauge(item[0])):
        by_family.setdefault(family, []).append((gauge, places))
    for family, lines in by_family.items():
        yield from _contacts_of(family, lines, craft, choices)


def _by_gauge(key: tuple[str, int | None]) -> tuple[str, int]:
    return key[0], key[1] or 0


def _crimps(craft: Craft, choices: CraftChoice) -> dict[tuple[str, int | None], Counter[str]]:
    """Good crimps by family and gauge: how many for which place."""
    crimps: dict[tuple[str, int | None], Counter[str]] = {}
    for choice in choices.cables:
        for made in choice.job.leads if choice.ready is None and not choice.stopped else ():
            own = made.wire_from is not WireFrom.NEW  # a part's bare leads get contacts here, too
            for end in made.ends if own else crimped_ends(made, choice.sources.get(made.lead.mark)):
                if end.kind is EndKind.CONTACT and end.family is not None:
                    place = place_of(craft.terminations[end.key[0]])
                    crimps.setdefault((end.family, made.lead.gauge_awg), Counter())[place] += 1
    return crimps


def _contacts_of(
    family: str, lines: list[tuple[int | None, Counter[str]]], craft: Craft, choices: CraftChoice
) -> Iterator[Purchase]:
    """One line for each gauge; what is there, or comes with kits, goes to the first lines."""
    factor = craft.settings.costs.spoil_factor(families.family(family).pitch_mm)
    alike = [n for n, entry in enumerate(craft.settings.stock_contacts) if entry.family == family]
    bought = {
        deed: count for deed, count in choices.bought.items() if isinstance(deed, BuyContacts) and deed.family == family
    }
    stock = int(what_is_there(craft.settings).get(LooseContact(family), 0))
    needed_before = good_before = kits_before = 0
    for gauge, places in lines:
        good = sum(places.values())
        needed = math.ceil(round((good_before + good) * factor, 6)) - needed_before
        here = min(stock, needed)
        in_kits, kit_words = from_kits_alike(craft, choices, "contact", alike, needed - here, kits_before)
        number, source, note = contact_choice(family, gauge)
        packs = packs_of(bought.items()) if gauge == lines[-1][0] else ""
        yield Purchase(
            item=Item.CONTACT,
            part_number=number,
            family=family,
            gauge_awg=gauge,
            quantity=needed,
            in_stock=here,
            in_kits=in_kits,
            used_for=tuple(f"{place} ({n})" for place, n in places.items()),
            source=source,
            note=said(_good_words(good, needed), note, packs, kit_words),
        )
        needed_before, good_before, kits_before = needed_before + needed, good_before + good, kits_before + in_kits
        stock -= here


def _good_words(good: int, needed: int) -> str:
    return f"{good} used, {needed - good} spare for spoiled crimps" if needed > good else ""
