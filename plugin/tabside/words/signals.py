"""What a wire carries at one of its ends, in the words of the drawing; a supply by its polarity."""

from __future__ import annotations

import re

from tabside.model.craft import ContactKey, Craft

_GROUND = re.compile(r"GND|GROUND|-|MINUS|NEG|0V|VSS|COM", re.IGNORECASE)
_PLUS = re.compile(r"\+|PLUS|POS|\dV|V\d", re.IGNORECASE)


def signal_words(craft: Craft, key: ContactKey) -> str:
    """ "SCL", "BAT+", "GND"; a name that does not show its polarity gets it: "VIN +", "BLACK -".

    Empty when neither the contact nor the net has a name.
    """
    contact = craft.contact(key)
    name = contact.label or ("" if contact.net.startswith(("Net-(", "unconnected-(")) else contact.net.lstrip("/"))
    if contact.role.is_ground:
        return name if _GROUND.search(name) else f"{name} -".strip()
    if contact.role.is_supply:
        return name if _PLUS.search(name) else f"{name} +".strip()
    return name
