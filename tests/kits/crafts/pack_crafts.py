"""Crafts with packs, by dice: bare leads or plugs, fuses, switches and splices in their wires, one pack or two."""

from __future__ import annotations

import random
from collections.abc import Mapping
from typing import Any

from msgspec.structs import replace

from crafts.craft_kit import Symbol, captive, craft, pads, plug, splice, two_pin
from tabside.model.craft import Craft, CraftSettings
from tabside.wiring.terminations.fields import read_volts

VOLTS = {"4S": read_volts("12-16.8V"), "6S": read_volts("18-25.2V")}
PARTS = {"F1": "30A", "F2": "20A", "SW1": "switch", "CB1": "20A"}
CHOICES: Mapping[str, tuple[Any, ...]] = {
    "ends in": ("pads", "plug", "pads", "plug", "own plug"),
    "family": ("XT60", "XT60", "XT60", "XT30"),
    "in plus": ((), (), ("F1",), ("F1",), ("SW1",), ("F1", "SW1"), ("SW1", "F1")),
    "spliced": (False, False, True),
    "lamp": ("", "", "captive", "pads"),
    "rating": ("30A", "30A", "40A"),
    "value": ("", "one", "one", "two"),
    "cells": ("4S", "4S", "6S"),
    "second": ("", "", "", "parallel", "series", "servo", "parallel plug"),
    "second value": ("", "a", "b"),
    "second fuse": (False, True),
    "length": (60.0, 100.0, 100.0),
    "colour": ("RD", "RD", "BK"),
    "gauge": (12, 12, 14),
    "board": ("power", "power", "power", "power two"),
    "signal wires": (80.0, 80.0, 120.0),
    "capacitor": (False, False, True),
    "pilot": (True, True, False),
    "minus spliced": (False, False, True),
    "shunt": (False, False, False, True),
}


def some_packs(dice: random.Random) -> dict[str, Any]:
    return {what: dice.choice(those) for what, those in CHOICES.items()}


def changed(build: Mapping[str, Any], dice: random.Random) -> dict[str, Any]:
    """One thing or several of it are others."""
    what = dice.sample(sorted(CHOICES), dice.choice((1, 1, 1, 2, 3)))
    return {**build, **{each: dice.choice(CHOICES[each]) for each in what}}


def craft_of(build: Mapping[str, Any]) -> Craft:
    symbols, fed = _in_plus(build)
    board = build["board"]
    turned = build["ends in"] == "pads" and build.get("turned", False)  # the board has its pads the other way round
    at = {"board": board, "signals": "GND, BAT+" if turned else "BAT+, GND"}
    own_plug = build["ends in"] == "own plug"
    if build["ends in"] == "pads":
        symbols.append(pads("J2", ["GND", fed] if turned else [fed, "GND"], **at))
    else:
        symbols.append(plug("J2", [fed, "GND"], family=build["family"], **at))
    pack = {"signals": "BAT+, GND", "gives": "VBAT 45A"} | ({"family": build["family"]} if own_plug else {})
    minus = "MID" if build["second"] == "series" else "GND"
    symbols.append(captive("J1", ["BAT", minus], board=build.get("pack", "pack"), value=build["value"], **pack))
    symbols += _second(build, fed)
    if build["minus spliced"]:
        symbols.append(splice("SP2", "GND"))
    if build["lamp"]:
        lamp = captive if build["lamp"] == "captive" else pads
        symbols.append(lamp("J9", [fed, "GND"], board="lamp", signals="BAT+, GND", takes="9-26V 1A"))
    if build["capacitor"]:
        symbols.append(two_pin("C9", fed, "GND", value="470u"))
    connector = build.get("connector", "JST GH")  # another one: another board
    symbols.append(plug("J3", ["5V", "GND"], board=board, signals="5V, GND", family=connector, gives="5V 1A"))
    if build["pilot"]:
        symbols.append(plug("J4", ["5V", "GND"], board="pilot", signals="5V, GND", family="JST GH", takes="5V 0.1A"))
    battery = build["cells"]
    made = craft(*symbols, settings=CraftSettings(battery=VOLTS[battery], battery_text=battery))
    return _stated(made, build)


def _in_plus(build: Mapping[str, Any]) -> tuple[list[Symbol], str]:
    symbols, fed = [], "BAT"
    for drawn in build["in plus"]:
        name = "CB1" if drawn == "SW1" and build.get("breaker") else drawn
        value = build["rating"] if name == "F1" else PARTS[name]
        symbols.append(two_pin(name, fed, f"N{name}", value=value))
        fed = f"N{name}"
    if build["shunt"]:
        symbols.append(two_pin("R9", fed, "NR9", value="1m"))
        fed = "NR9"
    if build["spliced"]:
        symbols.append(splice("SP1", fed))
    return symbols, fed


def _second(build: Mapping[str, Any], fed: str) -> list[Symbol]:
    value, kind = build["second value"], build["second"]
    pack = {"board": "pack two", "value": value}
    if kind == "series":
        fused = build.get("fuse between", False)
        own = captive("J8", ["MIDF" if fused else "MID", "GND"], signals="BAT+, GND", gives="VBAT 45A", **pack)
        return [own, two_pin("F3", "MID", "MIDF", value="40A") if fused else splice("SP3", "MID")]
    if kind == "servo":
        own = [
            captive("J8", ["SV", "GND"], signals="5V, GND", gives="5V 3A", **pack),
            pads(
                "J7", ["SVF" if build["second fuse"] else "SV", "GND"], board="servos", signals="5V, GND", takes="5V 1A"
            ),
        ]
        return own + ([two_pin("F2", "SV", "SVF", value="5A")] if build["second fuse"] else [])
    if kind == "parallel plug":
        return [
            captive("J8", ["B2", "GND"], signals="BAT+, GND", gives="VBAT 45A", **pack),
            plug("J7", ["B2", "GND"], board=build["board"], signals="BAT+, GND", family="XT60"),
        ]
    if kind == "parallel":
        first = "BAT2" if build["second fuse"] else fed
        own = [captive("J8", [first, "GND"], signals="BAT+, GND", gives="VBAT 45A", **pack)]
        return own + ([two_pin("F2", "BAT2", fed, value="20A")] if build["second fuse"] else [])
    return []


def _stated(made: Craft, build: Mapping[str, Any]) -> Craft:
    leads = []
    for lead in made.leads:
        signal = {"J3", "J4"} & {key[0] for key in lead.ends}
        facts = (
            {"length_mm": build["signal wires"], "gauge_awg": 28, "colour": "YE"}
            if signal
            else {"length_mm": build["length"], "gauge_awg": build["gauge"], "colour": build["colour"]}
        )
        leads.append(replace(lead, **facts))
    return replace(made, leads=tuple(leads))
