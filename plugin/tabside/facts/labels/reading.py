"""What a label can mean by its own words, before its neighbours are asked."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import cache

from msgspec import Struct
from msgspec.structs import replace

from tabside.facts.labels.names import RS232, explicit_role, roles_of_words
from tabside.facts.labels.role_kinds import power_name, role_named
from tabside.facts.labels.text import clean_label, is_unused, split_index, word_means, words_of
from tabside.facts.labels.voltages import split_range, volts_of_word
from tabside.model.roles import Direction, Role, RoleClass, Volts


class Reading(Struct, frozen=True):
    """The roles that a label can have.  `may_be_other`: the table says that it may be something else altogether."""

    roles: tuple[Role, ...] = ()
    may_be_other: bool = False


NOTHING = Reading()
POLE = "pole"  # the line of a ground that is only the minus of a pair: `VIN-` may be the far side of a shunt
_INDEX_INSIDE = re.compile(r"(?P<port>[A-Z]{3,}\d)(?P<line>[A-Z]{1,3})")  # CAN1H, UART2TX
_SWITCHED = ("SW", "SWITCH", "SWITCHED")
# LED12V, GPS3V3, CAM+5V; SERVO5V may be the fifth servo's plus, and CAN2V is CAN2's.  Common practice, no source.
_GLUED = re.compile(r"(?P<name>[A-Z]{2,10})(?P<volts>\+?(?:5|12|24|48|\d\.\d)V|\+?\d{1,2}V\d)")
_SOME_VOLTS = re.compile(r"(?<![A-Z0-9.])\d{1,2}(?:\.\d)?V(?!\d\d)")
_COUNTED = ("SERVO", "ESC", "MOTOR", "MOT", "CH", "SERV", "SV", "PWM")
_PARENTHESIS = re.compile(r"(?P<before>[^()]+)\((?P<inside>[^()]+)\)")
_LINES_OF_LOGIC = ("uart", "i2c", "spi", "crsf", "swd")  # elsewhere the volts are more likely a supply's: SBUS_5V
_PROTOCOLS = ("sbus", "ppm", "esc_telemetry", "vtx_control")  # what a UART's line may carry


@cache
def reading_of(text: str) -> Reading:
    """All roles that a label's own words allow; none when they are unknown."""
    label = clean_label(text)
    if not label.plain:
        return NOTHING
    found = _read(label.plain)
    return found if found.roles or not label.negated else _read(label.negated)


def _read(plain: str) -> Reading:
    words = words_of(plain)
    whole = _whole(words)
    if whole.roles:
        return whole
    if len(words) > 1 and (sign := _sign_of(words[-1])) and (signed := _signed("".join(words[:-1]) + sign)).roles:
        return signed
    volts, rest = split_range(plain)
    if volts is not None:
        return _with_range(_read(rest) if rest else NOTHING, volts)
    parenthesis = _PARENTHESIS.fullmatch(plain)
    if parenthesis:
        return _parenthesis(parenthesis.group("before").strip(), parenthesis.group("inside").strip())
    if "/" in plain.strip("/"):
        parts = [part.strip() for part in plain.split("/")]
        if any(map(is_unused, parts)):  # NC/TDI
            return NOTHING
        return _merge([_read(part) for part in parts if len(part) > 1])
    found = _compound(words)
    glued = None if found.roles else _GLUED.fullmatch(plain)
    if glued is not None and glued["name"] not in _COUNTED:
        return _compound((glued["name"], glued["volts"].lstrip("+")))
    inside = _INDEX_INSIDE.fullmatch(plain)
    return found if found.roles or inside is None else _compound((inside["port"], inside["line"]))


def _sign_of(word: str) -> str:
    return "+" if word_means(word, "plus") else "-" if word_means(word, "minus") else ""


