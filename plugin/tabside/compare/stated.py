"""What a drawing and its craft file state beside the wiring: volts, amperes, sides, the pack, settings, acceptances.

Two builds of the same leads are not the same build where one of these differs: a pack of six cells burns what stood
on four.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence

from msgspec.structs import replace

from tabside.analysis.joints import joints_of
from tabside.analysis.rail_names import rail_names_of
from tabside.compare.anchors import printed_name
from tabside.compare.change import ADDED, CHANGED, REMOVED, Change
from tabside.compare.fates.phases import direction_words
from tabside.compare.fates.what_part import Told, part_number, told_by_number, told_by_value
from tabside.compare.matching import Matching
from tabside.compare.side import Side, is_loose
from tabside.documents.ports import Port, ports
from tabside.make.needs.twisted_pairs import twisted
from tabside.model.craft import Contact, ContactKey, Kind, Lead, Limits, Termination
from tabside.model.findings import Finding
from tabside.model.roles import Direction, Rail, RoleClass

_BOARD_GOES = "Nothing to take back: its board goes."
_OTHER_CONTACTS = "Nothing to set again: the same use, by other contacts."
_NOT_STATED = "not stated"
_CHECK = "Check it against the part you have before power."
_PLACE = (
    "Find this name on the board. Where it is another place than before, the cable goes there: draw both places, and "
    "compare again."
)
_KEY_OF_LIMIT = {  # in the craft file, where it is not in its table of limits
    "ampacity": "wire.ampacity",
    "ampacity_factor": "wire.ampacity_factor",
    "wire_c": "wire.temperature_c",
    "insulation_mm": "wire.insulation_od_mm",
}
_PACK = "Another pack: check that each board and part on it stands what it reaches, before it is plugged in."
_PACK_STATED = "Stated for the first time: see that it is the pack you have."
_PACK_NOT_STATED = "No longer stated: what its volts reach is not checked any more."
_AMPERES = "Another current, the same voltage: see that wires, fuse and what feeds it stand it."
_ELSEWHERE = "The same voltage at another contact: find plus and minus on the part you have before it meets power."
_ONE_SIDE = (
    "Stated in one drawing only: measure it before any board is plugged in, and check that each board stands it."
)
_NUMBER_OF_ONE = "In one drawing only: see that it is the part you have."
_RAIL = "Another voltage: measure it before any board is plugged in, and check that each board on it stands it."


def changes_of_craft_files(old: Side, new: Side, matching: Matching) -> Iterator[Change]:
    """What both craft files state of the pack, limits and protections."""
    settings = old.craft.settings, new.craft.settings
    packs = [stated.battery_text or str(stated.battery or "") for stated in settings]
    if settings[0].battery != settings[1].battery:
        known = all(stated.battery is not None for stated in settings)
        bench = _PACK if known else _PACK_STATED if settings[1].battery is not None else _PACK_NOT_STATED
        if packs[0] == packs[1]:  # its volts are stated otherwise
            packs = [f"{words}, {stated.battery}" for words, stated in zip(packs, settings, strict=True)]
        yield _changed("battery", packs[0], packs[1], bench)
    for name in Limits.__struct_fields__:
        before, after = (getattr(stated.limits, name) for stated in settings)
        if before != after:
            words = "What numbers are held against: check the craft again."
            yield _changed(_KEY_OF_LIMIT.get(name, f"limits.{name}"), _limit_words(before), _limit_words(after), words)
    yield from _changes_of_protections(old, new, matching)


def _limit_words(stated: str | float | Mapping[int, float]) -> str:
    """ "80", "handbook_chassis", "28 AWG 0.9 mm, 30 AWG 0.7 mm"; "" for nothing."""
    match stated:
        case str():
            return stated
        case Mapping():
            return ", ".join(f"{gauge} AWG {od_mm:g} mm" for gauge, od_mm in sorted(stated.items()))
        case _:
            return f"{stated:g}"


def changes_of_facts(old: Side, new: Side, matching: Matching) -> Iterator[Change]:
    """What is stated of pairs of wires, of rails, of terminations and of contacts."""
    yield from _changes_of_pairs(old, new, matching)
    rails = rail_names_of(old.craft), rail_names_of(new.craft)
    told: set[tuple[int, int]] = set()
    for reference, now in matching.pairs.items():
        before_t, after_t = old.terminations[reference], new.terminations[now]
        if _is_another_place(before_t, after_t) and old.board(reference):
            yield _changed(f"{new.name(now)}: name on the board", before_t.value, after_t.value, _PLACE)
        for what, before_s, after_s, bench in _of_termination(before_t, after_t):
            yield _changed(f"{new.name(now)}: {what}", before_s, after_s, bench)
        came = {contact.number: contact for contact in after_t.contacts}
        for contact in before_t.contacts:
            other = came.get(contact.number)
            if other is None:
                continue
            name = new.contact_name(other.key)
            told_of_all = {what for what, *_ in _of_termination(before_t, after_t)}
            for what, before_s, after_s in _of_contact(contact, other) if not is_loose(after_t) else ():
                if what not in told_of_all:
                    yield _changed(f"{name}: {what}", before_s, after_s, _CHECK)
            written = _written(rails[0].get(contact.net_id, ())), _written(rails[1].get(other.net_id, ()))
            named_once = not all(written) and _says_the_same(contact, other)  # then a name came or went, no volts
            differs = set(written[0]) != set(written[1]) and not named_once
            if differs and (contact.net_id, other.net_id) not in told:
                told.add((contact.net_id, other.net_id))
                said = [", ".join(sorted(set(twists))) for twists in written]
                yield _changed(f"{name}: rail", said[0], said[1], _RAIL if all(said) else _ONE_SIDE)


def _says_the_same(before: Contact, after: Contact) -> bool:
    """Whether the contact itself states its rail, before and now, whatever is written on its wire."""
    said = [_rails_of(contact) for contact in (before, after)]
    return bool(said[0]) and said[0] == said[1]


def _rails_of(contact: Contact) -> tuple[object, ...]:
    volts = contact.role.volts if contact.role.is_supply else None
    return tuple(filter(None, (contact.gives, contact.takes, volts)))


def _changes_of_pairs(old: Side, new: Side, matching: Matching) -> Iterator[Change]:
    """Wires that are to be twisted together, or no longer; what the pair is called says nothing."""
    for pair in new_pairs(old, new, matching):
        bench = "Twist them together: one end of each comes out of its plug or off its joint, and goes back there."
        yield Change(ADDED, "fact", _pair_name(pair), None, _pair_words(new, pair), f"{bench} Measure both again.")
    after = {frozenset(frozenset(lead.ends) for lead in pair) for pair in twisted(new.craft).values()}
    for pair in twisted(old.craft).values():
        wires = [ends for lead in pair if (ends := matching.ends(frozenset(lead.ends))) in new.leads]
        if len(wires) == len(pair) and frozenset(wires) not in after:
            name = _pair_name([new.leads[ends] for ends in wires if ends is not None])
            yield Change(REMOVED, "fact", name, _pair_words(old, pair), None, "They may stay twisted.")


def new_pairs(old: Side, new: Side, matching: Matching) -> Iterator[Sequence[Lead]]:
    """Wires that were not twisted together before."""
    before = {frozenset(matching.ends(frozenset(lead.ends)) for lead in pair) for pair in twisted(old.craft).values()}
    for pair in twisted(new.craft).values():
        if frozenset(frozenset(lead.ends) for lead in pair) not in before:
            yield pair


def _pair_name(pair: Iterable[Lead]) -> str:
    return f"twisted together: {' and '.join(lead.mark for lead in pair)}"


def _pair_words(side: Side, pair: Iterable[Lead]) -> str:
    return "; ".join(side.lead_name(frozenset(lead.ends)) for lead in pair)


def stated_anew(old: Side, new: Side, matching: Matching) -> frozenset[ContactKey]:
    """New contacts of which the drawing says something else than before, and (termination, "") for whole plugs."""
    found: set[ContactKey] = set()
    for reference, now in matching.pairs.items():
        before, after = old.terminations[reference], new.terminations[now]
        if _seen(before) != _seen(after):
            found.add((now, ""))
        was = {contact.number: contact for contact in before.contacts}
        for contact in after.contacts:
            other = was.get(contact.number)
            if other is None or is_loose(after):
                continue  # of a part between wires the wires say it all
            if (other.label, _role(other)) != (contact.label, _role(contact)):
                found.add(contact.key)
    found |= {key for pair in new_pairs(old, new, matching) for lead in pair for key in lead.ends}
    return frozenset(found)


def _seen(termination: Termination) -> tuple[object, ...]:
    """What changes how its plug is counted and what a meter shows there."""
    sides = (termination.entry, termination.tabs, termination.contact_1)
    return (*sides, termination.isolated, termination.unread, termination.passes)


def changes_of_acceptances(old: Side, new: Side, matching: Matching, findings: Iterable[Finding]) -> Iterator[Change]:
    """Acceptances of the craft file that came, went, or give another reason; `findings`: of the new drawing."""
    accepting = set(_accepted(findings))
    known_new = _keys(new)
    before = {
        (acceptance.rule, frozenset(matching.key(key) or key for key in acceptance.at)): acceptance
        for acceptance in old.craft.settings.accept
    }
    after = {(acceptance.rule, frozenset(acceptance.at)): acceptance for acceptance in new.craft.settings.accept}
    for key, acceptance in before.items():
        name = f"{acceptance.rule} at {_places(old, acceptance.at)}"
        now = after.get(key)
        if now is None:
            bench = "Withdrawn: what it accepted counts again; look at the findings."
            yield Change(REMOVED, "acceptance", name, acceptance.reason, None, bench)
        elif set(acceptance.at) <= _keys(old) and not set(now.at) <= known_new:
            bench = "Withdrawn: a contact that it names is no longer there; take it out of the craft file."
            yield Change(REMOVED, "acceptance", name, acceptance.reason, None, bench)
        elif now.reason != acceptance.reason:
            bench = "The same finding for another reason: read it."
            yield Change(CHANGED, "acceptance", name, acceptance.reason, now.reason, bench)
    for key, acceptance in after.items():
        if key not in before:
            there = set(acceptance.at) <= known_new
            bench = "Accepted now: read the reason before you build on it."
            if not there:
                bench = "It accepts nothing: a contact that it names is not there."
            elif (acceptance.rule, acceptance.reason) not in accepting:
                bench = "It accepts nothing: there is no such finding at exactly these contacts."
            name = f"{acceptance.rule} at {_places(new, acceptance.at)}"
            yield Change(ADDED, "acceptance", name, None, acceptance.reason, bench)


def _accepted(findings: Iterable[Finding]) -> Iterator[tuple[str, str]]:
    """Rule and reason of each that is accepted, those within another one too."""
    for finding in findings:
        if finding.accepted is not None:
            yield finding.rule, finding.accepted
        yield from _accepted(finding.folded)


def _places(side: Side, keys: Iterable[ContactKey]) -> str:
    known = _keys(side)
    return " and ".join(side.contact_name(key) if key in known else ":".join(key) for key in keys)


def changes_of_findings(came: Iterable[Finding], went: Iterable[Finding]) -> Iterator[Change]:
    """What the checks say now that they did not say, and the other way round."""
    for finding in came:
        yield Change(ADDED, "finding", finding.rule, None, finding_words(finding), finding.fix)
    for finding in went:
        yield Change(REMOVED, "finding", finding.rule, finding_words(finding), None, "Nothing: it is no longer found.")


def finding_words(finding: Finding) -> str:
    """With its severity, and with the reason when the craft file accepts it."""
    accepted = f" (accepted: {finding.accepted})" if finding.accepted is not None else ""
    return f"{finding.severity} {finding.rule}{accepted}: {finding.message}"


def changes_of_settings(old: Side, new: Side, matching: Matching) -> Iterator[Change]:
    """Ports that meet other contacts than before: what is to be set anew in a board's firmware."""
    meets = _meets(old), _meets(new)
    listed = _ports(old), _ports(new)
    back = {now: reference for reference, now in matching.pairs.items()}
    for now, after in listed[1].items():
        reference = back.get(now)
        before = listed[0].get(reference, []) if reference is not None else []
        mapped = {(number, matching.key(far), through) for number, far, through in meets[0].get(reference or "", set())}
        if mapped != meets[1].get(now, set()):
            set_it = f"Set it in the firmware of {new.terminations[now].board}"
            same_use = bool(before) and _uses(before) == _uses(after)
            anew = f"{set_it}, and take back what was set before." if before else f"{set_it}."
            bench = _OTHER_CONTACTS if same_use else anew
            turns = direction_words(old, new, matching, now, meets) if same_use else ""
            name = f"port {new.name(now)}"
            kind = CHANGED if before else ADDED
            said = _port_words(before), _port_words(after)
            yield Change(kind, "setting", name, *said, turns or bench, is_work=bool(turns) or not same_use)
    for reference, before in listed[0].items():
        if matching.pairs.get(reference) not in listed[1]:
            board = old.terminations[reference].board
            goes = reference not in matching.pairs and board not in new.boards
            bench = _BOARD_GOES if goes else f"Nothing meets it any more: take back what is set for it in {board}."
            name = f"port {old.name(reference)}"
            yield Change(REMOVED, "setting", name, _port_words(before), None, bench, is_work=not goes)


