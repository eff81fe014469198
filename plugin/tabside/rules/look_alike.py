"""Plugs that also fit another receptacle of the craft, and would do harm there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from operator import attrgetter
from typing import TYPE_CHECKING

from msgspec import Struct

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.outcome import Agreement, Cause
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, ContactKey, Craft, Kind, Termination
from tabside.model.findings import Finding, Severity, Where
from tabside.model.roles import Direction, RoleClass, Volts
from tabside.rules.rule import check
from tabside.words.contacts import listed, name_of, termination_name

if TYPE_CHECKING:
    from tabside.facts.mating import LookAlike

_FIX = "Label plugs and board connectors, or use another family or more ways for one of them; then accept the finding."
MOST_KINDS = 200  # different pinouts of one plug that are held against each other: 40,000 pairs
Plug = tuple[str, int, int]  # family, ways, rows
Pinout = tuple[tuple[str, str, Volts | None, bool, Direction], ...]


class _Receptacle(Struct, frozen=True):
    """One receptacle, and by contact number what its plug brings from the other end."""

    termination: Termination
    pinout: Pinout
    brings: dict[str, Contact]


class _Harm(Struct, frozen=True):
    plug_of: _Receptacle
    into: _Receptacle
    brought: Contact
    meets: Contact
    found: Agreement


@check("look-alike", severity=Severity.WARNING)
def look_alike(judgement: Judgement) -> Iterator[Finding]:
    """A plug that fits two board connectors of a craft will one day be in the wrong one.

    A plug goes into every board connector of its family and size.  Some plugs also enter a header of another family, in
    one direction only: a PicoBlade plug goes into a DF13 header, a VH plug of more ways into a narrower open VH header,
    off by a contact.

    Example: the video plug of 9 V in the telemetry connector beside it.

    Fix: label plugs and board connectors, or use another family or more ways for one of them; accept it when labelled.
    Accept: when both are marked.
    Passes: connectors of equal pinout; other families or ways; a wrong plug that is only dead there.
    Warns: the plug would put a supply where that does harm: one finding for each group of board connectors that fit
    one plug, and for each header that a plug of another family enters, with the worst pair in words.
    Notes: the worst is an output against a line that something else drives, or one bus of signals on another; a plug
    that only goes in loosely, of which one contact meets its pin (SH in GH, ZH in GH).
    Source: the tables of connectors (what mates) and of look-alikes (what enters, with its grade); logic, by the
    functions of both ends.
    """
    by_plug = _by_plug(judgement)
    for group in _groups(judgement, by_plug):
        harms = list(_harms(judgement, group))
        if harms:
            yield _finding(judgement.craft, harms)
    for plugs, headers, entering in _entering(by_plug):
        _bring(judgement, plugs)
        harms = list(_harms_of_entering(judgement, plugs, headers, entering))
        if harms:
            yield _entering_finding(judgement.craft, harms, entering)


def _by_plug(judgement: Judgement) -> dict[Plug, list[_Receptacle]]:
    by_plug: dict[Plug, list[_Receptacle]] = {}
    for termination in judgement.craft.terminations.values():
        if termination.kind is Kind.RECEPTACLE and termination.family and termination.ways:
            plug = (termination.family, termination.ways, termination.rows)
            by_plug.setdefault(plug, []).append(_Receptacle(termination, _pinout(termination.contacts), {}))
    return by_plug


def _groups(judgement: Judgement, by_plug: Mapping[Plug, list[_Receptacle]]) -> list[list[_Receptacle]]:
    """Receptacles that take the same plug: of one family, or of families that mate, and of equal ways."""
    from tabside.facts.mating import mate

    groups: list[list[_Receptacle]] = []
    for plug, found in by_plug.items():
        same = next((g for g in groups if _first_plug(g)[1:] == plug[1:] and mate(_first_plug(g)[0], plug[0])), None)
        if same is None:
            groups.append([*found])
        else:
            same += found
    groups = [group for group in groups if len(group) > 1]
    for group in groups:
        _bring(judgement, group)
    return groups


def _bring(judgement: Judgement, group: Sequence[_Receptacle]) -> None:
    """Find what the plugs of these receptacles bring."""
    brought = _brought(judgement)
    for receptacle in group:
        receptacle.brings.update(brought.get(receptacle.termination.reference, {}))


def _entering(
    by_plug: Mapping[Plug, list[_Receptacle]],
) -> Iterator[tuple[list[_Receptacle], list[_Receptacle], LookAlike]]:
    """Receptacles whose plugs enter headers that they are not made for, with these headers and what is known of it."""
    from tabside.facts.mating import goes_into

    for plug, plugs in by_plug.items():
        for header, headers in by_plug.items():
            entering = goes_into(plug[0], header[0])
            if entering is None or plug[2] != header[2] or (entering.ways is not None and plug[1] not in entering.ways):
                continue
            more = header[1] - plug[1]
            if more < 0 if entering.enters == "shifted" else more == 0:
                yield plugs, headers, entering


def _harms_of_entering(
    judgement: Judgement, plugs: Sequence[_Receptacle], headers: Sequence[_Receptacle], entering: LookAlike
) -> Iterator[_Harm]:
    different = {(plug.pinout, _brings(plug)): plug for plug in reversed(plugs) if plug.brings}
    sockets = {header.pinout: header for header in reversed(headers)}
    for plug in list(different.values())[:MOST_KINDS][::-1]:
        for into in list(sockets.values())[:MOST_KINDS][::-1]:
            far = {contact.termination for contact in plug.brings.values()}
            if into.termination.reference in far or into.termination.reference == plug.termination.reference:
                continue
            found = [one for shift in _shifts(plug, into, entering) for one in _meetings(judgement, plug, into, shift)]
            if entering.enters == "some":  # the other contacts lie beside their pins
                found = [meeting for meeting in found if meeting.meets.number == "1" and _burns(meeting)]
            worst = max(found, key=lambda meeting: meeting.found.harm, default=None)
            if worst is not None:
                yield worst


def _shifts(plug: _Receptacle, into: _Receptacle, entering: LookAlike) -> range:
    """By how many contacts the plug may stand off to one side."""
    more = (plug.termination.ways or 0) - (into.termination.ways or 0)
    return range(1, more + 1) if entering.enters == "shifted" else range(1)


def _first_plug(group: Sequence[_Receptacle]) -> Plug:
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
    plugs = {
        (receptacle.pinout, _brings(receptacle)): receptacle for receptacle in reversed(group) if receptacle.brings
    }
    sockets: dict[Pinout, list[_Receptacle]] = {}
    for receptacle in group:
        sockets.setdefault(receptacle.pinout, []).append(receptacle)
    for plug in list(plugs.values())[:MOST_KINDS][::-1]:
        own = plug.pinout
        for pinout, same in list(sockets.items())[:MOST_KINDS]:
            far = {contact.termination for contact in plug.brings.values()}
            into = next((receptacle for receptacle in same if receptacle.termination.reference not in far), None)
            if pinout == own or into is None:
                continue
            worst = max(_meetings(judgement, plug, into), key=lambda meeting: meeting.found.harm, default=None)
            if worst is not None:
                yield worst


def _pinout(contacts: Iterable[Contact]) -> Pinout:
    """What tells one pinout from another: role, rail and direction, contact by contact."""
    return tuple(
        (c.number, c.role.name, c.role.volts, c.role.battery, c.role.direction)
        for c in sorted(contacts, key=attrgetter("number"))
    )


def _brings(plug: _Receptacle) -> Pinout:
    return tuple((number, *pinned[0][1:]) for number, c in sorted(plug.brings.items()) for pinned in [_pinout([c])])


def _meetings(judgement: Judgement, plug: _Receptacle, into: _Receptacle, shift: int = 0) -> Iterator[_Harm]:
    there = {contact.number: contact for contact in into.termination.contacts}
    for number, brought in plug.brings.items():
        if shift:
            number = f"{int(number) - shift}" if number.isdecimal() else ""
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
    from tabside.facts.families import family

    worst = max(harms, key=lambda meeting: meeting.found.harm)
    references = _references(craft, harms)
    names = listed([termination_name(craft, reference) for reference in references], 8)
    family_id, ways, _ = _first_plug([worst.plug_of])
    return Finding(
        rule="look-alike",
        severity=Severity.WARNING if any(_burns(meeting) for meeting in harms) else Severity.NOTE,
        message=f"{names} are identical connectors ({family(family_id).title}, {ways}-way). {_would(craft, worst)}.",
        fix=_FIX,
        where=_where(craft, worst, references),
        harm=harm.LOOK_ALIKE + worst.found.harm // 10,
    )


def _entering_finding(craft: Craft, harms: Sequence[_Harm], entering: LookAlike) -> Finding:
    worst = max(harms, key=lambda meeting: meeting.found.harm)
    seats = entering.enters != "some"
    return Finding(
        rule="look-alike",
        severity=Severity.WARNING if seats and any(_burns(meeting) for meeting in harms) else Severity.NOTE,
        message=f"{_would(craft, worst)}; {entering.what_happens} ({entering.source.grade.words}).",
        fix=_FIX,
        where=_where(craft, worst, _references(craft, harms)),
        harm=harm.LOOK_ALIKE + worst.found.harm // 10,
    )


def _would(craft: Craft, worst: _Harm) -> str:
    plug_of, into = (
        termination_name(craft, receptacle.termination.reference) for receptacle in (worst.plug_of, worst.into)
    )
    return (
        f"The plug of {plug_of} in {into} would connect {name_of(craft, worst.brought)} to"
        f" {name_of(craft, worst.meets)}: {worst.found.reason}"
    )


def _references(craft: Craft, harms: Sequence[_Harm]) -> list[str]:
    named = {receptacle.termination.reference for one in harms for receptacle in (one.plug_of, one.into)}
    return [reference for reference in craft.terminations if reference in named]


def _where(craft: Craft, worst: _Harm, references: Sequence[str]) -> tuple[Where, ...]:
    firsts = [craft.terminations[reference].contacts[0] for reference in references]
    return at_contacts(craft, [worst.meets, worst.brought, *firsts])
