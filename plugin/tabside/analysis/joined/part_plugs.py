"""The plugs that parts bring along: where they go in, and whether they are live."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence

from tabside.facts import mating
from tabside.model.craft import Craft, Kind, Termination
from tabside.model.roles import RoleClass

# Common practice, no source: how balance leads are labelled.
_BATTERY = "BT"  # KiCad's reference letters of batteries and cells
_CELL = r"(?i:(?:C|B|S|CELL|BAL)[ _-]?\d+|\d+S?)"


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
    """Whether these are a battery's own leads: they give its voltage, or are named so, and take nothing."""
    return (
        termination.kind is Kind.CAPTIVE
        and not termination.takes
        and any(
            any(rail.battery for rail in contact.gives) or (contact.role.battery and not contact.takes)
            for contact in termination.contacts
        )
    )


def packs(craft: Craft) -> frozenset[str]:
    """Parts whose own leads are live, all of them: a battery, and whatever gives a supply and takes none.

    A balance lead names cells, not a battery, and is as live as the main leads beside it.  Two bare leads that meet
    a battery contact, where no other pack does, are a battery's as well.
    """
    on_board: dict[str, list[Termination]] = {}
    for termination in craft.terminations.values():
        on_board.setdefault(termination.board, []).append(termination)
    sure = {board for board, found in on_board.items() if any(map(brings_battery, found)) or _only_gives(found)}
    return frozenset(
        sure
        | {termination.board for termination in craft.terminations.values() if _meets_battery(craft, termination, sure)}
    )


def _only_gives(terminations: Sequence[Termination]) -> bool:
    """Whether a part's own leads bring a supply while nothing feeds the part."""
    takes = any(
        termination.takes or any(contact.takes for contact in termination.contacts) for termination in terminations
    )
    own = [termination for termination in terminations if termination.kind is Kind.CAPTIVE]
    return not takes and any(_brings_supply(termination) for termination in own)


def _brings_supply(captive: Termination) -> bool:
    if captive.gives or captive.reference.rstrip("0123456789") == _BATTERY:
        return True
    return any(
        contact.gives or (contact.role.is_supply and contact.pin_type == "power_out") for contact in captive.contacts
    )


def _meets_battery(craft: Craft, part: Termination, sure: Collection[str]) -> bool:
    if part.kind is not Kind.CAPTIVE or part.takes or len(part.contacts) != 2:
        return False
    if any(contact.role.cls in (RoleClass.SIGNAL, RoleClass.PHASE) or contact.takes for contact in part.contacts):
        return False
    nets = {contact.net_id for contact in part.contacts}
    met = [
        (craft.terminations[contact.termination], contact)
        for other in craft.terminations.values()
        for contact in other.contacts
        if contact.net_id in nets and other.reference != part.reference
    ]
    if any(termination.board in sure for termination, _ in met):
        return False
    fed = any(contact.gives for _, contact in met)
    return not fed and any(
        contact.role.battery and termination.kind not in (Kind.INLINE, Kind.SPLICE) for termination, contact in met
    )


def is_live(craft: Craft, captive: Termination) -> bool:
    """Whether nobody may re-pin it: a lead of a pack, or one on its own most of whose contacts are named as cells."""
    return _is_live(captive, packs(craft))


def live_parts(craft: Craft) -> frozenset[str]:
    """References of all own leads that nobody may re-pin."""
    on_packs = packs(craft)
    return frozenset(
        part.reference for part in craft.terminations.values() if part.kind is Kind.CAPTIVE and _is_live(part, on_packs)
    )


def _is_live(captive: Termination, on_packs: Collection[str]) -> bool:
    return captive.board in on_packs or _names_cells(captive)


def _names_cells(captive: Termination) -> bool:
    named = [contact.label.strip() for contact in captive.contacts if contact.label.strip()]
    cells = [label for label in named if re.fullmatch(_CELL, label)]
    return len(cells) >= 2 and 2 * len(cells) >= len(named)