def _changed(name: str, before: str, after: str, bench: str) -> Change:
    return Change(CHANGED, "fact", name, before or _NOT_STATED, after or _NOT_STATED, bench)


def _changes_of_protections(old: Side, new: Side, matching: Matching) -> Iterator[Change]:
    before = {
        (matching.key(protection.at) or protection.at, protection.what): protection
        for protection in old.craft.settings.protections
    }
    after = {(protection.at, protection.what): protection for protection in new.craft.settings.protections}
    for key, protection in before.items():
        if key not in after:
            yield Change(
                REMOVED,
                "fact",
                f"protection at {':'.join(protection.at)}",
                protection.what,
                None,
                "No longer stated: the wires behind it are protected by nothing else than what is drawn.",
            )
    for key, protection in after.items():
        if key not in before:
            bench = "Fit it, or see that it is there, before power."
            yield Change(ADDED, "fact", f"protection at {':'.join(protection.at)}", None, protection.what, bench)


def _of_termination(before: Termination, after: Termination) -> Iterator[tuple[str, str, str, str]]:
    for what, one, other in (("gives", before.gives, after.gives), ("takes", before.takes, after.takes)):
        if _rails(one) != _rails(other):
            yield (what, _rail_words(one), _rail_words(other), _bench_of_rails(one, other))
    lies = before.takes_plug and after.takes_plug  # of pads there is nothing to be found
    for what, one_s, other_s in (
        ("entry", before.entry, after.entry),
        ("tabs", before.tabs, after.tabs),
        ("contact 1", before.contact_1, after.contact_1),
    ):
        if one_s != other_s and lies:
            yield (what, one_s or "", other_s or "", "Find contact 1 and the locking-tab side on the board again.")
    if before.isolated != after.isolated:
        yield ("ground of its own", _yes(before.isolated), _yes(after.isolated), _CHECK)
    if told_by_value(before, after) is not Told.SAME and _value_counts(before) and _value_counts(after):
        yield ("value", before.value, after.value, _CHECK)
    if told_by_number(before, after) is not Told.SAME:
        numbers = part_number(before), part_number(after)
        yield ("part number", *numbers, _CHECK if all(numbers) else _NUMBER_OF_ONE)
    if before.passes != after.passes:
        yield ("inside", str(before.passes), str(after.passes), _CHECK)


