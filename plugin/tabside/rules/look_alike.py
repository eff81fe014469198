"""Plugs that also fit another receptacle of the craft, and would do harm there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.outcome import Agreement, Cause
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, ContactKey, Craft, Kind, Termination
from tabside.model.findings import Finding, Severity
from tabside.model.roles import Direction, RoleClass
from tabside.rules.rule import check
from tabside.words.contacts import listed, name_of, termination_name

MOST_KINDS = 200  # different pinouts of one plug that are held against each other: 40,000 pairs
Pinout = tuple[tuple[str, str, str, bool, str], ...]


class _Receptacle(NamedTuple):
    """One receptacle, and by contact number what its plug brings from the other end."""

    termination: Termination
    brings: dict[str, Contact]


class _Harm(NamedTuple):
    plug_of: _Receptacle
    into: _Receptacle
    brought: Contact
    meets: Contact
    found: Agreement


@check("look-alike", severity=Severity.WARNING)
def look_alike(judgement: Judgement) -> Iterator[Finding]:
    """A plug that fits two receptacles of a craft will one day be in the wrong one.

    Passes: receptacles of equal pinout; other families or ways; a wrong plug that is only dead there.
    Warns: the plug would put a supply (or CAN) where that does harm: one finding for each group of receptacles that
    take the same plug, with the worst pair in words.
    Notes: the worst is an output against a line that something else drives.
    Source: the table of connectors (what mates); logic, by the roles of both ends.
    """
    for group in _groups(judgement):
        harms = list(_harms(judgement, group))
        if harms:
            yield _finding(judgement.craft, harms)


def _groups(judgement: Judgement) -> list[list[_Receptacle]]:
    """Receptacles that take the same plug: of one family, or of families that mate, and of equal ways."""
    from tabside.facts.mating import mate

    groups: list[list[_Receptacle]] = []
    by_plug: dict[tuple[str, int, int], list[_Receptacle]] = {}
    for termination in judgement.craft.terminations.values():
        if termination.kind is Kind.RECEPTACLE and termination.family and termination.ways:
            plug = (termination.family, termination.ways, termination.rows)
            by_plug.setdefault(plug, []).append(_Receptacle(termination, {}))
    for plug, found in by_plug.items():
        same = next((g for g in groups if _first_plug(g)[1:] == plug[1:] and mate(_first_plug(g)[0], plug[0])), None)
        if same is None:
            groups.append(found)
        else:
            same += found
    groups = [group for group in groups if len(group) > 1]
    if groups:
        brought = _brought(judgement)
        for group in groups:
            for each in group:
                each.brings.update(brought.get(each.termination.reference, {}))
    return groups


def _first_plug(group: Sequence[_Receptacle]) -> tuple[str, int, int]:
    first = group[0].termination
    return (first.family or "", first.ways or 0, first.rows)


def _brought(judgement: Judgement) -> dict[str, dict[str, Contact]]:
    """Termination -> contact -> the contact at the other end of its lead (the first, where several meet there)."""
    found: dict[str, dict[str, Contact]] = {}
    for joint in judgement.joints:
        for here, there in ((joint.a, joint.b), (joint.b, joint.a)):
            found.setdefault(here.termination, {}).setdefault(here.number, there)
    return found


def _harms(judgement: Judgement, group: Sequence[_Receptacle]) -> Iterator[_Harm]:
    """One for each pair of different pinouts that does harm; receptacles of one pinout are judged once."""
    plugs = {(_pinout(each.termination.contacts), _brings(each)): each for each in reversed(group) if each.brings}
    sockets: dict[Pinout, list[_Receptacle]] = {}
    for each in group:
        sockets.setdefault(_pinout(each.termination.contacts), []).append(each)
    for plug in list(plugs.values())[:MOST_KINDS][::-1]:
        own = _pinout(plug.termination.contacts)
        for pinout, same in list(sockets.items())[:MOST_KINDS]:
            far = {contact.termination for contact in plug.brings.values()}
            into = next((each for each in same if each.termination.reference not in far), None)
            if pinout == own or into is None:
                continue
            worst = max(_meetings(judgement, plug, into), key=lambda each: each.found.harm, default=None)
            if worst is not None:
                yield worst


def _pinout(contacts: Iterable[Contact]) -> Pinout:
    """What tells one pinout from another: role, rail and direction, contact by contact."""
    return tuple(
        sorted((c.number, c.role.name, str(c.role.volts), c.role.battery, c.role.direction.value) for c in contacts)
    )


def _brings(plug: _Receptacle) -> Pinout:
    return tuple((number, *pinned[0][1:]) for number, c in sorted(plug.brings.items()) for pinned in [_pinout([c])])


def _meetings(judgement: Judgement, plug: _Receptacle, into: _Receptacle) -> Iterator[_Harm]:
    there = {contact.number: contact for contact in into.termination.contacts}
    for number, brought in plug.brings.items():
        meets = there.get(number)
        if meets is not None and meets.key not in _own(plug):
            found = judgement.agree(brought, meets)
            if found.clashes and _does_harm(brought, meets, found):
                yield _Harm(plug, into, brought, meets, found)


def _own(plug: _Receptacle) -> set[ContactKey]:
    return {contact.key for contact in plug.termination.contacts}


def _does_harm(a: Contact, b: Contact, found: Agreement) -> bool:
    """A supply where it does not belong, or an output against what also drives; two inputs are only dead."""
    if found.cause in (Cause.OVER, Cause.BOTH_DRIVE):
        return True
    if found.cause is Cause.UNDER:
        return False
    if RoleClass.SUPPLY in (a.role.cls, b.role.cls):
        return True
    directions = {a.role.direction, b.role.direction}
    if Direction.DRIVES in directions:
        other = b if a.role.direction is Direction.DRIVES else a
        return other.role.is_ground or other.role.direction in (Direction.DRIVES, Direction.BOTH)
    return "can" in {a.role.group, b.role.group}  # its transceiver drives more than logic stands


def _burns(one: _Harm) -> bool:
    """A supply where it does not belong; two buses of signals, or two outputs, only disturb each other."""
    return any(role.is_supply for role in (one.brought.role, one.meets.role))


def _finding(craft: Craft, harms: Sequence[_Harm]) -> Finding:
    worst = max(harms, key=lambda each: each.found.harm)
    named = dict.fromkeys(each.termination.reference for one in harms for each in (one.plug_of, one.into))
    order = {reference: n for n, reference in enumerate(craft.terminations)}
    references = sorted(named, key=lambda reference: order[reference])
    family_id, ways, _ = _first_plug([worst.plug_of])
    into = termination_name(craft, worst.into.termination.reference)
    firsts = [craft.terminations[reference].contacts[0] for reference in references]
    return Finding(
        rule="look-alike",
        severity=Severity.WARNING if any(_burns(each) for each in harms) else Severity.NOTE,
        message=f"{listed([termination_name(craft, reference) for reference in references], 8)} take the same plug"
        f" ({family_id}, {ways} ways). The plug of {termination_name(craft, worst.plug_of.termination.reference)} in"
        f" {into} would join {name_of(craft, worst.brought)} to {name_of(craft, worst.meets)}: {worst.found.reason}.",
        fix="Mark plugs and receptacles, or use another family or more ways for one of them; accept it when marked.",
        where=at_contacts(craft, [worst.meets, worst.brought, *firsts]),
        harm=harm.LOOK_ALIKE + worst.found.harm // 10,
    )
