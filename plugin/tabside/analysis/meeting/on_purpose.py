"""Meetings that look wrong contact by contact, and that the rest of the drawing shows to be meant.

Packs in series, a shunt on the high side, a motor on its H-bridge, an input strapped to ground: all of them need more
than the two contacts to be known for what they are.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from tabside.analysis.joined.wired import Wired
from tabside.analysis.meeting.packs import Packs
from tabside.analysis.meeting.two_poles import two_poles
from tabside.facts.labels.text import clean_label, word_means, words_of
from tabside.model.craft import Contact, ContactKey, Kind, Termination
from tabside.model.roles import RoleClass

Pair = frozenset[ContactKey]

# The two outputs of one H-bridge, and the two leads of a motor.  Common practice, no source.
_BRIDGE = r"(?a)(?P<stem>(?:M(?:OTOR|OT)?|[AB]?O(?:UT)?|DRV)[ _]?[A-D\d]?[ _]?|[A-D][ _]?)(?P<side>[1-8AB+-])"
_MOTOR_KINDS = (Kind.CAPTIVE, Kind.PAD)
_SIDES = ({"1", "2"}, {"3", "4"}, {"5", "6"}, {"7", "8"}, {"A", "B"}, {"+", "-"})
_STEPPERS = ({"A+", "A-", "B+", "B-"}, {"1A", "1B", "2A", "2B"})  # four outputs together: B+ is no battery then
_SUPPLY_OUTPUTS = ("OUT+", "OUT-", "O+", "O-", "B+", "B-")  # of a regulator
_FOR_LOADS = r"(?:OUT|LOAD|CHG|CHARGE|PV|SOLAR|M|MOT|MOTOR)(?:PUT)?[ _]?\d*[+-]\Z"
_LEGS = re.compile(r"[+-]|M(?:OTOR|OT)?[ _]?\d?[ _]?[+-12AB]|RED|BLACK|RD|BK|YELLOW|BLUE|WHITE|GREEN|BROWN|[12AB]|")


def meant_pairs(wired: Wired, packs: Packs, shunts: Iterable[tuple[Contact, Contact]]) -> dict[Pair, str]:
    """Pairs of contacts that meet on purpose, with the reason."""
    found: dict[Pair, str] = {}
    found.update(dict.fromkeys(packs.series, "packs in series"))
    found.update(dict.fromkeys(_middles(wired, packs), "the middle of packs in series"))
    found.update(dict.fromkeys(_bridged(wired, packs), "a motor on its bridge, which turns it either way"))
    found.update(dict.fromkeys(_strapped(wired), "an input strapped to ground"))
    found.update(dict.fromkeys(_shunts(wired, shunts), "a shunt on the high side"))
    found.update(dict.fromkeys(_current_loops(wired), "a current loop, measured over a resistor to ground"))
    return found


def _middles(wired: Wired, packs: Packs) -> Iterator[Pair]:
    """A contact called COM between two packs in series: the ground of a split supply."""
    for lower, upper in packs.series.values():
        for contact in wired.whole_members[wired.whole_runs[lower.plus.net_id]]:
            if contact.role.cls is RoleClass.AMBIGUOUS:
                yield from (frozenset((contact.key, lead.key)) for lead in (lower.plus, upper.minus))


def _bridged(wired: Wired, packs: Packs) -> Iterator[Pair]:
    """Leads between two outputs of a bridge and the two leads of a motor, in either order."""
    craft = wired.craft
    for (first, second), joints in wired.links.items():
        ends = craft.terminations[first], craft.terminations[second]
        for driver, motor in (ends, ends[::-1]):
            leads = len(motor.contacts)
            if motor.kind not in _MOTOR_KINDS or leads not in (2, 4) or not _is_motor(motor, packs):
                continue
            met = {contact.key: contact for joint in joints for contact in (joint.a, joint.b)}
            outputs = [contact for contact in met.values() if contact.termination == driver.reference]
            if len(joints) == len(outputs) == leads and _are_bridges(outputs):
                yield from (frozenset((joint.a.key, joint.b.key)) for joint in joints)


def _is_motor(part: Termination, packs: Packs) -> bool:
    """Two leads without a word of supply, signal or battery on them."""
    if part.board in packs.boards or any(contact.gives for contact in part.contacts):
        return False
    return all(_LEGS.fullmatch(_plain(contact)) for contact in part.contacts)


def _are_bridges(outputs: list[Contact]) -> bool:
    """Whether the outputs are one bridge, or the two of a stepper."""
    first, *rest = outputs
    if len(rest) == 1:
        return _is_bridge(first, rest[0])
    if {_plain(output) for output in outputs} in _STEPPERS:
        return True
    return any(
        _is_bridge(first, other) and _is_bridge(*(contact for contact in rest if contact is not other))
        for other in rest
    )


def _is_bridge(a: Contact, b: Contact) -> bool:
    found = [re.fullmatch(_BRIDGE, _plain(contact)) for contact in (a, b)]
    if None in found or {_plain(a), _plain(b)} & set(_SUPPLY_OUTPUTS):
        return False
    (stem_a, side_a), (stem_b, side_b) = ((match["stem"], match["side"]) for match in found if match is not None)
    return stem_a == stem_b and {side_a, side_b} in _SIDES


def _plain(contact: Contact) -> str:
    return clean_label(contact.label).plain or contact.label.strip()


def _strapped(wired: Wired) -> Iterator[Pair]:
    """A chip select or another input that sets something, on the ground of its own board."""
    craft = wired.craft
    for contacts in wired.whole_members.values():
        grounds = [contact for contact in contacts if contact.role.is_ground]
        boards = {craft.terminations[ground.termination].board for ground in grounds}
        for pin in contacts if len(grounds) > 1 else ():
            if _sets_something(pin) and craft.terminations[pin.termination].board in boards:
                yield from (frozenset((pin.key, ground.key)) for ground in grounds)


def _sets_something(pin: Contact) -> bool:
    if pin.role.name == "spi_cs":
        return True
    if pin.role.cls is RoleClass.AMBIGUOUS:
        return any(reading.name == "spi_cs" for reading in pin.role.readings)
    words = words_of(clean_label(pin.label).plain)
    return pin.role.cls is RoleClass.UNKNOWN and any(word_means(word, "control") for word in words)


def _shunts(wired: Wired, shunts: Iterable[tuple[Contact, Contact]]) -> Iterator[Pair]:
    """Each pole of a shunt with what is on its run."""
    runs = wired.whole_runs
    for poles in shunts:
        for own in poles:
            on_run = wired.whole_members[runs[own.net_id]]
            yield from (frozenset((own.key, other.key)) for other in on_run if other.termination != own.termination)


def shunts_of(wired: Wired) -> Iterator[tuple[Contact, Contact]]:
    """Both poles of a pair in a supply's run, on a board that has its ground elsewhere: a shunt on the high side."""
    runs = wired.whole_runs
    for termination in wired.ends:
        for plus, minus in _poles(termination):
            both = [wired.whole_members[runs[contact.net_id]] for contact in (plus, minus)]
            if runs[plus.net_id] == runs[minus.net_id] or not _has_other_ground(wired, termination, minus):
                continue
            others = [[c for c in contacts if c.termination != termination.reference] for contacts in both]
            if all(on_run and _is_rail(on_run) for on_run in others):
                yield plus, minus