def _is_another_place(before: Termination, after: Termination) -> bool:
    """Whether the board has it printed under another name; a part's own value is told as such."""
    names = printed_name(before), printed_name(after)
    return all(names) and names[0] != names[1] and before.kind in (Kind.RECEPTACLE, Kind.PAD)


def _value_counts(termination: Termination) -> bool:
    """A part's own value; that of a connector's symbol is a name, and loose parts are told as terminations."""
    return termination.kind is Kind.CAPTIVE


def _of_contact(before: Contact, after: Contact) -> Iterator[tuple[str, str, str]]:
    if before.label == after.label and _role(before) != _role(after):
        words = [_role_words(before), _role_words(after)]
        if words[0] == words[1]:  # told apart by what they do to the net, or by where their volts come from
            words = [f"{words[0]}, {_does(contact)}" for contact in (before, after)]
        yield ("role", words[0], words[1])
    for what, one, other in (("gives", before.gives, after.gives), ("takes", before.takes, after.takes)):
        if _rails(one) != _rails(other):
            yield (what, _rail_words(one), _rail_words(other))
    has_level = not all(contact.role.is_supply or contact.role.is_ground for contact in (before, after))
    for what, one_s, other_s in (
        *((("level", before.level, after.level),) if has_level else ()),
        *((("highest level", before.level_max_v, after.level_max_v),) if has_level else ()),
        ("input or output", _yes(before.either), _yes(after.either)),
    ):
        if one_s != other_s:
            yield (what, "" if one_s is None else str(one_s), "" if other_s is None else str(other_s))


