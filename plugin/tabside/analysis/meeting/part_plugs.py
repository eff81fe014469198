"""The plugs that parts bring along: where they go in, and whether they are live."""

from __future__ import annotations

import re

from tabside.facts import mating
from tabside.model.craft import Craft, Kind, Termination

# Common practice, no source: how balance leads are labelled.
_CELL = re.compile(r"(?:C|B|S|CELL|BAL)[ _-]?\d+|\d+S?", re.IGNORECASE)


def goes_in(captive: Termination, other: Termination) -> bool:
    """Whether the plug on a captive part's leads mates there."""
    return (
        captive.kind is Kind.CAPTIVE
        and captive.family is not None
        and other.family is not None
        and other.takes_plug
        and mating.mate(captive.family, other.family)
        and (captive.ways == other.ways or None in (captive.ways, other.ways))
    )


def brings_battery(termination: Termination) -> bool:
    """Whether these are a battery's own leads: they give its voltage, or are named so and are not said to take it."""
    return (
        termination.kind is Kind.CAPTIVE
        and not termination.takes
        and any(
            any(rail.battery for rail in contact.gives) or (contact.role.battery and not contact.takes)
            for contact in termination.contacts
        )
    )


def packs(craft: Craft) -> frozenset[str]:
    """Boards whose own leads are live, all of them: one of their terminations begins a battery's leads.

    A balance lead names cells, not a battery, and is as live as the main leads beside it.
    """
    return frozenset(each.board for each in craft.terminations.values() if brings_battery(each))


def is_live(craft: Craft, captive: Termination) -> bool:
    """Whether nobody may re-pin it: a lead of a pack, or one on its own most of whose contacts are named as cells."""
    return captive.board in packs(craft) or _names_cells(captive)


def _names_cells(captive: Termination) -> bool:
    named = [each.label.strip() for each in captive.contacts if each.label.strip()]
    cells = [label for label in named if _CELL.fullmatch(label)]
    return len(cells) >= 2 and 2 * len(cells) >= len(named)