def _current_loops(wired: Wired) -> Iterator[Pair]:
    """A two-wire transmitter's minus on the input that measures it: a resistor carries its current on to ground."""
    craft = wired.craft
    resistors = list(two_poles(craft, "R"))
    on_net: dict[int, list[Contact]] = {}
    for end in wired.ends if resistors else ():
        for contact in end.contacts:
            on_net.setdefault(contact.net_id, []).append(contact)
    for resistor in resistors:
        sides = [on_net.get(net, []) for net in resistor.nets]
        for near, far in (sides, sides[::-1]):
            minuses = [c for c in near if _plain(c) == "-" and craft.terminations[c.termination].kind is Kind.CAPTIVE]
            inputs = [c for c in near if c.role.cls is RoleClass.SIGNAL]
            if any(contact.role.is_ground for contact in far):
                yield from (frozenset((minus.key, contact.key)) for minus in minuses for contact in inputs)


def _is_rail(contacts: Iterable[Contact]) -> bool:
    classes = [contact.role.cls for contact in contacts]
    return RoleClass.SUPPLY in classes and RoleClass.GROUND not in classes


def _poles(termination: Termination) -> Iterator[tuple[Contact, Contact]]:
    """Pairs X+ and X- of a termination that are no bare signs, and no output for a load."""
    named = [(c, text) for c in termination.contacts if not re.match(_FOR_LOADS, text := _plain(c))]
    minuses: dict[str, list[Contact]] = {}
    for contact, text in named:
        if len(text) > 1 and text.endswith("-"):
            minuses.setdefault(text[:-1], []).append(contact)
    for plus, text in named:
        if len(text) > 1 and text.endswith("+"):
            for minus in minuses.get(text[:-1], ()):
                yield plus, minus


def _has_other_ground(wired: Wired, termination: Termination, minus: Contact) -> bool:
    """Whether the board's ground is joined at a contact that is called so."""
    run = wired.whole_runs[minus.net_id]
    return any(
        contact.role.is_ground
        and contact.key != minus.key
        and contact.key in wired.joined
        and wired.whole_runs[contact.net_id] != run
        for end in wired.terminations_of_board.get(termination.board, ())
        for contact in end.contacts
    )
