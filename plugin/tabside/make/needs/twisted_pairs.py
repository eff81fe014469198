"""Wires that the drawing wants twisted together: the field `Pair` on them has one name."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from tabside.model.craft import Craft, Lead
from tabside.words.contacts import listed


def twisted(craft: Craft) -> Mapping[str, tuple[Lead, ...]]:
    """The wires of each pair, in their order; a name on one wire alone twists nothing."""
    found: dict[str, list[Lead]] = {}
    for lead in craft.leads:
        if lead.pair:
            found.setdefault(lead.pair, []).append(lead)
    return {name: tuple(leads) for name, leads in found.items() if len(leads) > 1}


def twist_looks(craft: Craft, marks: Collection[str]) -> Iterator[str]:
    """What to see to while these wires are in the hand."""
    for name, leads in twisted(craft).items():
        if {lead.mark for lead in leads} & set(marks):
            together = listed([lead.mark for lead in leads], 40)
            yield f"that {together} are twisted together (pair {name}) before their second ends go into plug or joint"
