"""What a contact is for, by its label and by the labels beside it in the same plug."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

from msgspec import Struct
from msgspec.structs import replace

from tabside.facts.labels.reading import Reading, ends_with_level, reading_of
from tabside.facts.labels.role_kinds import UNKNOWN, role_named
from tabside.facts.labels.text import clean_label, is_unused, split_index
from tabside.facts.labels.voltages import counts_on
from tabside.model.roles import Direction, Role, RoleClass

# A role that a label of several meanings takes when one of these stands in the same plug.
_BESIDE = {
    "current_sense": frozenset(("motor_signal",)),
    "esc_telemetry": frozenset(("motor_signal", "current_sense")),
    "i2c_scl": frozenset(("i2c_sda",)),
    "spi_sck": frozenset(("spi_miso", "spi_mosi")),
    "spi_cs": frozenset(("spi_miso", "spi_mosi", "spi_sdi", "spi_sdo")),
    "swclk": frozenset(("swdio",)),
    "swdio": frozenset(("swclk",)),
}
_PHASE = re.compile(r"(?P<word>PHASE|PH|MOTOR|MOT|M)?(?P<before>\d{0,2})[\s_-]*(?P<letter>[ABCUVW])(?P<after>\d{0,2})")
# Supplies that are as likely the picture where the plug has a supply of known volts (a camera's V G 5V).
# Common practice, no source.
_OR_VIDEO = {"V": "video", "VOUT": "video_out"}
# Two lines of a bus or of an encoder, where no third letter makes them a motor's phases.  Common practice, no source.
_PAIR = {"A": "pair_a", "B": "pair_b"}
_COIL_A, _COIL_B = frozenset(("A+", "A-")), frozenset(("B+", "B-"))  # of a stepper: beside A+ a B+ is no battery
_TAP = re.compile(r"(?P<stem>B|BAL|TAP|VC|CB|T)[ _-]?(?P<number>\d{1,2})\+?")  # of a balance plug
_MANY_TAPS = 3
_SERVO_COLOURS = frozenset(("BROWN", "RED", "ORANGE", "YELLOW", "WHITE"))  # brown is then the ground; common practice
# Beside a chip select: SDA and SCL are then data and clock of SPI.  Common practice, no source.
_DISPLAY = ("DC", "D/C", "A0", "SDI", "SDO", "MISO", "MOSI")
_LEGS = {"A": "anode", "K": "cathode"}  # of a light: nothing else stands beside them
_USB_DATA = frozenset(("D+", "D-", "DP", "DM", "DN", "USB_DP", "USB_DM", "USB_DN", "USB_D+", "USB_D-"))
_USB_C = frozenset(("CC", "CC1", "CC2"))  # beside data of USB: elsewhere a camera's control, or unknown
_TRANSCEIVER = {"RO": "uart_tx", "DI": "uart_rx"}  # of an RS-485 module: its receiver's output, its driver's input
_CHANGEOVER = frozenset(("COM", "NO", "NC"))  # contacts of a relay
_LOGIC_V = 5.5  # a rail up to this feeds sensors, not motors


class _Beside(Struct, frozen=True):
    """What the other labels of a plug say without help."""

    sure: frozenset[str]  # names of roles
    possible: frozenset[str]
    transmitters: frozenset[int | None]  # indices of the TX lines
    phases: frozenset[tuple[str, str, str]]  # (what stands around the letter, before, after)
    feeds: bool  # a supply that its label calls one, and that is no input of a regulator
    logic_rail: bool
    battery: bool
    known_rail: bool  # a supply of known volts, or the battery
    letters: frozenset[str]  # labels that are one letter
    supplied: bool  # a ground or a supply

    def is_bus_pair(self, letter: str) -> bool:
        """Whether A and B stand together, without C, in a plug that has a ground or a supply."""
        return self.supplied and {"A", "B"} <= self.letters | {letter} and "C" not in self.letters


def read_label(text: str, neighbours: Sequence[str] = ()) -> Role:
    """The role that a label gives, with the labels of the same plug (its own may be among them) as context.

    Case does not matter, an index may follow, markup and marks of active low are taken off.  Words are matched whole:
    STATUS holds no ground.  Unknown text is an UNKNOWN role that keeps its label; a label of several meanings that the
    neighbours do not settle is AMBIGUOUS, or a signal of group "any" when all its meanings are signals.  A voltage in
    the label is the supply's; VCC, VIN and their like are supplies of unknown voltage.

    For pads, which have no plug, the labels of the board's other pads are the context.
    Source: the table of labels; each row names where the label was seen.
    """
    return _read(text, tuple(neighbours))


@cache
def _read(text: str, neighbours: tuple[str, ...]) -> Role:
    label = clean_label(text)
    role = _among(text, label.plain, neighbours)
    if role is not None:
        return replace(role, label=text)
    reading = reading_of(text)
    if label.active_low:  # a measured current is never active low: CS is then a chip select
        reading = Reading(tuple(role for role in reading.roles if role.name != "current_sense"))
    role = _in_context(label.plain, reading, neighbours) if label.plain else UNKNOWN
    if role.group == "i2c" and _is_display(neighbours):
        role = _any_signal((role, role_named("spi_sck" if role.name == "i2c_scl" else "spi_mosi")))
    if split_index(label.plain)[0] == "DO" and role.direction is Direction.UNKNOWN and not _is_clocked(neighbours):
        role = replace(role, direction=Direction.DRIVES)
    if role.is_supply and role.volts and counts_on(label.plain, (clean_label(other).plain for other in neighbours)):
        role = replace(role, volts=None) if role.name == "ambiguous_power" else UNKNOWN
    if role.battery and role.index is None:
        role = replace(role, index=_own_tap(neighbours))
    sign = {"+": "plus", "-": "minus"}.get(label.plain, role.line)
    active_low = label.active_low or bool(label.negated and role.name != "unknown")
    return replace(role, label=text, active_low=active_low, line=sign)


def _among(text: str, plain: str, neighbours: tuple[str, ...]) -> Role | None:
    """What a label is by those beside it alone: a relay's contact, one not used, a light's leg, a balance tap."""
    if is_relay_contact(text, neighbours):
        return replace(role_named("relay_contact"), index=split_index(plain)[1])
    if plain and is_unused(plain):
        return role_named("nc")
    if plain in _LEGS or plain == "BROWN":
        beside = {plain, *(clean_label(neighbour).plain for neighbour in neighbours)}
        if beside == _LEGS.keys():
            return role_named(_LEGS[plain])
        if plain == "BROWN" and "RED" in beside and beside <= _SERVO_COLOURS:
            return role_named("ground")
    if plain in _USB_C and not _USB_DATA.isdisjoint(clean_label(neighbour).plain for neighbour in neighbours):
        return role_named("usb_cc")
    if plain in _TRANSCEIVER and _TRANSCEIVER.keys() <= {clean_label(neighbour).plain for neighbour in neighbours}:
        return role_named(_TRANSCEIVER[plain])
    tap = _taps(neighbours).get(plain)
    return None if tap is None else role_named("cell_tap", index=tap)


def _own_tap(neighbours: tuple[str, ...]) -> int | None:
    """Which tap a balance plug's own plus is: the one above the highest; None where nothing says it."""
    numbers = _taps(neighbours).values()
    return max(numbers) + 1 if numbers and 0 not in numbers else None


