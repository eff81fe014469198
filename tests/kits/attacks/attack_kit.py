"""Small drawings as text, each with what must be said of it: the attack suite on the verdict.

    Attack("a name for it", \"\"\"
        pack/X1 captive | VBAT=V, GND=G | gives=4S 30A
        pilot/J1 gh     | VIN=V, GND=G  | takes=7-26V 0.5A
        F1 V W 30A
        battery BT1 V G
        diode D1 A B SS34
        elco C1 V G 470uF 35V
        M1 A B | lib=Motor:Motor_DC | pins=+ -
        part RV1 Device:R_Potentiometer 10k | 1=V, 2=W, 3=G
        part U1 Regulator_Linear:LM7805 LM7805 | IN@1=V, GND@2=G, OUT@3=R
        rails GND +5V
        label V: +12V
    \"\"\", says="error over-voltage", battery="4S")

A line `board/REF kind | SIGNAL=net, ... | field=value | ...` is a termination (kind: pads, captive, splice, or a plug
family; `-` as net leaves the contact open); `F1 V W 30A` a part of two pins; `diode` has its anode first, `elco` its
plus; `part` is any symbol with its library name and value, `name@number=net` for each pin; `rails` are power symbols,
`label` names a net.  `types=1:output` gives pin types, `flagged=2,3` no-connect flags, `names` puts the signals into
pin names.

`says` is what must be found at least: "error rule", "warning rule", several joined by " or ", or "not clear" for a
verdict that is not clear; "" stands for a sound drawing, which must be clear, without an error and without a warning
but those that `may` names.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

import pytest
from msgspec import Struct
from msgspec.structs import replace

from crafts.craft_kit import Symbol, captive, craft, pads, plug, power, two_pin
from tabside.model.craft import Craft
from tabside.model.findings import Severity, Verdict
from tabside.read.craft.file import settings_from_text
from tabside.rules import check_craft

FAMILIES = {
    "gh": "jst_gh",
    "sh": "jst_sh",
    "xt60": "amass_xt60",
    "ph": "jst_ph",
    "zh": "jst_zh",
    "servo": "pinheader_254",
    "plug": "",
}
RANKS = {"note": 2, "warning": 1, "error": 0}


class Attack(Struct, frozen=True):
    name: str
    drawing: str
    says: str = ""
    battery: str = ""
    volts: str = ""  # "[10.5, 16.8]"
    accept: str = ""  # more of the craft file
    may: str = ""  # rules whose warnings a sound drawing may raise
    quiet_about: str = ""  # rules that must not be raised at all


def symbols_of(text: str) -> tuple[list[Symbol], dict[str, list[str]]]:
    """The symbols and the labels by net of a drawing written as text."""
    symbols: list[Symbol] = []
    labels: dict[str, list[str]] = {}
    for line in filter(None, map(str.strip, text.splitlines())):
        first, _, rest = line.partition(" ")
        if first == "rails":
            symbols += [power(name) for name in rest.split()]
        elif first == "label":
            net, _, name = rest.partition(":")
            labels.setdefault(net.strip(), []).append(name.strip())
        elif first == "battery":
            reference, plus, minus, *value = rest.split()
            symbols.append(battery(reference, plus, minus, " ".join(value)))
        elif first in ("diode", "elco"):
            reference, plus, minus, *value = rest.split()
            made = diode if first == "diode" else elco
            symbols.append(made(reference, plus, minus, " ".join(value)))
        elif first == "part":
            symbols.append(_part(rest))
        elif "/" in first and "|" in line:
            symbols.append(_termination(line))
        else:
            nets, _, fields = rest.partition("|")
            a, b, *value = nets.split()
            more = dict(_field(each) for each in fields.split("|") if each.strip())
            library, pins = more.pop("lib", ""), more.pop("pins", "")
            made = two_pin(first, a, b, value=" ".join(value), lib_id=library, fields=more)
            symbols.append(replace(made, names=dict(zip("12", pins.split(), strict=True))) if pins else made)
    return symbols, labels


def battery(reference: str, plus: str, minus: str, value: str = "") -> Symbol:
    """KiCad's bare battery symbol."""
    made = plug(reference, [plus, minus], lib_id="Device:Battery", value=value or "Battery")
    return replace(made, names={"1": "+", "2": "-"})


def diode(reference: str, anode: str, cathode: str, value: str = "") -> Symbol:
    """KiCad's diode: pin 1 is K, pin 2 is A."""
    made = plug(reference, [cathode, anode], lib_id="Device:D_Schottky", value=value or "D_Schottky")
    return replace(made, names={"1": "K", "2": "A"})