@cache
def _whole(words: tuple[str, ...]) -> Reading:
    """The words together, as the table has them, as a voltage, or as a role named outright."""
    names, index = roles_of_words(words)
    if names:
        roles = tuple(_named(name, words, index) for name in names if name != "ambiguous_signal")
        return Reading(roles, "ambiguous_signal" in names)
    if len(words) == 1 and (volts := volts_of_word(words[0])):
        return Reading((_rail(volts),))
    if outright := explicit_role(words):
        return Reading((role_named(outright),))
    return _signed("".join(words))


def _named(name: str, words: Sequence[str], index: int | None) -> Role:
    role = role_named(name, index=index)
    if name == "cell_tap":
        return replace(role, index=int(re.sub(r"\D", "", "".join(words))))
    apart = [word.strip("()") for word in words]
    stated = [volts for word in (*apart, "".join(apart)) if (volts := volts_of_word(word)) is not None]
    if role.cls is RoleClass.SUPPLY and stated and not role.battery:
        return replace(role, volts=role.volts or stated[0], index=None)
    return _directed(role, words)


def _signed(word: str) -> Reading:
    """`VIN-`, `OUT+`, `BUZZER-`, `+VIN`: a pole of something known; `-VIN` may be a negative rail."""
    if len(word) < 3 or not (word[-1] in "+-" or word[0] == "+"):
        return NOTHING
    minus, base = word[-1] == "-", word.strip("+-")
    roles = []
    if word_means(base, "load"):
        return Reading((replace(role_named("ground"), line=POLE) if minus else role_named("ambiguous_power"),))
    stem, index = split_index(base)
    if index is not None and len(stem) > 1:  # OUT1+ is one of several OUT+
        return Reading(tuple(role for role in _whole((stem + word[-1],)).roles if role.is_supply or role.is_ground))
    for role in _whole((base,)).roles:
        if role.name == "buzzer":
            roles.append(role_named("buzzer_minus" if minus else "buzzer_plus", index=role.index))
        elif role.cls is RoleClass.SUPPLY:
            roles.append(replace(role_named("ground"), line=POLE) if minus else role)
        elif role.name == "signal_any":
            roles.append(role)
    return Reading(tuple(roles))


def _compound(words: tuple[str, ...]) -> Reading:
    """Several words: a name with a port (`GPS TX`), a direction (`SBUS OUT`), a voltage (`VDD 3V3 SENSOR`)."""
    rails = [volts for word in words if (volts := volts_of_word(word)) is not None]
    if len(words) > 1 and (rails or any(_is_battery(word) for word in words)):
        words = tuple(word for word in words if word not in _SWITCHED)  # 12V_SW and VBAT_SW are switched rails
    if any(word_means(word, "control") for word in words):
        return NOTHING  # 5V_EN and VTX_SEL are neither supplies nor video
    rest = tuple(word for word in words if volts_of_word(word) is None)
    named = tuple(word for word in rest if not (word_means(word, "in") or word_means(word, "out")))
    sensed = any(word_means(word, "sense") for word in named)
    named = tuple(word for word in named if not word_means(word, "sense"))
    core, all_known = _core(named)
    found = _with_rail(core, rails, named) if rails else (core if all_known else NOTHING)
    if not found.roles and _is_ground_of(named):
        found = Reading((role_named("ground"),))
    if sensed:
        found = _sensed(found)
    return Reading(tuple(_directed(role, words) for role in found.roles), found.may_be_other)


def _is_battery(word: str) -> bool:
    return any(role.battery for role in _whole((word,)).roles)


def _core(words: tuple[str, ...]) -> tuple[Reading, bool]:
    """The reading of words beside which ports may stand, and whether every word of it is known."""
    if not words:
        return NOTHING, True
    ports = [word for word in words if word_means(word, "port")]
    names = tuple(word for word in words if word not in ports)
    for kept in (words, *((*(port,), *names) for port in ports), names):
        if kept and (whole := _whole(tuple(kept))).roles:
            return _indexed_by_port(whole, ports), True
    if not names:
        return (_whole((ports[0],)) if len(ports) == 1 else NOTHING), True
    # A single G is a ground alone, but the green of an LED among other words.
    readings = [NOTHING if name == "G" else _whole((name,)) for name in names if not name.isdecimal()]
    return _merge(readings, one_name=True), all(reading.roles for reading in readings)


