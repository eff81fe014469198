"""Whether two contacts may be joined by a lead.  Every check that compares contacts asks this one function."""

from __future__ import annotations

import re

from msgspec.structs import replace

from tabside.analysis import harm
from tabside.analysis.meeting.outcome import Agreement, Cause, Outcome, agreed, clash, not_judged
from tabside.analysis.meeting.signal_agreement import agree_signals
from tabside.analysis.meeting.supply_agreement import CELL_TAP, agree_supplies
from tabside.facts.labels.text import clean_label
from tabside.model.craft import Contact
from tabside.model.roles import Direction, Role, RoleClass, Volts
from tabside.words.contacts import role_words, with_article

UNUSED, RELAY = "nc", "relay_contact"
LIGHT_POLES = ("anode", "cathode")  # names of roles
LOAD_ENDS = ("part_plus", "part_minus", "part_end")  # of a plain motor, lamp, buzzer, loudspeaker or potentiometer
WIPER = "wiper"  # of a potentiometer
# Lines of a pair that carries data, with their sign.  Common practice, no source.
_DATA = re.compile(r"(?:.*[ _])?(?:TXD?|RXD?|TD|RD|DATA|LVDS\d?|DMX|485|422)[ _]?[+-]")
# Lines of data: nothing is switched, lit or driven by them.
DATA_LINES = frozenset(
    ("uart", "crsf", "rs232", "i2c", "can", "spi", "usb", "rs485", "pair", "swd", "sbus", "ethernet")
)

__all__ = ["Agreement", "Cause", "Outcome", "agree"]


def agree(a: Contact, b: Contact, pack: Volts | None = None) -> Agreement:
    """Whether a lead may join these two contacts; the same for `agree(b, a)`.

    `pack` is what the battery can reach, from the craft file.  Only the two contacts are looked at: that a third one
    on the net drives two listeners is for the caller to see (`nobody_drives`).

    Source: clash of ground, supply and signal is logic; listed pairs of signals are in the table of role pairs, with
    their sources; the 10 % between two named rails is common practice, no source.
    """
    classes = {a.role.cls, b.role.cls}
    if RoleClass.AMBIGUOUS in classes:
        return _agree_unclear(a, b, pack)
    if RoleClass.UNKNOWN in classes:
        return _agree_unknown(a, b)
    buzzer = _buzzer(a, b) or _buzzer(b, a)
    if buzzer is not None:
        return buzzer
    grounds = {RoleClass.GROUND, RoleClass.SHIELD}
    if classes <= grounds:
        return agreed("ground meets ground")
    on_purpose = _tap(a, b) or _tap(b, a) or _sunk(a, b) or _sunk(b, a)
    if on_purpose is not None:
        return on_purpose
    if classes == {RoleClass.SUPPLY}:
        return agree_supplies(a, b, pack)
    if classes == {RoleClass.SIGNAL}:
        return agree_signals(a, b)
    if classes == {RoleClass.PHASE}:
        return agreed("motor phases, in any order")
    if classes == {RoleClass.SIGNAL, RoleClass.PHASE} and "pair" in (a.role.group, b.role.group):
        return agreed("A and B of a motor's phases")
    return _classes_clash(a, b)


def _buzzer(pad: Contact, part: Contact) -> Agreement | None:
    """A buzzer hangs between a supply and the contact that switches it: neither is a line of logic."""
    if pad.role.name == "buzzer_minus" and part.role.is_ground and part.label.strip() in ("-", "–", "−"):
        return agreed("a part's own minus on the contact that switches it")
    if pad.role.name == "buzzer_plus" and part.role.is_supply and not part.role.battery:
        return agreed("a supply feeds the buzzer")
    return None


def _tap(tap: Contact, ground: Contact) -> Agreement | None:
    """The lowest balance tap is the pack's minus."""
    if tap.role.name == CELL_TAP and tap.role.index == 0 and ground.role.is_ground:
        return agreed("the lowest balance tap is the pack's minus")
    return None


def _sunk(drain: Contact, minus: Contact) -> Agreement | None:
    """An open collector switches a part's minus."""
    if drain.role.cls is RoleClass.SIGNAL and drain.pin_type == "open_collector" and minus.role.is_ground:
        return agreed("a part's minus on the output that switches it")
    return None


def same_text(a: Role, b: Role) -> bool:
    return bool(a.label.strip()) and a.label.strip().casefold() == b.label.strip().casefold()


def _agree_unknown(a: Contact, b: Contact) -> Agreement:
    if UNUSED in (a.role.name, b.role.name):
        return _unused(a, b)
    if RELAY in (a.role.name, b.role.name):
        return agreed("a relay's contact carries what it switches; what meets through it is checked on its run")
    leg = _leg(a, b) or _leg(b, a) or _load(a, b) or _load(b, a)
    if leg is not None:
        return leg
    if a.role.direction is b.role.direction is Direction.DRIVES:
        return clash("two outputs by their pin types", harm.TWO_OUTPUTS, Cause.BOTH_DRIVE)
    if same_text(a.role, b.role):
        return agreed("both ends carry the same name")
    if _pole(a) and _pole(a) == _pole(b) and _is_data(a) is _is_data(b):
        return agreed("plus meets plus" if _pole(a) == "+" else "minus meets minus")
    return not_judged("the function of an end is not known")