def elco(reference: str, plus: str, minus: str, value: str = "") -> Symbol:
    """KiCad's polarised capacitor: pin 1 is plus."""
    return two_pin(reference, plus, minus, lib_id="Device:C_Polarized", value=value or "C_Polarized")


def _part(line: str) -> Symbol:
    head, pins, *fields = (piece.strip() for piece in line.split("|"))
    reference, library, *value = head.split()
    nets, names = {}, {}
    for each in re.split(r",\s*", pins):
        pin, _, net = each.rpartition("=")
        name, _, number = pin.rpartition("@")
        nets[number], names[number] = net, name or "~"
    more = dict(_field(each) for each in fields)
    types = _numbered(more.pop("types", ""))
    return plug(
        reference, nets, lib_id=library, value=" ".join(value) or library, names=names, types=types, fields=more
    )


def _termination(line: str) -> Symbol:
    head, signals, *fields = (part.strip() for part in line.split("|"))
    at, _, kind = head.partition(" ")
    board, _, reference = at.rpartition("/")
    pairs = [each.strip().rpartition("=")[::2] for each in re.split(r",\s*", signals)]
    names = [name.strip() for name, _ in pairs]
    nets = [net.strip() for _, net in pairs]
    more = dict(_field(each) for each in fields if each)
    types = _numbered(more.pop("types", ""))
    flagged = [each for each in more.pop("flagged", "").split(",") if each]
    dnp = more.pop("dnp", "") == "yes"
    kind, _, family = kind.strip().partition(" ")
    made = {"pads": pads, "captive": captive, "splice": plug}.get(kind, plug)
    if kind == "splice":
        more["kind"] = "splice"
    elif made is plug and FAMILIES.get(kind, kind):
        more["family"] = FAMILIES.get(kind, kind)
    if family:
        more["family"] = FAMILIES.get(family, family)
    if more.pop("names", "") == "yes":
        shown = {"names": names}
    else:
        shown = {"names": ()}
        if any(names):
            more["signals"] = ", ".join(names)
    fields_drawn = {key[:1].upper() + key[1:].replace("_", " "): value for key, value in more.items()}
    if board:
        fields_drawn["Board"] = board
    return made(reference, nets, types=types, flagged=flagged, dnp=dnp, fields=fields_drawn, **shown)  # type: ignore[operator,no-any-return]


def _field(text: str) -> tuple[str, str]:
    key, _, value = text.strip().partition("=")
    return key.strip(), value.strip()


def _numbered(text: str) -> dict[str, str] | str:
    if ":" not in text:
        return text
    return {a.strip(): b.strip() for a, b in (each.split(":") for each in text.split(","))}


def craft_of(attack: Attack) -> Craft:
    symbols, labels = symbols_of(attack.drawing)
    said = f'battery = "{attack.battery}"\n' if attack.battery else ""
    said += f"volts = {attack.volts}\n" if attack.volts else ""
    settings = settings_from_text(f"[craft]\n{said}\n{attack.accept}".encode(), "attack.craft.toml")
    return craft(*symbols, labels=labels, settings=settings)


def told(verdict: Verdict) -> list[str]:
    """Errors and warnings that nobody accepted, one line each."""
    return [
        f"{each.severity} {each.rule}: {each.message}"
        for each in verdict.findings
        if each.severity is not Severity.NOTE and each.accepted is None
    ]


def outcome(attack: Attack) -> str:
    """What is wrong with the verdict on an attack; "" when it is as expected."""
    verdict = check_craft(craft_of(attack))
    lines = told(verdict)
    verdict_word = str(getattr(verdict, "outcome", "?"))
    if not attack.says:
        may = set(attack.may.split())
        wrong = [line for line in lines if line.split()[1].rstrip(":") not in may]
        if wrong:
            return "false alarm: " + " / ".join(wrong)
        return "" if verdict_word in ("clear", "?") else f"verdict {verdict_word}"
    if attack.says == "not clear":
        return "" if verdict_word != "clear" else "clear: " + (" / ".join(lines) or "nothing said")
    found = [(each.severity.value, each.rule) for each in verdict.findings if each.accepted is None]
    for wanted in attack.says.split(" or "):
        least, rule = wanted.split()
        if any(RANKS[severity] <= RANKS[least] and rule in (name, "any") for severity, name in found):
            if least == "error" and verdict_word == "clear":
                return "an error stands, and the verdict is clear"
            return ""
    return f"missed ({attack.says}): " + (" / ".join(lines) or "nothing said")


def some_of(attacks: Sequence[Attack]) -> list[Any]:
    """All of them for a test's parameters: every sixth is run at once, the others are marked slow."""
    return [pytest.param(each, marks=() if n % 6 == 0 else pytest.mark.slow) for n, each in enumerate(attacks)]