@cache
def _taps(labels: tuple[str, ...]) -> dict[str, int]:
    """The balance taps among a plug's labels, by their numbers: B0 to B3; B1 and B2 between B- and B+.

    Nothing else stands in such a plug.  {} where these are none.  Common practice, no source.
    """
    plain = [clean_label(label).plain for label in labels]
    found = {text: match for text in plain if (match := _TAP.fullmatch(text))}
    others = [text for text in plain if text not in found and not is_unused(text)]
    numbers = sorted(int(match["number"]) for match in found.values())
    stems = {match["stem"] for match in found.values()}
    if "T" in stems and len(numbers) < _MANY_TAPS:  # T1 and T2 are as likely transmitters
        return {}
    if len(stems) != 1 or numbers != list(range(numbers[0], numbers[0] + len(numbers))) or numbers[0] > 1:
        return {}
    roles = [role for text in others for role in reading_of(text).roles]
    ground = any(role.cls is RoleClass.GROUND for role in roles)
    known = len(roles) == len(others) and all(
        role.cls is RoleClass.GROUND or (role.is_supply and role.volts is None) for role in roles
    )
    return {text: int(match["number"]) for text, match in found.items()} if known and (ground or not numbers[0]) else {}


def is_relay_contact(text: str, neighbours: Sequence[str]) -> bool:
    """Whether it is a contact of a relay board's changeover: COM, NO or NC beside another of the three.

    NC alone says "not connected"; beside NO or COM it is the normally closed contact.
    """
    own = split_index(clean_label(text).plain)[0]
    if own not in _CHANGEOVER:
        return False
    beside = {split_index(clean_label(label).plain)[0] for label in neighbours}
    return len((beside | {own}) & _CHANGEOVER) > 1 and "NO" in beside | {own}