def _yes(stated: bool) -> str:
    return "yes" if stated else "no"


def _role(contact: Contact) -> tuple[object, ...]:
    role = contact.role
    return (role.cls, role.name, role.direction, role.volts, role.battery, role.active_low)


def _role_words(contact: Contact) -> str:
    role = contact.role
    volts = f", {role.volts}" if role.volts is not None else ""
    name = re.sub(r"_\d.*", "", role.name) if volts else role.name  # "power_9_12v": its own volts stand beside it
    return f"{name.replace('_', ' ')}{volts}"


def _does(contact: Contact) -> str:
    role = contact.role
    said = [str(role.direction) if role.direction is not Direction.UNKNOWN else "drives or listens: not known"]
    said += ["of a battery"] if role.battery else []
    return ", ".join([*said, "active low"] if role.active_low else said)


def _rails(rails: Iterable[Rail]) -> list[Rail]:
    return [replace(rail, text="") for rail in rails]


def _volts(rails: Iterable[Rail]) -> list[Rail]:
    """The same without amperes."""
    return [replace(rail, text="", max_a=None, typical_a=None) for rail in rails]


def _bench_of_rails(before: Sequence[Rail], after: Sequence[Rail]) -> str:
    if not before or not after:
        return _ONE_SIDE
    if _volts(before) == _volts(after):
        return _AMPERES
    alike = [sorted(repr(replace(rail, contact=None)) for rail in _volts(rails)) for rails in (before, after)]
    return _ELSEWHERE if alike[0] == alike[1] else _RAIL


