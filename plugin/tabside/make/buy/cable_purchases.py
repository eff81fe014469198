"""Kits and ready-made cables."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from tabside.analysis.joined.lead_ends import EndKind, MadeLead, WireFrom
from tabside.make.buy.kit_contents import from_kits, kits_bought, packs_of_listed, said
from tabside.make.buy.purchase import Item, Purchase, place_of
from tabside.make.options.things import ListedCable
from tabside.make.solve.choice import CableChoice, CraftChoice
from tabside.model.craft import Craft
from tabside.words.parts import sheet_name


def kits(craft: Craft, choices: CraftChoice) -> Iterator[Purchase]:
    """Boxes to buy; what is used of them stands in its own line, too."""
    for deed, count in sorted(kits_bought(choices).items(), key=lambda item: item[0].entry):
        yield Purchase(item=Item.KIT, part_number="", quantity=count, note=craft.settings.stock_kits[deed.entry].name)


def ready_cables(craft: Craft, choices: CraftChoice) -> Iterator[Purchase]:
    """Straight ones to buy, then those of the stock's list."""
    listed: dict[int, list[str]] = {}
    for choice in choices.cables:
        if choice.ready is not None and choice.ready.stock is not None:
            listed.setdefault(choice.ready.stock, []).append(_name(choice))
        elif choice.ready is not None:
            yield _straight_cable(choice, craft)
    for n, names in sorted(listed.items()):
        yield _listed_cable(n, names, craft, choices)


def _name(choice: CableChoice) -> str:
    return sheet_name(choice.job.label, choice.job.mark)


def _straight_cable(choice: CableChoice, craft: Craft) -> Purchase:
    first = craft.terminations[choice.job.terminations[0]]
    path = choice.job.path_mm
    length = f"at least {math.ceil(path)} mm" if path is not None else "length not known"
    return Purchase(
        item=Item.CABLE,
        family=first.family,
        ways=first.ways,
        gauge_awg=_thickest(choice),
        length_mm=None if path is None else float(math.ceil(path)),
        used_for=(_name(choice),),
        note=f"straight, the same plug on both ends, crimped; {length}",
    )


def _thickest(choice: CableChoice) -> int | str:
    """One that serves all of its wires; "" where the gauge of one is not known."""
    gauges = [made.lead.gauge_awg for made in choice.job.leads]
    known = [gauge for gauge in gauges if gauge is not None]
    return min(known) if known and len(known) == len(gauges) else ""  # AWG counts backwards


def _listed_cable(n: int, names: list[str], craft: Craft, choices: CraftChoice) -> Purchase:
    cable = craft.settings.stock_cables[n]
    missing = max(0, len(names) - cable.count)
    in_kits, kit_words = from_kits(craft, choices, "cable", n, missing)
    bought = f"{cable.name}{packs_of_listed(choices, ListedCable(n), cable.pack)}"
    return Purchase(
        item=Item.CABLE,
        part_number="",
        family=cable.ends[0][0],
        ways=cable.ends[0][1],
        length_mm=cable.length_mm,
        quantity=len(names),
        in_stock=cable.count,
        in_kits=in_kits,
        used_for=tuple(names),
        note=said(bought if missing else f"from stock: {cable.name}", kit_words),
    )


def bought_complete(craft: Craft, leads: Iterable[MadeLead]) -> Iterator[Purchase]:
    """Coax, USB and the like: bought whole, one for each cable."""
    cables: dict[str, list[MadeLead]] = {}
    for made in leads:
        if made.wire_from is WireFrom.MADE:
            cables.setdefault(made.lead.cable or made.lead.mark, []).append(made)
    for mark, members in cables.items():
        ends = {end.key[0]: end for made in members for end in made.ends}
        yield Purchase(
            item=Item.CABLE,
            family=next((end.family for end in ends.values() if end.kind is EndKind.MADE), None),
            length_mm=_longest_mm(members),
            used_for=tuple(place_of(craft.terminations[reference]) for reference in ends),
            note=f"{mark}: {' - '.join(end.words for end in ends.values())}; {_longest(members)}",
        )


def _longest_mm(leads: Iterable[MadeLead]) -> float | None:
    """None where one of them is not known."""
    lengths = [made.lead.length_mm for made in leads]
    known = [length for length in lengths if length is not None]
    return float(math.ceil(round(max(known), 6))) if known and len(known) == len(lengths) else None


def _longest(leads: Iterable[MadeLead]) -> str:
    """How long leads bought at one length must be."""
    lengths = [made.lead.length_mm for made in leads]
    known = [length for length in lengths if length is not None]
    words = [f"at least {math.ceil(round(max(known), 6))} mm"] if known else []
    if len(known) < len(lengths):
        words.append(f"length of {len(lengths) - len(known)} not known")
    return ", ".join(words)
