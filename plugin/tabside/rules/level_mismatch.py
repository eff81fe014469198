"""Logic levels: what drives a line must not put more volts on it than its inputs stand."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.joints import letters_of
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.supply_agreement import RAIL_TOLERANCE
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact
from tabside.model.findings import Finding, Severity
from tabside.model.roles import Direction, RoleClass
from tabside.rules.rule import check
from tabside.words.contacts import listed, name_of

# Lines that nobody drives high (a resistor pulls them up), or whose transceivers have levels of their own.
_NOT_PUSH_PULL = frozenset(("i2c", "can", "usb", "ethernet", "rs232", "video", "phase"))


@check("level-mismatch", severity=Severity.ERROR)
def level_mismatch(judgement: Judgement) -> Iterator[Finding]:
    """An output does not drive an input above what it stands.

    Passes: 3.3 V on an input for 3.3 V, 3.3 V on one for 5 V; 5 V on an input with `Level max` 5.5; open-drain buses;
    a resistor between; levels that nobody states.
    Fails: 5 V on an input that states a maximum below it.
    Warns: 5 V on an input of 3.3 V logic that states no maximum; an output that may be set to more than the maximum.
    Source: logic; 10 % between two levels is common practice, no source.
    """
    craft = judgement.craft
    told: dict[tuple[tuple[str, str], Severity], list[tuple[Contact, Contact]]] = {}
    for joint, found in judgement.outcomes.items():
        if found.clashes or any(letters_of(part) == "R" for part in joint.through):
            continue
        for driver, listener in ((joint.a, joint.b), (joint.b, joint.a)):
            severity = _severity(driver, listener)
            if severity is not None:
                told.setdefault((joint.link, severity), []).append((driver, listener))
    for (link, severity), pairs in told.items():
        words = [f"{name_of(craft, driver)} drives {name_of(craft, listener)}" for driver, listener in pairs]
        driver, listener = pairs[0]
        yield Finding(
            rule="level-mismatch",
            severity=severity,
            message=f"{listed(words, 3)} with {driver.level}; the input {_stands(listener)}.",
            fix="Put a level shifter or a divider between, or correct Level and Level max.",
            where=at_contacts(craft, [contact for pair in pairs for contact in pair]),
            link=link,
            harm=harm.TOO_HIGH_LEVEL,
        )


def _severity(driver: Contact, listener: Contact) -> Severity | None:
    if not (_drives(driver) and _listens(listener)) or driver.level is None:
        return None
    if listener.level_max_v is not None:
        if driver.level.low > listener.level_max_v + 1e-9:
            return Severity.ERROR
        return Severity.WARNING if driver.level.high > listener.level_max_v + 1e-9 else None
    if listener.level is not None and driver.level.low > listener.level.high * (1 + RAIL_TOLERANCE) + 1e-9:
        return Severity.WARNING
    return None


def _drives(contact: Contact) -> bool:
    role = contact.role
    return (
        role.cls is RoleClass.SIGNAL
        and role.group not in _NOT_PUSH_PULL
        and role.direction in (Direction.DRIVES, Direction.BOTH)
        and not contact.pin_type.startswith("open")
    )


def _listens(contact: Contact) -> bool:
    return contact.role.cls is RoleClass.SIGNAL and contact.role.direction is not Direction.DRIVES


def _stands(listener: Contact) -> str:
    if listener.level_max_v is not None:
        return f"stands at most {listener.level_max_v:g} V"
    return f"is of {listener.level} logic and states no maximum"
