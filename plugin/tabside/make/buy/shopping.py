"""What the plan takes from stock and what is left to buy, in whole packs."""

from __future__ import annotations

from msgspec.structs import replace

from tabside.analysis.joined.lead_ends import MadeLead
from tabside.make.buy.cable_purchases import bought_complete, kits, ready_cables
from tabside.make.buy.part_purchases import boards, inline_and_splices, other_parts
from tabside.make.buy.plug_purchases import contacts, housings, other_plugs
from tabside.make.buy.purchase import Purchase
from tabside.make.buy.wire_purchases import pre_crimped_leads, wire
from tabside.make.solve.choice import CraftChoice
from tabside.model.craft import Craft
from tabside.words.parts import told_apart


def shopping(craft: Craft, choices: CraftChoice, leads: tuple[MadeLead, ...]) -> tuple[Purchase, ...]:
    """All lines: kits, cables, housings, contacts, leads, wire, then parts and boards."""
    return (
        *kits(craft, choices),
        *ready_cables(craft, choices),
        *bought_complete(craft, leads),
        *housings(craft, choices),
        *other_plugs(craft, choices),
        *contacts(craft, choices),
        *pre_crimped_leads(craft, choices),
        *wire(craft, choices),
        *inline_and_splices(craft),
        *map(_told_apart, other_parts(craft.parts)),
        *boards(craft),
    )


def _told_apart(part: Purchase) -> Purchase:
    """ "C1" is a cable, too."""
    return replace(part, used_for=tuple(map(told_apart, part.used_for)))
