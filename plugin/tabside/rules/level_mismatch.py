"""Logic levels: what drives a line must not put more volts on it than its inputs stand."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.buses.pull_ups import PullUp, left_of_level, pull_ups
from tabside.analysis.buses.wipers import TurnedUp, turned_up
from tabside.analysis.joined.joints import letters_of
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

_FIX = "Fit a level shifter or a resistor divider in between, or correct Level and Level max."


@check("level-mismatch", severity=Severity.ERROR)
def level_mismatch(judgement: Judgement) -> Iterator[Finding]:
    """An output does not drive an input above what it tolerates.

    Too high a level burns the input, at once or in time.  Example: a board of 5 V logic whose TX drives the RX of a
    board that tolerates 3.6 V.

    Fix: fit a level shifter or a resistor divider in between, or correct Level and Level max.
    Accept: where the maker's manual says that the input is tolerant after all.
    Passes: 3.3 V on an input for 3.3 V, 3.3 V on one for 5 V; 5 V on an input with `Level max` 5.5; open-drain buses;
    a divider of two resistors; levels that nobody states.
    Fails: 5 V on an input that states a maximum below it, also over a resistor in series alone, which takes nothing off
    a level; a pull-up to a rail above that maximum; a potentiometer's wiper on it, with an end on such a rail.
    Warns: 5 V on an input of 3.3 V logic that states no maximum; an output that may be set to more than the maximum;
    names without direction (M1, SBUS, SIG, DAT without a clock), one end of 5 V and the other tolerating less; a
    wiper that reaches more than 5.5 V on an input that states no maximum.
    Source: logic; 10 % between two levels is common practice, no source.
    """
    craft = judgement.craft
    told: dict[tuple[tuple[str, str], Severity], list[tuple[Contact, Contact]]] = {}
    for joint, found in judgement.outcomes.items():
        if found.clashes:
            continue
        series = [part for part in joint.through if letters_of(part) == "R"]
        for driver, listener in ((joint.a, joint.b), (joint.b, joint.a)):
            severity = _severity(judgement, driver, listener, series)
            if severity is not None:
                told.setdefault((joint.link, severity), []).append((driver, listener))
                break
    for (link, severity), pairs in told.items():
        words = [f"{name_of(craft, driver)} drives {name_of(craft, listener)}" for driver, listener in pairs]
        driver, listener = pairs[0]
        yield Finding(
            rule="level-mismatch",
            severity=severity,
            message=f"{listed(words, 3)} with {driver.level}; the input {_stands(listener)}.",
            fix=_FIX,
            where=at_contacts(craft, [contact for pair in pairs for contact in pair]),
            link=link,
            harm=harm.TOO_HIGH_LEVEL,
        )
    for pull_up in pull_ups(judgement):
        yield _pulled(judgement, pull_up)
    for pot in turned_up(judgement):
        yield _turned_up(judgement, pot)


def _turned_up(judgement: Judgement, found: TurnedUp) -> Finding:
    craft = judgement.craft
    names = listed([name_of(craft, contact) for contact in found.above], 3)
    return Finding(
        rule="level-mismatch",
        severity=Severity.ERROR if found.sure else Severity.WARNING,
        message=f"{name_of(craft, found.wiper)}, the wiper of a potentiometer, puts up to {found.volts:g} V on {names};"
        f" the input {_stands(found.above[0])}.",
        fix="Feed the potentiometer from the rail that the input stands, put a divider behind it, or state Level max.",
        where=at_contacts(craft, [found.wiper, *found.above]),
        harm=harm.TOO_HIGH_LEVEL,
    )


def _pulled(judgement: Judgement, pull_up: PullUp) -> Finding:
    craft = judgement.craft
    names = listed([name_of(craft, contact) for contact in pull_up.above], 3)
    return Finding(
        rule="level-mismatch",
        severity=Severity.ERROR,
        message=f"{pull_up.resistor} pulls {names} up to {pull_up.volts:g} V; the input {_stands(pull_up.above[0])}.",
        fix="Pull the line up to a rail that its inputs tolerate, fit a level shifter, or correct Level max.",
        where=at_contacts(craft, pull_up.above),
        harm=harm.TOO_HIGH_LEVEL,
    )


def _severity(judgement: Judgement, driver: Contact, listener: Contact, series: list[str]) -> Severity | None:
    """How bad it is that what resistors in `series` leave of the driver's level reaches the listener."""
    if driver.level is None or not _may_listen(listener) or (series and listener.level_max_v is None):
        return None
    lone = _is_lone(judgement, driver)
    if not (lone or _may_drive(driver)):
        return None
    part = left_of_level(judgement, listener, series) if series else 1.0
    if part is None:
        return None
    if listener.level_max_v is not None:
        if driver.level.low * part > listener.level_max_v + 1e-9:
            return Severity.ERROR if _is_sure(driver) and not lone else Severity.WARNING
        return Severity.WARNING if driver.level.high * part > listener.level_max_v + 1e-9 else None
    if lone or not _is_sure(driver):
        return None
    if listener.level is not None and driver.level.low > listener.level.high * (1 + RAIL_TOLERANCE) + 1e-9:
        return Severity.WARNING
    return None


def _may_drive(contact: Contact) -> bool:
    """An output, or a contact whose name says no direction; a level is no rail, and an open drain drives none."""
    role = contact.role
    return (
        role.cls in (RoleClass.SIGNAL, RoleClass.UNKNOWN, RoleClass.AMBIGUOUS)
        and role.name != "nc"
        and role.group not in _NOT_PUSH_PULL
        and role.direction is not Direction.LISTENS
        and not contact.pin_type.startswith("open")
    )


def _is_lone(judgement: Judgement, contact: Contact) -> bool:
    """A data line named like one of I2C on a board without a clock for it: no open-drain bus is sure then."""
    if contact.role.group != "i2c" or contact.pin_type.startswith("open"):
        return False
    board = judgement.craft.terminations[contact.termination].board
    lines = {
        neighbour.role.line
        for other in judgement.terminations_of_board[board]
        for neighbour in other.contacts
        if neighbour.role.group == "i2c"
    }
    return len(lines) == 1


def _may_listen(contact: Contact) -> bool:
    signal = contact.role.cls in (RoleClass.SIGNAL, RoleClass.UNKNOWN, RoleClass.AMBIGUOUS)
    return signal and contact.role.direction is not Direction.DRIVES and contact.role.name != "nc"


def _is_sure(driver: Contact) -> bool:
    """Whether the driver is one by its name, its pin type or its bus."""
    if driver.pin_type == "output":
        return True
    return driver.role.cls is RoleClass.SIGNAL and driver.role.direction in (Direction.DRIVES, Direction.BOTH)


def _stands(listener: Contact) -> str:
    if listener.level_max_v is not None:
        return f"tolerates at most {listener.level_max_v:g} V"
    logic = f"is of {listener.level} logic and " if listener.level is not None else ""
    return f"{logic}states no maximum"