def _indexed_by_port(reading: Reading, ports: Sequence[str]) -> Reading:
    """`UART4_TX` is TX number 4."""
    found = [re.search(r"\d{1,2}$", port) for port in ports if port != "I2C"]
    indices = [int(match.group()) for match in found if match]
    roles = (
        role if role.index is not None or not indices else replace(role, index=indices[0]) for role in reading.roles
    )
    return Reading(tuple(roles), reading.may_be_other)


def _with_rail(core: Reading, rails: Sequence[Volts], words: Sequence[str]) -> Reading:
    """A voltage beside other words: a rail, unless the words name a line (5V_TX may be either)."""
    if len(set(rails)) > 1:
        return Reading(tuple(_rail(volts) for volts in dict.fromkeys(rails)))
    rail = Reading((_rail(rails[0]),))
    if any(role.cls is RoleClass.GROUND for role in core.roles):
        return core
    if any(role.battery for role in core.roles):
        return Reading((*core.roles, *rail.roles))
    lines = [role for role in core.roles if role.cls is RoleClass.SIGNAL and role.group not in _NO_LINES]
    supply_first = bool(words) and _is_supply(_whole((words[0],)))
    return rail if supply_first or not lines else Reading((*rail.roles, *lines))


# Beside a voltage these name what the rail feeds (5V_LED, 5V_SBUS), or only its end (12V_IN+).
_NO_LINES = ("led", "sbus", "ppm", "video", "buzzer", "motor", "camera_control", "esc_telemetry", "any")


def _with_range(core: Reading, volts: Volts) -> Reading:
    """`VIN 7-26V` is a supply of that range; `RSSI 0-3.3V` stays a signal, and a battery stays one."""
    if volts.low == 0 or any(role.name not in ("ambiguous_power", "power") for role in core.roles):
        return core
    return Reading((_rail(volts),))


def _parenthesis(before: str, inside: str) -> Reading:
    """`RX (IN)`, `V+ (5V)`, `SBUS (R2)`, `RTS (OR DTR)`, `TX (RS-232)`: one contact, said twice."""
    outer = _read(before)
    words = words_of(inside)
    if "".join(words) == RS232:
        return _read(f"{before} {RS232}")
    if len(words) == 1 and volts_of_word(words[0]) and outer.roles and _all_signals(outer):
        return outer  # TX (3.3V): the level of its logic
    if words and all(word_means(word, "in") or word_means(word, "out") for word in words):
        return Reading(tuple(_directed(role, words) for role in outer.roles), outer.may_be_other)
    return _merge([outer, _read(inside)])


def _all_signals(reading: Reading) -> bool:
    return all(role.cls is RoleClass.SIGNAL for role in reading.roles)


def level_in_name(text: str) -> Volts | None:
    """The level of logic that a signal's own name says, in brackets or at its end: `TX (3.3V)`, `RX(5V)`, `TX_5V`."""
    plain = clean_label(text).plain
    found = _PARENTHESIS.fullmatch(plain)
    words = words_of(found["inside"]) if found else words_of(plain)[-1:] if ends_with_level(plain) else ()
    return volts_of_word(words[0]) if len(words) == 1 else None


def names_volts(text: str) -> bool:
    """Whether a name holds a voltage and no word of control: `5V#2`, `12V*`; not `5V_EN`."""
    plain = clean_label(text).plain
    return _SOME_VOLTS.search(plain) is not None and not any(word_means(w, "control") for w in words_of(plain))