def _in_context(plain: str, reading: Reading, neighbours: tuple[str, ...]) -> Role:
    phase = _PHASE.fullmatch(plain)
    if phase:
        beside = _beside((*neighbours, plain))
        role = _phase(phase, beside)
        if role is not None:
            return role
    if not reading.roles or (plain in _COIL_B and _has_coil_a(neighbours)):
        return UNKNOWN
    beside = _beside(neighbours)
    if plain in _PAIR and beside.is_bus_pair(plain):
        return role_named(_PAIR[plain])
    line = _of_a_level(plain, reading, beside)
    if line is not None:
        return line
    if plain == "V" and "I" in beside.letters:  # of a current sensor: the current it measures, and the volts
        return _ambiguous((role_named("ambiguous_power"), role_named("voltage_sense")))
    if plain == "VOUT" and _is_sensor(neighbours):
        return _ambiguous((role_named("ambiguous_power"), role_named("signal_any")))
    if plain in _OR_VIDEO and beside.known_rail:
        return _ambiguous((role_named("ambiguous_power"), role_named(_OR_VIDEO[plain])))
    if len(reading.roles) == 1 and not reading.may_be_other and reading.roles[0].name != "phase":
        return _telemetry(reading.roles[0], beside)
    return _settled(reading, beside)


def _of_a_level(plain: str, reading: Reading, beside: _Beside) -> Role | None:
    """TX_5V is a line of 5 V logic, where its plug has a supply of its own or the other line, and no plain TX.

    5V_TX stays what it may be: the supply of a transmitter.
    """
    lines = [role for role in reading.roles if role.cls is RoleClass.SIGNAL]
    if len(reading.roles) != 2 or len(lines) != 1 or not ends_with_level(plain):
        return None
    both = any(pair <= beside.possible for pair in ({"uart_tx", "uart_rx"}, {"i2c_sda", "i2c_scl"}))
    known = lines[0].name in beside.sure or not (beside.feeds or both)
    return None if known else lines[0]


@cache
def _is_display(labels: tuple[str, ...]) -> bool:
    plain = [clean_label(label).plain for label in labels]
    selects = any(role.name == "spi_cs" for label in labels for role in reading_of(label).roles)
    return selects and any(text in _DISPLAY for text in plain)


@cache
def _is_sensor(labels: tuple[str, ...]) -> bool:
    """Whether VOUT beside these is what a sensor puts out: its supply is called VCC or VDD, and nothing VIN or IN."""
    plain = {clean_label(label).plain for label in labels}
    return bool(plain & {"VCC", "VDD"}) and not any("IN" in text for text in plain)


@cache
def _is_clocked(labels: tuple[str, ...]) -> bool:
    """Whether DO may be the line of a memory, which both ends call so: a clock or a select stands beside it."""
    return any(role.name in ("spi_sck", "spi_cs") for label in labels for role in reading_of(label).roles)


def _has_coil_a(neighbours: tuple[str, ...]) -> bool:
    return any(clean_label(label).plain in _COIL_A for label in neighbours)


def _phase(match: re.Match[str], beside: _Beside) -> Role | None:
    """A phase if all three letters stand in the plug, or if the label says so; None otherwise."""
    letter = match.group("letter")
    around = _around(match)
    trio = "ABC" if letter in "ABC" else "UVW"
    whole = all((around, trio, other) in beside.phases for other in trio)
    role = replace(
        role_named("phase"), line=letter.lower(), index=int(match.group("before") or match.group("after") or 0) or None
    )
    if match.group("word") == "PHASE":
        return role
    if not whole:
        return None
    if beside.logic_rail and not beside.battery:  # position sensors of a motor carry the same letters
        return _ambiguous((role, role_named("signal_any")))
    return role


