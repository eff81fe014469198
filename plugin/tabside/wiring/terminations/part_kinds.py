"""What a symbol is that is no board: battery, fuse, switch, relay, net tie ...; and which of its pins it joins inside.

Reference letters and pin numbers are those of KiCad's libraries (Device, Switch, Relay, Jumper): [K].
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from enum import StrEnum
from functools import cache
from itertools import combinations

from tabside.model.drawing import Drawing
from tabside.wiring.terminations.symbols import Gathered

Pass = tuple[str, str]  # two pins of one part that it joins inside, at least in one of its positions

FUSES = frozenset(("F", "FH", "PF", "CB"))  # what opens by itself; fuse holders and breakers among them
BREAKERS = frozenset(("CB",))
TAKEN_OUT = FUSES - BREAKERS  # nothing is left in the wire then; of a breaker that is off hands cannot say so
SWITCHED = frozenset(("SW", "S")) | BREAKERS  # by hand
SPLIT_ALWAYS = FUSES | {"SW", "S", "JP", "NT"}
SPLIT_UNLESS_BETWEEN_RAILS = frozenset(("D", "R", "L", "FB"))
_RELAYS = frozenset(("K", "RL", "RLY", "RY"))
_LOADS = frozenset(("M", "LS", "BZ", "LA", "MK"))
_NO_NAMES = frozenset(("", "~", "+", "-", *"123456"))
_NO_LEADS = frozenset(  # two-pin parts on a net, and what is no electrical part
    (
        "C",
        "CP",
        "R",
        "L",
        "FB",
        "D",
        "LED",
        "TVS",
        "Z",
        "ZD",
        "RV",
        "VR",
        "TH",
        "NTC",
        "PTC",
        "MOV",
        "GDT",
        "Y",
        "H",
        "MH",
        "FID",
        "TP",
        "LOGO",
    )
)
_POTENTIOMETERS = frozenset(("RV", "VR", "POT"))  # with three pins; RV with two is a varistor
_WIPER = "2"  # of KiCad's potentiometers [K]
_RELAY_CONTACT = r"([1-9])([1-4])[AB]?\Z"
_CHANGEOVER = r"(COM|NO|NC)[ _-]?(\d*)\Z"  # common practice, no source
_COILS = frozenset(("A1", "A2", "B1", "B2", "A3", "PE"))


class PartKind(StrEnum):
    BATTERY = "battery"
    FUSE = "fuse or breaker"
    SWITCH = "switch"
    JUMPER = "jumper"
    RELAY = "relay"
    TIE = "net tie"
    TRANSISTOR = "transistor"
    SOLAR = "solar panel"
    LOAD = "motor, lamp, buzzer, loudspeaker or potentiometer"
    OTHER = "part"


def kind_of_part(part: Gathered) -> PartKind:
    kind = _kind_by_letters(part.letters, part.first.lib_id)
    return PartKind.LOAD if kind is PartKind.OTHER and _is_load(part) else kind


@cache
def _kind_by_letters(letters: str, lib_id: str) -> PartKind:
    """The kind of all but loads, whose pins are asked as well."""
    library, _, name = lib_id.partition(":")
    if letters == "BT" or (library == "Device" and name.startswith("Battery")):
        return PartKind.BATTERY
    if library == "Device" and name.startswith("Solar_Cell"):
        return PartKind.SOLAR
    if letters in FUSES:
        return PartKind.FUSE
    if letters in _RELAYS or library == "Relay":
        return PartKind.RELAY
    if letters in ("SW", "S"):
        return PartKind.SWITCH
    if letters == "JP":
        return PartKind.JUMPER
    if letters == "NT":
        return PartKind.TIE
    if letters == "Q" or library.startswith("Transistor"):
        return PartKind.TRANSISTOR
    return PartKind.OTHER


def _is_load(part: Gathered) -> bool:
    """A plain motor, fan, lamp, sounder, microphone or potentiometer: KiCad's own symbol, or pins without names."""
    if part.letters not in _LOADS and not _is_potentiometer(part):
        return False
    library, _, _ = part.first.lib_id.partition(":")
    return library in ("Motor", "Device") or {pin.name for pin in part.pins.values()} <= _NO_NAMES


def _is_potentiometer(part: Gathered) -> bool:
    return len(part.pins) == 3 and part.letters in _POTENTIOMETERS and _WIPER in part.pins


def load_roles(part: Gathered) -> dict[str, str]:
    """By pin number the role of each end of a plain load; a pin with a name of its own (PWM, Tacho) is left out.

    A fan or buzzer has a plus; a motor, lamp or loudspeaker runs either way round.  Pin names are KiCad's: [K].
    """
    if _is_potentiometer(part):
        return {number: "wiper" if number == _WIPER else "part_end" for number in part.pins}
    poled = part.letters in ("BZ", "MK") or part.first.lib_id.startswith("Motor:Fan")
    poles = {"+": "part_plus", "-": "part_minus"} if poled else {}
    servo = part.first.lib_id.startswith("Motor:Motor_Servo")  # its plus and minus are a supply and its ground
    return {
        number: poles.get(pin.name, "part_end")
        for number, pin in part.pins.items()
        if pin.name in _NO_NAMES and not servo
    }


