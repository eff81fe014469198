"""What the drawing writes on the wire: power symbols and labels that name a rail."""

from __future__ import annotations

import re

from msgspec.structs import replace

from tabside.facts.labels.roles import read_label
from tabside.model.craft import Contact, Craft
from tabside.model.drawing import Place
from tabside.model.roles import Role

_NOWHERE = Place("", "", (0.0, 0.0))
# +5V, 3V3_GPS, VDD_3V3, PWR 12V; a line that says its level (PWM_3V3) is none.
_SURE_RAIL = re.compile(r"(?:[+-]|V[A-Z]*[_ ]?|PWR[_ ]?|POWER[_ ]?|BEC[_ ]?|RAIL[_ ]?|USB[_ ]?)?\d", re.IGNORECASE)
# What a net's name says of its place behind a rail: VBAT_SW, +12V_FUSED.  Common practice, no source.
_STAGE = re.compile(r"[ _-](?:SW|SWITCHED|FUSED|FUSE|F|PROT|PROTECTED|RAW|FILT|FILTERED|MAIN|LOAD)\Z", re.IGNORECASE)
_SURE_GROUND = re.compile(r".*GND.*|0V|VSS|GROUND|EARTH", re.IGNORECASE)


def rail_names_of(craft: Craft) -> dict[int, tuple[Contact, ...]]:
    """Net -> the rails that are written on it, each as a contact of nobody's: volts, the battery, or ground.

    A name without volts (VCC, VIN) says nothing, and a colour is no rail.
    """
    found: dict[int, tuple[Contact, ...]] = {}
    for net, names in craft.net_names.items():
        roles = {name: role for name in names if (role := _rail(name)) is not None}
        if roles:
            found[net] = tuple(_written(craft, net, name, role) for name, role in roles.items())
    return found


def _rail(name: str) -> Role | None:
    name = _STAGE.sub("", name.strip())
    role = read_label(name)
    if role.is_supply and (role.battery or (role.volts is not None and _SURE_RAIL.match(name.strip()))):
        return role
    return role if role.is_ground and _SURE_GROUND.fullmatch(name.strip()) else None


def _written(craft: Craft, net: int, name: str, role: Role) -> Contact:
    return Contact(
        termination="",
        number=name,
        label=name,
        role=replace(role, said_by="net name"),
        net=craft.rule_nets.get(net, name),
        net_id=net,
        pin_type="",
        flagged_empty=False,
        place=_NOWHERE,
    )
