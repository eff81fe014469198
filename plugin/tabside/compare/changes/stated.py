"""What a drawing states beside the wiring: volts and amperes, names of places, values, sides of plugs, twists."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from msgspec.structs import replace

from tabside.analysis.meeting.rail_names import rail_names_of
from tabside.compare.changes.change import ADDED, REMOVED, Change, changed_fact
from tabside.compare.matched.anchors import printed_name
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.what_part import Told, part_number, told_by_number, told_by_value
from tabside.compare.side import Side, is_loose
from tabside.make.needs.twisted_pairs import twisted
from tabside.model.craft import Contact, ContactKey, Kind, Lead, Termination
from tabside.model.roles import Direction, Rail, RoleClass

_CHECK = "Check it against the part you have before power."
_PLACE = (
    "Find this name on the board. Where it is another place than before, the cable goes there: draw both places, and "
    "compare again."
)
_AMPERES = "Another current, the same voltage: see that wires, fuse and what feeds it stand it."
_ELSEWHERE = "The same voltage at another contact: find plus and minus on the part you have before it meets power."
_ONE_SIDE = (
    "Stated in one drawing only: measure it before any board is plugged in, and check that each board stands it."
)
_NUMBER_OF_ONE = "In one drawing only: see that it is the part you have."
_RAIL = "Another voltage: measure it before any board is plugged in, and check that each board on it stands it."


def changes_of_facts(rebuild: Rebuild) -> Iterator[Change]:
    """What is stated of pairs of wires, of rails, of terminations and of contacts."""
    old, new, matching = rebuild
    yield from _changes_of_pairs(rebuild)
    rails = rail_names_of(old.craft), rail_names_of(new.craft)
    told: set[tuple[int, int]] = set()
    for reference, now in matching.pairs.items():
        before_t, after_t = old.terminations[reference], new.terminations[now]
        if _is_another_place(before_t, after_t) and old.board(reference):
            yield changed_fact(f"{new.name(now)}: name on the board", before_t.value, after_t.value, _PLACE)
        for what, before_s, after_s, bench in _of_termination(before_t, after_t):
            yield changed_fact(f"{new.name(now)}: {what}", before_s, after_s, bench)
        came = {contact.number: contact for contact in after_t.contacts}
        for contact in before_t.contacts:
            other = came.get(contact.number)
            if other is None:
                continue
            name = new.contact_name(other.key)
            told_of_all = {what for what, *_ in _of_termination(before_t, after_t)}
            for what, before_s, after_s in _of_contact(contact, other) if not is_loose(after_t) else ():
                if what not in told_of_all:
                    yield changed_fact(f"{name}: {what}", before_s, after_s, _CHECK)
            written = _written(rails[0].get(contact.net_id, ())), _written(rails[1].get(other.net_id, ()))
            named_once = not all(written) and _says_the_same(contact, other)  # then a name came or went, no volts
            differs = set(written[0]) != set(written[1]) and not named_once
            if differs and (contact.net_id, other.net_id) not in told:
                told.add((contact.net_id, other.net_id))
                said = [", ".join(sorted(set(twists))) for twists in written]
                yield changed_fact(f"{name}: rail", said[0], said[1], _RAIL if all(said) else _ONE_SIDE)


def _says_the_same(before: Contact, after: Contact) -> bool:
    """Whether the contact itself states its rail, before and now, whatever is written on its wire."""
    said = [_rails_of(contact) for contact in (before, after)]
    return bool(said[0]) and said[0] == said[1]


def _rails_of(contact: Contact) -> tuple[object, ...]:
    volts = contact.role.volts if contact.role.is_supply else None
    return tuple(filter(None, (contact.gives, contact.takes, volts)))


def _changes_of_pairs(rebuild: Rebuild) -> Iterator[Change]:
    """Wires that are to be twisted together, or no longer; what the pair is called says nothing."""
    old, new, matching = rebuild
    for pair in new_pairs(rebuild):
        bench = "Twist them together: one end of each comes out of its plug or off its joint, and goes back there."
        yield Change(ADDED, "fact", _pair_name(pair), None, _pair_words(new, pair), f"{bench} Measure both again.")
    after = {frozenset(frozenset(lead.ends) for lead in pair) for pair in twisted(new.craft).values()}
    for pair in twisted(old.craft).values():
        wires = [ends for lead in pair if (ends := matching.ends(frozenset(lead.ends))) in new.leads]
        if len(wires) == len(pair) and frozenset(wires) not in after:
            name = _pair_name([new.leads[ends] for ends in wires if ends is not None])
            yield Change(REMOVED, "fact", name, _pair_words(old, pair), None, "They may stay twisted.")


def new_pairs(rebuild: Rebuild) -> Iterator[Sequence[Lead]]:
    """Wires that were not twisted together before."""
    old, new, matching = rebuild
    before = {frozenset(matching.ends(frozenset(lead.ends)) for lead in pair) for pair in twisted(old.craft).values()}
    for pair in twisted(new.craft).values():
        if frozenset(frozenset(lead.ends) for lead in pair) not in before:
            yield pair


def _pair_name(pair: Iterable[Lead]) -> str:
    return f"twisted together: {' and '.join(lead.mark for lead in pair)}"


def _pair_words(side: Side, pair: Iterable[Lead]) -> str:
    return "; ".join(side.lead_name(frozenset(lead.ends)) for lead in pair)


def stated_anew(rebuild: Rebuild) -> frozenset[ContactKey]:
    """New contacts of which the drawing says something else than before, and (termination, "") for whole plugs."""
    old, new, matching = rebuild
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
    found |= {key for pair in new_pairs(rebuild) for lead in pair for key in lead.ends}
    return frozenset(found)


def _seen(termination: Termination) -> tuple[object, ...]:
    """What changes how its plug is counted and what a meter shows there."""
    sides = (termination.entry, termination.tabs, termination.contact_1)
    return (*sides, termination.isolated, termination.unread, termination.passes)


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
