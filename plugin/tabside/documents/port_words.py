"""Words for ports: what a signal's group is called when firmware is set up.  Common practice, no source."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import StrEnum

from tabside.model.craft import Contact
from tabside.model.roles import Direction, RoleClass


class PulseSide(StrEnum):
    """Which side of a motor or servo signal a contact is on."""

    MOTOR_OUT = "motor output"
    OUT = "output"  # to a servo, or to what is not known to turn a motor
    IN = "motor input"
    UNKNOWN = "motor or servo signal"


def pulse_side(own: Contact, far: Contact, turns_motor: bool, far_turns_motor: bool) -> PulseSide:
    """A board with motor phases takes the signal; one with a numbered output gives it to what only says "PWM"."""
    if far_turns_motor and not turns_motor:
        return PulseSide.MOTOR_OUT
    takes = own.role.direction is Direction.LISTENS
    if takes or (turns_motor and not far_turns_motor) or (own.role.name == "pwm" and far.role.name == "motor_signal"):
        return PulseSide.IN
    if far.role.direction is Direction.LISTENS or (far.role.name == "pwm" and own.role.name == "motor_signal"):
        return PulseSide.OUT
    return PulseSide.UNKNOWN


_KINDS = {"crsf": "uart"}  # groups that are ports of another group
_NUMBERED = {"uart": "serial", "i2c": "I2C", "can": "CAN", "spi": "SPI"} | {
    side.value: side.value for side in PulseSide
}
_SINGLE = {
    "current_sense": "current sense (ADC)",
    "voltage_sense": "voltage sense (ADC)",
    "rssi": "signal strength (ADC)",
    "sbus": "receiver port, SBUS",
    "ppm": "receiver port, PPM",
    "esc_telemetry": "ESC telemetry",
    "video": "video",
    "camera_control": "camera control",
    "vtx_control": "video transmitter control",
    "led": "LED strip data",
    "buzzer": "buzzer",
    "swd": "debug port",
    "usb": "USB",
    "ethernet": "Ethernet",
    "rs232": "RS-232",
}
_PAIRS = {"i2c": ("sda", "scl"), "can": ("h", "l")}  # lines without which the bus is dead
_HALF_DUPLEX = frozenset(("vtx_control",))
_PHASES = "phases"


def port_kind(contact: Contact) -> str:
    """The group that a contact's port belongs to; "" for signals that stand alone."""
    role = contact.role
    if role.cls is RoleClass.PHASE:
        return _PHASES
    if role.cls is not RoleClass.SIGNAL or role.group == "any":
        return ""
    return _KINDS.get(role.group, role.group)


def lacks_number(kind: str, index: int | None) -> bool:
    """Whether the port is one of several on its board, and the drawing does not say which."""
    return kind in _NUMBERED and index is None


def port_words(kind: str, index: int | None, contact: Contact, reference: str) -> str:
    """ "serial 2", "serial of J11" where the drawing gives no number, "current sense (ADC)", "signal PPS"."""
    if kind == _PHASES:
        return "motor phases"
    if kind in _NUMBERED:
        return f"{_NUMBERED[kind]} {index}" if index is not None else f"{_NUMBERED[kind]} of {reference}"
    if kind in _SINGLE:
        return f"{_SINGLE[kind]}{'' if index is None else f' {index}'}"
    return f"signal {contact.label}" if contact.label else f"contact {contact.number}, not named"


def extras(kind: str, own: Sequence[Contact], far: Sequence[Contact]) -> Iterator[str]:
    """What is to be set beside the port's function."""
    lines = {contact.role.line for contact in own}
    groups = {contact.role.group for contact in far}
    if kind == "uart":
        if "sbus" in groups:
            yield "SBUS"
        if "esc_telemetry" in groups:
            yield "ESC telemetry"
        if groups & _HALF_DUPLEX:
            yield "half duplex"
        elif lines == {"rx"}:
            yield "receives only"
        elif lines == {"tx"}:
            yield "sends only"
        if {"rts", "cts"} <= lines:
            yield "flow control"
    if kind == _PHASES:
        yield "any order"
    if kind == "video" and len({contact.role.direction for contact in own}) == 1:
        direction = own[0].role.direction
        if direction in (Direction.DRIVES, Direction.LISTENS):
            yield "out" if direction is Direction.DRIVES else "in"


def notes_on(kind: str, own: Sequence[Contact], far: Sequence[Contact]) -> Iterator[str]:
    """What to mind while setting it up."""
    lines = {contact.role.line for contact in own}
    if kind in _PAIRS:
        missing = [line.upper() for line in _PAIRS[kind] if line not in lines]
        if missing:
            yield f"{' and '.join(missing)} {'is' if len(missing) == 1 else 'are'} not connected"
    if kind == "uart" and any(contact.role.group == "sbus" for contact in far):
        yield "SBUS is inverted: the port must invert its input"
    if kind == "uart" and len(lines & {"rts", "cts"}) == 1:
        yield "only one of RTS and CTS is connected: flow control off"
    if kind == _PHASES:
        yield "swap any two to reverse the motor"
    indices = {contact.role.index for contact in far if contact.role.index is not None}
    mine = {contact.role.index for contact in own if contact.role.index is not None}
    if kind in list(PulseSide) and mine and indices and mine != indices:
        numbers = ", ".join(map(str, sorted(indices)))
        yield (
            f"numbered {numbers} at the other end: set the motor order in the firmware; check direction and order with "
            "propellers off"
        )
    if any(not contact.role.judged for contact in own):
        yield "function not recognised from its name"
