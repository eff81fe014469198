"""What each cable's parts cost: the money of the whole plan, shared out so that the cables add up to it."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Mapping

from tabside.make.options.activities import BuyContacts, BuyHousings, BuyKit, BuyListed
from tabside.make.options.lead_options import contacts_spent
from tabside.make.options.things import EmptyHousing, ListedCable, ListedLead, ListedWire, SpareHousing, Thing
from tabside.make.solve.choice import CableChoice, CraftChoice
from tabside.make.solve.handing_out import LeadSource, Piece
from tabside.make.solve.housings import own_contacts
from tabside.make.solve.lead_methods import crimped_ends
from tabside.model.craft import Craft


def cable_costs(choices: CraftChoice, craft: Craft) -> dict[str, float]:
    """By label of the cable.

    What is bought for one cable alone is its own.  Packs and kits are shared by those that use what is in them, by how
    much of each thing they use; of a kit each thing that is used counts the same.
    """
    sharers = Counter(source.piece for _, source in choices.sources() if source.piece is not None)
    used_by = {choice.job.label: _things_used(choice, choices, sharers, craft) for choice in choices.cables}
    costs = {choice.job.label: _own_money(choice) for choice in choices.cables}
    for deed, count in choices.bought.items():
        if isinstance(deed, BuyContacts | BuyHousings | BuyListed | BuyKit):
            money = choices.work[deed].money * count
            for label, share in _shares(choices.makes[deed], used_by).items():
                costs[label] += money * share
    return costs


def _shares(makes: Mapping[Thing, float], used_by: Mapping[str, Mapping[Thing, float]]) -> dict[str, float]:
    """Which part each cable has in what a purchase brings."""
    totals = {thing: sum(used.get(thing, 0.0) for used in used_by.values()) for thing in map(_as_used, makes)}
    totals = {thing: amount for thing, amount in totals.items() if amount}
    return {
        label: sum(used.get(thing, 0.0) / amount for thing, amount in totals.items()) / max(1, len(totals))
        for label, used in used_by.items()
    }


def _own_money(choice: CableChoice) -> float:
    if choice.ready is not None:
        return choice.ready.work.money
    return sum(source.work.money for source in choice.sources.values())


def _as_used(thing: Thing) -> Thing:
    """A housing is the same, whether re-housing needs it from the stock or not."""
    return EmptyHousing(thing.family, thing.ways) if isinstance(thing, SpareHousing) else thing


def _things_used(
    choice: CableChoice, choices: CraftChoice, sharers: Mapping[Piece, int], craft: Craft
) -> Mapping[Thing, float]:
    """How much of each thing a cable uses: pieces, contacts with spoiled ones, shares of a piece that is cut.

    `sharers`: how many leads come from one piece.
    """
    used: defaultdict[Thing, float] = defaultdict(float)
    if choice.ready is not None and choice.ready.stock is not None:
        used[ListedCable(choice.ready.stock)] += 1.0
    for housing in choice.housings:
        used[EmptyHousing(*housing)] += 1.0
    crimped = [] if choice.stopped else [*own_contacts(choice.job)]
    for made in choice.job.new if choice.ready is None else ():
        source = choice.sources.get(made.lead.mark)
        crimped += [end.family for end in crimped_ends(made, source) if end.family is not None]
        if source is not None:
            _add_pieces(used, source, choices.cut_mm[made.lead.mark] or 0.0, sharers, craft)
    for contact, amount in contacts_spent(crimped, craft.settings.costs).items():
        used[contact] += amount
    return used


def _add_pieces(
    used: defaultdict[Thing, float], source: LeadSource, cut_mm: float, sharers: Mapping[Piece, int], craft: Craft
) -> None:
    if source.stock_lead is not None:
        used[ListedLead(source.stock_lead)] += 1.0 if source.piece is None else 1.0 / sharers[source.piece]
    if source.stock_wire is not None:
        entry = source.stock_wire.entry
        used[ListedWire(entry)] += cut_mm / craft.settings.stock_wire[entry].length_mm
