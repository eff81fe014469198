"""What the drawing writes on the wire: power symbols and labels that name a rail."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from tabside.analysis.meeting.outcome import Agreement
from tabside.facts.labels.roles import read_label
from tabside.model.craft import Contact, Craft
from tabside.model.drawing import Place
from tabside.model.roles import Role

if TYPE_CHECKING:
    from tabside.analysis.judgement import Judgement

_NOWHERE = Place("", "", (0.0, 0.0))
# +5V, 3V3_GPS, VDD_3V3, PWR 12V; a line that says its level (PWM_3V3) is none.
_SURE_RAIL = re.compile(r"(?:[+-]|V[A-Z]*[_ ]?|PWR[_ ]?|POWER[_ ]?|BEC[_ ]?|RAIL[_ ]?|USB[_ ]?)?\d", re.IGNORECASE)
# What a net's name says of its place behind a rail: VBAT_SW, +12V_FUSED.  Common practice, no source.
_STAGE = re.compile(r"[ _-](?:SW|SWITCHED|FUSED|FUSE|F|PROT|PROTECTED|RAW|FILT|FILTERED|MAIN|LOAD)\Z", re.IGNORECASE)
_SURE_GROUND = re.compile(r".*GND.*|0V|VSS|GROUND|EARTH", re.IGNORECASE)


class NameClash(Struct, frozen=True):
    """A rail's name on a net against a contact there, or against another rail's name."""

    net_id: int
    name: str  # as written
    against: Contact | None
    other: str  # the other name, where two names clash; else ""
    found: Agreement


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


def name_clashes(judgement: Judgement) -> Iterator[NameClash]:
    """Rails' names that do not suit the contacts of their run, where no lead there is told to clash already.

    A fuse or a switch passes the rail on: what is called +12V before it is not +5V behind it.
    """
    written: dict[int, list[Contact]] = {}
    for net, names in judgement.rail_names.items():
        if net in judgement.solid_runs:
            written.setdefault(judgement.solid_runs[net], []).extend(names)
    for run, on_run in written.items():
        contacts = judgement.solid_members.get(run, [])
        if not contacts or judgement.whole_runs[contacts[0].net_id] in judgement.clashing_runs:
            continue
        if len(contacts) < 2 and contacts[0].key not in judgement.joined:
            continue  # a name on a contact that nothing meets joins nothing
        yield from _between_names(judgement, on_run)
        yield from _on_contacts(judgement, on_run, contacts)


def _between_names(judgement: Judgement, written: list[Contact]) -> Iterator[NameClash]:
    first = written[0]
    for other in written[1:]:
        found = judgement.agree(first, other)
        if found.clashes:
            yield NameClash(first.net_id, first.label, None, other.label, found)


def _on_contacts(judgement: Judgement, written: list[Contact], contacts: list[Contact]) -> Iterator[NameClash]:
    for name in written:
        for contact in contacts:
            if _is_called_so(name, contact):
                continue
            found = judgement.agree(name, contact)
            if found.clashes and contact.key not in judgement.meant_contacts:
                yield NameClash(name.net_id, name.label, contact, "", found)


def _is_called_so(name: Contact, contact: Contact) -> bool:
    """A battery's name on a contact whose own name is the battery's, whatever volts it states besides."""
    return name.role.battery and read_label(contact.label).battery
