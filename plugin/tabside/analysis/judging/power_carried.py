"""Joints that carry power, by an end or by the name of the net: what is open there is not left open."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis.joined.joints import Joint, is_coil, letters_of
from tabside.analysis.judging.judged_joints import JudgedJoints
from tabside.facts.labels.reading import names_volts
from tabside.model.craft import Contact, Kind
from tabside.model.roles import RoleClass
from tabside.wiring.terminations.part_kinds import FUSES


def undecided_power(judged: JudgedJoints) -> Iterator[Joint]:
    """Joints not judged on which an end, or the net's name, is a supply or ground."""
    for joint, found in judged.outcomes.items():
        if not found.judged and carries_power(judged, joint):
            yield joint


def carries_power(judged: JudgedJoints, joint: Joint) -> bool:
    """Whether an end of it, or the net's name, is a supply or ground; through a switch to ground it is meant."""
    if joint.through and _switched_ground(judged, joint):
        return False
    boards = {judged.craft.terminations[reference].board for reference in joint.link}
    if joint.through and len(boards) == 1:
        return False  # a board's own button or jumper
    if any(is_coil(judged.craft, contact) for contact in (joint.a, joint.b)):
        return False
    if _is_sensor_on_two_leads(judged, joint):
        return False
    if any(_is_power(contact) for contact in (joint.a, joint.b)) or _is_of_a_pack(judged, joint):
        return True
    nets = {joint.a.net_id, joint.b.net_id}
    return any(judged.rail_names.get(net) for net in nets)


def _is_of_a_pack(judged: JudgedJoints, joint: Joint) -> bool:
    """A lead without a name, of a pack, is live: a balance lead of which nothing says which tap it is."""
    return any(
        not contact.label.strip()
        and contact.role.name != "nc"
        and judged.craft.terminations[contact.termination].board in judged.packs.boards
        for contact in (joint.a, joint.b)
    )


def _is_sensor_on_two_leads(judged: JudgedJoints, joint: Joint) -> bool:
    """A button or sensor on two leads without names: one on a signal, the other on ground, either way round."""
    for near, far in ((joint.a, joint.b), (joint.b, joint.a)):
        part = judged.craft.terminations[near.termination]
        if part.kind is not Kind.CAPTIVE or len(part.contacts) != 2 or not far.role.is_ground:
            continue
        if any(c.role.cls is not RoleClass.UNKNOWN or c.label.strip(" ~0123456789") for c in part.contacts):
            continue
        other = next(contact for contact in part.contacts if contact.key != near.key)
        met = [pair for pair in judged.by_termination.get(part.reference, ()) if other.key in (pair.a.key, pair.b.key)]
        ends = [pair.b if pair.a.key == other.key else pair.a for pair in met]
        if ends and all(end.role.cls is RoleClass.SIGNAL for end in ends):
            return True
    return False


def _is_power(contact: Contact) -> bool:
    role = contact.role
    if role.cls is RoleClass.UNKNOWN and names_volts(role.label):
        return True  # 5V#2: nobody knows what it is, and power is not to be guessed
    readings = role.readings if role.cls is RoleClass.AMBIGUOUS else (role,)
    return bool(readings) and all(reading.is_supply or reading.is_ground for reading in readings)


def _switched_ground(judged: JudgedJoints, joint: Joint) -> bool:
    """Through a switch or a resistor something is joined to ground on purpose."""
    parts = [part for part in joint.through if judged.craft.terminations[part].kind is Kind.INLINE]
    switched = any(letters_of(part) not in FUSES for part in parts)
    return switched and any(contact.role.is_ground for contact in (joint.a, joint.b))