def _rail_words(rails: Iterable[Rail]) -> str:
    return ", ".join(rail.text or str(rail.volts or "") for rail in rails)


def _written(names: Iterable[Contact]) -> list[str]:
    """What the names on a net say of it, in words that are equal where they say the same."""
    said = []
    for contact in names:
        role = contact.role
        if role.cls is RoleClass.SUPPLY:
            said.append("the pack" if role.battery else str(role.volts))
    return said


def _meets(side: Side) -> dict[str, set[tuple[str, ContactKey, int]]]:
    """Termination -> its contacts, each with a contact that it meets and how many parts lie between."""
    found: dict[str, set[tuple[str, ContactKey, int]]] = {}
    for joint in joints_of(side.craft):
        for own, far in ((joint.a, joint.b), (joint.b, joint.a)):
            if not {own.role.cls, far.role.cls} & {RoleClass.GROUND, RoleClass.SUPPLY}:
                found.setdefault(own.termination, set()).add((own.number, far.key, len(joint.through)))
    return found


def _ports(side: Side) -> dict[str, list[Port]]:
    found: dict[str, list[Port]] = {}
    for port in ports(side.craft):
        found.setdefault(port.termination, []).append(port)
    return found


def _port_words(found: Iterable[Port]) -> str | None:
    return "; ".join(f"{port.words} ({', '.join(port.there)})" for port in found) or None


def _uses(found: Iterable[Port]) -> list[str]:
    return sorted(repr(port.use) for port in found)


def _keys(side: Side) -> set[ContactKey]:
    return {contact.key for termination in side.terminations.values() for contact in termination.contacts}