def _leg(leg: Contact, other: Contact) -> Agreement | None:
    """A light's anode is on the plus side, its cathode on the minus side; either may be what a board switches."""
    if leg.role.name not in LIGHT_POLES:
        return None
    anode = leg.role.name == "anode"
    if other.role.name in LIGHT_POLES:
        return agreed("one light after the other, or beside it")
    if (anode and other.role.is_ground) or (not anode and other.role.is_supply):
        reason = f"a light's {leg.role.name} on {with_article(role_words(other.role))}: it stays dark"
        return clash(reason, harm.DEAD_LINK, Cause.CLASSES)
    if other.role.is_supply or other.role.is_ground or other.role.cls is RoleClass.SIGNAL:
        return agreed("a light between plus and minus, or what switches it")
    return None


def _load(end: Contact, other: Contact) -> Agreement | None:
    """An end of a plain motor, lamp or sounder: on plus, minus, or what switches it, but no line of data."""
    name = end.role.name
    if name not in LOAD_ENDS and name != WIPER:
        return None
    if (name == "part_plus" and other.role.is_ground) or (name == "part_minus" and other.role.is_supply):
        side = "plus" if name == "part_plus" else "minus"
        reason = f"a part's {side} on {with_article(role_words(other.role))}: REVERSED POLARITY"
        return clash(reason, harm.DEAD_LINK, Cause.CLASSES)
    if other.role.cls is RoleClass.SIGNAL and other.role.group in DATA_LINES:
        reason = f"a motor, lamp, sounder or potentiometer on {with_article(role_words(other.role))}"
        return clash(reason, harm.DEAD_LINK, Cause.CLASSES)
    return agreed("a part between plus and minus, or on what switches it or listens to it")


def _is_data(contact: Contact) -> bool:
    """Whether the sign is one line's of a pair that carries data: TX+, RX-, DATA+."""
    return contact.role.cls is RoleClass.UNKNOWN and bool(_DATA.fullmatch(clean_label(contact.label).plain))


def _pole(contact: Contact) -> str:
    """The sign that a name ends with: of a part's plus and minus, or of an output that switches one of them."""
    text = contact.label.strip().replace("–", "-").replace("−", "-")
    return text[-1:] if text[-1:] in ("+", "-") and contact.role.cls is not RoleClass.SIGNAL else ""


def _unused(a: Contact, b: Contact) -> Agreement:
    if a.role.name == b.role.name:
        return agreed("a wire between contacts that nothing uses")
    other = b if a.role.name == UNUSED else a
    what = with_article(role_words(other.role)) if other.role.judged else other.label or "a wire"
    return Agreement(Outcome.WARN, f"{what} on a contact that is not connected", harm.DRAWING, Cause.UNUSED)


def _agree_unclear(a: Contact, b: Contact, pack: Volts | None) -> Agreement:
    """An unclear name warns only when no reading of it would do."""
    if a.role.cls is b.role.cls and same_text(a.role, b.role):
        return agreed("both ends carry the same name")
    found = [agree(replace(a, role=x), replace(b, role=y), pack) for x in _readings(a.role) for y in _readings(b.role)]
    if all(reading.cls is RoleClass.PHASE for role in (a.role, b.role) for reading in _readings(role)):
        return not_judged("single letters may be phases, or the lines of a bus")
    if found and all(outcome.agrees for outcome in found):
        return agreed("every reading of the name agrees")
    if not found or not all(outcome.clashes for outcome in found):
        return not_judged("the name of an end has several readings")
    worst = max(found, key=lambda outcome: outcome.harm)
    reason = " whether read as ".join(dict.fromkeys(outcome.reason for outcome in found))
    if len({outcome.reason for outcome in found}) > 1:
        reason = " or ".join(dict.fromkeys(outcome.reason for outcome in found))
    return Agreement(Outcome.WARN, reason, worst.harm, Cause.UNCLEAR)


def _readings(role: Role) -> tuple[Role, ...]:
    return role.readings if role.cls is RoleClass.AMBIGUOUS else (role,)


# What stands first in "battery on a telemetry input": the side that does the harm.
_STRENGTH = {RoleClass.SUPPLY: 4, RoleClass.PHASE: 3, RoleClass.GROUND: 2, RoleClass.SHIELD: 2, RoleClass.SIGNAL: 1}


def _classes_clash(a: Contact, b: Contact) -> Agreement:
    strong, weak = sorted((a, b), key=lambda contact: -_STRENGTH[contact.role.cls])
    reason = f"{with_article(role_words(strong.role))} on {with_article(role_words(weak.role))}"
    match strong.role.cls, weak.role.cls:
        case RoleClass.SUPPLY, (RoleClass.GROUND | RoleClass.SHIELD):
            rank = harm.PACK_SHORT if strong.role.battery else harm.SUPPLY_SHORT
        case RoleClass.SUPPLY, _:
            rank = harm.of_supply_on_signal(strong)
        case RoleClass.PHASE, _:
            rank = harm.PHASE_ON_SIGNAL
        case _:
            rank = harm.GROUND_ON_SIGNAL
    return clash(reason, rank, Cause.CLASSES)