def ends_with_level(plain: str) -> bool:
    """Whether a name's last word is a voltage, behind a line: `TX_5V`, `SDA 3V3`."""
    words = words_of(plain)
    return (
        len(words) > 1
        and volts_of_word(words[-1]) is not None
        and any(role.group in _LINES_OF_LOGIC for role in _whole(words[:-1]).roles)
    )


def _merge(readings: Iterable[Reading], *, one_name: bool = False) -> Reading:
    """Several readings of one contact as one.  `one_name`: words of one name, so that `BAT GND` is a ground."""
    known = [reading for reading in readings if reading.roles]
    if len(known) < 2:
        return known[0] if known else NOTHING
    roles = list(dict.fromkeys(role for reading in known for role in reading.roles))
    grounds = [role for role in roles if role.cls is RoleClass.GROUND]
    if one_name and grounds and all(role.cls is not RoleClass.SHIELD for role in roles):
        return Reading((grounds[0],))
    measured = [role for role in roles if role.name in ("current_sense", "voltage_sense")]
    if one_name and measured and all(role in measured or role.cls is RoleClass.SUPPLY for role in roles):
        return Reading(tuple(measured))
    return Reading(tuple(_drop_general(_carried(roles))), any(reading.may_be_other for reading in known))


def _carried(roles: list[Role]) -> list[Role]:
    """A protocol on a UART's line keeps the line's direction: `SBUS (R2)` is an SBUS that listens."""
    carried = [role for role in roles if role.name in _PROTOCOLS]
    lines = [role for role in roles if role.name in ("uart_tx", "uart_rx")]
    if len(carried) != 1 or len(lines) != 1 or len(roles) != 2:
        return roles
    both_ways = carried[0].direction is Direction.BOTH
    return [carried[0] if both_ways else replace(carried[0], direction=lines[0].direction, index=lines[0].index)]


def _drop_general(roles: list[Role]) -> list[Role]:
    """Without those that a more special one among them says better: `VCC/5V` is 5 V, `LED SIGNAL` is an LED.

    `SWDIO/TMS` is SWDIO: one contact serves both ways of debugging.
    """
    if any(role.group == "swd" for role in roles):
        roles = [role for role in roles if role.group != "jtag"]
    special = [role for role in roles if role.name not in ("ambiguous_power", "signal_any")]
    if all(role.cls is RoleClass.SUPPLY for role in roles) or all(role.cls is RoleClass.SIGNAL for role in roles):
        roles = special or roles[:1]
    by_meaning = {(role.name, role.volts): role for role in reversed(roles)}
    return [role for role in roles if by_meaning[(role.name, role.volts)] is role]


def _sensed(reading: Reading) -> Reading:
    """`VBAT_SENSE` measures; it does not supply."""
    if _is_supply(reading):
        return Reading((role_named("voltage_sense"),))
    return reading if all(role.cls is RoleClass.SIGNAL for role in reading.roles) else NOTHING


def _directed(role: Role, words: Sequence[str]) -> Role:
    """With the direction that IN or OUT among the words gives to a signal that has none by itself."""
    if role.cls is not RoleClass.SIGNAL or role.direction is not Direction.UNKNOWN:
        return role
    listens = any(word_means(word, "in") for word in words)
    drives = any(word_means(word, "out") for word in words)
    if listens == drives:
        return role
    return replace(role, direction=Direction.LISTENS if listens else Direction.DRIVES)


def _is_supply(reading: Reading) -> bool:
    return bool(reading.roles) and all(role.cls is RoleClass.SUPPLY for role in reading.roles)


def _is_ground_of(words: Sequence[str]) -> bool:
    """`GND_SENSOR`: one word is a ground by the table, and not by a single letter or sign."""
    return any(len(word) > 2 and any(role.cls is RoleClass.GROUND for role in _whole((word,)).roles) for word in words)


def _rail(volts: Volts) -> Role:
    return role_named(power_name(volts.low if volts.low == volts.high else 0), volts=volts)
