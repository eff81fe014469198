"""What a wire carries at one of its ends, in the words of the drawing; a supply by its polarity."""

from __future__ import annotations

import re

from tabside.model.craft import ContactKey, Craft
from tabside.model.roles import Role
from tabside.words.contacts import termination_name

_GROUND = re.compile(r"GND|GROUND|-|MINUS|NEG|0V|VSS|COM", re.IGNORECASE)
_PLUS = re.compile(r"\+|PLUS|POS|\dV|V\d", re.IGNORECASE)


def signal_words(craft: Craft, key: ContactKey) -> str:
    """ "SCL", "BAT+", "GND"; a name that does not show its polarity gets it: "VIN +", "BLACK -".

    Without a name it is that of its role; empty where that is not known either.
    """
    contact = craft.contact(key)
    name = contact.label or ("" if contact.net.startswith(("Net-(", "unconnected-(")) else contact.net.lstrip("/"))
    if not name:
        return _nameless(contact.role)
    if contact.role.is_ground:
        return name if _GROUND.search(name) else f"{name} -"
    if contact.role.is_supply:
        return name if _PLUS.search(name) else f"{name} +"
    return name


def own_lead_words(craft: Craft, key: ContactKey) -> str:
    """Which of a part's own leads: "buzzer/J13 lead 2 (-)", by its contact and its name or polarity as drawn."""
    signal = signal_words(craft, key)
    named = f" ({signal})" if signal not in ("", key[1]) else ""
    return f"{termination_name(craft, key[0])} lead {key[1]}{named}"


def _nameless(role: Role) -> str:
    if role.is_ground:
        return "GND"
    if not role.is_supply:
        return ""
    if role.battery or role.volts is None or role.volts.low != role.volts.high:
        return "BAT+" if role.battery else "plus"
    return f"{role.volts} +"