def is_on_a_net(part: Gathered) -> bool:
    """Whether it is a part without leads by its letters: a capacitor, a pull-up, a mounting hole."""
    return part.letters in _NO_LEADS and len(part.pins) <= 2


def met_pins(part: Gathered, drawing: Drawing) -> list[str]:
    """Numbers of the pins whose net has a pin of another part that is fitted."""
    own = {unit.place.uuid + unit.place.sheet for unit in part.units}

    def is_met(net: int) -> bool:
        symbols = (drawing.symbols[key[0]] for key in drawing.nets[net].pins)
        return any(
            not symbol.is_power
            and not symbol.dnp
            and symbol.reference != part.reference
            and symbol.place.uuid + symbol.place.sheet not in own
            for symbol in symbols
        )

    return [number for number, pin in part.pins.items() if is_met(pin.net)]


def passes_of(part: Gathered, met: Iterable[str]) -> tuple[Pass, ...]:
    """What a part of more than two pins joins among those that leads meet; () when Tabside has no word for it.

    Of a switch or relay with one common pin each throw is joined to it, in its own position.
    """
    rule = _RULES.get(kind_of_part(part))
    numbers = list(met)
    if rule is None or len(numbers) < 2:
        return ()
    if len(part.pins) == 2:
        return ((numbers[0], numbers[1]),)
    known = [pair for pair in rule(part) if pair[0] in numbers and pair[1] in numbers]
    if known or kind_of_part(part) is PartKind.RELAY:
        return tuple(known)
    names = {part.pins[number].name for number in numbers}
    return ((numbers[0], numbers[1]),) if len(numbers) == 2 and len(names) == 2 and len(part.pins) == 4 else ()


def _all_pairs(part: Gathered) -> list[Pass]:
    return list(combinations(part.pins, 2))


def _throws(part: Gathered) -> list[Pass]:
    """Three pins a pole, the middle one common: SW_SPDT, SW_DPDT_x2, Jumper_3."""
    numbers = list(part.pins)
    if len(numbers) % 3 or numbers != [str(n) for n in range(1, len(numbers) + 1)]:
        return []
    return [
        (common, throw)
        for first in range(0, len(numbers), 3)
        for common in [numbers[first + 1]]
        for throw in (numbers[first], numbers[first + 2])
    ]


def _poles(part: Gathered) -> list[Pass]:
    """Breakers: 1 and 2, 3 and 4, ..."""
    numbers = list(part.pins)
    return list(zip(numbers[::2], numbers[1::2], strict=False)) if len(numbers) % 2 == 0 else []


def _relay_contacts(part: Gathered) -> list[Pass]:
    """COM with NO and NC of its pole, by a pin's name or number; else as relays are numbered, by number or by name.

    11 is common, 12 rest, 14 working; 13 and 14 a make contact.  A1, A2, COIL ... are the coil.
    """
    numbers = {number: number for number in part.pins}
    names = {number: pin.name for number, pin in part.pins.items()}
    readings = (
        (_changeovers(names), ("COM", "NO", "NC")),
        (_changeovers(numbers), ("COM", "NO", "NC")),
        (_numbered(numbers), ("1", "4", "2")),
        (_numbered(names), ("1", "4", "2")),
    )
    for poles, (common, *throws) in readings:
        pairs = [*((common, throw) for throw in sorted(throws)), ("3", "4")]
        found = [(pole[a], pole[b]) for pole in poles.values() for a, b in pairs if a in pole and b in pole]
        if found:
            return found
    return []


def _changeovers(texts: Mapping[str, str]) -> dict[str, dict[str, str]]:
    """By pole ("" where there is one only): COM, NO, NC -> the pin that its text says is this contact."""
    poles: dict[str, dict[str, str]] = {}
    for number, text in texts.items():
        if match := re.match(_CHANGEOVER, text.strip().upper()):
            poles.setdefault(match[2], {})[match[1]] = number
    return poles


def _numbered(texts: Mapping[str, str]) -> dict[str, dict[str, str]]:
    """By pole, the first digit: last digit -> pin."""
    poles: dict[str, dict[str, str]] = {}
    for number, text in texts.items():
        if (match := re.match(_RELAY_CONTACT, text.strip())) and text not in _COILS:
            poles.setdefault(match[1], {})[match[2]] = number
    return poles


_RULES: Mapping[PartKind, Callable[[Gathered], list[Pass]]] = {
    PartKind.TIE: _all_pairs,
    PartKind.SWITCH: _throws,
    PartKind.JUMPER: _throws,
    PartKind.FUSE: _poles,
    PartKind.RELAY: _relay_contacts,
}