def _telemetry(role: Role, beside: _Beside) -> Role:
    """An RX beside current or motor signals takes the telemetry of speed controllers, unless its TX is there too."""
    if role.name != "uart_rx" or not beside.sure & _BESIDE["esc_telemetry"]:
        return role
    if role.index in beside.transmitters or "esc_telemetry" in beside.sure:
        return role
    return role_named("esc_telemetry", direction=Direction.LISTENS, index=role.index)


def _settled(reading: Reading, beside: _Beside) -> Role:
    """One of several roles where the neighbours decide, else what all of them have in common."""
    roles = tuple(role for role in reading.roles if not _out_of_place(role, reading, beside))
    called_for = [role for role in roles if _BESIDE.get(role.name, frozenset()) & _seen(role, beside)]
    if len(called_for) == 1:
        return called_for[0]
    if not reading.may_be_other:
        if not called_for:  # none of those that need company has it
            roles = tuple(role for role in roles if role.name not in _BESIDE) or roles
        if len(roles) == 1 and roles[0].name != "phase":
            return _telemetry(roles[0], beside)
        if all(role.cls is RoleClass.SIGNAL for role in roles):
            return _any_signal(roles)
    return _ambiguous(roles)


def _out_of_place(role: Role, reading: Reading, beside: _Beside) -> bool:
    """A reading that the neighbours rule out."""
    if role.name == "phase":  # V beside a ground is no phase; the complete trio has been found before
        return len(reading.roles) > 1 and "ground" in beside.sure and not reading.may_be_other
    if role.name == "ambiguous_power" and len(reading.roles) > 1:  # IN, OUT and VTX where something else feeds the plug
        return beside.feeds and all(other.cls in (RoleClass.SIGNAL, RoleClass.SUPPLY) for other in reading.roles)
    return False


def _seen(role: Role, beside: _Beside) -> frozenset[str]:
    """CK and IO stand for each other: one doubtful label may confirm the other."""
    return beside.possible if role.group in ("swd", "spi") else beside.sure


def _any_signal(roles: tuple[Role, ...]) -> Role:
    """A signal whose group is open; it keeps the direction that its meanings share."""
    stated = {role.direction for role in roles} - {Direction.UNKNOWN}
    direction = stated.pop() if len(stated) == 1 else Direction.UNKNOWN
    return replace(role_named("signal_any", direction=direction), readings=roles)


def _ambiguous(roles: tuple[Role, ...]) -> Role:
    return replace(role_named("ambiguous_signal"), readings=roles)


@cache
def _beside(labels: tuple[str, ...]) -> _Beside:
    readings = [(label, reading_of(label)) for label in labels]
    sure = [
        (label, reading.roles[0])
        for label, reading in readings
        if len(reading.roles) == 1 and not reading.may_be_other and reading.roles[0].name != "phase"
    ]
    supplies = [(label, role) for label, role in sure if role.cls is RoleClass.SUPPLY]
    return _Beside(
        sure=frozenset(role.name for _, role in sure),
        possible=frozenset(role.name for _, reading in readings for role in reading.roles),
        transmitters=frozenset(role.index for _, role in sure if role.name == "uart_tx"),
        phases=frozenset(
            (_around(match), trio, match.group("letter"))
            for label in labels
            if (match := _PHASE.fullmatch(clean_label(label).plain))
            for trio in ("ABC", "UVW")
        ),
        feeds=any("VIN" not in label.upper() for label, _ in supplies),
        logic_rail=any(
            role.volts.high <= _LOGIC_V if role.volts else role.name == "ambiguous_power" for _, role in supplies
        ),
        battery=any(role.battery for _, role in supplies),
        known_rail=any(role.battery or role.volts is not None for _, role in supplies),
        letters=frozenset(plain for label in labels if len(plain := clean_label(label).plain) == 1),
        supplied=bool(supplies) or any(role.cls is RoleClass.GROUND for _, role in sure),
    )


def _around(match: re.Match[str]) -> str:
    """What stands around a phase's letter: the three letters of one motor share it."""
    return f"{match.group('word') or ''}|{match.group('before')}|{match.group('after')}"
