"""What each cable's parts cost: the money of the whole plan, shared out so that the cables add up to it."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Mapping

from tabside.make.options.lead_making import spent
from tabside.make.sheets.loose_sheets import crimped_ends
from tabside.make.solve.handing_out import Key
from tabside.make.solve.methods import Choice, Choices, own_contacts
from tabside.model.craft import Craft

_SHARED = ("buy housings", "buy contacts", "buy stock", "buy kit")


def cable_costs(choices: Choices, craft: Craft) -> dict[str, float]:
    """By label of the cable.

    What is bought for one cable alone is its own.  Packs and kits are shared by those that use what is in them, by how
    much of each thing they use; of a kit each thing that is used counts the same.
    """
    sharers = Counter((source.cut_from, source.cut_number) for _, source in choices.sources())
    units = {choice.shape.label: _units(choice, choices, sharers, craft) for choice in choices.each}
    costs = {choice.shape.label: _own(choice) for choice in choices.each}
    for key, count in choices.bought.items():
        if key[0] not in _SHARED:
            continue
        used = {thing: sum(each[thing] for each in units.values()) for thing in map(_as_used, choices.makes[key])}
        used = {thing: amount for thing, amount in used.items() if amount}
        for label, mine in units.items():
            shares = [mine[thing] / amount for thing, amount in used.items()]
            costs[label] += choices.work[key].money * count * sum(shares) / max(1, len(shares))
    return costs


def _own(choice: Choice) -> float:
    if choice.ready is not None:
        return choice.ready.work.money
    return sum(source.work.money for source in choice.sources.values())


def _as_used(thing: object) -> object:
    """A housing is the same, whether re-housing needs it from the stock or not."""
    return ("housing", *thing[1:]) if isinstance(thing, tuple) and thing[0] == "spare housing" else thing


def _units(
    choice: Choice, choices: Choices, sharers: Mapping[tuple[Key | None, int], int], craft: Craft
) -> Mapping[object, float]:
    """How much of each thing a cable uses: pieces, contacts with spoiled ones, shares of a piece that is cut.

    `sharers`: how many leads come from one piece.
    """
    units: defaultdict[object, float] = defaultdict(float)
    if choice.ready is not None and choice.ready.stock is not None:
        units["cable", choice.ready.stock] += 1.0
    for housing in choice.housings:
        units["housing", *housing] += 1.0
    families = [] if choice.stopped else [*own_contacts(choice.shape)]
    for made in choice.shape.new if choice.ready is None else ():
        source = choice.sources.get(made.lead.mark)
        families += [end.family for end in crimped_ends(made, source) if end.family is not None]
        if source is not None and source.stock_lead is not None:
            piece = (source.cut_from, source.cut_number)
            units["lead", source.stock_lead] += 1.0 if source.cut_from is None else 1.0 / sharers[piece]
        if source is not None and source.roll is not None:
            length = craft.settings.stock_wire[source.roll[0]].length_mm
            units["whole roll", source.roll[0]] += (choices.cut_mm[made.lead.mark] or 0.0) / length
    for contact, amount in spent(families, craft.settings.costs).items():
        units[contact] += amount
    return units
